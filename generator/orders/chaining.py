"""Forward chaining: what can be done at all when anything that can be done is done.

Items are numbered from 0; sets of items are whole numbers used as bit sets (bit n is item n). Doing more never makes less
possible, so "do anything available until nothing is" reaches the one largest set that can be done (ordering facts F1, F2).
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence

ItemSet = int
BITS = tuple(tuple(bit for bit in range(8) if byte >> bit & 1) for byte in range(256))
"""For every byte the places of its ones, lowest first."""

FEW = 12
"""Members up to which taking one after the other is faster than looking at every byte."""

Needs = Sequence[Sequence[ItemSet]]
"""For every item its clauses; each clause is the set of items any one of which has to be done before."""


def members(items: ItemSet) -> Iterator[int]:
    """The numbers in a bit set, smallest first."""
    if items.bit_count() <= FEW:
        few = []
        while items:
            low = items & -items
            few.append(low.bit_length() - 1)
            items ^= low
        return iter(few)
    whole = items.to_bytes((items.bit_length() + 7) // 8, "little")
    return iter([start + bit for start, byte in zip(range(0, len(whole) * 8, 8), whole, strict=True) for bit in BITS[byte]])


def item_set(numbers: Sequence[int] | set[int] | frozenset[int]) -> ItemSet:
    result = 0
    for number in numbers:
        result |= 1 << number
    return result


SWEEPS = 6
"""Sweeps in number order before counting takes over: an author's order is nearly a possible one, so few sweeps do."""


def saturate(needs: Needs, allowed: ItemSet, done: ItemSet = 0) -> ItemSet:
    """All that can be done, starting from `done`, using only items of `allowed`; linear in the size of the clauses."""
    left = list(members(allowed & ~done))
    for _ in range(SWEEPS):
        waiting = []
        for item in left:
            for clause in needs[item]:
                if not clause & done:
                    waiting.append(item)
                    break
            else:
                done |= 1 << item
        if len(waiting) == len(left) or not waiting:
            return done
        left = waiting
    return _counted(needs, left, done)


def _counted(needs: Needs, left: Sequence[int], done: ItemSet) -> ItemSet:
    """The same by counting open clauses: each clause is visited once, however the items are numbered."""
    allowed = item_set(left)
    open_clauses: dict[int, int] = {}
    waiting: dict[int, list[tuple[int, ItemSet]]] = {}
    ready: list[int] = []
    for item in left:
        pending = [clause for clause in needs[item] if not clause & done]
        for clause in pending:
            for member in members(clause & allowed):
                waiting.setdefault(member, []).append((item, clause))
        open_clauses[item] = len(pending)
        if not pending:
            ready.append(item)
    while ready:
        item = ready.pop()
        before, done = done, done | 1 << item
        for other, clause in waiting.get(item, ()):
            if not clause & before:
                open_clauses[other] -= 1
                if not open_clauses[other]:
                    ready.append(other)
    return done


def support(needs: Needs, allowed: ItemSet, goals: Sequence[ItemSet]) -> ItemSet | None:
    """Some set that can be done on its own and meets every goal; None if there is none.

    Taken backwards from the goals, each need met by what is taken already or else by what can be done earliest.
    """
    order = first_come(needs, allowed)
    done = item_set(order)
    if any(not goal & done for goal in goals):
        return None
    rank = {item: position for position, item in enumerate(order)}
    taken = 0
    for goal in goals:
        if not goal & taken:
            taken |= 1 << min(members(goal & done), key=rank.__getitem__)
    for item in reversed(order):
        if taken >> item & 1:
            for clause in needs[item]:
                if not clause & taken or not any(rank[m] < rank[item] for m in members(clause & taken)):
                    taken |= 1 << min(members(clause & done), key=rank.__getitem__)
    return taken


def first_come(needs: Needs, allowed: ItemSet) -> list[int]:
    """Everything that can be done, in an order in which it can."""
    order: list[int] = []
    done = 0
    left = list(members(allowed))
    while True:
        waiting = []
        for item in left:
            if is_available(needs, item, done):
                done |= 1 << item
                order.append(item)
            else:
                waiting.append(item)
        if len(waiting) == len(left):
            return order
        left = waiting


def is_available(needs: Needs, item: int, done: ItemSet) -> bool:
    """Whether every clause of `item` has a member in `done`."""
    return all(clause & done for clause in needs[item])


def first_first(needs: Needs, items: ItemSet, priority: Sequence[int]) -> tuple[int, ...] | None:
    """An order of `items`: always the available one that stands first in `priority`; None if they have no order.

    Keeps the author's order wherever it is possible and puts a step off no longer than it has to wait.
    """
    place = {item: number for number, item in enumerate(priority) if items >> item & 1}
    open_clauses: dict[int, int] = {}
    waiting: dict[int, list[tuple[int, ItemSet]]] = {}
    ready: list[tuple[int, int]] = []
    for item, number in place.items():
        open_clauses[item] = len(needs[item])
        for clause in needs[item]:
            for member in members(clause & items):
                waiting.setdefault(member, []).append((item, clause))
        if not needs[item]:
            ready.append((number, item))
    done = 0
    result = []
    heapq.heapify(ready)
    while ready:
        _, item = heapq.heappop(ready)
        result.append(item)
        for other, clause in waiting.get(item, ()):
            if not clause & done:
                open_clauses[other] -= 1
                if not open_clauses[other]:
                    heapq.heappush(ready, (place[other], other))
        done |= 1 << item
    return tuple(result) if len(result) == len(place) else None
