"""Which items nothing can be done without: for every item all that comes before it in every possible order."""

from __future__ import annotations

from generator.orders.chaining import ItemSet, Needs, members


def gates_of(needs: Needs, allowed: ItemSet) -> list[ItemSet]:
    """For every item of `allowed` that can be done, the other items that every order has before it; 0 for the rest.

    Where every clause has one member this is the transitive closure. Cost: the total size of the clauses, as bit sets, a
    sweep; rings take a few sweeps more.
    Source: the greatest fixed point of Keyder, Richter and Helmert, "Sound and complete landmarks for and/or graphs",
    ECAI 2010, doi:10.3233/978-1-60750-606-5-335 (from memory).
    """
    order = in_order(needs, allowed)
    possible = 0
    for item in order:
        possible |= 1 << item
    up_to: dict[int, ItemSet] = dict.fromkeys(order, possible)
    clauses = {item: [tuple(members(clause & possible)) for clause in needs[item]] for item in order}
    is_settled = False
    while not is_settled:
        is_settled = True
        for item in order:
            found = 1 << item
            for clause in clauses[item]:
                shared = up_to[clause[0]]
                for member in clause[1:]:
                    shared &= up_to[member]
                found |= shared
            if found != up_to[item]:
                up_to[item] = found
                is_settled = False
    return [up_to[item] & ~(1 << item) if item in up_to else 0 for item in range(len(needs))]


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
