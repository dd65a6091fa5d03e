"""Boundary labelling: labels in a column on either side, each tied to its anchor by a leader; no leader crosses another.

Why none can cross. The two sides share nothing: an upright cut parts the anchors led to the left from those led to the
right, so leaders of different sides lie in different half planes. On one side, ports are dealt from the top down, and each
takes the anchor first met by a ray that turns down from the top: all anchors still free then lie below the line from port
to anchor, and so do all ports still free; hence every later leader stays below that line. Ports may stand at any heights
that fall, so labels keep the room they need. Of several anchors on one line the nearest is taken, past which no later
leader can reach. Shelves and words lie outside the strip that holds the anchors.

The idea of leaders of one bend at fixed sides: "Boundary labeling: models and efficient algorithms for rectangular maps",
Computational Geometry 36 (2007), doi:10.1016/j.comgeo.2006.05.003 (from memory). Heights: least squares under an order is
isotonic regression by pooling adjacent violators (from memory: Ayer et al., 1955).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.anatomy.parts import PartId
from generator.figures.stack.shapes import Point

SIDE_LIMIT = 16
"""Labels with names on one side; with more than that numbers alone are drawn."""

_CUTS = 9  # cuts tried
_SCREW_COST = 60.0  # units of leader that one screw under a leader weighs
_UNEVEN_COST = 12.0  # units of leader that the square of the difference of the two counts weighs
_TILT = 4.0  # units of leader a part goes out of its way, per label that the other side has less
_OVER_COST = 1e6  # per label over SIDE_LIMIT


@dataclass(frozen=True, slots=True)
class Wish:
    """A label to be placed: its anchors for the left and the right side (units) and the room it needs on each."""

    part: PartId
    left: Point
    right: Point
    height: float


@dataclass(frozen=True, slots=True)
class Led:
    """A placed label: its port's height and the anchor it leads to."""

    part: PartId
    is_left: bool
    port: float
    anchor: Point


@dataclass(frozen=True, slots=True)
class Edges:
    """The upright lines, units, where the leaders of either side begin; all anchors lie between them."""

    left: float
    right: float


def led(wishes: Sequence[Wish], edges: Edges, screws: Sequence[Point], *, one_side: bool = False) -> tuple[Led, ...]:
    """Place every label, left and right; all on the right if `one_side`. From the top, the left side first.

    screws: where they are drawn; leaders rather pass beside them.
    """
    if not wishes:
        return ()
    wishes = sorted(wishes, key=lambda wish: (wish.left[1] + wish.right[1], wish.left[0], wish.part))
    if one_side:
        return _column([(wish, wish.right) for wish in wishes], edges.right, is_left=False)
    tried = [_sides(wishes, cut, edges, screws) for cut in _cuts(wishes)]
    _, left, right = min(tried, key=lambda one: one[0])
    return (
        *_column([(wish, wish.left) for wish in left], edges.left, is_left=True),
        *_column([(wish, wish.right) for wish in right], edges.right, is_left=False),
    )


def spaced(wanted: Sequence[float], heights: Sequence[float]) -> list[float]:
    """Upper ends of labels that stand one below the other, each `heights` high, least squares away from `wanted`.

    >>> spaced([0.0, 1.0, 30.0], [10.0, 10.0, 10.0])
    [-4.5, 5.5, 30.0]
    """
    offsets = [0.0]
    for height in heights:
        offsets.append(offsets[-1] + height)
    pools: list[tuple[float, int]] = []
    for want, offset in zip(wanted, offsets, strict=False):
        mean, count = want - offset, 1
        while pools and pools[-1][0] > mean:
            other, more = pools.pop()
            mean, count = (mean * count + other * more) / (count + more), count + more
        pools.append((mean, count))
    level = [mean for mean, count in pools for _ in range(count)]
    return [round(mean + offset, 1) for mean, offset in zip(level, offsets, strict=False)]


def _cuts(wishes: Sequence[Wish]) -> list[float]:
    """Upright lines between anchors, spread over all there are; the first has everything on its right."""
    places = sorted({u for wish in wishes for u in (wish.left[0], wish.right[0])})
    between = [(one + other) / 2 for one, other in pairwise(places)]
    step = max(1, len(between) // _CUTS)
    return [places[0] - 1, *between[step // 2 :: step]]


def _sides(
    wishes: Sequence[Wish], cut: float, edges: Edges, screws: Sequence[Point]
) -> tuple[float, list[Wish], list[Wish]]:
    """Left of the cut or right of it: where the anchor may be on either, the cheaper side. With the cost of it all."""
    left: list[Wish] = []
    right: list[Wish] = []
    next_left = next_right = float("-inf")
    cost = 0.0
    for wish in wishes:
        to_left = _leader_cost(wish.left, edges.left, next_left, screws) if wish.left[0] < cut else None
        to_right = _leader_cost(wish.right, edges.right, next_right, screws) if wish.right[0] > cut else None
        tilt = _TILT * (len(left) - len(right))
        if to_right is None or (to_left is not None and to_left + tilt < to_right - tilt):
            left.append(wish)
            next_left = max(next_left, wish.left[1]) + wish.height
            cost += to_left or 0.0
        else:
            right.append(wish)
            next_right = max(next_right, wish.right[1]) + wish.height
            cost += to_right
    over = sum(max(0, len(side) - SIDE_LIMIT) for side in (left, right))
    cost += _UNEVEN_COST * (len(left) - len(right)) ** 2 + _OVER_COST * over
    return round(cost, 3), left, right


def _leader_cost(anchor: Point, edge: float, free: float, screws: Sequence[Point]) -> float:
    u, v = anchor
    low, high = min(u, edge), max(u, edge)
    under = sum(low < x < high and abs(y - v) < 8 for x, y in screws)
    return high - low + 2 * max(0.0, free - v) + _SCREW_COST * under


def _column(wishes: Sequence[tuple[Wish, Point]], edge: float, *, is_left: bool) -> tuple[Led, ...]:
    """One side: ports for all, top down, without a crossing. Spaced once more where that leaves it so."""
    order = sorted(wishes, key=lambda wish: (wish[1][1], abs(edge - wish[1][0]), wish[0].part))
    ports = spaced([at[1] for _, at in order], [wish.height for wish, _ in order])
    dealt = _dealt(order, ports, edge)
    again = [wish for wish, _, _ in dealt]
    anchors = [anchor for _, anchor, _ in dealt]
    better = spaced([v for _, v in anchors], [wish.height for wish in again])
    if not _any_crossing([((edge, port), anchor) for port, anchor in zip(better, anchors, strict=True)]):
        dealt = [(wish, anchor, port) for wish, anchor, port in zip(again, anchors, better, strict=True)]
    return tuple(Led(wish.part, is_left, port, anchor) for wish, anchor, port in dealt)


def _dealt(
    wishes: Sequence[tuple[Wish, Point]], ports: Sequence[float], edge: float
) -> list[tuple[Wish, Point, float]]:
    """Anchors dealt to ports from the top down: each port takes the anchor whose leader has all others below it."""
    left = list(wishes)
    found: list[tuple[Wish, Point, float]] = []
    free = float("-inf")
    for port in ports:
        port = max(port, free)
        first = left[0]
        for other in left[1:]:
            if _is_above(other[1], first[1], (edge, port)):
                first = other
        left.remove(first)
        found.append((first[0], first[1], port))
        free = round(port + first[0].height, 1)
    return found


def _is_above(one: Point, other: Point, port: Point) -> bool:
    """Whether the leader to `one` runs above the one to `other`; the nearer one, where both lie on one line."""
    side = _turn(port, other, one) * (1 if other[0] < port[0] else -1)
    return side > 0 or (side == 0 and abs(port[0] - one[0]) < abs(port[0] - other[0]))


def _any_crossing(lines: Sequence[tuple[Point, Point]]) -> bool:
    return any(meet(*one, *other) for number, one in enumerate(lines) for other in lines[:number])


def meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the stretches a-b and c-d have a point in common, ends included. Exact for tenths of a unit."""
    if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
        return False
    one, two, three, four = _turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b)
    if one * two < 0 and three * four < 0:
        return True
    return (
        (one == 0 and _within(a, b, c))
        or (two == 0 and _within(a, b, d))
        or (three == 0 and _within(c, d, a))
        or (four == 0 and _within(c, d, b))
    )


def _turn(a: Point, b: Point, c: Point) -> int:
    """Twice the area of a, b, c in hundredths of a square unit, signed; whole numbers, so that ties are ties."""
    ax, ay, bx, by, cx, cy = (round(value * 10) for value in (*a, *b, *c))
    return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)


def _within(a: Point, b: Point, at: Point) -> bool:
    return min(a[0], b[0]) <= at[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= at[1] <= max(a[1], b[1])


