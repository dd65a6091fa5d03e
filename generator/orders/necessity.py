"""Which items nothing can be done without: for every item all that comes before it in every possible order."""

from __future__ import annotations

from collections.abc import Sequence

from generator.orders.chaining import ItemSet, Needs, item_set, members


def gates_of(needs: Needs, allowed: ItemSet) -> list[ItemSet]:
    """For every item of `allowed` that can be done, the other items that every order has before it; 0 for the rest.

    Where every clause has one member this is the transitive closure. Cost: the total size of the clauses, as bit sets, a
    sweep; rings take a few sweeps more.
    """
    order = in_order(needs, allowed)
    return Gates(needs, order).among(item_set(order))


class Gates:
    """The same for many selections of items, of which all can be done: looked for along one order of them all.

    Source: the greatest fixed point of Keyder, Richter and Helmert, "Sound and complete landmarks for and/or graphs",
    ECAI 2010, doi:10.3233/978-1-60750-606-5-335 (from memory).
    """

    def __init__(self, needs: Needs, order: Sequence[int]) -> None:
        self.count = len(needs)
        self.clauses: list[tuple[int, tuple[int, ...], tuple[tuple[int, ...], ...]]] = []
        """For every item of the order its number, the ones it cannot do without at sight, and its choices."""
        self.looking_ahead: ItemSet = 0
        """Items that may lean on such as come later in the order: with them one sweep may not do."""
        earlier = 0
        for item in order:
            certain = tuple(clause.bit_length() - 1 for clause in needs[item] if clause.bit_count() == 1)
            choices = tuple(tuple(members(clause)) for clause in needs[item] if clause.bit_count() != 1)
            self.clauses.append((item, certain, choices))
            if any(clause & ~earlier for clause in needs[item]):
                self.looking_ahead |= 1 << item
            earlier |= 1 << item

    def among(self, items: ItemSet) -> list[ItemSet]:
        """For every one of `items` the others of them that every order has before it; 0 for the rest.

        All of them have to be in the order, and all have to be possible by themselves.
        """
        up_to = [items] * self.count
        is_settled = False
        while not is_settled:
            is_settled = not items & self.looking_ahead
            has_changed = False
            for item, certain, choices in self.clauses:
                if not items >> item & 1:
                    continue
                found = 1 << item
                for member in certain:
                    found |= up_to[member]
                for clause in choices:
                    shared = items
                    for member in clause:
                        if items >> member & 1:
                            shared &= up_to[member]
                    found |= shared
                if found != up_to[item]:
                    up_to[item] = found
                    has_changed = True
            is_settled = is_settled or not has_changed
        return [up_to[item] & ~(1 << item) if items >> item & 1 else 0 for item in range(self.count)]


def in_order(needs: Needs, allowed: ItemSet) -> list[int]:
    """Everything that can be done, each item once one member of each of its clauses is; linear in the clauses' size."""
    open_clauses: dict[int, int] = {}
    waiting: dict[int, list[tuple[int, int]]] = {}
    ready: list[int] = []
    clause_number = 0
    for item in members(allowed):
        open_clauses[item] = len(needs[item])
        for clause in needs[item]:
            for member in members(clause & allowed):
                waiting.setdefault(member, []).append((item, clause_number))
            clause_number += 1
        if not needs[item]:
            ready.append(item)
    met = bytearray(clause_number)
    order: list[int] = []
    while ready:
        order += ready
        freed: list[int] = []
        for item in ready:
            for other, clause in waiting.get(item, ()):
                if not met[clause]:
                    met[clause] = 1
                    open_clauses[other] -= 1
                    if not open_clauses[other]:
                        freed.append(other)
        ready = sorted(freed)
    return order
