"""Parts as solids on the sheet: their boxes, outlines and thickness, and the silhouettes these have in isometric.

Lengths are mm of a handset: a device is first scaled so that width and height together make SPAN, as those of a handset of
74 by 158 mm do. So one set of gaps, least thicknesses and lifts serves devices of any size; a handset is drawn true.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

from generator.anatomy.parts import Box, Feature, Part, PartId
from generator.figures.plan.stacking import layers
from generator.figures.stack.outlines import HALF_DIAGONAL, Spot, arc, front_corners, side, top
from generator.figures.stack.projection import Point, lowered, projected, projected_shape
from generator.figures.stack.sideways import Way
from generator.orders.guide import Guide

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

SPAN = 232.0
"""mm that width and height of every device make together."""

LEAST_THICKNESS = 0.8
SLIDE = 24.0
"""mm a part that leaves sideways is drawn out."""

ROUNDED_SHOWS_EDGE = 3.0
"""mm of corner radius up to which the upright edge at the front is drawn."""

THIN = 1.2
"""mm of thickness below which an upright edge would be a speck."""

_DEEPEST = 150.0  # mm a part may lie deep: a slip in a depth does not tear the figure apart


@dataclass(frozen=True)
class Solid:
    """A part with its place: z is the depth of its top face from the first face, mm; box and outline slid out if it is."""

    part: PartId
    box: Box
    z: float
    thickness: float
    corner: float
    points: tuple[Point, ...]
    holes: tuple[Box, ...]
    features: tuple[Feature, ...]
    shift: Point = (0.0, 0.0)

    def overlaps(self, other: Solid) -> bool:
        """Whether one lies over the other as seen from a face; touching does not count."""
        one, two = self.box, other.box
        near = 0.05
        return (
            one.x < two.right - near
            and two.x < one.right - near
            and one.y < two.bottom - near
            and two.y < one.bottom - near
        )

    @cached_property
    def silhouette(self) -> BaseGeometry:
        """The silhouette in isometric, mm, drawn at the part's place in the device; its see-through holes are open."""
        import shapely

        if self.points:
            return prism(self.points, self.holes, self.z, self.thickness)
        rings = self.side_rings()
        outline = shapely.Polygon(self._projected(rings[0]))
        holes = [shapely.Polygon(self._projected(ring)) for ring in rings[1:]]
        return shapely.difference(outline, shapely.union_all(holes)) if holes else outline

    def side_rings(self) -> tuple[tuple[Spot, ...], ...]:
        """The outline of the silhouette and what is seen through its holes; of a part without authored outline."""
        return (side(self.box, self.corner, self.thickness), *self._through())

    def top_rings(self) -> tuple[tuple[Spot, ...], ...]:
        """The top face and its holes."""
        outline = tuple(Spot(x, y) for x, y in self.points) if self.points else top(self.box, self.corner)
        return (outline, *(top(hole, 0.0) for hole in self.holes))

    def edges(self) -> tuple[tuple[Spot, Spot], ...]:
        """The upright edges to be seen."""
        if self.thickness < THIN:
            return ()
        if not self.points:
            if self.corner > ROUNDED_SHOWS_EDGE:
                return ()
            away = self.corner * (1 - HALF_DIAGONAL)
            corners = [(self.box.right - away, self.box.bottom - away)]
        else:
            corners = front_corners(self.points)
        return tuple((Spot(x, y), Spot(x, y, self.thickness)) for x, y in corners)

    def _through(self) -> Iterable[tuple[Spot, ...]]:
        t = self.thickness
        for hole in self.holes:
            if hole.width > t and hole.height > t:
                yield top(Box(hole.x + t, hole.y + t, hole.width - t, hole.height - t), 0.0)

    def _projected(self, ring: Sequence[Spot]) -> list[Point]:
        """The ring as straight pieces; roundings stay at one height."""
        found: list[Point] = []
        for index, spot in enumerate(ring):
            if spot.radius:
                found += [projected(x, y, self.z + spot.down) for x, y in arc(ring[index - 1], spot)]
            found.append(projected(spot.x, spot.y, self.z + spot.down))
        return found


def solids_of(guide: Guide, sideways: Mapping[PartId, Way]) -> tuple[Solid, ...]:
    """Every part of the device that has a box, in the author's order.

    Depths and thicknesses that are missing are worked out or set to the least that is drawn.
    """
    anatomy = guide.anatomy
    boxed = [part for part in anatomy.parts.values() if part.box is not None and min(part.box.width, part.box.height) > 0]
    if not boxed:
        return ()
    by = scale_of(guide)
    least = LEAST_THICKNESS / by
    thick = {part.id: replace(part, thickness=max(part.thickness or 0.0, least)) for part in boxed}
    second = guide.device.faces[1] if len(guide.device.faces) > 1 else None
    depths, _ = layers(replace(anatomy, parts={**anatomy.parts, **thick}), second)
    solids = []
    for part in boxed:
        layer = depths.get(part.id)
        start = layer.start * by if layer is not None else 0.0
        solids.append(_solid(part, by, start, sideways.get(part.id, (0, 0))))
    return tuple(solids)


def scale_of(guide: Guide) -> float:
    """mm of a handset for one mm of the device."""
    boxes = [part.box for part in guide.anatomy.parts.values() if part.box is not None]
    left, top = min(box.x for box in boxes), min(box.y for box in boxes)
    across = max(box.right for box in boxes) - left + max(box.bottom for box in boxes) - top
    size = guide.device.size
    return SPAN / max(sum(size) if size is not None else across, across, 1.0)


def prism(points: Sequence[Point], holes: Sequence[Box], z: float, thickness: float) -> BaseGeometry:
    """The silhouette in isometric, mm, of an upright prism on any outline, even one that crosses itself."""
    import shapely

    face = shapely.make_valid(shapely.Polygon(points))
    for hole in holes:
        face = shapely.difference(face, shapely.box(hole.x, hole.y, hole.right, hole.bottom))
    top = projected_shape(face, z)
    walls = []
    for ring in shapely.get_rings(shapely.get_parts(top)).tolist():
        for (u0, v0), (u1, v1) in pairwise(shapely.get_coordinates(ring).tolist()):
            if u0 != u1:
                walls.append(shapely.Polygon([(u0, v0), (u1, v1), (u1, v1 + thickness), (u0, v0 + thickness)]))
    return shapely.union_all([top, lowered(top, thickness), *walls])


def _solid(part: Part, by: float, z: float, way: Way) -> Solid:
    assert part.box is not None
    dx, dy = way[0] * SLIDE, way[1] * SLIDE
    box = _scaled(part.box, by, dx, dy)
    points = tuple((round(x * by + dx, 2), round(y * by + dy, 2)) for x, y in part.outline) if _is_area(part.outline) else ()
    if points:
        xs, ys = [x for x, _ in points], [y for _, y in points]
        box = Box(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))
    holes = tuple(hole for one in part.holes if (hole := _clipped(_scaled(one, by, dx, dy), box)) is not None)
    # A hair below half a side, lest two roundings overlap.
    corner = 0.0 if points else min(part.corner * by, box.width / 2 - 0.01, box.height / 2 - 0.01)
    return Solid(
        part=part.id,
        box=box,
        z=round(max(-_DEEPEST, min(z, _DEEPEST)), 2),
        thickness=round(min(max((part.thickness or 0.0) * by, LEAST_THICKNESS), _DEEPEST), 2),
        corner=math.floor(corner * 100) / 100 if corner >= 0.1 else 0.0,
        points=points,
        holes=holes,
        features=tuple(
            replace(
                feature,
                centre=(feature.centre[0] * by + dx, feature.centre[1] * by + dy),
                across=feature.across * by,
                box=_scaled(feature.box, by, dx, dy) if feature.box is not None else None,
            )
            for feature in part.features
        ),
        shift=(dx, dy),
    )


def _scaled(box: Box, by: float, dx: float, dy: float) -> Box:
    return Box(*(round(length, 2) for length in (box.x * by + dx, box.y * by + dy, box.width * by, box.height * by)))


def _clipped(hole: Box, box: Box) -> Box | None:
    left, top = max(hole.x, box.x), max(hole.y, box.y)
    right, bottom = min(hole.right, box.right), min(hole.bottom, box.bottom)
    return Box(left, top, right - left, bottom - top) if right - left > 0.1 and bottom - top > 0.1 else None


def _is_area(points: Sequence[Point]) -> bool:
    area = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, (*points[1:], *points[:1]), strict=True))
    return len(points) > 2 and abs(area) > 0.02
