"""Heads of screws: across and height by the head standards, and the outline of one half of the side view. Lengths in mm."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass

from generator.anatomy.parts import Point

Sizes = Mapping[float, tuple[float, float]]
"""By thread diameter: greatest head diameter (across flats for a hexagon) and head height."""

PAN: Sizes = {
    1.6: (3.2, 1.3),
    2.0: (4.0, 1.6),
    2.5: (5.0, 2.1),
    3.0: (5.6, 2.4),
    3.5: (7.0, 2.6),
    4.0: (8.0, 3.1),
    5.0: (9.5, 3.7),
    6.0: (12.0, 4.6),
}
COUNTERSUNK: Sizes = {
    1.6: (3.0, 1.0),
    2.0: (3.8, 1.2),
    2.5: (4.7, 1.5),
    3.0: (5.5, 1.65),
    3.5: (7.3, 2.35),
    4.0: (8.4, 2.7),
    5.0: (9.3, 2.7),
    6.0: (11.3, 3.3),
}
CAP: Sizes = {
    1.6: (3.0, 1.6),
    2.0: (3.8, 2.0),
    2.5: (4.5, 2.5),
    3.0: (5.5, 3.0),
    4.0: (7.0, 4.0),
    5.0: (8.5, 5.0),
    6.0: (10.0, 6.0),
}
CHEESE: Sizes = {
    1.6: (3.0, 1.1),
    2.0: (3.8, 1.4),
    2.5: (4.5, 1.8),
    3.0: (5.5, 2.0),
    3.5: (6.0, 2.4),
    4.0: (7.0, 2.6),
    5.0: (8.5, 3.3),
    6.0: (10.0, 3.9),
}
BUTTON: Sizes = {3.0: (5.7, 1.65), 4.0: (7.6, 2.2), 5.0: (9.5, 2.75), 6.0: (10.5, 3.3)}
HEXAGON: Sizes = {
    1.6: (3.2, 1.1),
    2.0: (4.0, 1.4),
    2.5: (5.0, 1.7),
    3.0: (5.5, 2.0),
    3.5: (6.0, 2.4),
    4.0: (7.0, 2.8),
    5.0: (8.0, 3.5),
    6.0: (10.0, 4.0),
}

_STANDARD = {
    "pan": (PAN, "ISO 7045"),
    "countersunk": (COUNTERSUNK, "ISO 7046-1"),
    "cap": (CAP, "ISO 4762"),
    "cheese": (CHEESE, "ISO 1207"),
    "button": (BUTTON, "ISO 7380-1"),
    "hexagon": (HEXAGON, "ISO 4017"),
}
"""Dimensions of these standards from memory."""

_NOMINAL = {
    "pan": (1.7, 0.5),
    "countersunk": (1.8, 0.5),
    "cap": (1.8, 1.0),
    "cheese": (1.7, 0.6),
    "button": (1.85, 0.55),
    "hexagon": (1.9, 0.7),
    "wafer": (2.3, 0.3),
}
"""Across and height in thread diameters, where no standard has the size: small precision screws, which makers make alike
but not to one number, and wafer heads (common practice)."""

WORDS = (
    ("countersunk", "countersunk"),
    ("flat", "countersunk"),
    ("oval", "countersunk"),
    ("csk", "countersunk"),
    ("wafer", "wafer"),
    ("thin", "wafer"),
    ("low", "wafer"),
    ("washer", "wafer"),
    ("cheese", "cheese"),
    ("fillister", "cheese"),
    ("cap", "cap"),
    ("cylind", "cap"),
    ("button", "button"),
    ("round", "button"),
    ("dome", "button"),
    ("truss", "button"),
    ("mushroom", "button"),
    ("hex", "hexagon"),
    ("set", "set"),
    ("grub", "set"),
    ("none", "set"),
    ("headless", "set"),
    ("pan", "pan"),
)
"""Beginnings of the words authors use for a head, and the head that is drawn."""

_CURVE = 7  # points of a rounded edge


@dataclass(frozen=True, slots=True)
class Head:
    """A head as drawn. across: its greatest width from above; is_known: the author named it; source: the standard, or None.

    is_sunk: the length of the screw is measured with the head (ISO 225, ISO 888).
    """

    kind: str
    across: float
    height: float
    is_known: bool
    source: str | None

    @property
    def is_sunk(self) -> bool:
        return self.kind in ("countersunk", "set")


def head_kind(written: str | None) -> str | None:
    """The head a word means; None for nothing or a word not known here."""
    for word in (written or "").lower().replace("-", " ").split():
        for start, kind in WORDS:
            if word.startswith(start):
                return kind
    return None


def head_of(written: str | None, diameter: float) -> Head:
    """The head of a screw of that thread diameter; a pan head where the word says nothing.

    Sizes between two of a standard are taken in proportion; outside its sizes the head is nominal and has no source.
    """
    kind = head_kind(written)
    if kind == "set":
        return Head("set", diameter, 0.0, True, "ISO 4026")
    drawn = kind or "pan"
    sizes, source = _STANDARD.get(drawn, ({}, None))
    found = _between(sizes, diameter)
    if found is not None:
        return Head(drawn, *found, kind is not None, source)
    across, height = _NOMINAL[drawn]
    return Head(drawn, across * diameter, height * diameter, kind is not None, None)


def half_outline(head: Head, diameter: float) -> tuple[Point, ...]:
    """The right half of the head from the side, from the middle of its top to where the thread begins; y down from 0."""
    r, k, bolt = head.across / 2, head.height, diameter / 2
    match head.kind:
        case "set":
            return ((0.0, 0.0),)
        case "countersunk":
            rim = max(0.0, k - (r - bolt))  # 90° in all: the cone is as high as it is wide to one side
            return ((0.0, 0.0), (r, 0.0), (r, rim), (bolt, k))
        case "cap":
            c = min(0.08 * head.across, k / 4)
            return ((0.0, 0.0), (r - c, 0.0), (r, c), (r, k), (bolt, k))
        case "cheese":
            return ((0.0, 0.0), *_rounded(r - 0.06 * k, 0.2 * k, 0.5 * r), (r, k), (bolt, k))
        case "hexagon":
            corner = head.across / math.sqrt(3)  # seen across the corners
            return ((0.0, 0.0), (0.92 * r, 0.0), (corner, 0.16 * k), (corner, k), (bolt, k))
        case "button":
            return (*_rounded(r, 0.92 * k, r), (r, k), (bolt, k))
        case "wafer":
            return (*_rounded(r, 0.7 * k, r), (r, k), (bolt, k))
        case _:
            return ((0.0, 0.0), *_rounded(r, 0.6 * k, 0.62 * r), (r, k), (bolt, k))


def from_above(head: Head) -> tuple[Point, ...]:
    """The corners of a head that is not round from above; empty for a round one."""
    if head.kind != "hexagon":
        return ()
    corner = head.across / math.sqrt(3)
    return tuple((corner * math.cos(math.radians(a)), corner * math.sin(math.radians(a))) for a in range(0, 360, 60))


def _rounded(right: float, drop: float, run: float) -> tuple[Point, ...]:
    """A quarter of an ellipse from the flat top down to (right, drop); it begins `run` before the edge."""
    return tuple(
        (right - run + run * math.sin(turn), drop - drop * math.cos(turn))
        for turn in (math.pi / 2 * step / (_CURVE - 1) for step in range(_CURVE))
    )


def _between(sizes: Sizes, diameter: float) -> tuple[float, float] | None:
    known = sorted(sizes)
    if not known or not known[0] <= diameter <= known[-1]:
        return None
    after = bisect_left(known, diameter)
    if known[after] == diameter:
        return sizes[diameter]
    low, high = known[after - 1], known[after]
    share = (diameter - low) / (high - low)
    (a, b), (c, d) = sizes[low], sizes[high]
    return round(a + share * (c - a), 2), round(b + share * (d - b), 2)
