"""Drives from above: true size where a standard gives it, and a note where none does."""

from __future__ import annotations

import math

import pytest

from generator.figures.fasteners.drives import CROSS_SPAN, DriveFace, drive_face
from generator.figures.fasteners.recesses import lobes
from tests.figures.fasteners.standards import rows

HEADS = {
    "hexagon key cap screw ISO 4762": "cap",
    "hexagon key button head ISO 7380-1": "button",
    "hexagon key countersunk ISO 10642": "countersunk",
    "hexagon key set screw ISO 4026": "set",
}


def reach(face: DriveFace) -> float:
    """Twice the greatest distance of the outline from the middle."""
    return 2 * max(math.hypot(x, y) for polygon in face.outlines for x, y in polygon)


def drawn(shape: str, size: str | None, thread: str | None = None, head: str | None = None) -> DriveFace:
    face = drive_face(shape, size, thread, head)
    assert face is not None
    return face


@pytest.mark.parametrize(("size", "across"), rows("hexalobular point to point A"))  # ISO 10664
def test_hexalobular_drives_are_as_wide_as_the_standard_has_them(size: str, across: float) -> None:
    face = drawn("hexalobular", size)
    assert reach(face) == pytest.approx(across, abs=0.005) and not face.is_nominal


@pytest.mark.parametrize(("size", "wing"), rows("cross recess type H width b"))  # ISO 4757
def test_cross_recesses_grow_with_the_width_of_their_wings(size: str, wing: float) -> None:
    face = drawn("cross-recess", f"PH{size}")
    assert face.across == pytest.approx(CROSS_SPAN * wing)
    assert "nominal" in face.note


@pytest.mark.parametrize(("size", "width"), [("0", 1.9), ("1", 2.9), ("2", 4.4), ("3", 6.9)])
def test_the_nominal_width_over_the_wings_is_near_that_of_pan_heads(size: str, width: float) -> None:
    """Widths m of ISO 7045 for M2, M3 (3.0 and 2.7 at M2.5), M4 and M6: memory."""
    assert drawn("cross-recess", f"PH{size}").across == pytest.approx(width, rel=0.06)


@pytest.mark.parametrize(
    ("head", "thread", "flats"), [(head, *row) for quantity, head in HEADS.items() for row in rows(quantity)]
)
def test_a_hexagon_socket_without_a_size_gets_the_key_of_its_head(head: str, thread: str, flats: float) -> None:
    """ISO 4762, ISO 7380-1, ISO 10642, ISO 4026: the head decides, not the thread alone."""
    face = drawn("hexagon-socket", None, thread, head)
    assert face.across == flats and face.size == f"{flats:g}"


def test_a_hexagon_is_as_wide_across_flats_as_it_says() -> None:
    (corners,) = drawn("hexagon-socket", "SW 2.5 mm").outlines
    assert reach(drawn("hexagon-socket", "2.5")) == pytest.approx(2.5 / math.cos(math.pi / 6))
    assert max(y for _, y in corners) * 2 == pytest.approx(2.5)


@pytest.mark.parametrize(("thread", "width"), rows("slot width nominal"))  # ISO 1207, ISO 1580, ISO 2009
def test_a_slot_is_as_wide_as_its_thread_says(thread: str, width: float) -> None:
    (corners,) = drawn("slotted", None, thread).outlines
    assert 2 * max(y for _, y in corners) == pytest.approx(width)


@pytest.mark.parametrize(("thread", "number"), rows("cross recess number pan head ISO 7045"))  # ISO 7045
def test_a_cross_recess_without_a_size_gets_the_usual_number(thread: str, number: float) -> None:
    assert drawn("cross-recess", None, thread).size == f"PH{number:g}"


@pytest.mark.parametrize(("thread", "number"), rows("hexalobular number pan head ISO 14583"))  # ISO 14583
def test_a_hexalobular_drive_without_a_size_gets_the_usual_number(thread: str, number: float) -> None:
    assert drawn("hexalobular", None, thread).size == f"T{number:g}"


@pytest.mark.parametrize("shape", ["five-lobe", "three-lobe", "two-hole", "one-way"])
def test_shapes_without_a_public_standard_say_so(shape: str) -> None:
    face = drawn(shape, "0.8 mm")
    assert face.note == "no public standard, drawn by shape and measured size"
    assert reach(face) == pytest.approx(0.8, rel=0.04)
    assert drawn(shape, None).note == "no public standard, drawn by shape only"


@pytest.mark.parametrize(
    ("shape", "turns"), [("hexalobular", 6), ("five-lobe", 5), ("three-lobe", 3), ("cross-recess", 4), ("square", 4)]
)
def test_a_drive_looks_the_same_after_each_of_its_turns(shape: str, turns: int) -> None:
    (outline,) = drawn(shape, None).outlines
    turn = 2 * math.pi / turns
    turned = [(x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn)) for x, y in outline]
    for point in turned:
        assert min(math.dist(point, other) for other in outline) < 1e-9


@pytest.mark.parametrize("count", [5, 6])
def test_lobes_and_valleys_meet_without_a_jump(count: int) -> None:
    points = lobes(count, 10.0, 7.2)
    steps = [math.dist(a, b) for a, b in zip(points, (*points[1:], points[0]), strict=True)]
    assert max(steps) < 2.0
    assert max(math.hypot(*p) for p in points) == pytest.approx(5.0, abs=0.02)
    assert min(math.hypot(*p) for p in points) == pytest.approx(3.6, abs=0.02)


def test_a_pin_in_a_hexalobular_recess_and_the_ribs_of_type_z_are_drawn() -> None:
    assert drawn("hexalobular", "T10H").posts and not drawn("hexalobular", "T10").posts
    assert len(drawn("cross-recess", "PZ1").lines) == 4 and not drawn("cross-recess", "PH1").lines


def test_a_shape_nobody_knows_is_not_drawn() -> None:
    assert drive_face("heart", "2") is None
