"""The critical chain: the longest run of steps each of which has to wait for the one before it, whoever lends a hand."""

from __future__ import annotations

from collections.abc import Sequence

from generator.orders.chaining import members
from generator.orders.necessity import in_order
from generator.orders.stepwise import Stepwise
from generator.orders.work import Step


def critical_chain(stepwise: Stepwise, run: Sequence[Step] | None = None) -> tuple[Step, ...]:
    """The steps of the longest chain of needs, first done first; among the steps of `run` if given.

    With any number of hands every step is done as early as it can be: one round after the latest of what it waits for, and
    of "either one" the earlier. The chain goes back from a step of the last round through what it waited for longest.
    Ties go to the author's order. Where every need is for one certain step this is the longest path of the order map.
    Steps that can never be done are left out, and so are needs of steps outside the run.
    """
    steps = tuple(stepwise.steps if run is None else run)
    known = stepwise.numbers()
    place = {known[step.id]: index for index, step in enumerate(steps)}
    needs: list[list[int]] = [[] for _ in steps]
    for clause in stepwise.clauses:
        if clause.step in place:
            items = sum(1 << place[member] for member in members(clause.items) if member in place)
            if items or run is None:
                needs[place[clause.step]].append(items)
    rounds: dict[int, int] = {}
    awaited: dict[int, int | None] = {}
    for number in in_order(needs, (1 << len(steps)) - 1):
        latest: tuple[int, int] | None = None
        for awaited_items in needs[number]:
            options = [(rounds[member], member) for member in members(awaited_items) if member in rounds]
            first = min(options)
            if latest is None or first[0] > latest[0] or (first[0] == latest[0] and first[1] < latest[1]):
                latest = first
        rounds[number] = latest[0] + 1 if latest is not None else 1
        awaited[number] = latest[1] if latest is not None else None
    chain: list[Step] = []
    here: int | None = max(rounds, key=lambda number: (rounds[number], -number), default=None)
    while here is not None:
        chain.append(steps[here])
        here = awaited[here]
    return tuple(reversed(chain))
