"""Forward chaining: what can be done at all when anything that can be done is done.

Items are numbered from 0; sets of items are whole numbers used as bit sets (bit n is item n). Doing more never makes less
possible, so "do anything available until nothing is" reaches the one largest set that can be done (ordering facts F1, F2).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

ItemSet = int
Needs = Sequence[Sequence[ItemSet]]
"""For every item its clauses; each clause is the set of items any one of which has to be done before."""


def members(items: ItemSet) -> Iterator[int]:
    """The numbers in a bit set, smallest first."""
    while items:
        low = items & -items
        yield low.bit_length() - 1
        items ^= low


def item_set(numbers: Sequence[int] | set[int] | frozenset[int]) -> ItemSet:
    result = 0
    for number in numbers:
        result |= 1 << number
    return result


def saturate(needs: Needs, allowed: ItemSet, done: ItemSet = 0) -> ItemSet:
    """All that can be done, starting from `done`, using only items of `allowed`; linear in the size of the clauses."""
    open_clauses: dict[int, int] = {}
    waiting: dict[int, list[tuple[int, ItemSet]]] = {}
    ready: list[int] = []
    for item in members(allowed & ~done):
        pending = 0
        for clause in needs[item]:
            if clause & done:
                continue
            pending += 1
            for member in members(clause & allowed):
                waiting.setdefault(member, []).append((item, clause))
        open_clauses[item] = pending
        if not pending:
            ready.append(item)
    reached = done
    while ready:
        item = ready.pop()
        if reached >> item & 1:
            continue
        before, reached = reached, reached | 1 << item
        for other, clause in waiting.get(item, ()):
            if not clause & before:
                open_clauses[other] -= 1
                if not open_clauses[other]:
                    ready.append(other)
    return reached


def is_available(needs: Needs, item: int, done: ItemSet) -> bool:
    """Whether every clause of `item` has a member in `done`."""
    return all(clause & done for clause in needs[item])


def first_first(needs: Needs, items: ItemSet, priority: Sequence[int]) -> tuple[int, ...] | None:
    """An order of `items`: always the available one that stands first in `priority`; None if they have no order.

    Keeps the author's order wherever it is possible and puts a step off no longer than it has to wait.
    """
    left = [item for item in priority if items >> item & 1]
    done = 0
    result: list[int] = []
    while left:
        item = next((entry for entry in left if is_available(needs, entry, done)), None)
        if item is None:
            return None
        left.remove(item)
        result.append(item)
        done |= 1 << item
    return tuple(result)
