"""Where a leader ends on its part: inside the largest piece that is to be seen, close to its outermost point."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from generator.anatomy.parts import PartId
from generator.figures.stack.apart import Level
from generator.figures.stack.projection import Point, lowered

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

INSET = 3.0
"""mm from the outermost point of the piece inward; a quarter of a piece that is narrower than four times that."""

_LEAST_PIECE = 1.0  # mm²: below that a piece is a sliver and the whole silhouette is taken instead
_APART = 0.7  # mm between two anchors


def anchors_of(
    levels: Sequence[Level], wanted: Iterable[PartId], solid_parts: frozenset[PartId]
) -> Mapping[PartId, tuple[Point, Point]]:
    """For each wanted part its anchor for a label on the left and for one on the right, mm in isometric.

    solid_parts: those that are drawn filled, hence cover others. No two parts share a place.
    """
    import shapely

    wanted = set(wanted)
    pieces: dict[PartId, BaseGeometry] = {}
    is_whole = all(solid.part in solid_parts for level in levels for solid in level.solids)
    cover: BaseGeometry = shapely.Polygon()
    for level in levels:
        if is_whole:
            cover = level.cover
        nearer: list[BaseGeometry] = []  # on the same level
        for solid in reversed(level.solids):
            if solid.part not in wanted and solid.part not in solid_parts:
                continue
            silhouette = lowered(solid.silhouette, level.offset)
            if solid.part in wanted:
                shown = shapely.difference(silhouette, cover)
                for other in nearer:
                    if shapely.intersects(other, shown):
                        shown = shapely.difference(shown, other)
                pieces[solid.part] = _largest(shown, silhouette)
            if solid.part in solid_parts:
                nearer.append(silhouette)
        if wanted <= pieces.keys():
            break
        if not is_whole:
            cover = shapely.union_all([cover, *nearer])
    taken: list[Point] = []
    found: dict[PartId, tuple[Point, Point]] = {}
    for part, piece in pieces.items():
        left = _free(_anchor(piece, from_left=True), taken)
        right = _free(_anchor(piece, from_left=False), taken)
        taken += [left, right]
        found[part] = (left, right)
    return found


def _largest(shown: BaseGeometry, whole: BaseGeometry) -> BaseGeometry:
    import shapely

    def rank(piece: BaseGeometry) -> tuple[float, ...]:
        return (round(piece.area, 3), *(round(bound, 3) for bound in piece.bounds))

    pieces = [piece for piece in shapely.get_parts(shown).tolist() if piece.geom_type == "Polygon"]
    if not pieces or max(piece.area for piece in pieces) < _LEAST_PIECE:
        pieces = [piece for piece in shapely.get_parts(whole).tolist() if piece.geom_type == "Polygon"]
    largest: BaseGeometry = max(pieces, key=rank)
    return largest


def _anchor(piece: BaseGeometry, *, from_left: bool) -> Point:
    """The middle of the longest stretch of the piece that stands upright at the inset."""
    import shapely

    left, top, right, bottom = piece.bounds
    inset = min(INSET, (right - left) / 4)
    u = round(left + inset if from_left else right - inset, 2)
    cut = shapely.intersection(piece, shapely.LineString([(u, top - 1), (u, bottom + 1)]))
    stretches = [
        (round(high, 2), round(low, 2))
        for _, high, _, low in shapely.bounds(shapely.get_parts(cut)).tolist()
        if low - high > 0
    ]
    if not stretches:
        return round((left + right) / 2, 2), round((top + bottom) / 2, 2)
    high, low = max(stretches, key=lambda ends: (round(ends[1] - ends[0], 2), -ends[0]))
    return u, round((high + low) / 2, 2)


def _free(at: Point, taken: Sequence[Point]) -> Point:
    """The place itself, or the next one below that is clear of all taken."""
    u, v = at
    while any(abs(u - x) < _APART and abs(v - y) < _APART for x, y in taken):
        v = round(v + _APART, 2)
    return u, v
