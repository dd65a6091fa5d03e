"""What one change of the design would do: the changed guide, and the phrases that ask for it."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.anatomy.joints import Drive, JointKind
from generator.anatomy.parts import JointId, PartId
from generator.indices.declarations import roles_in
from generator.orders.guide import Guide
from generator.orders.routes import NoRoute, best_route
from generator.orders.what_if import ChangeKind, Merge, Remove, Uncover, Unstack, changed, read_change, what_if
from tests.orders.test_routes import ANATOMY, DEVICE, box, ids, way_to


def after(guide: Guide, words: str) -> Guide:
    found = changed(guide, words)
    assert isinstance(found, Guide), found
    return found


def test_what_is_no_longer_behind_is_reached_at_once(tmp_path: Path) -> None:
    guide = box(tmp_path)
    assert ids(way_to(guide, "cell").steps) == ["open-lid", "unplug-cell", "take-cell"]
    for words in ("cell-plug is not behind lid", "the cell-plug is behind nothing"):
        assert ids(way_to(after(guide, words), "cell").steps) == ["unplug-cell", "take-cell"]


def test_what_is_no_longer_under_comes_out_first(tmp_path: Path) -> None:
    guide = box(tmp_path)
    assert ids(way_to(after(guide, "fan is not under board"), "fan").steps) == ["take-fan"]
    assert ids(way_to(after(guide, "fan is under nothing"), "fan").steps) == ["take-fan"]


def test_another_kind_of_joint_is_undone_with_what_fits_it(tmp_path: Path) -> None:
    guide = box(tmp_path, open_lid="work: [{undo: lid-screws, with: driver}, {lift: lid}]")
    changed_guide = after(guide, "lid-screws become clips")
    joint = changed_guide.joint(JointId("lid-screws"))
    assert (joint.kind, joint.drive, joint.needs_tool) == (JointKind.CLIPS, None, False)
    (undo, _) = changed_guide.step_by_id["open-lid"].actions  # type: ignore[index]
    assert changed_guide.tools_of(undo) == ()
    back = after(changed_guide, "lid-screws becomes screws cross-recess PH0")
    assert back.joint(JointId("lid-screws")).drive == Drive("cross-recess", "PH0")
    (undo, _) = back.step_by_id["open-lid"].actions  # type: ignore[index]
    assert back.tools_of(undo) == ("driver",)


def test_clips_need_no_warming(tmp_path: Path) -> None:
    anatomy = ANATOMY.replace("lid-screws: {kind: screws,", "lid-screws: {kind: glue, softens: heat, refit: new,")
    anatomy = anatomy.replace("joins: [lid, tub], drive: cross-recess PH0, count: 2", "joins: [lid, tub]")
    guide = box(
        tmp_path,
        DEVICE.replace("open-lid", "warm-lid, open-lid"),
        anatomy,
        warm_lid="work: [{heat: lid-screws, to: 70 °C}]",
    )
    assert ids(way_to(guide, "lid").steps) == ["warm-lid", "open-lid"]
    clipped = after(guide, "lid-screws becomes clips")
    assert ids(way_to(clipped, "lid").steps) == ["open-lid"]
    assert "warm-lid" not in ids(clipped.order)


def test_a_joint_that_is_gone_is_not_undone(tmp_path: Path) -> None:
    way = way_to(after(box(tmp_path), "cell-tray is gone"), "cell")
    assert [(a.verb, a.joint) for a in way.steps[-1].actions] == [("lift", None)]
    assert ids(after(box(tmp_path), "cell-plug is gone").order)[:2] == ["open-lid", "take-cell"]


def test_merged_parts_come_out_together(tmp_path: Path) -> None:
    """The fan becomes one with the board: who wants the fan replaces the board."""
    guide = after(box(tmp_path), "fan joins board")
    assert "fan" not in guide.anatomy.parts and "take-fan" not in ids(guide.order)
    assert ids(way_to(guide, "board").steps) == ["open-lid", "unplug-cell", "take-board"]
    assert guide.part(PartId("board")).under == ()


def test_what_held_merged_parts_together_is_gone_and_what_held_one_holds_both(tmp_path: Path) -> None:
    guide = after(box(tmp_path), "the cell joins the board")
    assert "cell-plug" not in guide.anatomy.joints and "unplug-cell" not in ids(guide.order)
    board = guide.part(PartId("board"))
    assert (board.replaceable, board.cell is not None, board.is_board) == (True, True, True)
    assert guide.joint(JointId("cell-tray")).joins == ("board", "tub")
    assert ids(way_to(guide, "board").steps) == ["open-lid", "take-cell", "take-board"]


def test_a_merged_part_serves_as_both(tmp_path: Path) -> None:
    anatomy = ANATOMY.replace(" cell: {cell:", " cell: {role: battery, cell:")
    anatomy = anatomy.replace("board: {", "board: {role: main board, ")
    merged = after(box(tmp_path, anatomy=anatomy), "cell joins board")
    assert roles_in(merged.part(PartId("board")).role) == ("main board", "battery")
    alone = after(box(tmp_path, anatomy=anatomy), "fan joins board")
    assert alone.part(PartId("board")).role == "main board"


def test_what_joins_the_base_has_no_way_of_its_own(tmp_path: Path) -> None:
    guide = after(box(tmp_path), "cell joins tub")
    assert isinstance(best_route(guide, (PartId("tub"),)), NoRoute)


def test_a_part_that_takes_in_what_carries_it_takes_its_place(tmp_path: Path) -> None:
    anatomy = ANATOMY.replace("lid: {replaceable: true}", "lid: {replaceable: true, inside: door}")
    anatomy = anatomy.replace("foot: {face: below}", "foot: {face: below, inside: door}")
    guide = after(box(tmp_path, anatomy=anatomy), "door joins lid")
    assert guide.anatomy.assembly(PartId("lid")) == {"lid", "foot"}
    assert guide.part(PartId("lid")).inside is None


def test_nothing_else_changes_and_the_guide_asked_of_stays_as_it_was(tmp_path: Path) -> None:
    guide = box(tmp_path)
    before = (guide.anatomy, guide.order)
    for words in ("fan joins board", "cell-tray is gone", "lid-screws become clips"):
        assert changed(guide, words) != guide
        assert (guide.anatomy, guide.order) == before
    assert after(guide, "cell-plug is not behind lid").order == guide.order


def test_several_changes_one_after_the_other(tmp_path: Path) -> None:
    guide = after(box(tmp_path), "cell-plug is behind nothing; board-screws is behind nothing")
    assert ids(way_to(guide, "fan").steps) == ["unplug-cell", "take-board", "take-fan"]


@pytest.mark.parametrize(
    ("words", "change"),
    [
        ("cell-plug is not behind lid", Uncover(JointId("cell-plug"), PartId("lid"))),
        ("lid-screws are behind nothing", Uncover(JointId("lid-screws"))),
        ("the fan is not under the board", Unstack(PartId("fan"), PartId("board"))),
        ("fan is under nothing", Unstack(PartId("fan"))),
        ("cell-tray becomes glue", ChangeKind(JointId("cell-tray"), JointKind.GLUE)),
        ("cell-tray becomes screws slot", ChangeKind(JointId("cell-tray"), JointKind.SCREWS, Drive("slot", None))),
        ("cell-tray is gone", Remove(JointId("cell-tray"))),
        ('"cell" joins "tub"', Merge(PartId("cell"), PartId("tub"))),
    ],
)
def test_phrases(tmp_path: Path, words: str, change: object) -> None:
    guide = box(tmp_path)
    assert read_change(guide, words) == change
    assert isinstance(what_if(guide, change), Guide)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("", "No change is told. Known are: JOINT is not behind PART; "),
        ("make it better", '"make it better" is no change known here. Known are: '),
        ("cel-plug is behind nothing", 'There is no joint "cel-plug". Did you mean cell-plug'),
        ("fan joins bord", 'There is no part "bord". Did you mean board or door?'),
        ("zzz joins tub", 'There is no part "zzz". There are: tub, lid'),
        ("cell-plug is not behind board", "cell-plug is not behind board as it is: it is behind lid."),
        ("cell is not under lid", "cell is not under lid as it is: it is under nothing."),
        ("cell-tray becomes magic", '"magic" is no kind of joint. The kinds: screws, plug'),
        ("cell-tray becomes screws", "Screws need a drive, such as: screws cross-recess PH0."),
        ("cell-tray becomes clips PH0", "A drive goes with screws only, not with clips."),
        ("tub joins cell", "tub is the base, on which everything is mounted. Say it the other way round: cell joins tub."),
        ("cell joins cell", "cell is one with itself already."),
        ("cell joins board; cell is under nothing", 'There is no part "cell". '),
    ],
)
def test_what_cannot_be_followed_is_told(tmp_path: Path, words: str, said: str) -> None:
    answer = changed(box(tmp_path), words)
    assert isinstance(answer, str)
    assert answer.startswith(said)
