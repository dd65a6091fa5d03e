"""The marks of the plans: one shape a kind of joint, and the marks of motion.

Kinds of joint differ by shape and hatch, never by colour. Lengths are drawing units: a mark is made for the eye, so it
does not grow with the device.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from generator.anatomy.joints import JointKind
from generator.figures.svg import NAMESPACE, element, escaped, number, path_data, text

ACTIONS = ("lift", "slide", "fold", "turn")
"""Motions that have a mark of their own; checking, heating and waiting are told in words."""

_DIGIT = 7.5  # width of one sign of the number, units
_CLEAR = 1.6  # ground kept free around a mark, units


def half_size(kind: JointKind, label: str) -> tuple[float, float]:
    """Half the width and half the height, in units, of the ground a mark takes with that number on it."""
    wide, high = _BODIES[kind](len(label))
    return wide + _CLEAR, high + _CLEAR


def joint_glyph(kind: JointKind, x: float, y: float, label: str, *, grown: float = 1.0) -> str:
    """A mark with its middle at (x, y); `label` is its number, or empty; `grown` as in a detail."""
    wide, high = _BODIES[kind](len(label))
    return element(
        "g",
        {
            "class": f"glyph glyph--{kind}",
            "transform": f"translate({number(x)} {number(y)})" + (f" scale({number(grown)})" if grown != 1 else ""),
        },
        *_SHAPES[kind](wide, high),
        text(label, {"class": "glyph__number", "y": 4.3}) if label else "",
    )


def action_glyph(kind: str, x: float, y: float) -> str:
    """A mark of motion, its middle at (x, y): ring with dot, broad arrow, curve over a hinge, arch. KeyError for others."""
    return element(
        "g", {"class": f"glyph glyph--{kind}", "transform": f"translate({number(x)} {number(y)})"}, *_MOTIONS[kind]
    )


def glyph_figure(kind: str, title: str | None = None) -> str:
    """A mark alone as a small SVG of 36 by 28 units, for tables and the key.

    kind: a JointKind or one of ACTIONS. Without a title it is decoration beside words and hidden from readers aloud.
    KeyError for a kind that has no mark.
    """
    drawn = action_glyph(kind, 18, 14) if kind in _MOTIONS else joint_glyph(_KINDS[kind], 18, 14, "")
    spoken = {"role": "img"} if title else {"aria-hidden": "true"}
    return element(
        "svg",
        {"xmlns": NAMESPACE, "class": "glyph-figure", "viewBox": "0 0 36 28", "width": 36, "height": 28, **spoken},
        element("title", {}, escaped(title)) if title else "",
        drawn,
    )


def _body(d: str) -> str:
    return element("path", {"class": "glyph__body", "d": d})


def _line(d: str) -> str:
    return element("path", {"class": "glyph__line", "d": d})


def _round_body(digits: int) -> tuple[float, float]:
    radius = max(9.4, math.hypot(digits * _DIGIT / 2, 4.5) + 0.7)
    return radius, radius


def _square_body(digits: int) -> tuple[float, float]:
    half = _round_body(digits)[0] + 1.6
    return half, half


def _plug_body(digits: int) -> tuple[float, float]:
    return max(9.5, digits * _DIGIT / 2 + 2.5), 11.5


def _glue_body(digits: int) -> tuple[float, float]:
    return max(15.0, digits * _DIGIT / 2 + 9.5), 9.0


def _clip_body(digits: int) -> tuple[float, float]:
    return max(9.2, digits * _DIGIT / 2 + 2), 12.2


def _solder_body(digits: int) -> tuple[float, float]:
    radius = max(10.8, digits * _DIGIT / 2 + 3.3)
    return radius, radius * math.sqrt(3) / 2


def _screw(radius: float, _: float) -> tuple[str, ...]:
    r, out = number(radius), number(radius + 3.4)
    return (
        _line(f"M-{out} 0H-{r}M{r} 0H{out}M0-{out}V-{r}M0 {r}V{out}"),
        element("circle", {"class": "glyph__body", "r": radius}),
    )


def _plug(wide: float, _: float) -> tuple[str, ...]:
    w, prong = number(wide), number(wide - 3)
    return (_body(f"M-{w}-9H{w}V7.5H{prong}v4h-3.6v-4H-{number(wide - 6.6)}v4h-3.6v-4H-{w}Z"),)


def _glue(wide: float, _: float) -> tuple[str, ...]:
    w, inner = number(wide), number(wide - 6)
    ends = "".join(f"M{left}{y}l6-6" for left in (f"-{w} ", f"{inner} ") for y in ("-3", "3", "9"))
    return (_body(f"M-{w}-9H{w}V9H-{w}Z"), _line(f"M-{inner}-9V9M{inner}-9V9{ends}"))


def _clip(wide: float, _: float) -> tuple[str, ...]:
    w = number(wide)
    return (_body(f"M-{w}-9H{w}V5.5L0 12.2L-{w} 5.5Z"),)


def _solder(radius: float, _: float) -> tuple[str, ...]:
    corners = [(radius * math.cos(math.radians(a)), radius * math.sin(math.radians(a))) for a in range(0, 360, 60)]
    return (element("path", {"class": "glyph__body glyph__body--solid", "d": path_data(corners)}),)


def _press(half: float, _: float) -> tuple[str, ...]:
    w = number(half)
    return (_body(f"M-{w}-{w}H{w}V{w}H-{w}Z"), element("circle", {"class": "glyph__line", "r": half - 1.6}))


_BODIES: dict[JointKind, Callable[[int], tuple[float, float]]] = {
    JointKind.SCREWS: _round_body,
    JointKind.PLUG: _plug_body,
    JointKind.GLUE: _glue_body,
    JointKind.CLIPS: _clip_body,
    JointKind.SOLDER: _solder_body,
    JointKind.PRESS: _square_body,
}
_SHAPES: dict[JointKind, Callable[[float, float], tuple[str, ...]]] = {
    JointKind.SCREWS: _screw,
    JointKind.PLUG: _plug,
    JointKind.GLUE: _glue,
    JointKind.CLIPS: _clip,
    JointKind.SOLDER: _solder,
    JointKind.PRESS: _press,
}
_KINDS = {str(kind): kind for kind in JointKind}
_MOTIONS: dict[str, tuple[str, ...]] = {
    "lift": (
        element("circle", {"class": "glyph__ring", "r": 11}),
        element("circle", {"class": "glyph__dot", "r": 3.4}),
    ),
    "slide": (element("path", {"class": "glyph__head", "d": "M-16-3.4H2v-6L16 0 2 9.4V3.4H-16Z"}),),
    "fold": (
        element("path", {"class": "glyph__hinge", "d": "M-17 9H17"}),
        element("path", {"class": "glyph__sweep", "d": "M9 8C12-12-9-12-10-1"}),
        element("path", {"class": "glyph__head", "d": "M-10 7l-6.5-9h13z"}),
    ),
    "turn": (
        element("path", {"class": "glyph__sweep", "d": "M-11 9C-11-13 11-13 11-1"}),
        element("path", {"class": "glyph__head", "d": "M11 9l-6.5-10h13z"}),
    ),
}
