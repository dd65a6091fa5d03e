"""Threads that have a public standard: one table for whoever names, checks or draws a screw. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

LEAST_M = 1.0
"""mm; ISO 261 and ISO 262 begin at M1 (verified: open fastener data file iso262def.csv); what is smaller is of series S."""


@dataclass(frozen=True, slots=True)
class StandardThread:
    """series: M (coarse), S (miniature) or ST (self-tapping); diameter: outside; tag: how well the pitch is known."""

    series: str
    diameter: float
    pitch: float
    source: str
    tag: str

    @property
    def name(self) -> str:
        return f"{self.series}{self.diameter:g}"


_ISO_262 = "ISO 262 coarse series (read in open fastener data file iso262def.csv and in a tap-maker catalogue table)"
_NON_PREFERRED = "non-preferred size of older and Japanese devices (tap-maker catalogue)"
_ISO_261 = "ISO 261, sizes of the first to third choice"
_ISO_1501 = "ISO 1501:2009 (miniature series S, 0.30 to 1.40 mm)"
_ISO_1478 = "ISO 1478, self-tapping threads"

_ROWS: tuple[tuple[str, str, str, tuple[tuple[float, float], ...]], ...] = (
    ("M", _ISO_262, "verified", (
        (1, 0.25), (1.2, 0.25), (1.4, 0.3), (1.6, 0.35), (1.8, 0.35), (2, 0.4), (2.5, 0.45), (3, 0.5), (3.5, 0.6), (4, 0.7),
        (5, 0.8), (6, 1),
    )),
    ("M", _NON_PREFERRED, "verified", ((1.7, 0.35), (2.3, 0.4), (2.6, 0.45))),
    ("M", _ISO_261, "memory", (
        (1.1, 0.25), (2.2, 0.45), (4.5, 0.75), (7, 1), (8, 1.25), (9, 1.25), (10, 1.5), (11, 1.5), (12, 1.75), (14, 2),
        (16, 2), (18, 2.5), (20, 2.5), (22, 2.5), (24, 3), (27, 3), (30, 3.5),
    )),
    ("S", _ISO_1501, "memory", (
        (0.3, 0.08), (0.35, 0.09), (0.4, 0.1), (0.45, 0.1), (0.5, 0.125), (0.55, 0.125), (0.6, 0.15), (0.7, 0.175),
        (0.8, 0.2), (0.9, 0.225), (1, 0.25), (1.1, 0.25), (1.2, 0.25), (1.4, 0.3),
    )),
    ("ST", _ISO_1478, "memory", (
        (1.5, 0.5), (1.9, 0.6), (2.2, 0.8), (2.6, 0.9), (2.9, 1.1), (3.3, 1.3), (3.5, 1.3), (3.9, 1.4), (4.2, 1.4),
        (4.8, 1.6), (5.5, 1.8), (6.3, 1.8),
    )),
)  # fmt: skip

STANDARD_THREADS = tuple(
    StandardThread(series, float(diameter), float(pitch), source, tag)
    for series, source, tag, sizes in _ROWS
    for diameter, pitch in sizes
)

PITCHES = {(thread.series, thread.diameter): thread.pitch for thread in STANDARD_THREADS}
"""mm, by series and diameter."""
