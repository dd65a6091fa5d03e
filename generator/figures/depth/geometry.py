"""Where the marks of a depth plot stand: one line a part, the nearest first, longer for more steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.figures.stack.lettering import wrapped
from generator.languages import say, say_many

WIDTH = 480.0
NAMES_END = 214.0
"""Names end here; the stems begin a little further right."""
STEMS = (226.0, 446.0)
"""Where no step is needed, and where the deepest part stands."""
ROW = 27.0
TOP = 6.0
NAME_SIZE = 17.0
KEY_ROW = 30.0
LIMIT = 40
"""Parts that are drawn; of more the deepest, since that is what a plot is looked at for."""


@dataclass(frozen=True, slots=True)
class Deep:
    """A part and the steps on its shortest way."""

    name: str
    steps: int
    is_replaceable: bool


@dataclass(frozen=True, slots=True)
class Stem:
    """One part: its name as far as it fits, the end of its stem, and the number of steps written beside it."""

    name: str
    x: float
    y: float
    steps: int
    is_replaceable: bool


@dataclass(frozen=True, slots=True)
class DepthPlot:
    """key_y: where the meaning of the two marks is told, None where all parts have the same mark."""

    height: float
    stems: tuple[Stem, ...]
    key_y: float | None
    desc: str
    left_out: int


def depth_plot(parts: Sequence[Deep]) -> DepthPlot:
    """Sorted by steps, the same as given among equals. ValueError for no parts."""
    if not parts:
        raise ValueError("a plot of no parts cannot be drawn")
    rising = sorted(parts, key=lambda part: part.steps)
    drawn = rising[-LIMIT:]
    most = max(drawn[-1].steps, 1)
    start, end = STEMS
    stems = tuple(
        Stem(
            name=wrapped(part.name, NAME_SIZE, NAMES_END - 2, 1)[0],
            x=start + (end - start) * part.steps / most,
            y=TOP + ROW * (row + 0.5),
            steps=part.steps,
            is_replaceable=part.is_replaceable,
        )
        for row, part in enumerate(drawn)
    )
    foot = TOP + ROW * len(drawn)
    has_key = len({part.is_replaceable for part in drawn}) > 1
    return DepthPlot(
        height=foot + (KEY_ROW if has_key else TOP),
        stems=stems,
        key_y=foot + KEY_ROW * 0.6 if has_key else None,
        desc=_desc(rising),
        left_out=len(rising) - len(drawn),
    )


def _desc(rising: Sequence[Deep]) -> str:
    near, deep = rising[0], rising[-1]
    if near.steps == deep.steps:
        return say_many("Each takes {n} step.", "Each takes {n} steps.", near.steps)
    return say(
        "From {few} ({part}) to {many} ({other}).", few=near.steps, part=near.name, many=deep.steps, other=deep.name
    )
