"""Metric threads that have a public standard, and the pitch of those a guide is likely to meet."""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Thread:
    """One thread; pitch is the coarse pitch in mm, None where only the size is known here."""

    name: str
    pitch: float | None
    source: str
    tag: str


_ISO_262 = "ISO 262 coarse series (read in open fastener data file iso262def.csv and in a tap-maker catalogue table)"
_NON_PREFERRED = "non-preferred size of older and Japanese devices (tap-maker catalogue)"
_ISO_261 = "ISO 261, sizes of the first to third choice"
_ISO_1501 = "ISO 1501:2009 (miniature series S, 0.30 to 1.40 mm)"

THREADS = (
    Thread("M1", 0.25, _ISO_262, "verified"),
    Thread("M1.2", 0.25, _ISO_262, "verified"),
    Thread("M1.4", 0.3, _ISO_262, "verified"),
    Thread("M1.6", 0.35, _ISO_262, "verified"),
    Thread("M1.8", 0.35, _ISO_262, "verified"),
    Thread("M2", 0.4, _ISO_262, "verified"),
    Thread("M2.5", 0.45, _ISO_262, "verified"),
    Thread("M3", 0.5, _ISO_262, "verified"),
    Thread("M3.5", 0.6, _ISO_262, "verified"),
    Thread("M4", 0.7, _ISO_262, "verified"),
    Thread("M5", 0.8, _ISO_262, "verified"),
    Thread("M6", 1.0, _ISO_262, "verified"),
    Thread("M1.7", 0.35, _NON_PREFERRED, "verified"),
    Thread("M2.3", 0.4, _NON_PREFERRED, "verified"),
    Thread("M2.6", 0.45, _NON_PREFERRED, "verified"),
    *(
        Thread(f"M{size}", None, _ISO_261, "memory")
        for size in ("1.1", "2.2", "4.5", "7", "8", "9", "10", "11", "12", "14", "16", "18", "20", "22", "24", "27", "30")
    ),
    Thread("S0.8", 0.2, f"{_ISO_1501}; M0.8 is outside ISO 261", "memory"),
    *(
        Thread(f"S{size}", None, _ISO_1501, "memory")
        for size in ("0.3", "0.35", "0.4", "0.45", "0.5", "0.55", "0.6", "0.7", "0.9", "1", "1.1", "1.2", "1.4")
    ),
)

BY_NAME = {thread.name: thread for thread in THREADS}

LEAST_M = 1.0
"""mm; ISO 261 and ISO 262 begin at M1 (verified: open fastener data file iso262def.csv)."""

_WRITTEN = re.compile(r"([MS])\s?([0-9]+(?:\.[0-9]+)?)(?:\s?[x×]\s?[0-9]+(?:\.[0-9]+)?)?")
_TAPPING = re.compile(r"ST\s?[0-9]+(?:\.[0-9]+)?")


def looked_up_as(written: str) -> Thread | None:
    """The thread an author means: `M0.8` is looked up as S0.8, since the M series begins at M1; None if there is none.

    A pitch may follow (`M8x1`). Numbers may end in zeros.

    >>> looked_up_as("M2.50").name, looked_up_as("M0.8").name, looked_up_as("M1.3")
    ('M2.5', 'S0.8', None)
    """
    match = _WRITTEN.fullmatch(written.strip())
    if match is None:
        return None
    size = float(match[2])
    series = "S" if size < LEAST_M else match[1]
    return BY_NAME.get(f"{series}{size:g}")


def is_tapping(written: str) -> bool:
    """Whether it is a self-tapping thread as ISO 1478 writes them, such as ST2.9 (memory); these have no row here."""
    return _TAPPING.fullmatch(written.strip()) is not None
