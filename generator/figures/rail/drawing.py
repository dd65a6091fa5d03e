"""The depth rail as SVG text: standing beside a step, or lying above it where the page is narrow."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from generator.figures.rail.geometry import BAR, CORE, LAYER, SCALE, STRIP, TOP, WIDTH, Bed, Rail, Scale, strip_cells
from generator.figures.rail.hatches import PATTERNS_IDENT, Hatch, pattern_ident
from generator.figures.svg import element, figure, number, text

_LEFT, _RIGHT = CORE
_OVER = 4.0  # how far the layer in hand stands out of the core
_NUMBERS_AT = _RIGHT + 9.0
_BASELINE = 15.5  # of a number, from the top of its layer
_ZIGZAG = 4.0
_TEETH = 6
_STRIP_TOP, _STRIP_HIGH = 5.0, 22.0


def rail_figure(rail: Rail, ident: str, patterns: str = PATTERNS_IDENT) -> str:
    """The standing rail. patterns: what `rail_patterns` was given; ident: prefix of its ids, unique on its page."""
    outline = "".join(_block(bed.top) for bed in rail.left)
    return figure(
        "rail rail--standing",
        ident=ident,
        size=(WIDTH, rail.height),
        title=rail.title,
        desc=rail.desc,
        content=(
            _scale(rail.scale, rail.base + LAYER) if rail.scale else "",
            element("path", {"class": "rail__out", "d": "".join(_block(bed.top) for bed in rail.out)}) if rail.out else "",
            element("path", {"class": "rail__layer", "d": outline + _block(rail.base)}),
            *_hatched([*((bed.hatch, _block(bed.top)) for bed in rail.left), (Hatch.BASE, _block(rail.base))], patterns),
            element("path", {"class": "rail__wall", "d": _walls(rail)}),
            *(_cut(at) for at in rail.cuts),
            _bar(rail) if rail.bar else "",
            element("path", {"class": "rail__hand", "d": _hand(rail.hand)}),
            _numbers("rail__number rail__number--out", rail.out),
            _numbers("rail__number rail__number--hand", (rail.hand,)),
            _numbers("rail__number", rail.left),
            text(rail.base_name, {"class": "rail__word", "x": _NUMBERS_AT, "y": rail.base + 15}),
        ),
    )


def strip_figure(rail: Rail, ident: str, patterns: str = PATTERNS_IDENT) -> str:
    """The lying strip: the same layers from left, the outside, to right."""
    cells, cuts = strip_cells(rail)
    boxes = {
        bed: f"M{_n(left)} {_n(_STRIP_TOP)}h{_n(width)}v{_n(_STRIP_HIGH)}h{_n(-width)}z" for bed, left, width in cells
    }
    _, left, width = next(cell for cell in cells if cell[0] == rail.hand)
    wide = max(width + _OVER, 9.0 * len(str(rail.now)) + 6.0)
    start = min(max(left + width / 2 - wide / 2, -2.0), STRIP[0] - 2 - wide)
    out, below = ("".join(boxes[bed] for bed in beds) for beds in (rail.out, rail.left))
    return figure(
        "rail rail--lying",
        ident=ident,
        size=STRIP,
        corner=(-2.0, 0.0),
        title=rail.title,
        desc=rail.desc,
        content=(
            element("path", {"class": "rail__out", "d": out}) if out else "",
            element("path", {"class": "rail__layer", "d": below}) if below else "",
            *_hatched(((bed.hatch, boxes[bed]) for bed in rail.left), patterns),
            *(element("path", {"class": "rail__cut", "d": _lying_cut(at)}) for at in cuts),
            element("rect", {"class": "rail__hand", "x": start, "y": 1, "width": wide, "height": 30}),
            text(str(rail.now), {"class": "rail__now", "x": start + wide / 2, "y": 20.5}),
        ),
    )


def _block(top: float) -> str:
    return f"M{_n(_LEFT)} {_n(top)}H{_n(_RIGHT)}v{_n(LAYER)}H{_n(_LEFT)}z"


def _hatched(blocks: Iterable[tuple[Hatch | None, str]], patterns: str) -> list[str]:
    """One path a material for all its layers: a rail stands beside every step, so it has to be small."""
    joined: dict[Hatch, str] = {}
    for hatch, d in blocks:
        if hatch is not None:
            joined[hatch] = joined.get(hatch, "") + d
    return [
        element("path", {"d": d, "fill": f"url(#{pattern_ident(hatch, patterns)})"}) for hatch, d in joined.items()
    ]


def _walls(rail: Rail) -> str:
    top, foot = rail.hand.top, rail.base + LAYER
    return f"M{_n(_LEFT)} {_n(top)}V{_n(foot)}H{_n(_RIGHT)}V{_n(top)}"


def _cut(at: float) -> str:
    """Two zigzags across the core with the ground of the page between them."""
    teeth = f"l{_n(_ZIGZAG)} {_n(-_ZIGZAG)} {_n(_ZIGZAG)} {_n(_ZIGZAG)}" * _TEETH
    back = f"l{_n(-_ZIGZAG)} {_n(-_ZIGZAG)} {_n(-_ZIGZAG)} {_n(_ZIGZAG)}" * _TEETH
    start = (_LEFT + _RIGHT) / 2 - _TEETH * _ZIGZAG
    upper, lower = (f"M{_n(start)} {_n(y)}{teeth}" for y in (at - 1, at + 5))
    ground = element("path", {"class": "rail__gap", "d": f"{upper}v6{back}z"})
    return ground + element("path", {"class": "rail__cut", "d": upper + lower})


def _lying_cut(at: float) -> str:
    return f"M{_n(at - 2)} {_n(_STRIP_TOP)}l4 5.5-4 5.5 4 5.5-4 5.5"


def _scale(scale: Scale, foot: float) -> str:
    ticks = "".join(f"M{_n(SCALE)} {_n(at)}h-7" for _, at in scale.marks) + "".join(
        f"M{_n(SCALE)} {_n(at)}h-4" for at in scale.fine
    )
    words = "".join(element("tspan", {"x": SCALE - 10, "y": at + 4}, said) for said, at in scale.marks)
    return (
        element("path", {"class": "rail__scale", "d": f"M{_n(SCALE)} {_n(TOP)}V{_n(foot)}{ticks}"})
        + element("text", {"class": "rail__word rail__word--scale"}, words)
        + text("mm", {"class": "rail__word rail__word--unit", "x": SCALE + 4, "y": TOP - 9})
    )


def _bar(rail: Rail) -> str:
    assert rail.bar is not None
    top, bottom = rail.bar
    tie = f"M{_n(SCALE + BAR)} {_n((top + bottom) / 2)}L{_n(_LEFT - _OVER)} {_n(rail.hand.top + LAYER / 2)}"
    return element(
        "rect", {"class": "rail__span", "x": SCALE, "y": top, "width": BAR, "height": bottom - top}
    ) + element("path", {"class": "rail__tie", "d": tie})


def _hand(bed: Bed) -> str:
    left, right = _LEFT - _OVER, _RIGHT + _OVER
    return f"M{_n(left)} {_n(bed.top - 1)}H{_n(right)}v{_n(LAYER + 2)}H{_n(left)}z"


def _numbers(name: str, beds: tuple[Bed, ...]) -> str:
    if not beds:
        return ""
    spans = (
        element("tspan", _number_at(bed, is_first=not index), str(bed.number)) for index, bed in enumerate(beds)
    )
    return element("text", {"class": name}, *spans)


def _number_at(bed: Bed, *, is_first: bool) -> Mapping[str, float]:
    if is_first:
        return {"x": _NUMBERS_AT, "y": bed.top + _BASELINE}
    return {"x": _NUMBERS_AT, "dy": LAYER}


def _n(value: float) -> str:
    return number(value)
