"""Repair of an order: the fewest steps moved that make it possible, and why fewer will not do.

A move takes one step out and puts it elsewhere. The steps that stay keep their order among themselves, so the fewest moves
are what remains beside the most steps that can stay: n minus the longest kept subsequence (the Ulam distance to the
nearest possible order).

What can stay is found in `staying`, where it goes in `keeping`.
Source: reference notes on ordering, section 4.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from generator.orders.chaining import ItemSet, Needs, item_set, members, saturate
from generator.orders.keeping import order_keeping
from generator.orders.rings import Ring, rings
from generator.orders.staying import NODE_LIMIT, Staying
from generator.orders.stepwise import StepClause, Stepwise
from generator.orders.work import Step

if TYPE_CHECKING:
    from generator.orders.guide import Guide


@dataclass(frozen=True, slots=True)
class Conflict:
    """Steps, as they stand in the author's order, of which at most `stay` can stay where they are.

    links[n] is the way of direct needs by which step n + 1 has to come before step n: from the latter back to the former,
    both ends included. links is empty where either of several steps will do somewhere on the way.
    """

    steps: tuple[Step, ...]
    stay: int
    links: tuple[tuple[Step, ...], ...] = ()


@dataclass(frozen=True)
class Repair:
    """A possible order of the same steps. moved: the steps taken out and put elsewhere, in the author's order.

    chains: conflicts without a step in common (but filmed ones), each of which costs its share of the moves; what they cost
    together is `proved_by_chains`. because: for each moved step, why it cannot stay while those that stay do. bound: no
    repair moves fewer; equal to the number moved if is_optimal.
    """

    order: tuple[Step, ...]
    moved: tuple[Step, ...]
    chains: tuple[Conflict, ...]
    because: tuple[Conflict, ...]
    bound: int

    @property
    def is_optimal(self) -> bool:
        return self.bound == len(self.moved)

    @property
    def proved_by_chains(self) -> int:
        return sum(len(chain.steps) - chain.stay for chain in self.chains)


@dataclass(frozen=True)
class NoOrder:
    """No order of these steps is possible: they wait for each other in `ring`; or `filmed` holds steps that may not move
    and yet cannot all stay."""

    ring: Ring | None = None
    filmed: Conflict | None = None


def repair_order(guide: Guide) -> Repair | NoOrder:
    """The fewest steps of the guide's order to move so that every step comes after what it waits for.

    Steps that are filmed stay. Which way up the device lies is left aside, and so are needs that no step of the order
    meets: moving steps does not help there. An order that is possible is repaired to itself.
    """
    return repaired(_of_the_order(guide))


def repaired(stepwise: Stepwise, node_limit: int = NODE_LIMIT) -> Repair | NoOrder:
    """The same for steps with their clauses, in the author's order; clauses without items are left aside."""
    count = len(stepwise.steps)
    needs = tuple(tuple(clause for clause in clauses if clause) for clauses in stepwise.needs)
    everything = (1 << count) - 1
    if saturate(needs, everything) != everything:
        return NoOrder(ring=rings(stepwise)[0])
    search = Staying(needs, item_set([n for n, step in enumerate(stepwise.steps) if step.is_filmed]))
    words = _Words(stepwise.steps, needs, search.conflicts)
    immovable = search.immovable()
    if immovable:
        return NoOrder(filmed=words.conflict(immovable))
    found = search.best(node_limit)
    order = order_keeping(needs, found.kept)
    moved = everything & ~found.kept
    return Repair(
        order=tuple(stepwise.steps[number] for number in order),
        moved=tuple(stepwise.steps[number] for number in members(moved)),
        chains=tuple(words.conflict(numbers) for numbers in found.proof),
        because=tuple(words.conflict(search.why_moved(number, found.kept)) for number in members(moved)),
        bound=found.bound,
    )


def _of_the_order(guide: Guide) -> Stepwise:
    """The steps of the order with the clauses among them; what only an alternative step would meet is left aside."""
    count = len(guide.order)
    inside = (1 << count) - 1
    clauses = [
        StepClause(clause.step, clause.items & inside, clause.source)
        for clause in guide.stepwise.clauses
        if clause.step < count and clause.items & inside
    ]
    needs: list[dict[ItemSet, None]] = [{} for _ in range(count)]
    for clause in clauses:
        needs[clause.step][clause.items] = None
    plain = tuple(tuple(each) for each in needs)
    return Stepwise(guide.order, tuple(clauses), plain, plain)


@dataclass(frozen=True, slots=True)
class _Words:
    """From numbers back to steps, with the direct needs between them."""

    steps: tuple[Step, ...]
    needs: Needs
    conflicts: Sequence[ItemSet]

    def conflict(self, numbers: Sequence[int]) -> Conflict:
        """A chain, of which each needs the next, or a set that cannot stay together."""
        steps = tuple(self.steps[number] for number in numbers)
        pairs = list(pairwise(numbers))
        if not all(self.conflicts[one] >> other & 1 for one, other in pairs):
            return Conflict(steps, len(steps) - 1)
        ways = [self._way(one, other) for one, other in pairs]
        links = tuple(tuple(self.steps[number] for number in way) for way in ways) if all(ways) else ()
        return Conflict(steps, 1, links)

    def _way(self, start: int, end: int) -> tuple[int, ...]:
        """The shortest way of needs for one certain step from `start` back to `end`; empty if there is none."""
        came_from = {start: start}
        layer = [start]
        while layer and end not in came_from:
            deeper: list[int] = []
            for item in layer:
                for clause in self.needs[item]:
                    if not clause & (clause - 1):
                        other = clause.bit_length() - 1
                        if other not in came_from:
                            came_from[other] = item
                            deeper.append(other)
            layer = deeper
        if end not in came_from:
            return ()
        way = [end]
        while way[-1] != start:
            way.append(came_from[way[-1]])
        return tuple(reversed(way))
