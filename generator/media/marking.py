"""Where the numbers of the marks on a photo stand: beside the point they mean, clear of each other and of the edges."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

RING = 9.0
"""Radius in px, on the screen, of the ring round the point: it stays empty, so that what it means can be seen."""

HEIGHT = 24.0
"""Of a number's field in px."""

LETTER = 9.0
"""Width in px that a digit takes at the size of the numbers."""

REACH = 30.0
"""From the point to the middle of its number in px."""

NARROWEST = 324.0
"""Width in px of a photo on a small phone: there the marks stand closest, so that is what they are placed for."""

_DIRECTIONS = ((0.71, -0.71), (-0.71, -0.71), (0.71, 0.71), (-0.71, 0.71), (1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (0.0, 1.0))


@dataclass(frozen=True, slots=True)
class Tag:
    """A number beside its point: the middle of its field from the point, and the field's width; all in px."""

    dx: float
    dy: float
    width: float

    @property
    def height(self) -> float:
        return HEIGHT


def tags_of(points: Sequence[tuple[float, float]], labels: Sequence[str], shape: float) -> tuple[Tag, ...]:
    """One tag a point, in their order; each takes the place that costs least beside those before it.

    points: shares of the photo's width and height; shape: width to height.
    """
    high = NARROWEST / shape
    spots = [(x * NARROWEST, y * high) for x, y in points]
    placed: list[Tag] = []
    for index, (x, y) in enumerate(spots):
        width = max(HEIGHT, HEIGHT - LETTER + LETTER * len(labels[index]))
        tags = [Tag(dx * (REACH + (width - HEIGHT) / 2), dy * REACH, width) for dx, dy in _DIRECTIONS]
        others = [(spots[number], tag) for number, tag in enumerate(placed)]
        costs = [_cost(x, y, tag, others, spots, high) + rank * 0.5 for rank, tag in enumerate(tags)]
        placed.append(tags[costs.index(min(costs))])
    return tuple(placed)


def _cost(
    x: float,
    y: float,
    tag: Tag,
    others: Sequence[tuple[tuple[float, float], Tag]],
    spots: Sequence[tuple[float, float]],
    high: float,
) -> float:
    """What lies under the tag, in px: a tag over another or over the edge costs most, over a ring less."""
    middle_x, middle_y = x + tag.dx, y + tag.dy
    beyond = (
        max(0.0, tag.width / 2 - middle_x)
        + max(0.0, middle_x + tag.width / 2 - NARROWEST)
        + max(0.0, HEIGHT / 2 - middle_y)
        + max(0.0, middle_y + HEIGHT / 2 - high)
    )
    cost = 20 * beyond
    for (other_x, other_y), other in others:
        apart_x = (tag.width + other.width) / 2 + 2 - abs(middle_x - other_x - other.dx)
        apart_y = HEIGHT + 2 - abs(middle_y - other_y - other.dy)
        cost += 20 * min(apart_x, apart_y) if apart_x > 0 and apart_y > 0 else 0
    for spot_x, spot_y in spots:
        near = HEIGHT / 2 + RING - hypot(middle_x - spot_x, middle_y - spot_y)
        cost += 10 * near if near > 0 else 0
    return cost
