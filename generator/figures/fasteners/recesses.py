"""The shapes of drives seen from above, each round (0, 0), as polygons in the unit of what is given."""

from __future__ import annotations

import math
from collections.abc import Iterator

from generator.anatomy.parts import Point

Polygon = tuple[Point, ...]

_ARC = 4  # steps of a lobe's arc
_LOBE = 0.1  # radius of a lobe, of the width across the points: ISO 10664 has 0.38 mm on 3.95 mm for size 20 (memory)


def cross(span: float, wing: float) -> Polygon:
    """Type H: four wings that taper outward, the corners between them cut off. wing: width at the root."""
    root, end, reach = 0.38 * wing, 0.27 * wing, span / 2
    return _turned([(0.66 * wing, -root), (reach, -end), (reach, end), (0.66 * wing, root)], 4)


def straight_cross(span: float, wing: float) -> Polygon:
    """Type Z: four wings with parallel sides and sharp corners."""
    half = 0.36 * wing
    return _turned([(half, -half), (span / 2, -half), (span / 2, half)], 4)


def ribs(wing: float) -> tuple[Polygon, ...]:
    """The four thin lines between the wings of type Z."""
    inner, outer = 0.75 * wing, 1.15 * wing
    return tuple(
        tuple((r * math.cos(math.radians(turn)), r * math.sin(math.radians(turn))) for r in (inner, outer))
        for turn in (45, 135, 225, 315)
    )


def lobes(count: int, across: float, root: float) -> Polygon:
    """Round lobes on a circle `across` with round valleys that reach the circle `root`, arcs meeting without a corner."""
    lobe = _LOBE * across
    p, b, half_turn = across / 2 - lobe, root / 2, math.pi / count
    c = math.cos(half_turn)
    # The centre of a valley lies q = b + valley from the middle; |lobe centre - valley centre| = lobe + valley.
    valley = (lobe**2 - p**2 - b**2 + 2 * p * b * c) / (2 * (b - p * c - lobe))
    q = b + valley
    lean = math.atan2(q * math.sin(half_turn), q * c - p)  # from a lobe's centre to the valley's
    points: list[Point] = []
    for index in range(count):
        turn = 2 * half_turn * index
        points += _arc((p * math.cos(turn), p * math.sin(turn)), lobe, turn - lean, turn + lean)
        at = turn + half_turn
        swing = lean - half_turn  # half the valley's arc, seen from its own centre
        points += _arc((q * math.cos(at), q * math.sin(at)), valley, at + math.pi + swing, at + math.pi - swing)
    return tuple(points)


def wings(count: int, span: float, wing: float) -> Polygon:
    """Straight arms from the middle, their ends square."""
    half, reach = wing / 2, span / 2
    inner = half / math.tan(math.pi / count)
    return _turned([(inner, -half), (reach, -half), (reach, half)], count)


def slot(across: float, width: float) -> Polygon:
    return ((-across / 2, -width / 2), (across / 2, -width / 2), (across / 2, width / 2), (-across / 2, width / 2))


def regular(corners: int, flats: float) -> Polygon:
    """A regular polygon by its width across flats (twice the inner radius), a flat to the right for a square."""
    radius = flats / 2 / math.cos(math.pi / corners)
    start = math.pi / corners if corners == 4 else 0.0
    return tuple(
        (radius * math.cos(start + 2 * math.pi * k / corners), radius * math.sin(start + 2 * math.pi * k / corners))
        for k in range(corners)
    )


def disc(at: Point, radius: float) -> Polygon:
    return tuple((at[0] + radius * math.cos(math.pi * k / 8), at[1] + radius * math.sin(math.pi * k / 8)) for k in range(16))


def _arc(centre: Point, radius: float, start: float, end: float) -> Iterator[Point]:
    for step in range(_ARC + 1):
        turn = start + (end - start) * step / _ARC
        yield centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn)


def _turned(points: list[Point], count: int) -> Polygon:
    """The points, and again after each of `count` equal turns."""
    return tuple(
        (x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn))
        for turn in (2 * math.pi * k / count for k in range(count))
        for x, y in points
    )
