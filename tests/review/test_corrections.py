"""What thirty realistic corrections mean: each stored text was read by hand against the model before it was kept.

`PARTWAY_ACCEPT=1` writes the texts anew.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from generator.commands.compare import changed
from generator.commands.reports.changes import change_as_text
from generator.review.sentences import is_worse, told_of, told_of_library
from tests.review.corrections import CORRECTIONS, LIBRARY, corrected

EXPECTED = Path(__file__).parent / "expected"


@pytest.mark.parametrize("name", CORRECTIONS)
def test_meaning(name: str, tmp_path: Path) -> None:
    change = changed(LIBRARY, corrected(tmp_path / "new", name))
    text = f"{CORRECTIONS[name].says}\n\n{change_as_text(change)}"
    stored = EXPECTED / f"{name}.txt"
    if os.environ.get("PARTWAY_ACCEPT"):
        stored.write_text(text, "utf-8")
    assert text == stored.read_text("utf-8")
    told = [*told_of_library(change), *(each for device in change.devices for each in told_of(device))]
    assert is_worse(told) == CORRECTIONS[name].is_worse
    assert told, "a correction that means nothing"


def test_every_text_belongs_to_a_correction() -> None:
    assert {path.stem for path in EXPECTED.glob("*.txt")} == set(CORRECTIONS)
    assert len(CORRECTIONS) >= 30
