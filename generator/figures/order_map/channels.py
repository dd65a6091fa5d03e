"""The channel between two columns: on which track each bundle of lines changes its place.

A bundle is all lines that leave one node for the next column; it shares one track. Seen along the flow, a line goes straight
from its start to its track, across on the track, and straight on to its end. Where a bundle ends at the height at which
another starts, the other has to turn off first, or the two would lie on one another.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

NEAR = 7.0
"""Units; lines nearer than this seem to be one."""


@dataclass(frozen=True, slots=True)
class Bundle:
    """Where the lines leave (`start`) and arrive (`ends`), in units across; into: the nodes they arrive at."""

    start: float
    ends: tuple[float, ...]
    into: tuple[int, ...]

    @property
    def is_straight(self) -> bool:
        return all(end == self.start for end in self.ends)

    @property
    def low(self) -> float:
        return min(self.start, *self.ends)

    @property
    def high(self) -> float:
        return max(self.start, *self.ends)


def tracks_of(bundles: Sequence[Bundle]) -> tuple[Mapping[int, int], int]:
    """The track of every bundle that is not straight, the first track next to the starts; and how many there are."""
    bent = [number for number, bundle in enumerate(bundles) if not bundle.is_straight]
    order = _ordered(bundles, bent)
    tracks: dict[int, int] = {}
    for place, number in enumerate(order):
        tracks[number] = max(
            (tracks[other] + 1 for other in order[:place] if _meet(bundles[other], bundles[number])), default=0
        )
    return tracks, max(tracks.values(), default=-1) + 1


def lying_on_another(bundles: Sequence[Bundle], tracks: Mapping[int, int]) -> tuple[tuple[int, int], ...]:
    """(bundle, which of its ends): the ends at which a line still lies on the start of another bundle."""
    found = []
    for number, bundle in enumerate(bundles):
        for which, (end, into) in enumerate(zip(bundle.ends, bundle.into, strict=True)):
            for other_number, other in enumerate(bundles):
                if other_number == number or not _is_before(other, end, into):
                    continue
                if number not in tracks or other_number not in tracks or tracks[other_number] >= tracks[number]:
                    found.append((number, which))
                    break
    return tuple(found)


def _is_before(other: Bundle, end: float, into: int) -> bool:
    """Whether `other` starts where a line to `into` arrives. If all it does is to go there as well, the two may join."""
    return abs(other.start - end) < NEAR and not (into in other.into and other.is_straight)


def _meet(one: Bundle, other: Bundle) -> bool:
    return one.low - NEAR <= other.high and other.low - NEAR <= one.high


def _ordered(bundles: Sequence[Bundle], bent: Sequence[int]) -> list[int]:
    """From the starts to the ends with few crossings and no line on another: each bundle moved to its best place."""
    order = sorted(bent, key=lambda number: (bundles[number].start, number))
    cost = {
        (one, other): _cost(bundles[one], bundles[other]) for one in bent for other in bent if one != other
    }
    for _ in range(len(order)):
        is_settled = True
        for number in tuple(order):
            here = order.index(number)
            rest = order[:here] + order[here + 1 :]
            place = _best_place(number, rest, here, cost)
            if place != here:
                order = [*rest[:place], number, *rest[place:]]
                is_settled = False
        if is_settled:
            break
    return order


def _best_place(number: int, rest: Sequence[int], here: int, cost: Mapping[tuple[int, int], int]) -> int:
    """The cheapest place among the rest; where it stands now if that is as cheap."""
    costs = [sum(cost[number, other] for other in rest)]
    for other in rest:
        costs.append(costs[-1] - cost[number, other] + cost[other, number])
    best = min(costs)
    return here if costs[here] == best else costs.index(best)


def _cost(left: Bundle, right: Bundle) -> int:
    """Crossings of two bundles where `left` has the earlier track; a line on another counts as a thousand."""
    crossings = int(left.low < right.start < left.high)
    crossings += sum(
        right.low < end < right.high and into not in right.into
        for end, into in zip(left.ends, left.into, strict=True)
    )
    lying = sum(_is_before(right, end, into) for end, into in zip(left.ends, left.into, strict=True))
    return crossings + 1000 * lying


def rounded(corners: Sequence[tuple[float, float]], radius: float) -> list[tuple[tuple[float, float], float]]:
    """Every inner corner with the radius of its bend: less than `radius` where a piece is too short for two bends."""
    lengths = [abs(one[0] - other[0]) + abs(one[1] - other[1]) for one, other in pairwise(corners)]
    last = len(lengths) - 1
    free = [length if number in (0, last) else length / 2 for number, length in enumerate(lengths)]
    return [
        (corner, min(radius, free[number], free[number + 1])) for number, corner in enumerate(corners[1:-1])
    ]
