"""The lengths of screws beside their marks, where the screws of a step differ. All lengths of ground in drawing units."""

from __future__ import annotations

from collections.abc import Sequence

from generator.anatomy.joints import Joint
from generator.anatomy.parts import Point
from generator.figures.plan.marks import Mark
from generator.figures.plan.placing import Fits, is_touched
from generator.figures.plan.shapes import Length, PlacedMark
from generator.languages import in_digits

_SIGN = 7.8  # width of one sign
_HALF_HEIGHT = 6.0
_BASELINE = 4.4  # from the middle of the letters down to their baseline
_DIAGONAL = 0.72


def lengths_differ(marks: Sequence[Mark]) -> bool:
    """Whether the reader has to tell the screws of a step apart by their length."""
    return len({mark.length for mark in marks if mark.length is not None}) > 1


def length_words(joint: Joint, first: int, last: int) -> str:
    """The length of screws `first` to `last` of a joint, mm; empty where it is not told or not one for all."""
    told = joint.lengths[first : last + 1]
    if not told or len(set(told)) > 1:
        return ""
    return in_digits(f"{told[0]:.1f}" if round(told[0], 1) == round(told[0], 2) else f"{told[0]:.2f}")


def lengths_beside(
    marks: Sequence[PlacedMark], fits: Fits, taken: Sequence[tuple[Point, Point]]
) -> tuple[tuple[Length, ...], tuple[str, ...]]:
    """A length beside every mark that has one, at the first free place of: below, above, right, left, then corners.

    The second value is the numbers whose lengths found no room.
    """
    grounds = [*taken, *((mark.middle, mark.half) for mark in marks)]
    placed: list[Length] = []
    lost: list[str] = []
    for mark in marks:
        if not mark.length:
            continue
        half = (len(mark.length) * _SIGN / 2 + 1, _HALF_HEIGHT)
        x, y = mark.middle
        wide, high = mark.half[0] + half[0] + 0.1, mark.half[1] + half[1] + 0.1
        near = [(x, y + high), (x, y - high), (x + wide, y), (x - wide, y)]
        near += [(x + dx * wide * _DIAGONAL, y + dy * high) for dy in (1, -1) for dx in (1, -1)]
        middle = next((at for at in near if fits(at, half) and not is_touched(at, half, grounds)), None)
        if middle is None:
            lost.append(mark.label)
            continue
        grounds.append((middle, half))
        placed.append(Length(mark.length, (middle[0], middle[1] + _BASELINE), middle, half))
    return tuple(placed), tuple(lost)
