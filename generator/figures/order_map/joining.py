"""Dashed lines that arrive at one point share their last piece: one draws it, or dashes would fill the gaps of others."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from generator.anatomy.parts import Point
from generator.figures.order_map.shapes import BEND, Line


def joined(lines: Sequence[Line]) -> tuple[Line, ...]:
    """The lines in the same order, the dashed ones shortened to where they meet one that is drawn to the shared end.

    A line of the route is drawn to its end before others, a long last piece before a short one.
    """
    result = list(lines)
    ends: dict[Point, list[int]] = {}
    for number, line in enumerate(lines):
        if line.is_either:
            ends.setdefault(line.corners[-1], []).append(number)
    for end, numbers in ends.items():
        covered = 0.0
        for number in sorted(numbers, key=lambda number: (not lines[number].is_chosen, -_last(lines[number]), number)):
            line, last = lines[number], _last(lines[number])
            if covered:
                # It bends into the other line and stops there, or runs on until that one comes in.
                left = last - min(BEND, last) if last <= covered else covered
                result[number] = replace(line, drawn=(*line.corners[:-1], _short_of(end, line.corners[-2], left)))
            covered = max(covered, last)
    return tuple(result)


def _last(line: Line) -> float:
    return math.dist(line.corners[-2], line.corners[-1])


def _short_of(end: Point, before: Point, left: float) -> Point:
    """The point on the last piece that is `left` units before its end."""
    share = left / math.dist(before, end)
    return (end[0] + (before[0] - end[0]) * share, end[1] + (before[1] - end[1]) * share)
