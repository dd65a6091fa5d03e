"""Levels: the longest way through what waits for what, with what leaves together kept together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.anatomy.parts import PartId
from generator.figures.stack.leaving import leaving_of
from generator.figures.stack.levels import levels_of
from generator.figures.stack.solids import solids_of
from generator.orders.guide import Guide
from generator.orders.work import Step
from tests.figures.stack.demo import demo
from tests.figures.stack.devices import BASE, guide, joint, part, random_guide, step


def levels(device: Guide, steps: Sequence[Step] | None = None) -> Mapping[PartId, int]:
    leaving = leaving_of(device, device.order if steps is None else steps)
    shown = [solid for solid in solids_of(device, {}) if solid.part in leaving.shown]
    return levels_of(device, leaving, shown)


def frame() -> object:
    return part(BASE, (0, 0, 60, 60), thickness=8.0, depth=1.0)


def test_the_demo_comes_apart_in_eight_levels_over_the_frame_and_one_below() -> None:
    found = levels(demo())
    assert found["back"] == found["sim-tray"] == 0
    assert [found[p] for p in ("back", "antenna", "upper-cover", "rear-camera", "joining-cable", "battery", "earpiece")] == [
        0, 1, 2, 3, 4, 5, 6,
    ]  # fmt: skip
    assert found["display"] == 0
    assert "frame" not in found


def test_every_clause_between_steps_that_take_something_out_is_a_level_down() -> None:
    for device in (demo(), *(random_guide(seed, 14) for seed in range(30))):
        found = levels(device)
        leaving = leaving_of(device, device.order)
        for clause in device.stepwise.clauses:
            earlier = [n for n in range(min(clause.step, len(device.order))) if clause.items >> n & 1]
            for name, number in leaving.goes.items():
                if number != clause.step or name not in found or not earlier:
                    continue
                taken = [
                    {
                        found[q]
                        for q, n in leaving.goes.items()
                        if n == other and q in found and (q in leaving.below) == (name in leaving.below)
                    }
                    for other in earlier
                ]
                if all(taken):
                    assert any(min(one) < found[name] for one in taken)


def test_of_steps_that_would_each_do_the_shallowest_counts() -> None:
    # The deep part is reached once either cover is off; one of them comes late, under two others.
    parts = [
        frame(),
        *(part(name, (10 * n, 0, 8, 8), thickness=1.0) for n, name in enumerate(("lid", "shell", "early", "late", "deep"))),
    ]
    joints = [
        joint("j-shell", "clips", ["shell", BASE], behind=(PartId("lid"),)),
        joint("j-late", "clips", ["late", BASE], behind=(PartId("shell"),)),
        joint("j-deep", "clips", ["deep", BASE]),
    ]
    order = [
        step("a", ("lift", "lid")),
        step("b", ("lift", "early")),
        step("c", ("undo", "j-shell"), ("lift", "shell")),
        step("d", ("undo", "j-late"), ("lift", "late")),
        step("e", ("undo", "j-deep"), ("lift", "deep")),
    ]
    found = levels(guide(parts, joints, order))
    assert found == {"lid": 0, "early": 0, "shell": 1, "late": 2, "deep": 0}


def test_a_step_that_takes_nothing_out_hands_its_level_on() -> None:
    parts = [frame(), part("lid", (0, 0, 50, 50), depth=0.0), part("cell", (5, 5, 9, 9), depth=2.0, thickness=1.0)]
    joints = [joint("plug", "plug", ["cell", BASE], behind=(PartId("lid"),))]
    order = [step("a", ("lift", "lid")), step("b", ("undo", "plug")), step("c", ("lift", "cell"))]
    assert levels(guide(parts, joints, order)) == {"lid": 0, "cell": 1}


def test_what_leaves_together_lies_together() -> None:
    parts = [
        frame(),
        part("lid", (0, 0, 50, 50), depth=0.0),
        part("board", (5, 5, 30, 30), depth=2.0, thickness=1.0, under=(PartId("lid"),)),
        part("shield", (8, 8, 9, 9), depth=1.5, thickness=0.5, inside=PartId("board")),
        part("chip", (20, 20, 9, 9), depth=1.5, thickness=0.5, inside=PartId("board")),
    ]
    order = [step("a", ("lift", "lid")), step("b", ("lift", "board")), step("c", ("lift", "shield"))]
    found = levels(guide(parts, [], order))
    assert found["board"] == found["shield"] == found["chip"] == 1
    earlier = [step("a", ("lift", "lid")), step("c", ("lift", "shield")), step("b", ("lift", "board"))]
    found = levels(guide(parts, [], earlier))
    assert (found["shield"], found["board"], found["chip"]) == (1, 2, 2)


def test_a_part_under_another_lies_below_it_even_where_no_clause_says_so() -> None:
    parts = [frame(), part("lid", (0, 0, 50, 50), depth=0.0), part("deep", (5, 5, 9, 9), depth=3.0, thickness=1.0)]
    order = [step("a", ("lift", "lid")), step("b", ("lift", "deep"))]
    assert levels(guide(parts, [], order)) == {"lid": 0, "deep": 1}


def test_the_second_face_counts_its_own_levels() -> None:
    parts = [
        frame(),
        part("lid", (0, 0, 50, 50), depth=0.0),
        part("glass", (0, 0, 50, 50), "front", depth=0.0),
        part("sensor", (5, 5, 9, 9), "front", depth=2.0, under=(PartId("glass"),)),
    ]
    order = [step("a", ("lift", "lid")), step("b", ("lift", "glass")), step("c", ("lift", "sensor"))]
    assert levels(guide(parts, [], order)) == {"lid": 0, "glass": 0, "sensor": 1}


def test_a_shorter_run_shows_what_it_touches_and_the_base_alone() -> None:
    steps = [one for one in demo().order if one.id in ("open-back", "lift-antenna", "lift-upper-cover", "unplug-battery")]
    leaving = leaving_of(demo(), steps)
    assert set(leaving.shown) == {"back", "antenna", "upper-cover", "plug-plate", "battery", "frame"}
    assert set(levels(demo(), steps)) == {"back", "antenna", "upper-cover", "plug-plate"}
