"""Drives seen from above: true size where a standard gives it, else a fair one with a note. Lengths in mm."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TypeVar

from generator.figures.fasteners import recesses
from generator.figures.fasteners.heads import head_kind
from generator.figures.fasteners.recesses import Polygon
from generator.figures.fasteners.threads import thread_of

T = TypeVar("T")

# --- facts ------------------------------------------------------------------------------------------------------

CROSS_WING = {"0": 0.61, "1": 0.97, "2": 1.47, "3": 2.41, "4": 3.48}
"""Width b of the type H recess by number: ISO 4757 (verified)."""

CROSS_WING_BELOW = {"00": 0.45, "000": 0.33}
"""Numbers below the standard: common practice."""

CROSS_SPAN = 3.0
"""Across the wings, in widths b: fits the recess widths m of ISO 7045 within 5 % from M2 to M6 (memory)."""

HEXALOBULAR_ACROSS = {
    "T3": 1.2,
    "T4": 1.35,
    "T5": 1.48,
    "T6": 1.75,
    "T7": 2.1,
    "T8": 2.4,
    "T9": 2.6,
    "T10": 2.8,
    "T15": 3.35,
    "T20": 3.95,
    "T25": 4.5,
    "T27": 5.1,
    "T30": 5.6,
    "T40": 6.75,
    "T45": 7.95,
    "T50": 8.95,
    "T55": 11.35,
    "T60": 13.45,
}
"""Point to point A by number: ISO 10664. T6, T8, T10, T15, T20, T25, T30 verified, the others from memory."""

HEXALOBULAR_ROOT = 0.72
"""Across the valleys, B, in A: 0.72 to 0.73 in ISO 10664 from size 6 on (memory)."""

BLADE = {2.0: 0.4, 2.5: 0.4, 3.0: 0.5, 3.5: 0.6, 4.0: 0.8, 4.5: 0.8, 5.5: 1.0, 6.5: 1.2, 8.0: 1.2, 10.0: 1.6}
"""Thickness of a blade by its width: ISO 2380-1 (memory)."""

SLOT_WIDTH = {1.6: 0.4, 2.0: 0.5, 2.5: 0.6, 3.0: 0.8, 3.5: 1.0, 4.0: 1.2, 5.0: 1.2, 6.0: 1.6}
"""Nominal width n of the slot by thread diameter: ISO 1207, ISO 1580, ISO 2009."""

HEXAGON_KEY: Mapping[str, Mapping[float, float]] = {
    "cap": {1.6: 1.5, 2.0: 1.5, 2.5: 2.0, 3.0: 2.5, 4.0: 3.0, 5.0: 4.0, 6.0: 5.0},
    "button": {3.0: 2.0, 4.0: 2.5, 5.0: 3.0, 6.0: 4.0},
    "countersunk": {2.0: 1.3, 2.5: 1.5, 3.0: 2.0, 4.0: 2.5, 5.0: 3.0, 6.0: 4.0},
    "set": {1.4: 0.7, 1.6: 0.7, 2.0: 0.9, 2.5: 1.3, 3.0: 1.5, 4.0: 2.0, 5.0: 2.5, 6.0: 3.0},
}
"""Width across flats of the key by head and thread diameter: ISO 4762, ISO 7380-1, ISO 10642, ISO 4026 (verified)."""

CROSS_FOR = {
    1.0: "000",
    1.2: "000",
    1.4: "00",
    1.6: "0",
    2.0: "0",
    2.5: "1",
    3.0: "1",
    3.5: "2",
    4.0: "2",
    5.0: "2",
    6.0: "3",
}
"""Usual number by thread diameter: ISO 7045 from M1.6 on (verified), common practice below."""

HEXALOBULAR_FOR = {
    1.2: "T3",
    1.4: "T4",
    1.6: "T5",
    2.0: "T6",
    2.5: "T8",
    3.0: "T10",
    3.5: "T15",
    4.0: "T20",
    5.0: "T25",
    6.0: "T30",
}
"""Usual number by thread diameter: ISO 14583 from M2 on (verified), common practice below."""

SHARE_OF_HEAD = 0.55
"""Across a drive of unknown size, in head diameters: about what the standards' heads have."""

PLAIN_ACROSS = 2.0
"""mm; a drive of unknown size on no known head."""

CROSS_NAMES = ("cross-recess", "phillips", "pozidriv")
LOBED = {"five-lobe": 5, "pentalobe": 5}
WINGED = {"three-lobe": 3, "tri-wing": 3, "tri-point": 3, "three-wing": 3}

_CROSS = re.compile(r"(PH|PZ|H|Z)?\s?(000|00|[0-4])", re.IGNORECASE)
_LOBULAR = re.compile(r"(T[0-9]{1,3})(H?)", re.IGNORECASE)
_MILLIMETRES = re.compile(r"(?:SW ?)?([0-9]{1,2}(?:\.[0-9]{1,2})?)(?: ?mm)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class DriveFace:
    """A drive from above, round (0, 0). shape: the word of the model; size: as written, or the usual one.

    across: over the points, mm (blade width for a slot, flats for a hexagon); outlines are cut into the head, lines are thin
    lines on it, posts stand up in the recess. note: what is not from a standard, in words; empty where all is.
    """

    shape: str
    size: str | None
    across: float
    outlines: tuple[Polygon, ...]
    lines: tuple[Polygon, ...] = ()
    posts: tuple[Polygon, ...] = ()
    note: str = ""

    @property
    def is_nominal(self) -> bool:
        return bool(self.note)


# --- drawing ----------------------------------------------------------------------------------------------------


def drive_face(shape: str, size: str | None, thread: str | None = None, head: str | None = None) -> DriveFace | None:
    """The drive from above; None for a shape not known here, which nobody can draw.

    thread, head: of the screw, for the usual size where `size` says nothing; a driver's tip has neither.
    """
    found = thread_of(thread)
    diameter = found.diameter if found else None
    if shape in CROSS_NAMES:
        return _cross(shape, size, diameter)
    if shape == "hexalobular":
        return _hexalobular(size, diameter)
    if shape == "slotted":
        return _slotted(size, diameter)
    if shape in ("hexagon-socket", "hexagon", "square"):
        return _flats(shape, size, diameter, head)
    across, note = _measured(size, diameter)
    if shape in LOBED:
        return DriveFace(shape, size, across, (recesses.lobes(LOBED[shape], across, 0.68 * across),), note=note)
    if shape in WINGED:
        return DriveFace(shape, size, across, (recesses.wings(WINGED[shape], across, 0.22 * across),), note=note)
    if shape == "two-hole":
        holes = tuple(recesses.disc((side * 0.38 * across, 0.0), 0.12 * across) for side in (-1, 1))
        return DriveFace(shape, size, across, holes, note=note)
    if shape == "one-way":
        ramp = ((-0.5, -0.1), (0.12, -0.1), (0.5, 0.02), (0.5, 0.1), (-0.12, 0.1), (-0.5, -0.02))
        return DriveFace(shape, size, across, (tuple((across * x, across * y) for x, y in ramp),), note=note)
    return None


def fitted(face: DriveFace, widest: float) -> DriveFace:
    """The same drive, made smaller where it would run over the edge of its head."""
    if face.across <= widest or face.across <= 0:
        return face
    k = widest / face.across

    def scaled(polygons: tuple[Polygon, ...]) -> tuple[Polygon, ...]:
        return tuple(tuple((k * x, k * y) for x, y in polygon) for polygon in polygons)

    return replace(
        face,
        across=widest,
        outlines=scaled(face.outlines),
        lines=scaled(face.lines),
        posts=scaled(face.posts),
        note="drawn smaller than its size, which is wider than the head",
    )


def slot_across(face: DriveFace, head: float) -> DriveFace:
    """A slot that runs from edge to edge of a round head of that diameter, whatever blade turns it."""
    width = min(2 * max(y for _, y in face.outlines[0]), head / 3)
    across = math.sqrt(head**2 - width**2)
    return replace(face, across=across, outlines=(recesses.slot(across, width),))


def usual_cross(diameter: float | None) -> str | None:
    return _nearest(CROSS_FOR, diameter)


def _cross(shape: str, size: str | None, diameter: float | None) -> DriveFace:
    match = _CROSS.fullmatch(size.strip()) if size else None
    number = match[2] if match else usual_cross(diameter) or "1"
    is_straight = bool(match and (match[1] or "").upper() in ("PZ", "Z")) or shape == "pozidriv"
    wing = {**CROSS_WING, **CROSS_WING_BELOW}[number]
    span = CROSS_SPAN * wing
    if match is None:
        note = "size not told, the usual one is drawn" if not size else "no size of the standards, a fair one is drawn"
    elif number in CROSS_WING:
        note = "across the wings nominal"
    else:
        note = "below the sizes of the standards, nominal"
    outline = recesses.straight_cross(span, wing) if is_straight else recesses.cross(span, wing)
    lines = recesses.ribs(wing) if is_straight else ()
    return DriveFace(shape, size or f"PH{number}", span, (outline,), lines, note=note)


def _hexalobular(size: str | None, diameter: float | None) -> DriveFace:
    match = _LOBULAR.fullmatch(size.strip()) if size else None
    name = match[1].upper() if match else _nearest(HEXALOBULAR_FOR, diameter) or "T10"
    across = HEXALOBULAR_ACROSS.get(name)
    note = "" if match and across else "size not told, the usual one is drawn" if not size else "nominal size"
    if across is None:
        across = _in_between(int(name[1:]))
    outline = recesses.lobes(6, across, HEXALOBULAR_ROOT * across)
    posts = (recesses.disc((0.0, 0.0), 0.13 * across),) if match and match[2] else ()
    return DriveFace("hexalobular", size or name, across, (outline,), posts=posts, note=note)


def _in_between(number: int) -> float:
    """A size in no table: in proportion between its neighbours, or to the nearest."""
    known = sorted((int(name[1:]), across) for name, across in HEXALOBULAR_ACROSS.items())
    low = max((row for row in known if row[0] <= number), default=None)
    high = min((row for row in known if row[0] >= number), default=None)
    if low is None or high is None:
        near = low or high or known[0]
        return round(near[1] * min(3.0, max(0.5, math.sqrt(number / near[0]))), 2)
    return low[1] if low == high else round(low[1] + (high[1] - low[1]) * (number - low[0]) / (high[0] - low[0]), 2)


def _slotted(size: str | None, diameter: float | None) -> DriveFace:
    """A blade has width and thickness; a slot has a width that its thread fixes, and runs across the head."""
    across = _millimetres(size)
    is_told = across is not None
    across = across or (1.9 * diameter if diameter else PLAIN_ACROSS)
    width = SLOT_WIDTH.get(diameter) if diameter else BLADE.get(across)
    notes = [] if is_told else ["width of the blade not told"]
    if width is None:
        width = _nearest(BLADE, across) or 0.2 * across
        notes.append("thickness nominal")
    outline = recesses.slot(across, min(width, across / 2))
    return DriveFace("slotted", size, across, (outline,), note=", ".join(notes))


def _flats(shape: str, size: str | None, diameter: float | None, head: str | None) -> DriveFace:
    flats = _millimetres(size)
    note = ""
    if flats is None:
        flats = HEXAGON_KEY.get(head_kind(head) or "", {}).get(diameter or 0.0) if shape == "hexagon-socket" else None
        size, note = (f"{flats:g}" if flats else size), "size not told, the usual one is drawn"
        flats = flats or (SHARE_OF_HEAD * 1.7 * diameter if diameter else PLAIN_ACROSS)
    elif shape == "square":
        note = "no standard fixes its size"
    return DriveFace(shape, size, flats, (recesses.regular(4 if shape == "square" else 6, flats),), note=note)


def _measured(size: str | None, diameter: float | None) -> tuple[float, str]:
    """Across and note of a shape without a public standard: the measure the author gave, else a fair one."""
    told = _millimetres(size)
    if told:
        return told, "no public standard, drawn by shape and measured size"
    return (SHARE_OF_HEAD * 1.7 * diameter if diameter else PLAIN_ACROSS), "no public standard, drawn by shape only"


def _millimetres(size: str | None) -> float | None:
    match = _MILLIMETRES.fullmatch(size.strip()) if size else None
    value = float(match[1]) if match else 0.0
    return value if value >= 0.1 else None


def _nearest(table: Mapping[float, T], diameter: float | None) -> T | None:
    if diameter is None:
        return None
    return table[min(table, key=lambda key: (abs(key - diameter), key))]
