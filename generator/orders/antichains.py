"""The most items of which no two are in conflict, where conflict is a strict partial order.

Such a set is a maximum antichain. By Dilworth's theorem it is as large as the smallest number of chains that hold all
items, and those are found by a maximum matching in the bipartite graph with an edge for each pair in conflict.
Sources: Dilworth, Ann. Math. 51 (1950), doi:10.2307/1969503; Fulkerson, Proc. AMS 7 (1956); Hopcroft and Karp, SIAM J.
Comput. 2 (1973), doi:10.1137/0202019; König's alternating paths pick the antichain out of the matching.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.orders.chaining import ItemSet, members

FREE = -1


@dataclass(frozen=True, slots=True)
class Antichain:
    """A largest set without conflict, and the proof that none is larger: `chains` hold all items, one of each chain is in.

    Chains begin with the item that all others of the chain are in conflict with, smallest number first.
    """

    items: ItemSet
    chains: tuple[tuple[int, ...], ...]


def largest_antichain(conflicts: Sequence[ItemSet], among: ItemSet) -> Antichain:
    """The largest antichain of the items in `among`; of several the one of what is in conflict last (what waits goes).

    conflicts[n]: the items after n that n is in conflict with; transitive and without rings. Which antichain it is does
    not depend on the matching found: what alternating paths reach from the free items is the same for each.
    Cost: pairs in conflict times the square root of the items.
    """
    items = list(members(among))
    following = {item: tuple(members(conflicts[item] & among)) for item in items}
    next_of, before = _matching(items, following)
    reached = {item for item in items if next_of[item] == FREE}
    reached_after: set[int] = set()
    fresh = sorted(reached)
    while fresh:
        item = fresh.pop()
        for other in following[item]:
            if other not in reached_after:
                reached_after.add(other)
                back = before[other]
                if back != FREE and back not in reached:
                    reached.add(back)
                    fresh.append(back)
    chosen = sum(1 << item for item in items if item in reached and item not in reached_after)
    return Antichain(chosen, tuple(_chain(item, next_of) for item in items if before[item] == FREE))


def _chain(item: int, next_of: dict[int, int]) -> tuple[int, ...]:
    chain = [item]
    while next_of[chain[-1]] != FREE:
        chain.append(next_of[chain[-1]])
    return tuple(chain)


def _matching(items: Sequence[int], following: dict[int, tuple[int, ...]]) -> tuple[dict[int, int], dict[int, int]]:
    """A maximum matching: for every item the one that comes after it in its chain, and the one that comes before."""
    next_of = dict.fromkeys(items, FREE)
    before = dict.fromkeys(items, FREE)
    for item in items:
        for other in following[item]:
            if before[other] == FREE:
                next_of[item], before[other] = other, item
                break
    while True:
        distance = _layers(items, following, next_of, before)
        if distance is None:
            return next_of, before
        tried = dict.fromkeys(items, 0)
        for root in items:
            if next_of[root] == FREE and following[root]:
                _augment(root, following, next_of, before, distance, tried)


def _layers(
    items: Sequence[int], following: dict[int, tuple[int, ...]], next_of: dict[int, int], before: dict[int, int]
) -> dict[int, int] | None:
    """How many alternations lead to each item from a free one; None if no free place can be reached."""
    distance = {item: 0 for item in items if next_of[item] == FREE and following[item]}
    is_open = False
    layer = list(distance)
    while layer and not is_open:
        deeper: list[int] = []
        for item in layer:
            for other in following[item]:
                back = before[other]
                if back == FREE:
                    is_open = True
                elif back not in distance:
                    distance[back] = distance[item] + 1
                    deeper.append(back)
        layer = deeper
    return distance if is_open else None


def _augment(
    root: int,
    following: dict[int, tuple[int, ...]],
    next_of: dict[int, int],
    before: dict[int, int],
    distance: dict[int, int],
    tried: dict[int, int],
) -> None:
    """Follow the layers from `root` to a free place and shift the matching along that path, if there is one."""
    path = [root]
    while path:
        item = path[-1]
        others = following[item]
        while tried[item] < len(others):
            other = others[tried[item]]
            tried[item] += 1
            back = before[other]
            if back == FREE:
                for step in reversed(path):
                    next_of[step], before[other], other = other, step, next_of[step]
                return
            if distance.get(back) == distance[item] + 1:
                path.append(back)
                break
        else:
            distance.pop(item, None)
            path.pop()
