"""A run of steps pulled apart: all that the stacks of its steps have in common."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.figures.stack.apart import Level, pull_apart
from generator.figures.stack.hollow import Pocket, Seen, pocket_of, seated
from generator.figures.stack.leaving import Leaving, leaving_of
from generator.figures.stack.levels import levels_of
from generator.figures.stack.projection import Point, projected
from generator.figures.stack.screws import HOVER, Fastened, fastened
from generator.figures.stack.sideways import Way, sideways_of
from generator.figures.stack.solids import scale_of, solids_of
from generator.orders.guide import Guide
from generator.orders.work import Step

UNITS = 3.05
"""Drawing units for one mm of a handset; tall stacks are drawn smaller."""

WIDEST = 613.0
TALLEST = 1500.0
"""Units that parts and screws take up at most: the stack is drawn smaller to keep within, for height down to LEAST_UNITS."""

LEAST_UNITS = 1.2


@dataclass(frozen=True)
class Arrangement:
    """A run of steps pulled apart, whatever the step. Lengths in mm of a handset.

    seen: of parts that stay in the hollow of the base, what its rim leaves of them. units: drawing units a mm; bounds:
    left, top, right, bottom of all parts and screws in isometric mm.
    """

    guide: Guide
    leaving: Leaving
    sideways: Mapping[PartId, Way]
    levels: tuple[Level, ...]
    screws: tuple[Fastened, ...]
    pocket: Pocket | None
    seen: Mapping[PartId, Seen]
    undrawn: tuple[PartId, ...]
    units: float
    bounds: tuple[float, float, float, float]


def arrange(guide: Guide, steps: Sequence[Step]) -> Arrangement | None:
    """Pull a run of steps apart; None where no part of it has a box."""
    leaving = leaving_of(guide, steps)
    sideways = sideways_of(guide, leaving)
    every = solids_of(guide, sideways)
    shown = set(leaving.shown)
    solids = [solid for solid in every if solid.part in shown]
    if not solids:
        return None
    base = guide.anatomy.base
    lowest = next((solid for solid in solids if solid.part == base), None)
    pocket = pocket_of(guide.anatomy, lowest, every, _below(guide)) if lowest is not None else None
    seen: dict[PartId, Seen] = {}
    if lowest is not None:
        for index, solid in enumerate(solids):
            if solid.part != base and solid.part not in leaving.goes:
                solids[index], rest = seated(solid, lowest, pocket)
                if rest is not None:
                    seen[solid.part] = rest
    levels = pull_apart(solids, levels_of(guide, leaving, solids), leaving.below, base)
    screws = fastened(leaving, levels, scale_of(guide))
    drawn = {solid.part for solid in solids}
    bounds = _bounds(levels, screws)
    return Arrangement(
        guide=guide,
        leaving=leaving,
        sideways=sideways,
        levels=levels,
        screws=screws,
        pocket=pocket,
        seen=seen,
        undrawn=tuple(part for part in leaving.shown if part not in drawn),
        units=round(min(WIDEST / (bounds[2] - bounds[0]), max(LEAST_UNITS, TALLEST / (bounds[3] - bounds[1])), UNITS), 3),
        bounds=bounds,
    )


def placed(u: float, v: float, units: float) -> Point:
    """A place on the sheet in units, to the tenth: what is the same on every machine to the bit."""
    return round(round(u, 2) * units, 1), round(round(v, 2) * units, 1)


def _below(guide: Guide) -> frozenset[PartId]:
    """The parts of the second face."""
    faces = guide.device.faces
    return frozenset(part.id for part in guide.anatomy.parts.values() if len(faces) > 1 and part.face == faces[1])


def _bounds(levels: Sequence[Level], screws: Sequence[Fastened]) -> tuple[float, float, float, float]:
    silhouettes = [(solid.silhouette, level.offset) for level in levels for solid in level.solids]
    boxes = [(*shape.bounds, offset) for shape, offset in silhouettes]
    tops = [v0 + offset for _, v0, _, _, offset in boxes]
    heads = [projected(s.x, s.y, levels[s.start].offset - HOVER - 3.0) for s in screws]
    return (
        round(min([u0 for u0, *_ in boxes] + [u - 2 for u, _ in heads]), 2),
        round(min(tops + [v for _, v in heads]), 2),
        round(max([u1 for _, _, u1, _, _ in boxes] + [u + 2 for u, _ in heads]), 2),
        round(max(v1 + offset for _, _, _, v1, offset in boxes), 2),
    )
