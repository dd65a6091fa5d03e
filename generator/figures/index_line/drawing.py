"""Scores on their line as SVG text: a diamond for a score that is known, a bar with end caps for a range."""

from __future__ import annotations

from generator.figures.index_line.geometry import CLASS_SIZE, SCORE_SIZE, ClassLine, ScoreLine, Span
from generator.figures.svg import NAMESPACE, element, figure, number, text

_SCORE_Y = SCORE_SIZE[1] / 2
_LINE_Y = 74.0
_LETTER_Y = 56.0
_BOUND_Y = 104.0
_VALUE_Y = 20.0


def score_figure(line: ScoreLine) -> str:
    """The line of one criterion; the score stands in words beside it, so listeners are spared the drawing."""
    first, last = line.ticks[0], line.ticks[-1]
    ticks = "".join(f"M{number(x)} {number(_SCORE_Y - 3)}v6" for x in line.ticks)
    return element(
        "svg",
        {
            "xmlns": NAMESPACE,
            "class": "index-line index-line--score",
            "viewBox": f"0 0 {number(SCORE_SIZE[0])} {number(SCORE_SIZE[1])}",
            "width": SCORE_SIZE[0],
            "height": SCORE_SIZE[1],
            "aria-hidden": "true",
        },
        element("path", {"class": "index-line__scale", "d": f"M{number(first)} {number(_SCORE_Y)}H{number(last)}{ticks}"}),
        _mark(line.span, _SCORE_Y, 7.0),
    )


def class_figure(line: ClassLine, ident: str, title: str, desc: str) -> str:
    """The sum between the classes. ident: prefix of its ids, unique on its page."""
    return figure(
        "index-line index-line--classes",
        ident=ident,
        size=CLASS_SIZE,
        title=title,
        desc=desc,
        content=class_content(line),
    )


def class_content(line: ClassLine) -> tuple[str, ...]:
    """What the class line is made of, to be set into another drawing."""
    first, last = line.bounds[0].x, line.bounds[-1].x
    ticks = "".join(f"M{number(bound.x)} {number(_LINE_Y - 9)}v18" for bound in line.bounds)
    middle = (line.span.low + line.span.high) / 2
    return (
        element("path", {"class": "index-line__scale", "d": f"M{number(first)} {number(_LINE_Y)}H{number(last)}{ticks}"}),
        *(text(b.label, {"class": "index-line__bound", "x": b.x, "y": _BOUND_Y}) for b in line.bounds if b.label),
        *(
            text(
                letter.letter,
                {
                    "class": f"index-line__letter{' index-line__letter--reached' if letter.is_reached else ''}",
                    "x": letter.x,
                    "y": _LETTER_Y,
                },
            )
            for letter in line.letters
        ),
        element("path", {"class": "index-line__lead", "d": f"M{number(middle)} {number(_VALUE_Y + 6)}v8"}),
        _mark(line.span, _LINE_Y, 12.0),
        text(line.value, {"class": "index-line__value", "x": line.value_x, "y": _VALUE_Y}),
    )


def _mark(span: Span, y: float, half: float) -> str:
    low, high, size = number(span.low), number(span.high), number(half)
    if span.is_point:
        d = f"M{low} {number(y - half)}l{size} {size} -{size} {size} -{size} -{size}z"
        return element("path", {"class": "index-line__point", "d": d})
    caps = "".join(f"M{x} {number(y - half)}v{number(2 * half)}" for x in (low, high))
    return element("path", {"class": "index-line__bar", "d": f"M{low} {number(y)}H{high}"}) + element(
        "path", {"class": "index-line__caps", "d": caps}
    )
