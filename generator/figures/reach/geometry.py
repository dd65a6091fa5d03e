"""Where the marks of a reach plot stand: one line a device, further right for more steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.languages import say

WIDTH = 480.0
MARGIN = 16.0
KEY_LINE = 26.0
NAME = 22.0
LANE = 16.0
GAP = 12.0
NAME_SIGNS = 44
"""Signs of a name that fit the width; of a longer one the beginning."""
TICKS = 7
"""At most so many numbers on the scale."""


@dataclass(frozen=True, slots=True)
class Reached:
    """A device and the steps to each of the parts, in the order of the plot's marks; None where there is no way."""

    name: str
    steps: tuple[int | None, ...]


@dataclass(frozen=True, slots=True)
class Mark:
    """kind: which of the parts, from 0."""

    kind: int
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Line:
    """One device: its name above its line, marks on it."""

    name: str
    name_y: float
    y: float
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Plot:
    """key: a mark and the word beside it, one line each; ticks: number and place of each line of the scale."""

    height: float
    top: float
    key: tuple[tuple[Mark, str], ...]
    ticks: tuple[tuple[int, float], ...]
    lines: tuple[Line, ...]
    desc: str
    width: float = WIDTH


def reach_plot(kinds: Sequence[str], devices: Sequence[Reached]) -> Plot:
    """kinds: what the marks stand for. Marks of one device at one place stand one above the other, so that none hides."""
    most = max((count for device in devices for count in device.steps if count is not None), default=0)
    step = _tick_step(most)
    last = max(step, -(-most // step) * step)
    scale = (WIDTH - 2 * MARGIN) / last

    def at(steps: int) -> float:
        return MARGIN + steps * scale

    key = tuple(
        (Mark(kind, MARGIN + 6, (kind + 0.5) * KEY_LINE), name) for kind, name in enumerate(kinds)
    )
    top = len(kinds) * KEY_LINE + 30
    lines = []
    y = top + GAP
    for device in devices:
        taken: dict[int, int] = {}
        placed = []
        for kind, steps in enumerate(device.steps):
            if steps is not None:
                placed.append((kind, at(steps), taken.get(steps, 0)))
                taken[steps] = taken.get(steps, 0) + 1
        lanes = max((lane for *_, lane in placed), default=0) + 1
        base = y + NAME + lanes * LANE
        marks = tuple(Mark(kind, x, base - lane * LANE) for kind, x, lane in placed)
        lines.append(Line(_shortened(device.name), y + NAME - 6, base, marks))
        y = base + GAP + LANE / 2
    ticks = tuple((number, at(number)) for number in range(0, last + 1, step))
    return Plot(y, top, key, ticks, tuple(lines), _desc(kinds, devices))


def _tick_step(most: int) -> int:
    """The smallest of 1, 2, 5, 10, 20, ... with which the scale has no more than TICKS numbers."""
    step, factors = 1, (2.0, 2.5, 2.0)
    turn = 0
    while most / step > TICKS - 1:
        step = int(step * factors[turn % 3])
        turn += 1
    return step


def _shortened(name: str) -> str:
    return name if len(name) <= NAME_SIGNS else f"{name[: NAME_SIGNS - 1].rstrip()}…"


def _desc(kinds: Sequence[str], devices: Sequence[Reached]) -> str:
    """The fewest and the most steps to each part; the table beside the plot has all."""
    told = []
    for kind, name in enumerate(kinds):
        found = [(device.steps[kind], device.name) for device in devices]
        known = [(steps, name) for steps, name in found if steps is not None]
        if known:
            few = min(known, key=lambda one: one[0])
            many = max(known, key=lambda one: one[0])
            if few[0] == many[0]:
                told.append(f"{name}: {few[0]}.")
            else:
                told.append(
                    say(
                        "{part}: from {few} ({device}) to {many} ({other}).",
                        part=name,
                        few=few[0],
                        device=few[1],
                        many=many[0],
                        other=many[1],
                    )
                )
    return " ".join(told) or say("No way is known.")
