"""Step files cut in two."""

from __future__ import annotations

import pytest

from generator.source.faults import BrokenYaml
from generator.source.front_matter import FrontMatter, split_front_matter

TEXT = "---\ntitle: a\nwork: []\n---\nLift it.\n\n---\n\nMore.\n"


@pytest.mark.parametrize("text", [TEXT, TEXT.replace("\n", "\r\n"), "\ufeff" + TEXT, TEXT.replace("---\n", "---  \n", 2)])
def test_the_halves_and_their_lines(text: str) -> None:
    halves = split_front_matter(text, "f.md")
    assert isinstance(halves, FrontMatter)
    assert (halves.yaml, halves.yaml_line) == ("title: a\nwork: []\n", 2)
    assert halves.body.startswith("Lift it.\n\n---")
    assert halves.body_line == 5


def test_nothing_after_the_data() -> None:
    assert split_front_matter("---\n---", "f.md") == FrontMatter("", 2, "", 3)


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("", "The file does not start with its data."),
        ("title: a\n---\n", "The file does not start with its data."),
        ("\n---\n---\n", "The file does not start with its data."),
        ("---\ntitle: a\n", "The data that starts here is not closed."),
        ("---\n ---\n", "The data that starts here is not closed."),
    ],
)
def test_a_missing_fence_is_told(text: str, problem: str) -> None:
    fault = split_front_matter(text, "f.md")
    assert isinstance(fault, BrokenYaml)
    assert fault.problem == problem
    assert (fault.place.line, fault.place.column) == (1, 1)
    assert "---" in fault.hint
