"""What a layout is given and gives back: bare boxes in columns, without words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from generator.anatomy.parts import Point


@dataclass(frozen=True, slots=True)
class Boxes:
    """Boxes to be placed; sizes in units, first along the flow, then across it.

    columns: the column of each box, from 0; links: pairs of boxes in neighbouring columns, left one first, with a weight:
    the higher, the straighter the line should be. along and across: least gaps in units between columns and in a column.
    """

    sizes: tuple[tuple[float, float], ...]
    columns: tuple[int, ...]
    links: tuple[tuple[int, int, int], ...]
    along: float
    across: float


Positions = tuple[Point, ...]
"""The middle of each box, in units, first along the flow, then across it."""

Layout = Callable[[Boxes], Positions]
"""A pure function: the same boxes get the same places. Boxes of a column keep their gap; columns follow one another."""


_ROUNDING = 2.0  # units a program may be off


def are_apart(boxes: Boxes, places: Positions) -> bool:
    """Whether the boxes of every column keep their gap, so that lines fit between them."""
    columns: dict[int, list[tuple[float, float]]] = {}
    for (_, size), (_, across), column in zip(boxes.sizes, places, boxes.columns, strict=True):
        columns.setdefault(column, []).append((across - size / 2, across + size / 2))
    return all(
        one[1] + boxes.across <= other[0] + _ROUNDING
        for spans in columns.values()
        for one, other in pairwise(sorted(spans))
    )
