"""The worst class of several things met on the way to a part, with what is not known of them left open."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.indices.workings import Basis, Cell, Fact, Line
from generator.languages import say
from generator.orders.work import StepId


@dataclass(frozen=True, slots=True)
class Classed:
    """The points something may be worth, fewest first, why, and what that rests on; no points: outside the scale."""

    points: tuple[int, ...]
    words: str
    basis: Basis


@dataclass(frozen=True, slots=True)
class Met:
    """A fastener or tool met on the way: key names the unknown behind it; is_counted: counts for the part in question."""

    key: str
    name: str
    classed: Classed
    step: StepId | None
    is_counted: bool = True


@dataclass(frozen=True, slots=True)
class Worst:
    """The worst of several: min(ceiling, facts), the lines it was made from, what lies outside the scale."""

    ceiling: int
    facts: tuple[Fact, ...]
    lines: tuple[Line, ...]
    outside: tuple[str, ...] = ()

    def within(self, cell: Cell) -> Cell:
        """The cell with these points."""
        return Cell(
            cell.criterion, cell.code, cell.name, cell.weight, cell.share, self.ceiling, self.facts, self.lines,
            outside=self.outside, beside=cell.beside, notes=cell.notes, part=cell.part,
        )  # fmt: skip


def worst_of(met: Iterable[Met], most: int, least: int, nothing: Line) -> Worst:
    """The least points among what counts; `most` where nothing does, with the line `nothing` to say so.

    What lies outside the scale is taken at its best case, `least`.
    """
    ceiling, facts, lines, outside = most, [], [], []
    for entry in met:
        points = entry.classed.points
        words = f"{entry.name}: {entry.classed.words}"
        lines.append(Line(words, points, entry.classed.basis, entry.is_counted, entry.step))
        if not entry.is_counted:
            continue
        if not points:
            outside.append(words)
            ceiling = least
        elif len(points) == 1:
            ceiling = min(ceiling, points[0])
        else:
            facts.append(Fact(entry.key, say("the class of the {thing}", thing=entry.name), points))
    if not any(line.is_counted for line in lines):
        lines.append(nothing)
    return Worst(ceiling, tuple(facts), tuple(lines), tuple(outside))
