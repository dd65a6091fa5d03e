"""Scores in words: ranges with their dash, points, classes, and how well a rule is known."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from generator.indices.phones_2023_1669.formula import two_decimals
from generator.indices.workings import Cell, Index, Points
from generator.languages import decimal_mark, later, say, say_many
from generator.pages.typography import DASH, listed

TAGS = {
    "verified": later("the act was read"),
    "secondary": later("from another public text"),
    "memory": later("recalled only"),
    "recommended": later("our reading"),
}
"""How well a rule is known, by its tag."""


def tag_words(tag: str) -> str:
    return say(TAGS[tag]) if tag in TAGS else tag


def decimals(value: Decimal, places: int) -> str:
    """A number with exactly so many decimals, after the language's mark."""
    return f"{value:.{places}f}".replace(".", decimal_mark())


def span_words(low: Decimal, high: Decimal, places: int) -> str:
    """`3.00`, or `2.80–3.50` for a range.

    >>> span_words(Decimal("2.8"), Decimal("3.5"), 2).replace(DASH, "–")
    '2.80–3.50'
    """
    return decimals(low, places) if low == high else f"{decimals(low, places)}{DASH}{decimals(high, places)}"


def sum_words(index: Index) -> str:
    """The sum of an index in two decimals, `at most` where a part is outside the scale; empty where none can be given."""
    if index.low is None or index.high is None:
        return ""
    words = span_words(two_decimals(index.low), two_decimals(index.high), 2)
    return say("at most {points}", points=words) if index.outside else words


def classes_words(index: Index) -> str:
    """`class C or D`, with what stands in the way of a plain answer."""
    words = say("class~{classes}", classes=listed(index.classes, "or"))
    if index.within_rounding_of:
        near = listed(index.within_rounding_of, "or")
        words = say("{classes}, within rounding of {near}", classes=words, near=near)
    if not index.are_classes_exact:
        words = say("{classes} (all between the ends; too much is unknown to try each)", classes=words)
    return words


def points_words(low: Points, high: Points) -> str:
    """`1 point`, `3 to 5 points`."""
    if low != high:
        return say("{low} to {high} points", low=_points(low), high=_points(high))
    return say_many("{points}~point", "{points}~points", 1 if low == 1 else 2, points=_points(low))


def _points(points: Points) -> str:
    return str(points).replace(".", decimal_mark())


def cell_words(cell: Cell) -> str:
    """What a cell comes to: steps where it counts them, and points."""
    steps = listed([str(count) for count in cell.steps], "or")
    words = points_words(cell.low, cell.high)
    if steps:
        counts = say_many("{steps}~step", "{steps}~steps", 1 if steps == "1" else 2, steps=steps)
        words = f"{counts}, {words}"
    return say("{points} at best, outside the scale", points=words) if cell.outside else words


def amounts_words(amounts: Sequence[int]) -> str:
    """`2`, `1 or 3`, `none`."""
    return listed([str(amount) for amount in amounts], "or") or say("none")
