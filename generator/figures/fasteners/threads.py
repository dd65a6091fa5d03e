"""Threads as a drawing needs them: outside diameter and pitch, read from the name an author wrote. Lengths in mm."""

from __future__ import annotations

import re
from dataclasses import dataclass

THREAD_DEPTH = 0.61343
"""Depth of an external metric thread, in pitches: h3 = 17/24 H, H = P sqrt(3)/2 (ISO 68-1, ISO 724)."""

COARSE_PITCH = {
    1.0: 0.25,
    1.1: 0.25,
    1.2: 0.25,
    1.4: 0.3,
    1.6: 0.35,
    1.7: 0.35,
    1.8: 0.35,
    2.0: 0.4,
    2.2: 0.45,
    2.3: 0.4,
    2.5: 0.45,
    2.6: 0.45,
    3.0: 0.5,
    3.5: 0.6,
    4.0: 0.7,
    4.5: 0.75,
    5.0: 0.8,
    6.0: 1.0,
    7.0: 1.0,
    8.0: 1.25,
    9.0: 1.25,
    10.0: 1.5,
    11.0: 1.5,
    12.0: 1.75,
    14.0: 2.0,
    16.0: 2.0,
    18.0: 2.5,
    20.0: 2.5,
    22.0: 2.5,
    24.0: 3.0,
    27.0: 3.0,
    30.0: 3.5,
}
"""By diameter. M1 to M6: ISO 262 coarse series (verified); other sizes of ISO 261 from memory; M1.7, M2.3, M2.6 are
non-preferred sizes of older devices (tap-maker catalogue)."""

MINIATURE_PITCH = {
    0.3: 0.08,
    0.35: 0.09,
    0.4: 0.1,
    0.45: 0.1,
    0.5: 0.125,
    0.55: 0.125,
    0.6: 0.15,
    0.7: 0.175,
    0.8: 0.2,
    0.9: 0.225,
    1.0: 0.25,
    1.1: 0.25,
    1.2: 0.25,
    1.4: 0.3,
}
"""By diameter: ISO 1501, series S, 0.3 to 1.4 mm (memory)."""

TAPPING_PITCH = {
    1.5: 0.5, 1.9: 0.6, 2.2: 0.8, 2.6: 0.9, 2.9: 1.1, 3.3: 1.3, 3.5: 1.3, 3.9: 1.4, 4.2: 1.4, 4.8: 1.6, 5.5: 1.8, 6.3: 1.8,
}  # fmt: skip
"""By diameter: ISO 1478, self-tapping threads ST (memory)."""

LEAST_M = 1.0  # mm; ISO 261 begins at M1: a smaller M is drawn as S

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
    table = TAPPING_PITCH if is_tapping else MINIATURE_PITCH if match[1] == "S" or diameter < LEAST_M else COARSE_PITCH
    pitch = float(match[3]) if match[3] else table.get(diameter, 0.0)
    if 0.01 <= pitch <= diameter / 2:
        return Thread(diameter, pitch, False, is_tapping)
    return Thread(diameter, _NOMINAL_PITCH * diameter, True, is_tapping)
