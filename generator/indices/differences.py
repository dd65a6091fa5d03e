"""What differs between two results of one index: the sum, its classes, and the cells that moved."""

from __future__ import annotations

from dataclasses import dataclass

from generator.indices.workings import Cell, Index


@dataclass(frozen=True)
class Moved:
    """One cell before and after; None where the other result has no such cell."""

    before: Cell | None
    after: Cell | None


@dataclass(frozen=True)
class Difference:
    """Two results of one act, and the cells in which steps or points differ, in the order of the criteria."""

    before: Index
    after: Index
    moved: tuple[Moved, ...]


def difference(before: Index, after: Index) -> Difference:
    """Compare cell by cell, by criterion and part of the act."""
    earlier = {(cell.criterion, cell.code): cell for cell in before.cells}
    later = {(cell.criterion, cell.code): cell for cell in after.cells}
    pairs = (Moved(earlier.get(key), later.get(key)) for key in dict.fromkeys((*earlier, *later)))
    return Difference(before, after, tuple(pair for pair in pairs if _figures(pair.before) != _figures(pair.after)))


def _figures(cell: Cell | None) -> object:
    return (cell.low, cell.high, cell.steps, cell.outside) if cell else None
