"""Boundary labels: no leader meets another leader or a label, no two labels overlap; shown by intersecting segments."""

from __future__ import annotations

import itertools
import random
from collections.abc import Sequence
from fractions import Fraction

import numpy
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from generator.figures.stack.arrangement import arrange
from generator.figures.stack.captions import LETTERINGS
from generator.figures.stack.geometry import SHEET_LIMIT, stack_from
from generator.figures.stack.leaders import SIDE_LIMIT, Edges, Wish, led, meet, spaced
from generator.figures.stack.shapes import Label, Stack, Variant
from generator.orders.guide import Guide
from tests.figures.stack.demo import demo
from tests.figures.stack.devices import random_guide

A4_POINTS = ((210 - 32) / 25.4 * 72, 250 / 25.4 * 72)
PORTIONS = 10
DEVICES = 100  # in each portion


def line(label: Label) -> shapely.LineString:
    return shapely.LineString(dict.fromkeys((label.port, label.knee, label.anchor)))


def assert_clear(stack: Stack) -> None:
    """Every pair of leaders, of labels, and every leader with every other's label."""
    labels = stack.labels
    lines = numpy.array([line(label) for label in labels])
    boxes = numpy.array([shapely.box(*label.box) for label in labels])
    one, two = numpy.triu_indices(len(labels), 1)
    assert not shapely.intersects(lines[one], lines[two]).any()
    assert not shapely.intersects(boxes[one], boxes[two]).any()
    assert not shapely.intersects(lines[one], boxes[two]).any()
    assert not shapely.intersects(boxes[one], lines[two]).any()
    left, top = stack.corner
    for x0, y0, x1, y1 in (label.box for label in labels):
        assert left <= x0 < x1 <= left + stack.width
        assert top <= y0 < y1 <= top + stack.height


def assert_legible(stack: Stack) -> None:
    """6 pt on A4, 10 px on a screen of 360 px for the form that is shown there."""
    letters = LETTERINGS[stack.variant]
    least = min(size for size in (letters.number, letters.name, letters.note) if size)
    on_paper = min(A4_POINTS[0] / stack.width, A4_POINTS[1] / stack.height)
    if not stack.variant.is_of_step:
        assert least * on_paper >= 6.0 or stack.variant is Variant.NARROW
    if stack.variant in (Variant.NARROW, Variant.STEP_NARROW):
        assert least * 320 / stack.width >= 10


def assert_drawn_well(device: Guide) -> None:
    arranged = arrange(device, device.order)
    assert arranged is not None
    for narrow in (False, True):
        stack = stack_from(arranged, narrow=narrow)
        assert_clear(stack)
        assert_legible(stack)
        sides = [sum(label.is_left == side for label in stack.labels) for side in (True, False)]
        if stack.variant is Variant.FULL:
            assert max(sides) <= SIDE_LIMIT
            assert stack.height <= SHEET_LIMIT
        numbered = {label.part for label in stack.labels if label.number}
        assert numbered == {part for part in arranged.leaving.numbers if part not in stack.undrawn}


def test_the_demo_is_labelled_clearly() -> None:
    assert_drawn_well(demo())
    arranged = arrange(demo(), demo().order)
    assert arranged is not None
    assert stack_from(arranged).variant is Variant.FULL


@pytest.mark.parametrize("now", range(18))
def test_every_step_of_the_demo_is_labelled_clearly(now: int) -> None:
    arranged = arrange(demo(), demo().order)
    assert arranged is not None
    for narrow in (False, True):
        stack = stack_from(arranged, now=now, narrow=narrow)
        assert_clear(stack)
        assert_legible(stack)


@pytest.mark.parametrize("portion", range(PORTIONS))
def test_a_thousand_devices_of_five_to_eighty_parts_are_labelled_clearly(portion: int) -> None:
    for seed in range(portion * DEVICES, (portion + 1) * DEVICES):
        assert_drawn_well(random_guide(seed, 5 + round(75 * random.Random(seed).random() ** 2)))


def places(chance: random.Random, count: int) -> list[tuple[float, float]]:
    """Places in tenths of a unit, crowded, and often on common lines."""
    step = chance.choice((0.1, 1.0, 20.0))
    wide, high = chance.choice(((600, 1300), (60, 900), (600, 40)))
    found = {
        (round(chance.randrange(round(wide / step)) * step, 1), round(chance.randrange(round(high / step)) * step, 1))
        for _ in range(count)
    }
    return sorted(found)


def test_leaders_never_meet_however_crowded_the_anchors() -> None:
    for seed in range(1500):
        chance = random.Random(seed)
        anchors = places(chance, chance.randint(1, 40))
        chance.shuffle(anchors)
        wishes = []
        for number in range(0, len(anchors) - 1, 2):
            left, right = sorted(anchors[number : number + 2])
            wishes.append(Wish(f"p{number}", left, right, chance.choice((20.0, 40.0, 77.0))))  # type: ignore[arg-type]
        for one_side in (False, True):
            placed = led(wishes, Edges(-12.0, 612.0), [(300.0, 200.0)], one_side=one_side)
            assert {one.part for one in placed} == {wish.part for wish in wishes}
            assert not (one_side and any(one.is_left for one in placed))
            ends = [((-12.0 if one.is_left else 612.0, one.port), one.anchor) for one in placed]
            assert not any(exactly_meet(*a, *b) for a, b in itertools.combinations(ends, 2)), seed
            high = {wish.part: wish.height for wish in wishes}
            for is_left in (True, False):
                side = [one for one in placed if one.is_left == is_left]
                for upper, lower in itertools.pairwise(side):
                    assert lower.port - upper.port >= high[upper.part] - 0.11


def exactly_meet(*ends: tuple[float, float]) -> bool:
    """Whether two stretches share a point, in fractions: solve for it, or compare spans if they are parallel."""
    a, b, c, d = (tuple(Fraction(round(value * 10)) for value in end) for end in ends)
    run, other, between = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1]), (c[0] - a[0], c[1] - a[1])
    across = run[0] * other[1] - run[1] * other[0]
    if across:
        s = (between[0] * other[1] - between[1] * other[0]) / across
        t = (between[0] * run[1] - between[1] * run[0]) / across
        return 0 <= s <= 1 and 0 <= t <= 1
    if any(between[0] * way[1] != between[1] * way[0] for way in (run, other)):
        return False
    return all(max(min(a[i], b[i]), min(c[i], d[i])) <= min(max(a[i], b[i]), max(c[i], d[i])) for i in (0, 1))


_tenths = st.integers(-40, 40).map(lambda value: value / 10)
_ends = st.tuples(_tenths, _tenths)


@given(st.tuples(_ends, _ends, _ends, _ends))
def test_meeting_is_exact(ends: tuple[tuple[float, float], ...]) -> None:
    assert meet(*ends) == exactly_meet(*ends)


@given(st.lists(st.tuples(st.integers(0, 200), st.integers(1, 40)), min_size=1, max_size=7))
def test_heights_are_the_least_squares_that_keep_the_room(labels: Sequence[tuple[int, int]]) -> None:
    wanted, heights = [float(want) for want, _ in labels], [float(height) for _, height in labels]
    found = spaced(wanted, heights)
    for (one, other), height in zip(itertools.pairwise(found), heights, strict=False):
        assert other - one >= height - 0.11

    def cost(at: Sequence[float]) -> float:
        return sum((y - want) ** 2 for y, want in zip(at, wanted, strict=True))

    # Moving any run of neighbours a little, where room allows, never helps (the problem is convex).
    for first in range(len(found)):
        for last in range(first, len(found)):
            for by in (-0.5, 0.5):
                moved = [y + by if first <= index <= last else y for index, y in enumerate(found)]
                has_room = all(b - a >= h - 0.11 for (a, b), h in zip(itertools.pairwise(moved), heights, strict=False))
                assert not has_room or cost(moved) >= cost(found) - 0.6 * len(found)


def test_labels_stay_by_their_anchors_where_there_is_room() -> None:
    wishes = [Wish(f"p{n}", (100.0, 50.0 * n), (500.0, 50.0 * n), 40.0) for n in range(8)]  # type: ignore[arg-type]
    placed = led(wishes, Edges(0.0, 600.0), [])
    assert all(one.port == one.anchor[1] for one in placed)
    assert sum(one.is_left for one in placed) == 4


def test_a_leader_rather_passes_beside_a_screw() -> None:
    wish = Wish("p", (290.0, 100.0), (310.0, 100.0), 40.0)  # type: ignore[arg-type]
    assert not led([wish], Edges(0.0, 600.0), [(150.0, 100.0)])[0].is_left
    assert led([wish], Edges(0.0, 600.0), [(450.0, 100.0)])[0].is_left
