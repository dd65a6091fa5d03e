"""What is painted: slabs with their screws and the axes between levels, from the deepest up."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from generator.anatomy.parts import Feature, PartId
from generator.figures.stack.arrangement import Arrangement, placed
from generator.figures.stack.outlines import Spot
from generator.figures.stack.projection import Point, projected
from generator.figures.stack.screws import HOVER, Fastened, axes_of
from generator.figures.stack.shapes import Chains, Node, Ring, Screw, ScrewForm, Slab, State
from generator.figures.stack.solids import Solid

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

_RINGS = {"coil": (1.0, 0.86, 0.72), "lens": (1.0, 0.5)}
_THIN = 0.3  # units, a hair of what a line is wide
_FEATURES_LIMIT = 24  # drawn on one part


def painted(
    arranged: Arrangement, states: Mapping[PartId, State], forms: dict[ScrewForm, int]
) -> tuple[Slab | Chains, ...]:
    """Slabs and axes from the deepest level up. `forms` gathers the screw forms met on the way."""
    units = arranged.units
    with_screws = (State.PLACE, State.HAND, State.WORKED)
    screws = [screw for screw in arranged.screws if states[screw.part] in with_screws]
    axes = axes_of(screws, arranged.levels)
    painted: list[Slab | Chains] = []
    for level, lines in reversed(list(zip(arranged.levels, axes, strict=True))):
        for solid in level.solids:
            slab = _slab(arranged, solid, level.offset, states[solid.part])
            own = [screw for screw in screws if screw.part == solid.part]
            drawn = [_screw(screw, solid, level.offset, units, forms, arranged.leaving.below) for screw in own]
            # Nearer ones over farther ones.
            painted.append(replace(slab, screws=tuple(sorted(drawn, key=lambda one: (one.at[1], one.at[0])))))
        if lines:
            painted.append(Chains(tuple((placed(u, high, units), placed(u, low, units)) for u, high, low in sorted(lines))))
    return tuple(painted)


def _slab(arranged: Arrangement, solid: Solid, offset: float, state: State) -> Slab:
    units = arranged.units
    rest = arranged.seen.get(solid.part)
    if rest is not None:
        return Slab(
            solid.part, state, rings_of(rest.silhouette, units, offset), rings_of(rest.face, units, offset)
        )
    if solid.points:
        side = rings_of(solid.silhouette, units, offset)
    else:
        side = tuple(_ring(ring, solid.z + offset, units) for ring in solid.side_rings())
    if state is State.OUT:
        return Slab(solid.part, state, side)
    depth = solid.z + offset
    features: tuple[Ring, ...] = ()
    if state is not State.MUTED:
        features = tuple(
            ring for feature in solid.features[:_FEATURES_LIMIT] for ring in _feature(feature, depth, units)
        )
    wall: tuple[Ring, ...] = ()
    floor: tuple[Ring, ...] = ()
    if state is State.BASE and arranged.pocket is not None:
        wall = rings_of(arranged.pocket.rim, units, offset)
        floor = rings_of(arranged.pocket.floor, units, offset)
    return Slab(
        part=solid.part,
        state=state,
        side=side,
        top=tuple(_ring(ring, depth, units) for ring in solid.top_rings()),
        edges=tuple((_spot(upper, depth, units), _spot(lower, depth, units)) for upper, lower in solid.edges()),
        features=features,
        wall=wall,
        floor=floor,
        slide=_slide(solid, depth, units),
    )


def rings_of(shape: BaseGeometry, units: float, offset: float) -> tuple[Ring, ...]:
    """Every ring of a shape in isometric mm, without corners too close to tell apart."""
    import shapely

    rings = []
    for piece in shapely.get_parts(shapely.normalize(shape)).tolist():
        if piece.geom_type == "Polygon" and piece.area > 0.5:
            for ring in (piece.exterior, *piece.interiors):
                corners = [placed(u, v + offset, units) for u, v in shapely.get_coordinates(ring).tolist()[:-1]]
                rings.append(tuple(Node(*corner) for corner in _thinned(corners)))
    return tuple(rings)


def _thinned(corners: Sequence[Point]) -> list[Point]:
    """A ring without corners that the straight line between those kept passes within _THIN.

    Own work where the geometry library has as much: its thinning starts elsewhere from version to version, and the figure
    is to be the same to the byte.
    """
    kept = [corners[0]]
    passed: list[Point] = []
    for index, corner in enumerate(corners[1:], 1):
        onward = corners[(index + 1) % len(corners)]
        passed.append(corner)
        if any(_distance(one, kept[-1], onward) > _THIN for one in passed):
            kept.append(corner)
            passed = []
    return kept if len(kept) > 2 else list(corners)


def _distance(at: Point, start: Point, end: Point) -> float:
    """How far a point is from the stretch between two others."""
    du, dv = end[0] - start[0], end[1] - start[1]
    length = du * du + dv * dv
    along = max(0.0, min(1.0, ((at[0] - start[0]) * du + (at[1] - start[1]) * dv) / length)) if length else 0.0
    return math.hypot(at[0] - start[0] - along * du, at[1] - start[1] - along * dv)


def _slide(solid: Solid, depth: float, units: float) -> tuple[Point, Point] | None:
    """From the part's middle on the side it leads with back toward its seat."""
    dx, dy = solid.shift
    if not dx and not dy:
        return None
    box = solid.box
    (x, y), (half, height) = box.centre, (box.width / 2, box.height / 2)
    start = (x - (dx > 0) * half + (dx < 0) * half, y - (dy > 0) * height + (dy < 0) * height)
    below = depth + solid.thickness / 2
    return placed(*projected(*start, below), units), placed(*projected(start[0] - dx, start[1] - dy, below), units)


def _feature(feature: Feature, depth: float, units: float) -> tuple[Ring, ...]:
    if feature.box is not None:
        box = feature.box
        spots = (Spot(box.x, box.y), Spot(box.right, box.y), Spot(box.right, box.bottom), Spot(box.x, box.bottom))
        return (_ring(spots, depth, units),)
    return tuple(
        _circle(feature.centre, feature.across * share / 2, depth, units) for share in _RINGS.get(feature.kind, (1.0,))
    )


def _circle(centre: Point, radius: float, depth: float, units: float) -> Ring:
    """A circle on a top face, from its leftmost point on the sheet to its rightmost and back."""
    away = radius * 0.5**0.5
    x, y = centre
    spots = (Spot(x - away, y + away, radius=radius), Spot(x + away, y - away, radius=radius))
    return _ring(spots, depth, units)


def _screw(
    screw: Fastened, solid: Solid, offset: float, units: float, forms: dict[ScrewForm, int], below: frozenset[PartId]
) -> Screw:
    is_below = screw.part in below
    half = screw.diameter / 2 * units
    form = ScrewForm(
        shaft=round(half * 1.1, 1),
        head=round(half * 1.95, 1),
        head_height=round(screw.diameter * 0.62 * units, 1),
        length=round(screw.length * 1.15 * units, 1),
        hole=round(half * 1.7, 1),
        hover=round(HOVER * units, 1),
        is_below=is_below,
    )
    depth = solid.z + offset + (solid.thickness if is_below else 0.0)
    at = placed(*projected(screw.x, screw.y, depth), units)
    return Screw(at, forms.setdefault(form, len(forms)), screw.joint, is_below)


def _ring(ring: Sequence[Spot], depth: float, units: float) -> Ring:
    return tuple(
        Node(*placed(*projected(spot.x, spot.y, depth + spot.down), units), round(spot.radius * units, 2)) for spot in ring
    )


def _spot(spot: Spot, depth: float, units: float) -> Point:
    return placed(*projected(spot.x, spot.y, depth + spot.down), units)
