"""The marks of the plans: one shape a kind of joint, and the marks of motion.

Kinds of joint differ by shape and hatch, never by colour. Lengths are drawing units: a mark is made for the eye, so it
does not grow with the device.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from generator.anatomy.joints import Drive, Joint, JointKind
from generator.anatomy.parts import Point
from generator.figures.fasteners.silhouette import screw_silhouette
from generator.figures.svg import NAMESPACE, element, escaped, number, path_data, text

ACTIONS = ("lift", "slide", "fold", "turn", "pry", "pull")
"""Motions that have a mark of their own; checking, heating and waiting are told in words."""

HEAD = 7.6
"""Radius of the head in a screw's mark, units; heads that are larger at the scale of the drawing are drawn to scale."""

WIDEST_HEAD = 18.0  # units: beyond that a mark is a sign again

_DIGIT = 7.6  # width of one sign of the number, units
_CLEAR = 1.6  # ground kept free around a mark, units
_BESIDE = 2.6  # from the head of a screw to its number, units


@dataclass(frozen=True, slots=True)
class ScrewSign:
    """A screw from above, units round (0, 0): head and drive in true proportion to each other.

    corners: of a head that is not round; cut: what is cut into it; lines: thin lines on it; posts: what stands in the cut.
    Without a drive that can be drawn it is a plain head on its centre lines. is_to_scale: the head has its size.
    """

    radius: float = HEAD
    corners: tuple[Point, ...] = ()
    cut: tuple[tuple[Point, ...], ...] = ()
    lines: tuple[tuple[Point, ...], ...] = ()
    posts: tuple[tuple[Point, ...], ...] = ()
    is_to_scale: bool = False


PLAIN_SIGN = ScrewSign()


def screw_sign(joint: Joint, scale: float = 0.0) -> ScrewSign:
    """The head of a joint's screws. scale: units per mm of the drawing it goes into; 0 makes a sign.

    Where thread or head are not told the usual ones are drawn, as the tray sheet does.
    """
    return _sign(joint.thread, joint.head, joint.drive, round(scale, 3))


@lru_cache(maxsize=256)
def _sign(thread: str | None, head: str | None, drive: Drive | None, scale: float) -> ScrewSign:
    screw = screw_silhouette(thread, None, head, drive)
    true = screw.head.across / 2
    is_to_scale = thread is not None and HEAD < true * scale <= WIDEST_HEAD
    k = scale if is_to_scale else HEAD / true

    def drawn(polygons: Sequence[tuple[Point, ...]]) -> tuple[tuple[Point, ...], ...]:
        return tuple(tuple((round(x * k, 1), round(y * k, 1)) for x, y in polygon) for polygon in polygons)

    face = screw.drive
    return ScrewSign(
        radius=round(true * k, 1),
        corners=drawn([screw.top])[0] if screw.top else (),
        cut=drawn(face.outlines) if face else (),
        lines=drawn(face.lines) if face else (),
        posts=drawn(face.posts) if face else (),
        is_to_scale=is_to_scale,
    )


def half_size(kind: JointKind, label: str, sign: ScrewSign = PLAIN_SIGN) -> tuple[float, float]:
    """Half the width and half the height, in units, of the ground a mark takes with that number on it."""
    if kind is JointKind.SCREWS:
        out = sign.radius + (0 if sign.cut else 3.4)
        beside = _BESIDE + len(label) * _DIGIT if label else 0.0
        return (2 * out + beside) / 2 + _CLEAR, out + _CLEAR
    wide, high = _BODIES[kind](len(label))
    return wide + _CLEAR, high + _CLEAR


def number_side(kind: JointKind, label: str) -> float:
    """How far the middle of a mark's ground lies beside what it marks: a screw has its number beside its head."""
    return (_BESIDE + len(label) * _DIGIT) / 2 if label and kind is JointKind.SCREWS else 0.0


def joint_glyph(kind: JointKind, x: float, y: float, label: str, *, grown: float = 1.0, sign: ScrewSign = PLAIN_SIGN) -> str:
    """A mark with its middle at (x, y); `label` is its number, or empty; `grown` as in a detail."""
    if kind is JointKind.SCREWS:
        return screw_glyph(screw_head(sign), sign, x, y, label, grown=grown)
    return marked_glyph(kind, x, y, label, grown=grown)


def marked_glyph(kind: JointKind, x: float, y: float, label: str, *, grown: float = 1.0, is_hidden: bool = False) -> str:
    """A mark that carries its number in it: of any kind but screws. is_hidden: what it marks lies under something."""
    wide, high = _BODIES[kind](len(label))
    return element(
        "g",
        _placed(kind, x, y, grown, is_hidden),
        *_SHAPES[kind](wide, high),
        text(label, {"class": "glyph__number", "y": 4.3}) if label else "",
    )


def screw_glyph(
    head: str,
    sign: ScrewSign,
    x: float,
    y: float,
    label: str,
    *,
    grown: float = 1.0,
    is_left: bool = False,
    is_hidden: bool = False,
) -> str:
    """A screw with its axis at (x, y) and its number beside it, on the left if is_left.

    head: as `screw_head` draws it, or a reference to one drawn before.
    """
    beside = sign.radius + (0 if sign.cut else 3.4) + _BESIDE
    side, name = (-1, "left") if is_left else (1, "right")
    numbered: dict[str, str | float | None] = {"class": f"glyph__number glyph__number--{name}"}
    numbered |= {"x": side * beside, "y": 4.3}
    return element("g", _placed(JointKind.SCREWS, x, y, grown, is_hidden), head, text(label, numbered) if label else "")


def screw_head(sign: ScrewSign) -> str:
    """The head with its drive, round (0, 0)."""
    if sign.corners:
        head = element("path", {"class": "glyph__body", "d": path_data(sign.corners)})
    else:
        head = element("circle", {"class": "glyph__body", "r": sign.radius})
    if not sign.cut:
        r, out = number(sign.radius), number(sign.radius + 3.4)
        return _line(f"M-{out} 0H-{r}M{r} 0H{out}M0-{out}V-{r}M0 {r}V{out}") + head
    drawn = [head, element("path", {"class": "glyph__drive", "d": "".join(map(path_data, sign.cut))})]
    if sign.lines:
        drawn.append(_line("".join(path_data(line, closed=False) for line in sign.lines)))
    if sign.posts:
        drawn.append(element("path", {"class": "glyph__post", "d": "".join(map(path_data, sign.posts))}))
    return "".join(drawn)


def action_glyph(kind: str, x: float, y: float) -> str:
    """A mark of motion, its middle at (x, y): ring with dot, broad arrow, curve over a hinge, arch. KeyError for others."""
    return element(
        "g", {"class": f"glyph glyph--{kind}", "transform": f"translate({number(x)} {number(y)})"}, *_MOTIONS[kind]
    )


def joint_figure(joint: Joint) -> str:
    """The mark of a joint for a table: of screws with their own head and drive."""
    return glyph_figure(joint.kind.value, sign=screw_sign(joint) if joint.kind is JointKind.SCREWS else PLAIN_SIGN)


def glyph_figure(kind: str, title: str | None = None, *, sign: ScrewSign = PLAIN_SIGN) -> str:
    """A mark alone as a small SVG of 36 by 28 units, for tables and the key.

    kind: a JointKind or one of ACTIONS. Without a title it is decoration beside words and hidden from readers aloud.
    KeyError for a kind that has no mark.
    """
    drawn = action_glyph(kind, 18, 14) if kind in _MOTIONS else joint_glyph(_KINDS[kind], 18, 14, "", sign=sign)
    spoken = {"role": "img"} if title else {"aria-hidden": "true"}
    return element(
        "svg",
        {"xmlns": NAMESPACE, "class": "glyph-figure", "viewBox": "0 0 36 28", "width": 36, "height": 28, **spoken},
        element("title", {}, escaped(title)) if title else "",
        drawn,
    )


def wedge() -> str:
    """A blade that goes in to the right, its tip at (0, 0), a bar for its handle."""
    return _head("M0 0L-14-4.6V4.6Z") + element("path", {"class": "glyph__handle", "d": "M-17.6-6V6"})


def small_arrow() -> str:
    """An arrow to the right, its tail at (0, 0)."""
    return _head("M0-1.5H5.5V-5L13 0 5.5 5V1.5H0Z")


def _head(d: str) -> str:
    return element("path", {"class": "glyph__head", "d": d})


def _placed(kind: JointKind, x: float, y: float, grown: float, is_hidden: bool) -> dict[str, str | float | None]:
    return {
        "class": f"glyph glyph--{kind}" + (" glyph--hidden" if is_hidden else ""),
        "transform": f"translate({number(x)} {number(y)})" + (f" scale({number(grown)})" if grown != 1 else ""),
    }


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
    JointKind.PLUG: _plug_body,
    JointKind.GLUE: _glue_body,
    JointKind.CLIPS: _clip_body,
    JointKind.SOLDER: _solder_body,
    JointKind.PRESS: _square_body,
}
_SHAPES: dict[JointKind, Callable[[float, float], tuple[str, ...]]] = {
    JointKind.PLUG: _plug,
    JointKind.GLUE: _glue,
    JointKind.CLIPS: _clip,
    JointKind.SOLDER: _solder,
    JointKind.PRESS: _press,
}
PRY_LENGTH = 19.0
PULL_LENGTH = 13.0
"""Units that a wedge is long from its tip, and that a small arrow is long from its tail."""

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
    "pry": (element("g", {"transform": "translate(9.5 0)"}, wedge()),),
    "pull": (element("g", {"transform": "translate(-6.5 0)"}, small_arrow()),),
}
