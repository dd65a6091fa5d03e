"""The sum and its class, from points; refuses points that the act's tables do not have."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

from generator.indices.phones_2023_1669.tables import (
    DEPTH_POINTS,
    FASTENER_POINTS,
    LADDER,
    PARTS,
    PRODUCT_POINTS,
    TOOL_POINTS,
    WEIGHTS,
    PriorityPart,
)
from generator.indices.sums import Term, reachable
from generator.indices.workings import Cell, Points

HUNDREDTH = Decimal("0.01")
ROUNDING = {"half-up": ROUND_HALF_UP, "half-even": ROUND_HALF_EVEN}

ADMISSIBLE = {"SDD": DEPTH_POINTS, "SF": FASTENER_POINTS, "ST": TOOL_POINTS, **PRODUCT_POINTS}


class NotInTheTables(ValueError):
    """Points that no row of the act gives; never arises from a guide, whose points come from the tables."""


def priority_parts(is_foldable: bool) -> tuple[PriorityPart, ...]:
    """The priority parts that carry weight; chosen once for the device, for depth, fasteners and tools alike."""
    return tuple(part for part in PARTS if is_foldable or part.rigid is not None)


def weight_of(part: PriorityPart, is_foldable: bool) -> Decimal:
    """The part's weight. KeyError for the folding mechanism of a rigid device."""
    weight = part.foldable if is_foldable else part.rigid
    if weight is None:
        raise KeyError(part.code)
    return weight


def subscore(criterion: str, points: Mapping[str, int]) -> Decimal:
    """Depth, fasteners or tools from one whole number of points a part, by code; foldable if the folding mechanism is in it.

    NotInTheTables for points the table of the criterion does not have, for a part missing or one too many.
    """
    is_foldable = "FM" in points
    parts = priority_parts(is_foldable)
    if set(points) != {part.code for part in parts}:
        raise NotInTheTables(f"{criterion}: points for {', '.join(sorted(points))}")
    for code, value in points.items():
        check_points(criterion, code, value)
    return sum((weight_of(part, is_foldable) * points[part.code] for part in parts), Decimal(0))


def total(points: Mapping[str, Mapping[str, int]], product: Mapping[str, int]) -> Decimal:
    """R from the points of SDD, SF and ST by part and of SSP, SSU and SRI; exact.

    NotInTheTables also where the folding mechanism is given in one criterion and not in all three.
    """
    if len({"FM" in of_parts for of_parts in points.values()}) != 1 or set(points) != {"SDD", "SF", "ST"}:
        raise NotInTheTables("the folding mechanism has to be in depth, fasteners and tools alike")
    if set(product) != set(PRODUCT_POINTS):
        raise NotInTheTables(f"points for {', '.join(sorted(product))}")
    for criterion, value in product.items():
        check_points(criterion, criterion, value)
    scores = {criterion: subscore(criterion, of_parts) for criterion, of_parts in points.items()}
    return weighted({**scores, **{criterion: Decimal(value) for criterion, value in product.items()}})


def weighted(scores: Mapping[str, Decimal]) -> Decimal:
    """R from the six scores; exact. NotInTheTables for one missing or not from 1 to 5."""
    if set(scores) != set(WEIGHTS):
        raise NotInTheTables(f"scores for {', '.join(sorted(scores))}")
    if not all(1 <= score <= 5 for score in scores.values()):
        raise NotInTheTables("a score lies from 1 to 5")
    return sum((WEIGHTS[criterion] * score for criterion, score in scores.items()), Decimal(0))


def check_points(criterion: str, code: str, points: Points) -> None:
    if isinstance(points, bool) or points not in ADMISSIBLE[criterion]:
        raise NotInTheTables(f"{criterion} {code}: {points} points")


def two_decimals(value: Decimal) -> Decimal:
    """To be printed: two decimals, a half upwards."""
    return value.quantize(HUNDREDTH, ROUND_HALF_UP)


def class_of(value: Decimal, rounding: str = "exact") -> str:
    """The letter of the class. rounding: exact, half-up or half-even, to two decimals before the bounds are looked at.

    >>> class_of(Decimal("3.9975")), class_of(Decimal("3.9975"), "half-up")
    ('B', 'A')
    """
    compared = value if rounding == "exact" else value.quantize(HUNDREDTH, ROUNDING[rounding])
    return next((rung.letter for rung in LADDER if compared >= rung.bound), LADDER[-1].letter)


def classes_of(values: Sequence[Decimal] | frozenset[Decimal], rounding: str = "exact") -> tuple[str, ...]:
    """The classes of all values, best first, each once."""
    return tuple(sorted({class_of(value, rounding) for value in values}))


def terms_of(cells: Sequence[Cell]) -> list[Term]:
    """What the cells add to R; a cell without a share in it adds nothing."""
    return [Term(cell.share, cell.ceiling, cell.facts) for cell in cells if cell.share is not None]


def reachable_classes(cells: Sequence[Cell], rounding: str) -> tuple[tuple[str, ...], tuple[str, ...], bool]:
    """The classes of the values R can take; better ones that only rounding gives; whether all in between was tried."""
    reach = reachable(terms_of(cells))
    classes = classes_of(reach.values, rounding)
    rounded = classes_of(reach.values, "half-up") if rounding == "exact" else ()
    return classes, tuple(letter for letter in rounded if letter not in classes), reach.is_exact
