"""Scores in words: ranges with their dash, points, classes, and how well a rule is known."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from generator.indices.phones_2023_1669.formula import two_decimals
from generator.indices.workings import Cell, Index, Points
from generator.pages.typography import DASH, NO_BREAK, listed

TAGS = {
    "verified": "the act was read",
    "secondary": "from another public text",
    "memory": "recalled only",
    "recommended": "our reading",
}
"""How well a rule is known, by its tag."""


def span_words(low: Decimal, high: Decimal, places: int) -> str:
    """`3.00`, or `2.80–3.50` for a range.

    >>> span_words(Decimal("2.8"), Decimal("3.5"), 2).replace(DASH, "–")
    '2.80–3.50'
    """
    return f"{low:.{places}f}" if low == high else f"{low:.{places}f}{DASH}{high:.{places}f}"


def sum_words(index: Index) -> str:
    """The sum of an index in two decimals, `at most` where a part is outside the scale; empty where none can be given."""
    if index.low is None or index.high is None:
        return ""
    words = span_words(two_decimals(index.low), two_decimals(index.high), 2)
    return f"at most {words}" if index.outside else words


def classes_words(index: Index) -> str:
    """`class C or D`, with what stands in the way of a plain answer."""
    words = f"class{NO_BREAK}{listed(index.classes, 'or')}"
    if index.within_rounding_of:
        words += f", within rounding of {listed(index.within_rounding_of, 'or')}"
    if not index.are_classes_exact:
        words += " (all between the ends; too much is unknown to try each)"
    return words


def points_words(low: Points, high: Points) -> str:
    """`1 point`, `3 to 5 points`."""
    return f"{low}{NO_BREAK}{'point' if low == 1 else 'points'}" if low == high else f"{low} to {high} points"


def cell_words(cell: Cell) -> str:
    """What a cell comes to: steps where it counts them, and points."""
    steps = listed([str(count) for count in cell.steps], "or")
    counts = f"{steps}{NO_BREAK}{'step' if steps == '1' else 'steps'}, " if steps else ""
    best = " at best, outside the scale" if cell.outside else ""
    return f"{counts}{points_words(cell.low, cell.high)}{best}"


def amounts_words(amounts: Sequence[int]) -> str:
    """`2`, `1 or 3`, `none`."""
    return listed([str(amount) for amount in amounts], "or") or "none"
