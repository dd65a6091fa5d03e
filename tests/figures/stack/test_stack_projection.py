"""The projection is isometric: angles, one scale on three axes, the known ratio; and the lines are 2 to 1."""

from __future__ import annotations

import csv
import math
import re
from itertools import pairwise
from pathlib import Path

import pytest

from generator.anatomy.parts import Box
from generator.figures.stack.outlines import Spot, side, straight, top
from generator.figures.stack.projection import ARC, TRUE_SCALE, projected

ROOT = Path(__file__).parents[3]


def told(quantity: str) -> float:
    with (ROOT / "tests/data/trade/isometric.csv").open(encoding="utf-8") as rows:
        return next(float(row["value"]) for row in csv.DictReader(rows) if row["quantity"] == quantity)


def test_two_axes_stand_at_the_angle_of_the_standard_and_the_third_upright() -> None:
    x, y, depth = projected(1, 0, 0), projected(0, 1, 0), projected(0, 0, 1)
    angle = told("isometric axis angle to horizontal")
    assert math.degrees(math.atan2(x[1], x[0])) == pytest.approx(angle)
    assert math.degrees(math.atan2(y[1], -y[0])) == pytest.approx(angle)
    assert depth == (0.0, 1.0)


def test_lengths_along_all_three_axes_are_drawn_in_full() -> None:
    for axis in ((1, 0, 0), (0, 1, 0), (0, 0, 1)):
        assert math.hypot(*projected(*axis)) == pytest.approx(1.0)


def test_the_drawing_is_larger_than_the_true_projection_by_the_known_ratio() -> None:
    # The true projection looks along the diagonal of a cube, which foreshortens every edge to sqrt(2/3).
    view = (1 / math.sqrt(3),) * 3
    seen = math.sqrt(1 - view[0] ** 2)
    assert seen == pytest.approx(told("isometric true foreshortening"), abs=1e-6)
    assert math.hypot(*projected(1, 0, 0)) / seen == pytest.approx(TRUE_SCALE)
    assert pytest.approx(told("isometric drawing scale as drawn"), abs=1e-6) == TRUE_SCALE


def test_a_circle_becomes_the_upright_ellipse_that_roundings_are_drawn_with() -> None:
    for degrees in range(0, 360, 7):
        u, v = projected(math.cos(math.radians(degrees)), math.sin(math.radians(degrees)), 0)
        assert (u / ARC[0]) ** 2 + (v / ARC[1]) ** 2 == pytest.approx(1.0)


def test_the_points_of_a_rounding_lie_on_its_circle() -> None:
    corner = 3.0
    for x, y in straight(top(Box(0, 0, 10, 20), corner)):
        near = min((x, 10 - x), key=abs), min((y, 20 - y), key=abs)
        if near[0] < corner and near[1] < corner:
            assert math.hypot(corner - near[0], corner - near[1]) == pytest.approx(corner)


def test_a_silhouette_is_the_top_and_the_bottom_face_joined_at_its_outermost_points() -> None:
    ring = side(Box(0, 0, 10, 20), 3.0, 2.0)
    across = [projected(spot.x, spot.y, spot.down)[0] for spot in ring]
    upright = [
        (one, other)
        for one, other in pairwise([*ring, ring[0]])
        if (one.x, one.y) == (other.x, other.y) and one.down != other.down
    ]
    # The closing arc ends where the ring began, one thickness lower.
    assert len(upright) == 2
    ends = {round(projected(one.x, one.y, 0)[0], 6) for one, _ in upright}
    assert ends == {round(min(across), 6), round(max(across), 6)}
    assert {spot.down for spot in ring} == {0.0, 2.0}
    assert isinstance(ring[0], Spot)


def test_wide_lines_are_twice_as_wide_as_narrow_ones() -> None:
    css = (ROOT / "themes/bench/components/stack/stack.css").read_text("utf-8")

    def width(selector: str) -> float:
        found = re.search(rf"^{re.escape(selector)} {{[^}}]*stroke-width: ([\d.]+)", css, re.MULTILINE)
        assert found is not None, selector
        return float(found.group(1))

    assert width(".stack__side") / width(".stack__leader") >= told("line width ratio wide to narrow")
    assert width(".stack__side") / width(".stack__chain") >= told("line width ratio wide to narrow")
    assert width(".stack--narrow .stack__side") / width(".stack--narrow .stack__leader") >= 2
