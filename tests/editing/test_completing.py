"""What may stand at a position, told from lines that are still being written."""

from __future__ import annotations

import pytest

from generator.commands.folders import load_library
from generator.editing.completing import candidates
from generator.editing.mentions import Kind
from tests.review.corrections import LIBRARY

LIBRARY_READ = load_library(LIBRARY)
(GUIDE,) = LIBRARY_READ.guides


def offered(file: str, text: str) -> list[tuple[Kind, str]]:
    """The names offered at the end of the text."""
    lines = text.split("\n")
    found = candidates(LIBRARY_READ, GUIDE, file, lines, len(lines), len(lines[-1]) + 1)
    return [(each.kind, each.id) for each in found]


@pytest.mark.parametrize(
    ("file", "text", "kind", "first"),
    [
        ("tarn-5/steps/x.md", "work:\n  - undo: batt", Kind.JOINT, "battery-plug"),
        ("tarn-5/steps/x.md", "work:\n  - {lift: bat", Kind.PART, "battery"),
        ("tarn-5/steps/x.md", "    with: ", Kind.TOOL, "clamps"),
        ("tarn-5/steps/x.md", "    with: [suction-cup, open", Kind.TOOL, "opening-pick"),
        ("tarn-5/steps/x.md", "    with:\n      - open", Kind.TOOL, "opening-pick"),
        ("tarn-5/steps/x.md", "    supply: solv", Kind.SUPPLY, "solvent"),
        ("tarn-5/steps/x.md", "Raise the [plug](joint:disp", Kind.JOINT, "display-glue"),
        ("tarn-5/steps/x.md", "as in [that](step:", Kind.STEP, "draw-out-battery"),
        ("tarn-5/device.yaml", "order:\n  - take-out-sim-tray\n  # then\n  - open", Kind.STEP, "open-back"),
        ("tarn-5/device.yaml", "  paired: [disp", Kind.PART, "display"),
        ("tarn-5/anatomy.yaml", "    joins: [battery, fr", Kind.PART, "frame"),
        ("tarn-5/anatomy.yaml", "    behind: bac", Kind.PART, "back"),
        ("supplies.yaml", "glue:\n  for: back", Kind.JOINT, "back-glue"),
    ],
)
def test_what_belongs_here_is_offered_with_what_is_begun_first(file: str, text: str, kind: Kind, first: str) -> None:
    found = offered(file, text)
    assert found[0] == (kind, first)
    assert {each for each, _ in found} == {kind}


@pytest.mark.parametrize(
    "text", ["title: Lift", "takes: 3", "for: 3-4", "Some words", "- a list in prose", "[a](https:", "", "    to: 70"]
)
def test_where_no_name_belongs_none_is_offered(text: str) -> None:
    assert offered("tarn-5/steps/x.md", text) == []


def test_a_position_outside_the_file_is_nothing() -> None:
    assert candidates(LIBRARY_READ, GUIDE, "x", ["undo: "], 7, 1) == ()
