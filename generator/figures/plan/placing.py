"""Giving every mark a place of its own. All lengths in drawing units."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from generator.anatomy.joints import JointKind
from generator.anatomy.parts import Point
from generator.figures.glyphs import PLAIN_SIGN, ScrewSign
from generator.figures.plan.shapes import PlacedMark

_STEP = 5.0  # how far the search goes out at a time
_REACH = 150.0  # how far a mark may be led away from its place
_TOLD = 4.0  # a shift the eye does not need a leader for


@dataclass(frozen=True, slots=True)
class Wanted:
    """A mark and where it belongs; half: half its width and height; aside: from its place to the middle of its ground.

    The rest as in `PlacedMark`.
    """

    kind: JointKind
    label: str
    at: Point
    half: Point
    aside: float = 0.0
    sign: ScrewSign = PLAIN_SIGN
    is_hidden: bool = False
    length: str = ""

    @property
    def middle(self) -> Point:
        return self.at[0] + self.aside, self.at[1]


Fits = Callable[[Point, Point], bool]


def place(
    wanted: Iterable[Wanted], fits: Fits, taken: Sequence[tuple[Point, Point]] = (), grown: float = 1.0
) -> tuple[tuple[PlacedMark, ...], tuple[Wanted, ...]]:
    """Marks where they belong if there is room, else at the nearest free place, in the order given.

    A mark with its number beside it has it on the right, or on the left if there is room only there.

    fits: whether a mark of that middle and half size lies within its field. taken: ground already used, as middle and half
    size. grown: how much larger marks are drawn here. The second value is what found no room.
    """
    grounds = list(taken)
    placed: list[PlacedMark] = []
    homeless: list[Wanted] = []
    for mark in wanted:
        half = (mark.half[0] * grown, mark.half[1] * grown)
        aside = mark.aside * grown
        x, y = mark.at
        spot = free_place((x + aside, y), half, fits, grounds)
        is_left = False
        if aside and (spot is None or math.dist(spot, (x + aside, y)) > _TOLD):
            other = free_place((x - aside, y), half, fits, grounds)
            is_left = other is not None and math.dist(other, (x - aside, y)) <= _TOLD
            spot = other if is_left else spot
        if spot is None:
            homeless.append(mark)
            continue
        grounds.append((spot, half))
        at = (spot[0] + (aside if is_left else -aside), spot[1])
        of = mark.at if math.dist(at, mark.at) > _TOLD else None
        placed.append(
            PlacedMark(mark.kind, mark.label, at, spot, half, of, grown, mark.sign, is_left, mark.is_hidden, mark.length)
        )
    return tuple(placed), tuple(homeless)


def free_place(at: Point, half: Point, fits: Fits, taken: Iterable[tuple[Point, Point]]) -> Point | None:
    """The nearest place around `at` that fits and touches nothing taken; None if there is none within reach."""
    near = [
        (middle, size)
        for middle, size in taken
        if abs(middle[0] - at[0]) < size[0] + half[0] + _REACH and abs(middle[1] - at[1]) < size[1] + half[1] + _REACH
    ]
    return next((spot for spot in _around(at) if fits(spot, half) and not is_touched(spot, half, near)), None)


def crowded(wanted: Sequence[Wanted]) -> bool:
    """Whether marks would touch each other where they belong."""
    grounds: list[tuple[Point, Point]] = []
    for mark in wanted:
        if is_touched(mark.middle, mark.half, grounds):
            return True
        grounds.append((mark.middle, mark.half))
    return False


def is_touched(at: Point, half: Point, taken: Iterable[tuple[Point, Point]]) -> bool:
    """Whether ground of that middle and half size meets any that is taken."""
    return any(
        abs(at[0] - middle[0]) < half[0] + size[0] and abs(at[1] - middle[1]) < half[1] + size[1] for middle, size in taken
    )


def _around(at: Point) -> Iterator[Point]:
    """Rings outward; each begins to the right and goes round in even steps."""
    yield at
    for ring in range(1, int(_REACH / _STEP) + 1):
        turns = 16 if ring > 3 else 8
        for turn in range(turns):
            angle = 2 * math.pi * turn / turns
            yield (at[0] + ring * _STEP * math.cos(angle), at[1] + ring * _STEP * math.sin(angle))
