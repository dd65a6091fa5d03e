"""The reach plot as SVG text: shapes in, elements out."""

from __future__ import annotations

from generator.figures.reach.geometry import Line, Mark, Plot
from generator.figures.svg import element, figure, number, text
from generator.languages import later, say

TITLE = later("Steps to the same parts, by device")

_SHAPES = ("M-5.5-5.5h11v11h-11z", "M-5.5 0a5.5 5.5 0 1 0 11 0a5.5 5.5 0 1 0-11 0", "M0-7.5l7.5 7.5l-7.5 7.5l-7.5-7.5z")
_FILLED = (True, False, True)


def reach_figure(plot: Plot, ident: str) -> str:
    """One SVG. Parts are told apart by the shape of their mark. ident: prefix of its ids, unique on its page."""
    foot = number(plot.height)
    return figure(
        "reach",
        ident=ident,
        size=(plot.width, plot.height),
        title=say(TITLE),
        desc=plot.desc,
        content=(
            *(_mark(mark) for mark, _ in plot.key),
            *(_text("reach__word", name, mark.x + 18, mark.y + 5) for mark, name in plot.key),
            element(
                "path",
                {
                    "class": "reach__grid",
                    "d": "".join(f"M{number(x)} {number(plot.top)}V{foot}" for _, x in plot.ticks),
                },
            ),
            element(
                "g",
                {"class": "reach__scale"},
                *(_text("reach__number", str(count), x, plot.top - 8) for count, x in plot.ticks),
            ),
            *(_line(line, plot) for line in plot.lines),
        ),
    )


def _line(line: Line, plot: Plot) -> str:
    first, last = plot.ticks[0][1], plot.ticks[-1][1]
    return "".join(
        (
            element("path", {"class": "reach__line", "d": f"M{number(first)} {number(line.y)}H{number(last)}"}),
            _text("reach__name", line.name, first + 4, line.name_y),
            *(_mark(mark) for mark in line.marks),
        )
    )


def _mark(mark: Mark) -> str:
    kind = mark.kind % len(_SHAPES)
    return element(
        "path",
        {
            "class": "reach__mark reach__mark--solid" if _FILLED[kind] else "reach__mark",
            "transform": f"translate({number(mark.x)} {number(mark.y)})",
            "d": _SHAPES[kind],
        },
    )


def _text(name: str, words: str, x: float, y: float) -> str:
    return text(words, {"class": name, "x": x, "y": y})
