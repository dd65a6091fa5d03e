"""The moving picture in numbers: where parts begin and end, when, and what is painted over what."""

from __future__ import annotations

import math
from itertools import combinations, pairwise

import pytest

from generator.anatomy.parts import PartId
from generator.figures.moving.covering import bodies_of, is_before, painting_order
from generator.figures.moving.geometry import moving_of, start_below
from generator.figures.moving.shapes import Moving
from generator.figures.moving.timing import AN_ACTION, CLOSING, LEAST, MOST, OPENING, REST, timetable
from generator.figures.stack.arrangement import Arrangement, arrange
from generator.figures.stack.geometry import stack_from
from generator.figures.stack.shapes import Slab
from generator.orders.routes import Route, best_route
from tests.figures.stack.demo import demo
from tests.figures.stack.devices import random_guide


def arranged_demo() -> Arrangement:
    found = arrange(demo(), demo().order)
    assert found is not None
    return found


def moving_demo() -> Moving:
    return moving_of(arranged_demo(), "Lamp", "taken apart")


def test_steps_follow_each_other_and_take_the_longer_the_more_is_done() -> None:
    steps = demo().order
    times = timetable(steps)
    assert times.beats[0].start == OPENING
    assert all(one.end == other.start for one, other in pairwise(times.beats))
    for step, beat in zip(steps, times.beats, strict=True):
        assert beat.end - beat.start == min(MOST, LEAST + AN_ACTION * len(step.actions))
        assert beat.start < beat.loose < beat.drawn_out < beat.away < beat.end
    assert times.whole == times.beats[-1].end + REST + CLOSING
    assert times.whole == OPENING + sum(beat.end - beat.start for beat in times.beats) + REST + CLOSING
    assert times.beats[-1].end < times.rest < times.closing < times.whole


def test_every_part_is_there_once_and_ends_where_the_stack_has_it() -> None:
    moving, stack = moving_demo(), stack_from(arranged_demo(), narrow=True)
    slabs = {slab.part: slab for slab in stack.painted if isinstance(slab, Slab)}
    assert sorted(mover.part for mover in moving.movers) == sorted(slabs)
    for mover in moving.movers:
        assert (mover.slab.side, mover.slab.top) == (slabs[mover.part].side, slabs[mover.part].top)
        assert sorted(turn.at for turn in mover.turns) == sorted(screw.at for screw in slabs[mover.part].screws)


def test_parts_begin_in_their_place_in_the_device() -> None:
    """Moved by its start, the top of every part lies at its own depth below the first face, as the base does."""
    arranged, moving = arranged_demo(), moving_demo()
    base = next(level.offset for level in arranged.levels for solid in level.solids if solid.part == "frame")
    solids = {solid.part: (solid, level.offset) for level in arranged.levels for solid in level.solids}
    for mover in moving.movers:
        solid, offset = solids[mover.part]
        corner = next(iter(mover.slab.top))[0]
        # In the stack the part's top is at its depth and its level's offset; in the device it is at the base's offset.
        wanted = corner.v - (offset - base) * arranged.units
        if mover.step is None:
            assert mover.start == (0.0, 0.0)
        elif solid.shift == (0.0, 0.0):
            assert mover.start[0] == 0.0
            assert corner.v + mover.start[1] == pytest.approx(wanted, abs=0.06)


def test_what_slides_begins_in_its_slot_and_rises_when_it_is_out() -> None:
    arranged = arranged_demo()
    tray = next(mover for mover in moving_demo().movers if mover.part == "sim-tray")
    assert tray.slot is not None and tray.slot[0] == 0.0
    aside, down = (round(end - out, 1) for end, out in zip(tray.start, tray.slot, strict=True))
    # Drawn out by 24 mm to the left: on the sheet cos 30° to the left and sin 30° up; back is the other way.
    assert aside == pytest.approx(24 * math.cos(math.radians(30)) * arranged.units, abs=0.1)
    assert down == pytest.approx(24 * math.sin(math.radians(30)) * arranged.units, abs=0.1)


def test_headings_are_the_steps_in_order() -> None:
    moving = moving_demo()
    assert [heading.number for heading in moving.headings] == [str(n) for n in range(1, 19)]
    assert ["".join(heading.lines)[:8] for heading in moving.headings] == [step.title[:8] for step in demo().order]
    assert moving.whole.lines == ("Lamp", "taken apart, in 18 steps")


def test_screws_leave_in_the_step_that_undoes_them() -> None:
    arranged, moving = arranged_demo(), moving_demo()
    sub = next(mover for mover in moving.movers if mover.part == "sub-board")
    assert sub.step == 11 and {turn.step for turn in sub.turns} == {6}
    assert sum(len(mover.turns) for mover in moving.movers) == len(arranged.screws)


def test_parts_of_the_second_face_leave_downward() -> None:
    display = next(mover for mover in moving_demo().movers if mover.part == "display")
    assert display.start[1] < 0
    assert all(mover.start[1] >= 0 for mover in moving_demo().movers if mover.part != "display")


def test_what_sits_in_the_hollow_is_seen_through_its_rim_only() -> None:
    sunk = {mover.part for mover in moving_demo().movers if mover.is_sunk}
    assert {"battery", "vibration-motor"} <= sunk
    assert not sunk & {"back", "frame", "display", "sim-tray"}
    assert moving_demo().rim != ()


def test_the_outer_part_is_painted_over_the_one_below_it() -> None:
    order = painting_order(arranged_demo())
    place = {part: index for index, part in enumerate(order)}
    assert place[PartId("display")] < place[PartId("sim-tray")] < place[PartId("frame")]
    assert place[PartId("frame")] < place[PartId("battery")] < place[PartId("antenna")] < place[PartId("back")]


def test_a_route_shows_what_it_touches() -> None:
    guide = demo()
    way = best_route(guide, (PartId("battery"),))
    assert isinstance(way, Route)
    arranged = arrange(guide, way.steps)
    assert arranged is not None
    moving = moving_of(arranged, "Tarn 5", "the way to the battery")
    assert moving.title == f"Tarn 5: the way to the battery, in {len(way.steps)} steps"
    assert len(moving.headings) == len(way.steps) < len(guide.order)


@pytest.mark.parametrize("seed", range(40))
def test_any_device_moves_and_nothing_is_painted_before_what_it_covers(seed: int) -> None:
    device = random_guide(seed, 5 + seed)
    arranged = arrange(device, device.order)
    assert arranged is not None
    moving = moving_of(arranged, "x", "y")
    order = [mover.part for mover in moving.movers]
    assert sorted(order) == sorted(solid.part for level in arranged.levels for solid in level.solids)
    bodies = {body.part: body for body in bodies_of(arranged)}
    wrong = [
        (one, other)
        for one, other in combinations(order, 2)
        if is_before(bodies[other], bodies[one]) and not is_before(bodies[one], bodies[other])
    ]
    # Only a ring of parts that each want to be before the next leaves one pair behind.
    assert len(wrong) == 0 or has_ring(wrong, bodies)
    for number, level in enumerate(arranged.levels):
        assert all(math.isfinite(start_below(arranged, solid.part, number)) for solid in level.solids)


def has_ring(wrong: list[tuple[PartId, PartId]], bodies: dict) -> bool:  # type: ignore[type-arg]
    """Whether each pair painted the wrong way round closes a ring: a chain of parts leads from its first to its second."""

    def leads(start: PartId, end: PartId) -> bool:
        seen, left = {start}, [start]
        while left:
            here = left.pop()
            for part in bodies:
                if part not in seen and part != here and is_before(bodies[here], bodies[part]):
                    seen.add(part)
                    left.append(part)
        return end in seen

    return all(leads(one, other) for one, other in wrong)
