"""Threads as a drawing needs them: outside diameter and pitch, read from the name an author wrote. Lengths in mm."""

from __future__ import annotations

import re
from dataclasses import dataclass

from generator.anatomy.threads import LEAST_M, PITCHES

THREAD_DEPTH = 0.61343
"""Depth of an external metric thread, in pitches: h3 = 17/24 H, H = P sqrt(3)/2 (ISO 68-1, ISO 724)."""

_WRITTEN = re.compile(r"(M|S|ST)\s?([0-9]{1,2}(?:\.[0-9]{1,3})?)(?:\s?[x×]\s?([0-9](?:\.[0-9]{1,3})?))?")
_NOMINAL_PITCH = 0.2  # of the diameter, for a size in none of the tables


@dataclass(frozen=True, slots=True)
class Thread:
    """Outside diameter and pitch; is_nominal: the pitch is in no table here; is_tapping: it cuts its own way, to a point."""

    diameter: float
    pitch: float
    is_nominal: bool = False
    is_tapping: bool = False


def thread_of(written: str | None) -> Thread | None:
    """The thread an author means; None where nothing is written or it is not the name of a thread.

    >>> thread_of("M1.4")
    Thread(diameter=1.4, pitch=0.3, is_nominal=False, is_tapping=False)
    >>> thread_of("M8x1").pitch, thread_of("S0.8").pitch, thread_of("thick")
    (1.0, 0.2, None)
    """
    match = _WRITTEN.fullmatch((written or "").strip())
    diameter = float(match[2]) if match else 0.0
    if match is None or diameter < 0.1:
        return None
    is_tapping = match[1] == "ST"
    series = "S" if match[1] == "M" and diameter < LEAST_M else match[1]
    pitch = float(match[3]) if match[3] else PITCHES.get((series, diameter), 0.0)
    if 0.01 <= pitch <= diameter / 2:
        return Thread(diameter, pitch, False, is_tapping)
    return Thread(diameter, _NOMINAL_PITCH * diameter, True, is_tapping)
