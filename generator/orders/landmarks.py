"""A lower bound on what is still to be paid: sets of items one of which every way has to use, paid for one by one.

A landmark is such a set. Its cheapest item is paid, the price is taken off all items of the set, and the next landmark is
looked for at the prices left; so nothing is paid for twice and the sum is never more than the cheapest way costs.
Source: the landmark cut of Helmert and Domshlak, "Landmarks, critical paths and abstractions: what's the difference
anyway?", ICAPS 2009, in the form that needs with choices take (from memory).
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass

from generator.orders.chaining import ItemSet, Needs, members, saturate

FREE = -1
"""In place of a clause: waits for nothing, or cannot be reached."""

GOAL = 0
"""The first place: what waits for everything that is wanted, and costs nothing."""


def still_to_pay(needs: Needs, costs: Sequence[int], allowed: ItemSet, paid: ItemSet, wanted: Sequence[ItemSet]) -> int:
    """At least this much is paid, beside `paid`, to do all of `paid` and one item of each set in `wanted`.

    costs are whole numbers, none below 0; only items of `allowed` may be done, and with all of them the wanted can be.
    """
    places = _open_places(needs, costs, allowed, paid, wanted)
    total = 0
    while len(places.items) > 1:
        values, dearest = _values(places)
        if not values[GOAL]:
            break
        landmark = _landmark(places, dearest)
        price = min(places.costs[place] for place in landmark)
        for place in landmark:
            places.costs[place] -= price
        total += price
    return total


@dataclass(frozen=True, slots=True)
class _Places:
    """What is still open, numbered anew: the goal, then items.

    clauses[place] are the numbers of the clauses that a place waits for, choices[clause] the places one of which will do,
    waiting[clause] the places that wait for it, used_by[place] the clauses that it is in. costs are what is left of them.
    """

    items: list[int]
    costs: list[int]
    clauses: list[list[int]]
    used_by: list[list[int]]
    choices: list[list[int]]
    waiting: list[list[int]]


def _open_places(
    needs: Needs, costs: Sequence[int], allowed: ItemSet, paid: ItemSet, wanted: Sequence[ItemSet]
) -> _Places:
    done = saturate(needs, paid)
    place_of: dict[int, int] = {}
    clause_of: dict[ItemSet, int] = {}
    found = _Places([-1], [0], [[]], [[]], [], [])

    def place(item: int) -> int:
        if item not in place_of:
            place_of[item] = len(found.items)
            found.items.append(item)
            found.costs.append(0 if paid >> item & 1 else costs[item])
            found.clauses.append([])
            found.used_by.append([])
        return place_of[item]

    def wait(waiting: int, clause: ItemSet) -> None:
        clause &= allowed
        if clause not in clause_of:
            clause_of[clause] = number = len(found.choices)
            found.choices.append([place(item) for item in members(clause)])
            found.waiting.append([])
            for each in found.choices[number]:
                found.used_by[each].append(number)
        if clause_of[clause] not in found.clauses[waiting]:
            found.clauses[waiting].append(clause_of[clause])
            found.waiting[clause_of[clause]].append(waiting)

    for clause in (*wanted, *(1 << item for item in members(paid & ~done))):
        if not clause & done:
            wait(GOAL, clause)
    number = 1
    while number < len(found.items):
        for clause in needs[found.items[number]]:
            if not clause & done:
                wait(number, clause)
        number += 1
    return found


def _values(places: _Places) -> tuple[list[int], list[int]]:
    """For every place what its dearest line of needs costs, itself included, and the clause on that line; -1 for none.

    A choice costs what its cheapest item does. Each place is settled once, cheapest first.
    """
    values = [-1] * len(places.items)
    dearest = [FREE] * len(places.items)
    left = [len(clauses) for clauses in places.clauses]
    is_met = [False] * len(places.choices)
    queue = [(places.costs[place], place) for place, count in enumerate(left) if not count]
    heapq.heapify(queue)
    while queue:
        value, place = heapq.heappop(queue)
        values[place] = value
        for clause in places.used_by[place]:
            if not is_met[clause]:
                is_met[clause] = True
                for waiting in places.waiting[clause]:
                    left[waiting] -= 1
                    if not left[waiting]:
                        dearest[waiting] = clause  # the last one met is the dearest: values only grow
                        heapq.heappush(queue, (value + places.costs[waiting], waiting))
    return values, dearest


def _landmark(places: _Places, dearest: Sequence[int]) -> list[int]:
    """Places that cost something, one of which every way to the goal uses.

    Those in a choice from which the dearest lines lead to the goal for nothing, where they are not beyond such a choice
    themselves: whoever comes from the beginning, where all is beyond, has to come in by one of them.
    """
    near = bytearray(len(places.choices))
    near[dearest[GOAL]] = 1
    fresh = [dearest[GOAL]]
    entrances: dict[int, None] = {}
    while fresh:
        for place in places.choices[fresh.pop()]:
            if places.costs[place]:
                entrances[place] = None
            elif dearest[place] != FREE and not near[dearest[place]]:
                near[dearest[place]] = 1
                fresh.append(dearest[place])
    return [place for place in entrances if dearest[place] == FREE or not near[dearest[place]]]
