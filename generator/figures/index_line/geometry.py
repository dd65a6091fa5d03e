"""Where scores stand on a line from the least to the most, and where the classes begin on it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from generator.languages import in_digits

SCORE_SIZE = (200.0, 20.0)
SCORE_MARGIN = 9.0
CLASS_SIZE = (480.0, 116.0)
CLASS_MARGIN = 22.0
LABEL_ROOM = 46.0
"""Between the middles of two labels of bounds at least; of two nearer ones the second is left out."""
LETTER_ROOM = 20.0
VALUE_SIZE = 19.0
_MONO = 0.6  # width of a sign as a share of its size


@dataclass(frozen=True, slots=True)
class Span:
    """From `low` to `high` along the line, in units; both the same for a score that is known."""

    low: float
    high: float

    @property
    def is_point(self) -> bool:
        return self.low == self.high


@dataclass(frozen=True, slots=True)
class ScoreLine:
    """ticks: the whole numbers of the scale, from its least to its most."""

    ticks: tuple[float, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Bound:
    """A mark on the class line; label is empty where it would run into the one before it."""

    x: float
    label: str


@dataclass(frozen=True, slots=True)
class Letter:
    """A class in the middle of its stretch. is_reached: whether the sum can lie in it."""

    x: float
    letter: str
    is_reached: bool


@dataclass(frozen=True, slots=True)
class ClassLine:
    """bounds: the ends of the scale and where classes begin, from the left; value: the sum in words, and where it stands."""

    bounds: tuple[Bound, ...]
    letters: tuple[Letter, ...]
    span: Span
    value: str
    value_x: float


def score_line(low: Decimal, high: Decimal, scale: tuple[int, int]) -> ScoreLine:
    """The line of one criterion. scale: the least and the most a score can be; what lies outside is drawn at the end."""
    place = _placing(scale, SCORE_SIZE[0], SCORE_MARGIN)
    return ScoreLine(tuple(place(Decimal(tick)) for tick in range(scale[0], scale[1] + 1)), Span(place(low), place(high)))


def class_line(
    scale: tuple[int, int],
    ladder: Sequence[tuple[str, Decimal]],
    reached: Sequence[str],
    low: Decimal,
    high: Decimal,
    value: str,
) -> ClassLine:
    """The line of the sum. ladder: each class with where it begins, in any order; value: the sum as it is written."""
    place = _placing(scale, CLASS_SIZE[0], CLASS_MARGIN)
    rising = sorted(((max(bound, Decimal(scale[0])), letter) for letter, bound in ladder), key=lambda rung: rung[0])
    ends = [bound for bound, _ in rising[1:]] + [Decimal(scale[1])]
    letters = [
        Letter((place(bound) + place(end)) / 2, letter, letter in reached)
        for (bound, letter), end in zip(rising, ends, strict=True)
        if place(end) - place(bound) >= LETTER_ROOM
    ]
    marks = sorted({Decimal(scale[0]), Decimal(scale[1]), *(bound for bound, _ in rising)})
    span = Span(place(low), place(high))
    half = len(value) * VALUE_SIZE * _MONO / 2
    middle = min(max((span.low + span.high) / 2, half + 2), CLASS_SIZE[0] - half - 2)
    return ClassLine(tuple(_labelled(marks, scale, place)), tuple(letters), span, value, middle)


def _placing(scale: tuple[int, int], width: float, margin: float) -> Callable[[Decimal], float]:
    """From a score to its place on a line of this width."""
    least, most = Decimal(scale[0]), Decimal(scale[1])

    def place(score: Decimal) -> float:
        inside = min(max(score, least), most)
        return margin + float((inside - least) / (most - least)) * (width - 2 * margin)

    return place


def _labelled(marks: Sequence[Decimal], scale: tuple[int, int], place: Callable[[Decimal], float]) -> list[Bound]:
    """The ends always have their label; a bound only where there is room on both sides."""
    found = []
    taken = place(marks[0])
    last = place(marks[-1])
    for mark in marks:
        x = place(mark)
        is_end = mark in scale
        has_room = is_end or (x - taken >= LABEL_ROOM and last - x >= LABEL_ROOM)
        if has_room:
            taken = x
        label = in_digits(f"{mark.normalize():f}" if is_end else f"{mark:.2f}")
        found.append(Bound(x, label if has_room else ""))
    return found
