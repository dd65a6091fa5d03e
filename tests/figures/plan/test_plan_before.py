"""How the device stands before each step, and from which face a step is drawn."""

from __future__ import annotations

from generator.figures.plan.before import before_each, shown_face
from tests.figures.plan.devices import before, step

FACES = ("top", "underside")


def test_what_was_done_stands_before_the_next_step() -> None:
    steps = [
        step("a", ("lift", "shade"), ("fold", "board")),
        step("b", ("turn", "underside"), ("lift", "board")),
        step("c", ("fold", "shade")),
        step("d"),
    ]
    assert before_each(steps, FACES) == (
        before("top"),
        before("top", ["shade"], ["board"]),
        before("underside", ["shade", "board"]),
        before("underside", ["shade", "board"]),
    )


def test_a_step_is_drawn_from_the_face_its_part_is_moved_on() -> None:
    assert shown_face(step("a", ("turn", "underside"), ("lift", "weight")), before()) == "underside"
    assert shown_face(step("a", ("lift", "shade"), ("turn", "underside")), before()) == "top"
    assert shown_face(step("a", ("undo", "x"), ("turn", "underside"), ("lift", "weight")), before()) == "underside"
    assert shown_face(step("a", ("undo", "x"), ("turn", "underside")), before()) == "top"
    assert shown_face(step("a", ("turn", "underside")), before()) == "underside"
