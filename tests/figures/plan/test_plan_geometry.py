"""The plan in numbers: scale, mirror, states, marks, detail, side."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.anatomy.joints import Drive
from generator.anatomy.parts import PartId
from generator.figures.glyphs import HEAD, screw_sign
from generator.figures.plan.drawing import plan_figure
from generator.figures.plan.geometry import plan_of
from generator.figures.plan.motion import ground_of
from generator.figures.plan.shapes import Detail, Plan, State
from generator.figures.plan.sheet import FULL_HEIGHT, FULL_WIDTH, HANDSET_SCALE, scale_of
from generator.orders.work import Step
from tests.figures.plan.devices import (
    LAMP,
    LAMP_FACES,
    LAMP_SIZE,
    anatomy,
    before,
    devices,
    joint,
    part,
    step,
    steps_on,
)
from tests.wandering import examples


def lamp(work: Step, **stands: object) -> Plan:
    return plan_of(LAMP, work, before(**stands), number=1, faces=LAMP_FACES, size=LAMP_SIZE)  # type: ignore[arg-type]


def states(plan: Plan) -> dict[str, State]:
    return {str(shape.part): shape.state for shape in (*plan.shapes, *plan.over) if shape.part is not None}


def test_a_handset_has_2_8_units_a_mm() -> None:
    assert scale_of(74, 158) == HANDSET_SCALE
    assert scale_of(70, 150) == HANDSET_SCALE


@pytest.mark.parametrize(("width", "height"), [(290, 200), (30, 40), (10, 900), (2000, 3)])
def test_other_devices_fill_the_sheet(width: float, height: float) -> None:
    scale = scale_of(width, height)
    assert width * scale <= FULL_WIDTH + 1e-6 and height * scale <= FULL_HEIGHT + 1e-6
    assert math.isclose(width * scale, FULL_WIDTH) or math.isclose(height * scale, FULL_HEIGHT)


def test_the_device_lies_at_the_same_place_in_every_plan() -> None:
    plans = [
        lamp(step("a", ("undo", "shade-screws"), ("lift", "shade"))),
        lamp(step("b", ("undo", "board-plug")), out=["shade"]),
        lamp(step("c", ("undo", "cord-seat"), ("lift", "cord")), out=["shade"]),
        lamp(step("d", ("turn", "underside"), ("lift", "weight"))),
    ]
    assert len({(plan.pane, plan.width) for plan in plans}) == 1
    assert len({plan.elevation.pane for plan in plans if plan.elevation}) == 1


def test_seen_from_the_second_face_left_and_right_change_places() -> None:
    top = lamp(step("a", ("undo", "shade-screws")))
    below = lamp(step("a", ("turn", "underside"), ("undo", "weight-screws"), ("lift", "weight")))
    board = next(shape for shape in lamp(step("a"), out=["shade"]).shapes if shape.part == "board")
    weight = next(shape for shape in below.shapes if shape.part == "weight")
    assert (board.box.x, board.box.right) == (20, 60)
    assert (weight.box.x, weight.box.right) == (80 - 65, 80 - 15)
    assert [mark.at for mark in below.marks] == [below.pane.point((60, 16)), below.pane.point((20, 44))]
    assert top.captions[0].words == "top up" and below.captions[0].words == "underside up"
    assert below.motion.turn is not None and top.motion.turn is None


def test_parts_that_are_covered_are_not_painted() -> None:
    assert set(states(lamp(step("a")))) == {"switch", "shade", "foot"}


def test_the_part_in_hand_and_what_it_carries_are_told_apart() -> None:
    found = states(lamp(step("a", ("lift", "board")), out=["shade"]))
    assert found["board"] is State.HAND and found["driver"] is State.CARRIED and found["switch"] is State.PLACE
    assert "shade" not in found


def test_a_joint_worked_on_shows_the_part_it_is_on() -> None:
    assert states(lamp(step("a", ("undo", "board-plug")), out=["shade"]))["board"] is State.WORKED
    assert states(lamp(step("a", ("undo", "board-plug"))))["board"] is State.UNDER


def test_a_part_in_hand_that_lies_under_others_is_dashed() -> None:
    plan = lamp(step("a", ("lift", "board")))
    assert states(plan)["board"] is State.HIDDEN
    assert [arrow.degrees for arrow in plan.elevation.arrows] == [270]


def test_a_covered_part_at_the_edge_is_drawn_out_sideways() -> None:
    device = anatomy(
        "base", [part("lid", (0, 0, 40, 90), thickness=1.0), part("tray", (0, 30, 8, 14), thickness=1.0), part("base")]
    )
    plan = plan_of(device, step("a", ("lift", "tray")), before(), number=1, faces=("top",), size=(40, 90))
    assert [arrow.degrees for arrow in plan.motion.slides] == [180]
    assert plan.elevation.arrows == () and plan.motion.lifts == ()
    assert "Draw out sideways: tray." in plan.desc


def test_what_was_folded_aside_is_an_outline_only() -> None:
    assert states(lamp(step("a", ("undo", "board-plug")), folded=["shade"]))["shade"] is State.ASIDE
    assert states(lamp(step("a", ("lift", "shade")), folded=["shade"]))["shade"] is State.ASIDE_HAND


def test_work_on_what_was_taken_out_is_drawn_on_the_bench() -> None:
    plan = lamp(step("a", ("undo", "driver-pads"), ("lift", "driver")), out=["shade", "board"])
    assert plan.is_on_bench and plan.elevation is None
    assert states(plan) == {"board": State.PLACE, "driver": State.HAND}
    assert plan.captions[0].words == "on the bench"


def test_a_small_part_gets_a_detail_with_its_marks() -> None:
    plan = lamp(step("a", ("undo", "driver-pads"), ("lift", "driver")), out=["shade"])
    assert plan.detail is not None and plan.marks == ()
    assert [mark.label for mark in plan.detail.marks] == ["1", "2"]
    assert all(math.hypot(*mark.at) <= plan.detail.drawn for mark in plan.detail.marks)
    assert float(plan.detail.enlarged) >= 1.8


def test_a_large_part_needs_no_detail() -> None:
    plan = lamp(step("a", ("undo", "shade-screws"), ("lift", "shade")))
    assert plan.detail is None
    assert [mark.at for mark in plan.marks] == [plan.pane.point(at) for at in ((15, 15), (65, 15), (40, 45))]


def test_a_joint_without_a_place_is_told_below() -> None:
    plan = lamp(step("a", ("undo", "shade-screws"), ("undo", "cord-seat"), ("lift", "cord")))
    assert [row.words for row in plan.rows] == ["without a place in the drawing", "cord", "4: 1 press fit (cord seat)"]
    assert "no place is given: cord" in plan.desc


def test_warming_shows_the_joint_without_a_number() -> None:
    plan = lamp(step("a", ("heat", "board-glue")), out=["shade"])
    assert {mark.label for mark in plan.marks} == {""}


def test_the_side_shows_depth_from_the_face_that_lies_up() -> None:
    top = lamp(step("a"))
    depth = {str(shape.part): shape.box.y for shape in top.elevation.shapes}
    assert top.elevation.device.height == 22
    assert (depth["shade"], depth["board"], depth["weight"]) == (0, 14, 22 - 6)
    below = lamp(step("a", ("turn", "underside")))
    assert next(shape.box.y for shape in below.elevation.shapes if shape.part == "weight") == pytest.approx(1)


def test_a_high_device_has_its_side_at_the_right_a_wide_one_below() -> None:
    parts = [part("lid", (0, 0, 50, 90), thickness=2.0), part("base")]
    high = plan_of(anatomy("base", parts), step("a", ("lift", "lid")), before(), number=1, faces=("top",))
    assert high.elevation.pane.left > high.pane.x(50) and high.elevation.arrows[0].degrees == 180
    wide = lamp(step("a", ("lift", "shade")))
    assert wide.elevation.pane.top > wide.pane.y(60) and wide.elevation.arrows[0].degrees == 270


def test_without_a_size_the_boxes_say_what_the_device_takes_up() -> None:
    device = anatomy("base", [part("lid", (-5, 10, 50, 90)), part("base")])
    plan = plan_of(device, step("a"), before(), number=1, faces=("top",))
    assert (plan.device.box.x, plan.device.box.y, plan.device.box.width, plan.device.box.height) == (-5, 10, 50, 90)
    assert plan.elevation is None


def test_a_device_without_boxes_is_told_in_words() -> None:
    device = anatomy("base", [part("lid"), part("base")], [joint("screws", "screws", ["lid", "base"], 12)])
    plan = plan_of(device, step("a", ("undo", "screws"), ("lift", "lid")), before(), number=2, faces=("top",))
    assert plan.device is None
    assert [(row.kind, row.words) for row in plan.rows] == [
        (None, "top up"),
        ("screws", "1–12: 12 screws (screws)"),
        ("lift", "lid"),
    ]


def test_a_fold_turns_over_the_side_of_the_plug_it_keeps() -> None:
    parts = [part("lid", (0, 0, 50, 90)), part("board", (5, 60, 30, 20)), part("base")]
    device = anatomy("base", parts, [joint("lead", "plug", ["lid", "board"], positions=((48, 40),))])
    plan = plan_of(device, step("a", ("fold", "lid")), before(), number=1, faces=("top",), size=(50, 90))
    (fold,) = plan.motion.folds
    assert {x for x, _ in fold.hinge} == {plan.pane.x(50)}


def test_crowded_fasteners_share_a_mark_and_leave_dots() -> None:
    at = tuple((10.0 + 2 * (index % 10), 10.0 + 2 * (index // 10)) for index in range(60))
    device = anatomy(
        "base", [part("lid", (0, 0, 70, 150)), part("base")], [joint("pins", "screws", ["lid", "base"], 60, positions=at)]
    )
    plan = plan_of(device, step("a", ("undo", "pins"), ("lift", "lid")), before(), number=1, faces=("top",))
    assert [mark.label for mark in plan.marks] == ["1–60"]
    assert plan.dots == at


SCREWED = anatomy(
    "base",
    [part("lid", (10, 10, 50, 120), thickness=1.0), part("board", (15, 20, 40, 40), depth=2.0), part("base")],
    [
        joint(
            "screws",
            "screws",
            ["lid", "base"],
            4,
            positions=((15, 15), (55, 15), (15, 120), (55, 120)),
            lengths=(3.5, 3.5, 5.0, 12.25),
            thread="M1.4",
            head="pan",
            drive=Drive("cross-recess", "PH00"),
        ),
        joint("glue", "glue", ["lid", "base"], run=((12, 12), (12, 128))),
        joint("seat", "press", ["lid", "base"], positions=((35, 125),)),
        joint("clips", "clips", ["lid", "base"], 2, positions=((11, 60), (59, 60)), tools=("lever",)),
        joint("plug", "plug", ["lid", "board"], positions=((52, 40),)),
        joint("board-clip", "clips", ["board", "base"], positions=((35, 30),)),
    ],
)


def screwed(work: Step, **stands: object) -> Plan:
    return plan_of(SCREWED, work, before(**stands), number=1, faces=("top",), size=(70, 140))  # type: ignore[arg-type]


def test_the_axis_of_a_screw_stays_at_its_place_and_its_number_beside_it() -> None:
    plan = screwed(step("a", ("undo", "screws"), ("lift", "lid")))
    assert [mark.at for mark in plan.marks] == [plan.pane.point(at) for at in SCREWED.joints["screws"].positions]
    assert all(mark.middle[0] > mark.at[0] and mark.middle[1] == mark.at[1] for mark in plan.marks)
    assert {mark.sign for mark in plan.marks} == {screw_sign(SCREWED.joints["screws"], plan.pane.across)}
    assert plan.marks[0].sign.cut != ()


def test_a_number_goes_to_the_left_where_only_there_is_room() -> None:
    device = anatomy(
        "base",
        [part("lid", (0, 0, 50, 90)), part("base")],
        [joint("s", "screws", ["lid", "base"], 2, positions=((34, 20), (27.5, 20)))],
    )
    plan = plan_of(device, step("a", ("undo", "s"), ("lift", "lid")), before(), number=1, faces=("top",), size=(50, 90))
    assert overlapping(plan) == []
    assert [(mark.is_left, mark.of) for mark in plan.marks] == [(False, None), (True, None)]


def test_lengths_stand_beside_the_marks_only_where_they_differ() -> None:
    plan = screwed(step("a", ("undo", "screws"), ("lift", "lid")))
    assert [length.words for length in plan.lengths] == ["3.5", "3.5", "5.0", "12.25"]
    for mark, length in zip(plan.marks, plan.lengths, strict=True):
        assert math.dist(mark.middle, length.middle) < 50
    assert "Lengths: 3.5 mm (1, 2), 5.0 mm (3), 12.25 mm (4)." in plan.desc
    same = anatomy("base", list(SCREWED.parts.values()), [replace(SCREWED.joints["screws"], lengths=(3.0,) * 4)])
    work = step("a", ("undo", "screws"), ("lift", "lid"))
    assert plan_of(same, work, before(), number=1, faces=("top",), size=(70, 140)).lengths == ()


def test_lengths_without_room_are_left_to_the_joint_table() -> None:
    at = tuple((12.0 + 7.2 * (index % 6), 12.0 + 7.2 * (index // 6)) for index in range(36))
    lengths = tuple(3.0 + index % 2 for index in range(36))
    device = anatomy(
        "base",
        [part("lid", (0, 0, 70, 150)), part("base")],
        [joint("s", "screws", ["lid", "base"], 36, positions=at, lengths=lengths)],
    )
    plan = plan_of(device, step("a", ("undo", "s"), ("lift", "lid")), before(), number=1, faces=("top",))
    assert len(plan.lengths) < len(plan.marks)
    assert "Lengths that stand in the joint table only: " in plan.desc


def test_the_tool_goes_in_where_the_run_of_glue_begins() -> None:
    work = step("a", ("undo", "glue"), ("lift", "lid"))
    assert screwed(work).entries == ()  # no tool, no wedge
    plan = screwed(with_tools(work, "pick"))
    (entry,) = plan.entries
    assert (entry.kind, entry.degrees) == ("pry", 0)
    assert entry.at == (plan.pane.x(10) + 3, plan.pane.y(12))
    assert "The tool goes in from the left at 1." in plan.desc


def test_every_clip_has_its_wedge_at_the_nearest_edge() -> None:
    plan = screwed(step("a", ("undo", "clips"), ("lift", "lid")))  # the joint names its tool itself
    assert [(entry.label, entry.degrees) for entry in plan.entries] == [("1", 0), ("2", 180)]
    for entry, x in zip(plan.entries, (10, 60), strict=True):
        assert abs(entry.at[0] - plan.pane.x(x)) == pytest.approx(3)


def test_a_plug_comes_off_its_socket_over_the_nearest_edge() -> None:
    plan = screwed(step("a", ("undo", "plug"), ("lift", "lid")))
    (entry,) = plan.entries
    assert (entry.kind, entry.degrees) == ("pull", 0)  # the board ends 3 mm to the right of the plug
    (mark,) = plan.marks
    assert entry.at[0] > mark.at[0] + mark.half[0] and entry.at[1] == mark.at[1]


def test_screws_and_solder_have_no_wedge() -> None:
    work = with_tools(step("a", ("undo", "screws"), ("lift", "lid")), "driver")
    assert screwed(work).entries == ()


def test_a_joint_under_something_in_place_is_dashed() -> None:
    plan = screwed(step("a", ("undo", "board-clip")))
    marks = (*plan.marks, *(plan.detail.marks if plan.detail else ()))
    assert [mark.is_hidden for mark in marks] == [True]
    assert "Hidden under something in place: 1." in plan.desc
    bare = screwed(step("a", ("undo", "board-clip")), out=["lid"])
    assert [mark.is_hidden for mark in (*bare.marks, *(bare.detail.marks if bare.detail else ()))] == [False]


def test_large_heads_are_drawn_to_scale() -> None:
    screws = joint("s", "screws", ["lid", "base"], thread="M3", head="pan", drive=Drive("hexalobular", "T10"))
    assert screw_sign(screws, 4.0).radius == pytest.approx(4.0 * 5.6 / 2)  # ISO 7045: 5.6 mm across for M3
    assert screw_sign(screws, 4.0).is_to_scale
    for scale in (0.0, 1.0, 20.0):
        assert screw_sign(screws, scale).radius == HEAD and not screw_sign(screws, scale).is_to_scale
    cut = screw_sign(screws, 4.0).cut[0]
    across = max(math.dist(one, other) for one, other in combinations(cut, 2))
    assert across == pytest.approx(4.0 * 2.8, abs=0.3)  # ISO 10664: 2.8 mm over the points of T10


def test_the_arch_says_the_face_it_ends_on() -> None:
    plan = lamp(step("a", ("turn", "underside"), ("lift", "weight")))
    assert plan.motion.turned_to is not None and plan.motion.turned_to.words == "underside up"
    long = plan_of(LAMP, step("a", ("turn", "x" * 60)), before(), number=1, faces=("top", "x" * 60), size=LAMP_SIZE)
    assert long.motion.turn is not None and long.motion.turned_to is None


def test_a_fold_turns_over_the_edge_most_staying_plugs_sit_at() -> None:
    parts = [part("lid", (0, 0, 50, 90)), part("board", (5, 60, 30, 20)), part("gone", (0, 0, 9, 9)), part("base")]
    plugs = [("one", (4, 88)), ("two", (40, 89)), ("three", (1, 40))]
    joints = [joint(name, "plug", ["lid", "board"], positions=(at,)) for name, at in plugs]
    joints += [joint(f"off-{n}", "plug", ["lid", "gone"], positions=((49, 40 + n),)) for n in range(4)]
    work = step("a", ("fold", "lid"))
    plan = plan_of(anatomy("base", parts, joints), work, before(out=["gone"]), number=1, faces=("top",), size=(50, 90))
    (fold,) = plan.motion.folds
    assert {y for _, y in fold.hinge} == {plan.pane.y(90)}


def with_tools(work: Step, *tools: str) -> Step:
    return replace(work, actions=tuple(replace(action, tools=tools) for action in work.actions))


def overlapping(plan: Plan | Detail) -> list[tuple[str, str]]:
    """Marks, lengths, wedges, small arrows and rings whose ground meets; and what of these meets a part's broad arrow.

    Marks alone may: they stay at their places, and the arrow begins on its part.
    """
    grounds = [(f"mark {mark.label}", mark.middle, mark.half) for mark in plan.marks]
    beside = [(length.words, length.middle, length.half) for length in plan.lengths]
    beside += [(f"{entry.kind} {entry.label}", entry.middle, entry.half) for entry in plan.entries]
    pairs = []
    if isinstance(plan, Plan):
        beside += [("lift", at, (13.5, 13.5)) for at in plan.motion.lifts]
        pairs += [(one, ("slide", *ground_of(arrow))) for one in beside for arrow in plan.motion.slides]
    pairs += combinations((*grounds, *beside), 2)
    return [
        (one, other)
        for (one, at, half), (other, place, size) in pairs
        if abs(at[0] - place[0]) < half[0] + size[0] - 1e-6 and abs(at[1] - place[1]) < half[1] + size[1] - 1e-6
    ]


@settings(max_examples=examples(150), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(st.data())
def test_any_content_has_a_plan_whose_marks_keep_apart_and_inside(data: st.DataObject) -> None:
    device, faces, size = data.draw(devices())
    work, stands = data.draw(steps_on(device, faces))
    if data.draw(st.booleans()):
        work = with_tools(work, "lever")
    plan = plan_of(device, work, stands, number=3, faces=faces, size=size)
    assert overlapping(plan) == []
    for one in (*plan.marks, *plan.lengths, *plan.entries):
        assert one.middle[0] - one.half[0] >= 0 and one.middle[0] + one.half[0] <= plan.width
        assert one.middle[1] - one.half[1] >= 0 and one.middle[1] + one.half[1] <= plan.height
    if plan.detail is not None:
        assert overlapping(plan.detail) == []
        for one in (*plan.detail.marks, *plan.detail.lengths, *plan.detail.entries):
            assert math.hypot(*one.middle) <= plan.detail.drawn
    drawn = plan_figure(plan, "x")
    assert drawn == plan_figure(plan_of(device, work, stands, number=3, faces=faces, size=size), "x")
    assert len(drawn) < 40_000


def test_a_part_that_is_not_on_the_device_is_still_drawn() -> None:
    device = anatomy(
        "base", [part("lid", (900, 0, 50, 90)), part("base")], [joint("s", "screws", ["lid", "base"], positions=((950, 4),))]
    )
    plan = plan_of(device, step("a", ("undo", "s"), ("lift", "lid")), before(), number=1, faces=("top",), size=(50, 90))
    assert plan.marks == () or plan.marks[0].of is not None
    assert PartId("lid") in {shape.part for shape in plan.shapes}
