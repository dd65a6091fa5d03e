"""The depth plot as SVG text: shapes in, elements out."""

from __future__ import annotations

from generator.figures.depth.geometry import NAMES_END, STEMS, TOP, WIDTH, DepthPlot, Stem
from generator.figures.svg import element, figure, number, text
from generator.languages import say

_DOT = 5.5


def depth_figure(plot: DepthPlot, ident: str) -> str:
    """One SVG. A filled dot is a part that is replaceable, a ring one that only has to come out. ident: of its ids."""
    foot = plot.stems[-1].y + 10
    return figure(
        "depth",
        ident=ident,
        size=(WIDTH, plot.height),
        title=say("Steps to each part"),
        desc=plot.desc,
        content=(
            element("path", {"class": "depth__zero", "d": f"M{number(STEMS[0])} {number(TOP)}V{number(foot)}"}),
            element(
                "path",
                {
                    "class": "depth__stem",
                    "d": "".join(f"M{number(STEMS[0])} {number(stem.y)}H{number(stem.x)}" for stem in plot.stems),
                },
            ),
            element(
                "g",
                {"class": "depth__names"},
                *(text(stem.name, {"class": "depth__name", "x": NAMES_END, "y": stem.y + 5.5}) for stem in plot.stems),
            ),
            *(_end(stem) for stem in plot.stems),
            *(_key(plot.key_y) if plot.key_y is not None else ()),
        ),
    )


def _end(stem: Stem) -> str:
    count = text(str(stem.steps), {"class": "depth__count", "x": stem.x + 11, "y": stem.y + 5})
    return _dot(stem.x, stem.y, stem.is_replaceable) + count


def _dot(x: float, y: float, is_filled: bool) -> str:
    name = "depth__dot depth__dot--filled" if is_filled else "depth__dot"
    return element("circle", {"class": name, "cx": x, "cy": y, "r": _DOT})


def _key(y: float) -> tuple[str, ...]:
    first = STEMS[0]
    return (
        _dot(first + 6, y, True),
        text(say("replaceable"), {"class": "depth__word", "x": first + 18, "y": y + 5}),
        _dot(first + 128, y, False),
        text(say("others"), {"class": "depth__word", "x": first + 140, "y": y + 5}),
    )
