"""The reach plot: marks where the steps say, none over another, and words that say the same."""

from __future__ import annotations

import re
from itertools import pairwise
from xml.etree import ElementTree

from hypothesis import given
from hypothesis import strategies as st

from generator.figures.reach.drawing import reach_figure
from generator.figures.reach.geometry import MARGIN, NAME_SIGNS, TICKS, WIDTH, Reached, reach_plot

KINDS = ("Battery", "Display", "Charging port")
STEPS = st.one_of(st.none(), st.integers(0, 400))
DEVICES = st.lists(st.builds(Reached, st.text(min_size=1, max_size=80), st.tuples(STEPS, STEPS, STEPS)), max_size=12)


def test_more_steps_stand_further_right_on_one_scale() -> None:
    plot = reach_plot(KINDS, [Reached("A", (3, 5, None)), Reached("B", (10, 5, 0))])
    first, second = plot.lines
    assert [mark.kind for mark in first.marks] == [0, 1]
    x = {(line.name, mark.kind): mark.x for line in plot.lines for mark in line.marks}
    assert x["B", 2] == MARGIN < x["A", 0] < x["A", 1] == x["B", 1] < x["B", 0] <= WIDTH - MARGIN
    assert dict(plot.ticks)[10] == x["B", 0]
    assert first.y < second.name_y < second.y


@given(DEVICES)
def test_no_mark_hides_another_and_all_stand_within(devices: list[Reached]) -> None:
    plot = reach_plot(KINDS, devices)
    marks = [(mark.x, mark.y) for line in plot.lines for mark in line.marks]
    assert len(marks) == len(set(marks)) == sum(steps is not None for one in devices for steps in one.steps)
    assert all(MARGIN <= x <= WIDTH - MARGIN + 1e-6 and plot.top < y < plot.height for x, y in marks)
    for line in plot.lines:
        assert all(abs(a.y - b.y) >= 15 for a in line.marks for b in line.marks if a is not b and a.x == b.x)
        assert len(line.name) <= NAME_SIGNS
    numbers = [number for number, _ in plot.ticks]
    assert 2 <= len(numbers) <= TICKS + 1 and numbers[0] == 0
    assert len({later - earlier for earlier, later in pairwise(numbers)}) == 1
    ElementTree.fromstring(reach_figure(plot, "reach"))


def test_the_words_tell_the_least_and_the_most() -> None:
    plot = reach_plot(KINDS, [Reached("A", (3, 5, None)), Reached("B", (10, 5, None))])
    assert plot.desc == "Battery: from 3 (A) to 10 (B). Display: 5."
    assert reach_plot(KINDS, [Reached("A", (None, None, None))]).desc == "No way is known."


def test_parts_differ_by_shape_and_the_key_says_which() -> None:
    drawn = reach_figure(reach_plot(KINDS, [Reached("A", (1, 2, 3))]), "reach")
    shapes = re.findall(r'class="reach__mark[^"]*" transform="[^"]*" d="([^"]*)"', drawn)
    assert len(shapes) == 6 and len(set(shapes)) == 3 and shapes[:3] == shapes[3:]
    assert all(kind in drawn for kind in KINDS)
