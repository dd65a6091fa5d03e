"""Mends of an order: they are tried before they are said, and edits are offered only where they can be made."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.commands.mending import apply_edits
from generator.rules import findings_of_everything
from generator.rules.finding import Edit, Mend, Reported
from generator.rules.mends import kept_edits
from generator.source.places import Place
from tests.rules.cases import Case, folder_of, library_of

ORDER = """order:
  - pull-mains-lead
  - open-back
  - unplug-battery
  - lift-guard
  - measure-charge
  - fold-ribbon
  - lift-battery
  - take-out-speaker
  - lift-board
  - take-off-sensor
  - lift-window
"""


def found_with(tmp_path: Path, order: str) -> tuple[Path, tuple[Reported, ...]]:
    """The findings of the good content with another text for its order."""
    content = folder_of(Case("", "", "", f"```change corin/device.yaml\n{ORDER}=>\n{order}```\n", 0), tmp_path)
    return content, findings_of_everything(library_of(content))


def test_a_flow_list_is_mended_in_place(tmp_path: Path) -> None:
    order = (
        "order: [pull-mains-lead, unplug-battery, open-back, lift-guard, measure-charge, fold-ribbon,\n"
        "        lift-battery, take-out-speaker, lift-board, take-off-sensor, lift-window]\n"
    )
    content, (found,) = found_with(tmp_path, order)
    assert found.finding.mend is not None
    path = content / "corin/device.yaml"
    path.write_text(apply_edits(path.read_text("utf-8"), found.finding.mend.edits), "utf-8")
    assert findings_of_everything(library_of(content)) == ()


def test_a_comment_would_stay_with_the_wrong_step_so_no_edit_is_offered(tmp_path: Path) -> None:
    order = ORDER.replace("  - open-back\n  - unplug-battery\n", "  - unplug-battery  # with the lever\n  - open-back\n")
    _, (found,) = found_with(tmp_path, order)
    assert found.finding.mend == Mend('Move "unplug-battery" after "open-back" in corin/device.yaml:9.')


def test_a_step_moves_past_several_others(tmp_path: Path) -> None:
    order = ORDER.replace("  - open-back\n", "").replace("  - lift-board\n", "  - lift-board\n  - open-back\n")
    content, found = found_with(tmp_path, order)
    assert [each.finding.mend.text for each in found if each.finding.mend] == [
        'Move "open-back" before "unplug-battery" in corin/device.yaml:16.'
    ]
    (mend,) = [each.finding.mend for each in found if each.rule == "order/behind" and each.finding.mend]
    assert len(mend.edits) == 8
    path = content / "corin/device.yaml"
    path.write_text(apply_edits(path.read_text("utf-8"), mend.edits), "utf-8")
    assert ORDER in path.read_text("utf-8")


def test_an_order_turned_round_is_said_once_a_cause_and_every_promise_holds(tmp_path: Path) -> None:
    lines = ORDER.splitlines(keepends=True)
    content, found = found_with(tmp_path, "".join([lines[0], *reversed(lines[1:])]))
    assert found
    path = content / "corin/device.yaml"
    before = path.read_text("utf-8")
    for each in found:
        if each.finding.mend is not None and each.finding.mend.edits and each.rule != "order/face":
            path.write_text(apply_edits(before, each.finding.mend.edits), "utf-8")
            after = findings_of_everything(library_of(content))
            assert each.finding.message not in {other.finding.message for other in after}


@pytest.mark.parametrize(
    ("line", "place", "text", "is_kept"),
    [
        ("  - a", Place("f", 1, 5, 1, 6), "b", True),
        ("  - a  # why", Place("f", 1, 5, 1, 6), "b", False),
        ("order: [a, b]", Place("f", 1, 9, 1, 10), "b", True),
        ("  - undo: a", Place("f", 1, 5, 1, 5), "turn: b\n  - ", True),
        ("work: [{undo: a}]", Place("f", 1, 8, 1, 8), "turn: b\n  - ", False),
        ("  - a", Place("f", 2, 5, 2, 6), "b", False),
        ("  - a", Place("f", 1, 5, 2, 1), "b", False),
        ("  - a", Place("g", 1, 5, 1, 6), "b", False),
    ],
)
def test_edits_are_kept_only_where_characters_alone_have_to_change(
    line: str, place: Place, text: str, is_kept: bool
) -> None:
    mend = Mend("Do it.", (Edit(place, text),))
    assert kept_edits(mend, {"f": (line,)}) == (mend if is_kept else Mend("Do it."))


def test_no_mend_is_no_mend() -> None:
    assert kept_edits(None, {}) is None
