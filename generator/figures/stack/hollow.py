"""The hollow of the base: where the parts sit, and what is seen of those that stay in it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import PartId
from generator.figures.stack.outlines import straight
from generator.figures.stack.projection import lowered, projected_shape
from generator.figures.stack.solids import Solid

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

_JOINED = 12.0  # mm: places in the base closer than twice that make one hollow
_ROOM = 0.6  # mm around a part in its place
_RIM = 2.2  # mm of the base that are left around the hollow


@dataclass(frozen=True, slots=True)
class Pocket:
    """The hollow of the base in isometric mm, in its place in the device: its rim, and the floor as far as it is seen."""

    rim: BaseGeometry
    floor: BaseGeometry


def pocket_of(anatomy: Anatomy, base: Solid, solids: Iterable[Solid], below: frozenset[PartId]) -> Pocket | None:
    """The hollow of the base as seen from above; None if the author's depths show none.

    It is where parts with a depth reach down past the top of the base: their places, joined where little is between them,
    inside a rim.
    """
    import shapely

    if anatomy.parts[base.part].depth is None:
        return None
    sunk = [
        solid
        for solid in solids
        if solid.part != base.part
        and solid.part not in below
        and anatomy.parts[solid.part].depth is not None
        and base.z < solid.z + solid.thickness < base.z + base.thickness + 0.01
        and solid.shift == (0.0, 0.0)
    ]
    if not sunk:
        return None
    places = shapely.union_all([shapely.box(s.box.x, s.box.y, s.box.right, s.box.bottom) for s in sunk])
    # Corners stay sharp: what is round comes from the outline of the base.
    joined = shapely.buffer(places, _JOINED, join_style="mitre", mitre_limit=2.0)
    hollow: BaseGeometry = shapely.buffer(joined, _ROOM - _JOINED, join_style="mitre", mitre_limit=2.0)
    face = shapely.make_valid(shapely.Polygon(straight(base.top_rings()[0])))
    hollow = shapely.intersection(hollow, shapely.buffer(face, -_RIM, quad_segs=4))
    for hole in base.holes:
        hollow = shapely.difference(hollow, shapely.box(hole.x, hole.y, hole.right, hole.bottom))
    foot = max(solid.z + solid.thickness for solid in sunk)
    down = round(max(0.5, min(foot - base.z, base.thickness - 0.4)), 2)
    if hollow.is_empty:
        return None
    rim = projected_shape(hollow, base.z)
    return Pocket(rim, shapely.intersection(lowered(rim, down), rim))


@dataclass(frozen=True, slots=True)
class Seen:
    """What a rim leaves to be seen of a part, isometric mm: of its silhouette and of its top face."""

    silhouette: BaseGeometry
    face: BaseGeometry


def seated(solid: Solid, base: Solid, pocket: Pocket | None) -> tuple[Solid, Seen | None]:
    """A part that stays, as it is seen in the base; with it what the rim leaves to be seen of it, if that is less.

    What stands up over the base is cut off at the base's top; without a hollow the part lies on the base.
    """
    import shapely

    if solid.z < base.z - 0.05:
        return replace(solid, thickness=round(min(solid.thickness, base.z - solid.z), 2)), None
    if pocket is None:
        return replace(solid, z=round(base.z - solid.thickness, 2)), None
    face = projected_shape(shapely.make_valid(shapely.Polygon(straight(solid.top_rings()[0]))), solid.z)
    return solid, Seen(*(shapely.intersection(shape, pocket.rim) for shape in (solid.silhouette, face)))
