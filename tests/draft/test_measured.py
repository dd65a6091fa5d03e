"""How much of the answers made by hand is found: floors below what is measured, for films looked at and films kept aside."""

from __future__ import annotations

import pytest

from tests.bench.draft import CAPTIONS, KEPT_ASIDE, TUNED, files, measured, table, total

FLOORS = {
    TUNED: {
        "actions": (0.88, 0.90),
        "parts": (0.88, 0.88),
        "joints": (0.88, 0.88),
        "counts": (0.88, 0.90),
        "times": (0.95, 0.95),
    },
    KEPT_ASIDE: {
        "actions": (0.85, 0.88),
        "parts": (0.85, 0.88),
        "joints": (0.85, 0.78),
        "counts": (0.90, 0.88),
        "times": (0.95, 0.60),
    },
}
"""By measure: precision, recall."""


@pytest.mark.parametrize("folder", FLOORS)
def test_what_is_found_does_not_sink(folder: str) -> None:
    sums = total(measured(path) for path in files(folder))
    for measure, (precision, recall) in FLOORS[folder].items():
        tally = sums[measure]
        assert tally.precision >= precision and tally.recall >= recall, (measure, tally)


def test_there_are_films_of_both_kinds_and_both_languages() -> None:
    assert len(files(TUNED)) >= 8 and len(files(KEPT_ASIDE)) >= 2
    for folder in FLOORS:
        assert {"german" in path.stem for path in files(folder)} == {True, False}


def test_the_table_names_every_film() -> None:
    printed = table()
    assert all(path.stem in printed for folder in FLOORS for path in files(folder))


def test_the_readme_says_what_the_floors_hold() -> None:
    readme = (CAPTIONS.parents[2] / "README.md").read_text("utf-8")
    precision, recall = FLOORS[KEPT_ASIDE]["actions"]
    assert f"at least {100 * recall:.0f} in a hundred of the actions" in " ".join(readme.split())
    assert f"at least {100 * precision:.0f} in a hundred of those it found" in " ".join(readme.split())
    assert len(files(KEPT_ASIDE)) == 4 and "four invented films" in " ".join(readme.split())
