"""Pulling the stack apart: the gap above every level, and what is painted before what."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.anatomy.parts import PartId
from generator.figures.stack.projection import lowered
from generator.figures.stack.solids import Solid

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

GAP_START = 32.0
GAP_STEP = 2.0
GAP_CAP = 80.0
"""mm of a handset (see `solids`) between two levels: where the search starts, goes on and gives up."""

SHOWN = 0.8
SHOWN_OF_LARGE = 0.42
LARGE = 5000.0
"""Share of its silhouette that each part has to show below the levels above it; slabs over LARGE mm² need less."""

_NEAR = 0.01


@dataclass(frozen=True, slots=True)
class Level:
    """One level of the stack, from above: offset in mm down from the place in the device; gap in mm to the level above.

    solids: in the order of painting; cover: what all levels above cover, isometric mm.
    """

    offset: float
    gap: float
    solids: tuple[Solid, ...]
    cover: BaseGeometry


def pull_apart(
    solids: Sequence[Solid], levels: Mapping[PartId, int], below: frozenset[PartId], base: PartId
) -> tuple[Level, ...]:
    """The levels from the top of the sheet to its foot: those of the first face, the base, those of the second face.

    Parts without a level stay, and lie with the base. Of the second face's levels the outermost comes last.
    """
    import shapely

    above: dict[int, list[Solid]] = {}
    under: dict[int, list[Solid]] = {}
    staying: list[Solid] = []
    for solid in solids:
        if solid.part not in levels:
            staying.append(solid)
        else:
            (under if solid.part in below else above).setdefault(levels[solid.part], []).append(solid)
    order = [above[level] for level in sorted(above)]
    order += [staying] if staying else []
    order += [under[level] for level in sorted(under, reverse=True)]
    found: list[Level] = []
    offset = 0.0
    cover: BaseGeometry = shapely.Polygon()
    for group in order:
        gap = 0.0
        if found:
            gap = _gap(group, offset, cover, base)
            offset += gap
        found.append(Level(offset, gap, painted(group, base), cover))
        cover = shapely.union_all([cover, *(lowered(solid.silhouette, offset) for solid in group)])
    return tuple(found)


def painted(solids: Sequence[Solid], base: PartId) -> tuple[Solid, ...]:
    """One level's parts, each before all that cover it on the sheet.

    Of two parts the deeper one comes first, or the one further from the viewer where they lie beside each other. The base
    comes before what lies in it. Where three go round in a ring, the one furthest away goes first.
    """
    rank = sorted(solids, key=lambda one: (one.part != base, one.box.x + one.box.y, -one.z, one.part))
    waits = {
        one.part: {other.part for other in rank if other is not one and _is_before(other, one, base)} for one in rank
    }
    order: list[Solid] = []
    left = list(rank)
    while left:
        ready = next((one for one in left if not waits[one.part]), left[0])
        left.remove(ready)
        order.append(ready)
        for gone in waits.values():
            gone.discard(ready.part)
    return tuple(order)


def _gap(group: Sequence[Solid], offset: float, cover: BaseGeometry, base: PartId) -> float:
    """The least gap at which every part of the level shows enough; of the base's level only the base is asked."""
    import shapely

    asked = [solid for solid in group if solid.part == base] or list(group)
    needs = [SHOWN_OF_LARGE if solid.box.width * solid.box.height > LARGE else SHOWN for solid in asked]
    shapes = [solid.silhouette for solid in asked]
    areas = shapely.area(shapes)
    shapely.prepare(cover)
    gap = GAP_START
    while gap < GAP_CAP:
        moved = [lowered(shape, offset + gap) for shape in shapes]
        shown = shapely.area(shapely.difference(moved, cover)) / areas
        if all(share >= need - _NEAR for share, need in zip(shown.tolist(), needs, strict=True)):
            break
        gap += GAP_STEP
    return min(gap, GAP_CAP)


def _is_before(one: Solid, other: Solid, base: PartId) -> bool:
    """Whether `one` has to be painted before `other`, of two parts on one level that may cover each other."""
    if base in (one.part, other.part):
        return one.part == base
    a, b = one.box, other.box
    if one.z >= other.z + other.thickness - _NEAR:
        return True
    if other.z >= one.z + one.thickness - _NEAR:
        return False
    if a.right <= b.x + _NEAR or a.bottom <= b.y + _NEAR:
        return not (b.right <= a.x + _NEAR or b.bottom <= a.y + _NEAR)
    if b.right <= a.x + _NEAR or b.bottom <= a.y + _NEAR:
        return False
    return one.z > other.z
