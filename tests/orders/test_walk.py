"""The walk by example: one cause one finding, nothing cascades, work done twice, turns, what is never done."""

from __future__ import annotations

from pathlib import Path

from generator.orders.guide import Guide
from generator.orders.reasons import Behind, LyingWrong, MainsFirst, PowerFirst, StillJoined
from tests.orders.test_routes import ANATOMY, DEVICE, box


def reordered(folder: Path, order: str, **known: str) -> Guide:
    written = DEVICE[DEVICE.index("order:") : DEVICE.index("]", DEVICE.index("order:")) + 1]
    return box(folder, DEVICE.replace(written, f"order: [{order}]"), **known)


def test_a_good_order_has_nothing_unmet(tmp_path: Path) -> None:
    guide = box(tmp_path)
    assert (guide.walk.unmet, guide.walk.repeats, guide.rings, guide.causes) == ((), (), (), ())


def test_one_step_too_late_is_one_cause_and_names_all_that_wait(tmp_path: Path) -> None:
    guide = reordered(tmp_path, "open-lid, take-cell, take-board, unplug-cell, take-fan, turn-over, take-foot")
    (cause,) = guide.causes
    assert (cause.action.step, type(cause.reason)) == ("take-cell", StillJoined)
    assert [(later.action.step, type(later.reason)) for later in cause.also] == [
        ("take-board", StillJoined),
        ("take-board", PowerFirst),
    ]
    assert {action.step for action in cause.late} == {"unplug-cell"}


def test_after_an_unmet_clause_the_walk_goes_on_as_if_it_had_been_met(tmp_path: Path) -> None:
    guide = reordered(tmp_path, "take-board, open-lid, unplug-cell, take-cell, take-fan, turn-over, take-foot")
    assert {entry.action.step for entry in guide.walk.unmet} == {"take-board"}


def test_what_is_never_done_has_no_late_actions(tmp_path: Path) -> None:
    guide = reordered(tmp_path, "unplug-cell, take-cell")
    (cause,) = guide.causes
    assert (cause.reason, cause.late, cause.elsewhere) == (Behind("cell-plug", "lid"), (), ())  # type: ignore[arg-type]


def test_what_only_an_alternative_does_is_told_as_such(tmp_path: Path) -> None:
    guide = box(tmp_path, DEVICE.replace("order: [open-lid, ", "alternatives: [open-lid]\n    order: ["))
    cause = guide.causes[0]
    assert (cause.late, {action.step for action in cause.elsewhere}) == ((), {"open-lid"})


def test_the_device_lying_wrong_is_told_once_a_turn(tmp_path: Path) -> None:
    guide = reordered(tmp_path, "take-foot, open-lid")
    assert [entry.reason for entry in guide.causes] == [LyingWrong("above", "below"), LyingWrong("below", "above")]


def test_later_in_the_same_step_is_late_too(tmp_path: Path) -> None:
    guide = box(tmp_path, open_lid="work: [{lift: lid}, {undo: lid-screws}]")
    (cause,) = guide.causes
    assert [action.number for action in cause.late] == [1]


def test_steps_that_wait_for_each_other_are_one_ring_and_no_other_cause(tmp_path: Path) -> None:
    anatomy = ANATOMY.replace("{kind: screws, joins: [lid, tub]", "{kind: screws, behind: cell, joins: [lid, tub]")
    guide = box(tmp_path, anatomy=anatomy)
    (ring,) = guide.rings
    assert [guide.steps[number].id for number in ring.steps] == ["open-lid", "take-cell", "unplug-cell"]
    assert guide.causes == ()


def test_work_done_twice_and_work_on_what_is_undone(tmp_path: Path) -> None:
    guide = box(tmp_path, take_fan="work: [{lift: fan}, {undo: lid-screws}, {fold: lid}, {heat: lid-screws}]")
    assert [(repeat.action.verb, repeat.kind, repeat.first.step) for repeat in guide.walk.repeats] == [
        ("undo", "again", "open-lid"),
        ("fold", "again", "open-lid"),
        ("heat", "gone", "open-lid"),
    ]


def test_a_mains_device_waits_for_the_plug_out_of_the_wall(tmp_path: Path) -> None:
    guide = box(tmp_path, DEVICE.replace("power: cell", "power: both"))
    (cause,) = guide.causes
    assert (cause.action.step, cause.reason) == ("open-lid", MainsFirst())
    assert len(cause.also) > 5
    checked = box(
        tmp_path / "checked",
        DEVICE.replace("power: cell", "power: both"),
        open_lid="work: [{check: The plug lies on the bench., proves: unplugged}, {undo: lid-screws}, {lift: lid}]",
    )
    assert checked.causes == ()
