"""How screws are driven: names and sizes as the standards have them, and what people say instead."""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class DriveName:
    """A shape with the pattern its sizes follow; example shows one, None where the shape is told apart by measure only."""

    shape: str
    sizes: re.Pattern[str] | None
    example: str
    source: str
    tag: str


_MILLIMETRES = r"(?:SW ?)?[0-9]{1,2}(?:\.[0-9]{1,2})?(?: mm)?"

DRIVES = (
    DriveName(
        "cross-recess",
        re.compile(r"(?:PH)?(?:000|00|[0-4])|PZ[0-4]"),
        "PH00",
        "ISO 4757, ISO 8764-1: types H and Z, numbers 0 to 4; 00 and 000 lie below both and are common practice",
        "verified",
    ),
    DriveName(
        "hexalobular",
        re.compile(r"T(?:[1-9][0-9]?|100)H?"),
        "T6",
        "ISO 10664, sizes 1 to 100 in the edition of 2014",
        "verified",
    ),
    DriveName("slotted", re.compile(_MILLIMETRES), "2.0", "ISO 1207, ISO 1580, ISO 2009, ISO 2380", "verified"),
    DriveName("hexagon-socket", re.compile(_MILLIMETRES), "1.5", "ISO 4762, ISO 7380-1, ISO 10642, ISO 4026", "verified"),
    DriveName("hexagon", re.compile(_MILLIMETRES), "5.5", "ISO 4014, ISO 4017, ISO 272: width across flats", "memory"),
    DriveName("square", None, "2", "no ISO recess; described by shape", "common practice"),
    DriveName("three-lobe", None, "0.6 mm", "no public standard; described by shape and measured size", "common practice"),
    DriveName("five-lobe", None, "0.8 mm", "no public standard; described by shape and measured size", "common practice"),
    DriveName("two-hole", None, "4 mm", "no public standard; described by shape and measured size", "common practice"),
    DriveName("one-way", None, "3 mm", "no public standard; described by shape and measured size", "common practice"),
)

BY_SHAPE = {drive.shape: drive for drive in DRIVES}

SAID_INSTEAD = {
    "phillips": "cross-recess",
    "pozidriv": "cross-recess",
    "pozidrive": "cross-recess",
    "cross": "cross-recess",
    "crosshead": "cross-recess",
    "crosspoint": "cross-recess",
    "jis": "cross-recess",
    "torx": "hexalobular",
    "star": "hexalobular",
    "six-lobe": "hexalobular",
    "hexalobe": "hexalobular",
    "flat": "slotted",
    "flathead": "slotted",
    "slot": "slotted",
    "allen": "hexagon-socket",
    "hex": "hexagon-socket",
    "hex-socket": "hexagon-socket",
    "inbus": "hexagon-socket",
    "nut": "hexagon",
    "hex-head": "hexagon",
    "robertson": "square",
    "pentalobe": "five-lobe",
    "tri-lobe": "three-lobe",
    "tri-wing": "three-lobe",
    "y": "three-lobe",
    "tri-point": "three-lobe",
    "spanner": "two-hole",
    "snake-eye": "two-hole",
}
"""Workshop names and the standard's name for the same shape, in lower case (common practice)."""

ACCEPTED = frozenset({"pentalobe", "tri-wing", "tri-point"})
"""Trade names of shapes without a public standard: they describe the shape as well as any other word."""
