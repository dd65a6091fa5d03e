"""When what happens in the moving picture. Times are tenths of a second, whole numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.orders.work import Step

OPENING = 20
"""The device as it stands before the first step."""

REST = 50
"""The finished stack, before all goes back together."""

CLOSING = 15
"""All going back together, so that the picture can begin anew."""

LEAST, AN_ACTION, MOST = 16, 4, 60
"""How long a step takes: LEAST and AN_ACTION for each of its actions, MOST at most."""

_LOOSE, _AWAY = 30, 75  # hundredths of a step: until its screws are up, until its parts are where they stay
_DRAWN_OUT = 55  # the same, until a part that slides is out of its slot


@dataclass(frozen=True, slots=True)
class Beat:
    """One step: it starts, its screws are up (loose), what slides is out (drawn_out), its parts are away, it ends."""

    start: int
    loose: int
    drawn_out: int
    away: int
    end: int


@dataclass(frozen=True, slots=True)
class Timetable:
    """The beats of all steps; when the finished stack stands (rest) and begins to close; how long all takes."""

    beats: tuple[Beat, ...]
    rest: int
    closing: int
    whole: int

    def share(self, at: float) -> float:
        """A time as a share of the whole, per cent."""
        return 100.0 * at / self.whole

    @property
    def seconds(self) -> float:
        return self.whole / 10


def timetable(steps: Sequence[Step]) -> Timetable:
    """One step after the other, longer where more is done."""
    beats = []
    at = OPENING
    for step in steps:
        long = min(LEAST + AN_ACTION * len(step.actions), MOST)
        loose, drawn_out, away = (at + long * share // 100 for share in (_LOOSE, _DRAWN_OUT, _AWAY))
        beats.append(Beat(at, loose, drawn_out, away, at + long))
        at += long
    # Ghosts come back to full strength at the beginning of the rest.
    return Timetable(tuple(beats), at + 8, at + REST, at + REST + CLOSING)
