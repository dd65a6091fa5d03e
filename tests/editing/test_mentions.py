"""Names found in files, at their places, and nowhere in broken ones; a renamed thing leaves the guide as it was."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.commands.folders import load_library
from generator.commands.mending import apply_edits
from generator.editing.mentions import Kind, Mention, alike, at, mentions_in, mentions_of
from generator.editing.renaming import NotRenamed, rename
from generator.orders.routes import Route, best_route
from generator.source.places import Place
from tests.review.corrections import LIBRARY, corrected

TEXTS = load_library(LIBRARY).texts
MENTIONS = mentions_of(TEXTS)


def written(mention: Mention) -> str:
    place = mention.place
    return TEXTS[place.file][place.line - 1][place.column - 1 : place.end_column - 1]


def test_every_mention_stands_where_it_says() -> None:
    assert all(written(each) in (each.id, "") for each in MENTIONS)
    named = {(each.kind, each.id) for each in MENTIONS if each.is_definition}
    (guide,) = load_library(LIBRARY).guides
    assert {id for kind, id in named if kind is Kind.PART} == set(guide.anatomy.parts)
    assert {id for kind, id in named if kind is Kind.JOINT} == set(guide.anatomy.joints)
    assert {id for kind, id in named if kind is Kind.STEP} == set(guide.step_by_id)
    assert {id for kind, id in named if kind is Kind.TOOL} == set(guide.tools)
    assert {id for kind, id in named if kind is Kind.SUPPLY} == set(guide.supplies)


def test_every_use_is_of_something_made() -> None:
    made = {(each.kind, each.id) for each in MENTIONS if each.is_definition}
    assert {(each.kind, each.id) for each in MENTIONS} == made


def test_a_position_is_the_name_from_its_first_letter_to_behind_its_last() -> None:
    lines = ["base: frame", "parts: {frame: {}}"]
    mentions = mentions_in("x/anatomy.yaml", lines)
    assert [at(mentions, "x/anatomy.yaml", 1, column) is not None for column in (6, 7, 11, 12, 13)] == [
        False,
        True,
        True,
        True,
        False,
    ]


def test_quotes_are_no_part_of_a_name() -> None:
    (one,) = mentions_in("x/device.yaml", ["order: ['lift-lid']"])
    assert (one.kind, one.id, one.place) == (Kind.STEP, "lift-lid", Place("x/device.yaml", 1, 10, 1, 18))


def test_a_broken_file_names_nothing_but_itself() -> None:
    assert mentions_in("x/anatomy.yaml", ["base: frame", "joints:", "  a: [", "  b"]) == ()
    assert mentions_in("x/steps/lift-lid.md", ["no front matter"]) == (
        Mention(Kind.STEP, "lift-lid", "x", Place("x/steps/lift-lid.md"), is_definition=True),
    )


def test_tools_are_shared_and_parts_are_not() -> None:
    one = Mention(Kind.TOOL, "pick", "", Place("tools.yaml", 1, 1, 1, 5), True)
    use = Mention(Kind.TOOL, "pick", "", Place("b/steps/x.md", 1, 1, 1, 5))
    part, other = (Mention(Kind.PART, "lid", device, Place(f"{device}/anatomy.yaml", 1, 1, 1, 4)) for device in "ab")
    assert alike((one, use, part, other), one) == (one, use)
    assert alike((one, use, part, other), part) == (part,)


# --- renaming ------------------------------------------------------------------------------------------------------


def renamed(folder: Path, kind: Kind, old: str, new: str) -> Path:
    """The library with a thing renamed, written out below `folder`."""
    one = next(each for each in MENTIONS if (each.kind, each.id) == (kind, old))
    wanted = rename(TEXTS, MENTIONS, one, new)
    root = corrected(folder, "nothing")
    for file in {edit.place.file for edit in wanted.edits}:
        text = (root / file).read_text("utf-8")
        edits = [edit for edit in wanted.edits if edit.place.file == file]
        (root / file).write_text(apply_edits(text, edits), "utf-8")
    for move in wanted.moves:
        (root / move.old).rename(root / move.new)
    return root


@pytest.mark.parametrize(
    ("kind", "old", "new"),
    [
        (Kind.PART, "sub-board", "bottom-board"),
        (Kind.JOINT, "battery-plug", "cell-plug"),
        (Kind.STEP, "unplug-battery", "unplug-cell"),
        (Kind.TOOL, "plastic-lever", "lever"),
        (Kind.SUPPLY, "solvent", "alcohol"),
    ],
)
def test_a_renamed_thing_leaves_every_way_as_it_was(kind: Kind, old: str, new: str, tmp_path: Path) -> None:
    (before,) = load_library(LIBRARY).guides
    (after,) = load_library(renamed(tmp_path / "new", kind, old, new)).guides
    assert after.is_complete and not after.dangling
    names = {old: new}
    for part in before.anatomy.parts:
        if part == before.anatomy.base:
            continue
        one, other = best_route(before, (part,)), best_route(after, (names.get(part, part),))  # type: ignore[arg-type]
        assert isinstance(one, Route) and isinstance(other, Route)
        assert [names.get(step.id, step.id) for step in one.steps] == [step.id for step in other.steps]


def test_a_step_takes_its_file_along() -> None:
    one = next(each for each in MENTIONS if each.id == "unplug-battery")
    wanted = rename(TEXTS, MENTIONS, one, "unplug-cell")
    assert [(move.old, move.new) for move in wanted.moves] == [
        ("tarn-5/steps/unplug-battery.md", "tarn-5/steps/unplug-cell.md")
    ]


@pytest.mark.parametrize("new", ["", "Upper Cover", "../x", "a--b", "lift-antenna"])
def test_what_is_no_name_or_taken_is_refused(new: str) -> None:
    one = next(each for each in MENTIONS if each.id == "unplug-battery")
    with pytest.raises(NotRenamed):
        rename(TEXTS, MENTIONS, one, new)
