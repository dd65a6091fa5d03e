"""What waits for what between whole steps, as a value: only the waits that do not follow from others.

Most waits are for one certain step; a few are for any one of several ("either one"). A wait is left out when the step
could not be done any earlier without it. Where every wait is for one step, this is the transitive reduction (the fewest
arrows that say the same): Aho, Garey and Ullman, "The transitive reduction of a directed graph", SIAM J. Comput. 1(2),
1972, doi:10.1137/0201008.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from generator.orders.chaining import ItemSet, item_set, members, saturate
from generator.orders.stepwise import Stepwise
from generator.orders.work import Step

if TYPE_CHECKING:
    import networkx


@dataclass(frozen=True, slots=True)
class EitherOne:
    """Step number `step` waits for any one of `items`, a bit set of two or more steps."""

    step: int
    items: ItemSet


@dataclass(frozen=True, slots=True)
class Waits:
    """Steps numbered from 0 in the order given; before[n] is the bit set of the steps that step n waits for directly.

    eithers go by the number of their step. Steps that wait for each other in a ring keep their waits.
    """

    steps: tuple[Step, ...]
    before: tuple[ItemSet, ...]
    eithers: tuple[EitherOne, ...]

    def eithers_of(self, number: int) -> tuple[EitherOne, ...]:
        return tuple(either for either in self.eithers if either.step == number)


def waits_of(stepwise: Stepwise, run: Sequence[Step] | None = None) -> Waits:
    """The waits among the steps of `run`, which are some of those in `stepwise`; among all of them if not given.

    A choice of which a run holds one step only is a wait for that step; a wait for steps outside the run is left out.
    KeyError for a step that `stepwise` lacks. Cost: one sweep of the clauses a step, and one a choice and wait kept.
    """
    steps = tuple(stepwise.steps if run is None else run)
    known = stepwise.numbers()
    place = {known[step.id]: number for number, step in enumerate(steps)}
    needs: list[dict[ItemSet, None]] = [{} for _ in steps]
    for clause in stepwise.clauses:
        if clause.step in place:
            items = item_set([place[member] for member in members(clause.items) if member in place])
            if items:
                needs[place[clause.step]][items] = None
    kept = reduced([tuple(clauses) for clauses in needs])
    return Waits(
        steps,
        tuple(item_set({_only(clause) for clause in clauses if clause.bit_count() == 1}) for clauses in kept),
        tuple(
            EitherOne(number, clause)
            for number, clauses in enumerate(kept)
            for clause in sorted(clauses, key=lambda clause: tuple(members(clause)))
            if clause.bit_count() > 1
        ),
    )


def reduced(needs: Sequence[Sequence[ItemSet]]) -> tuple[tuple[ItemSet, ...], ...]:
    """The same needs in the fewest words: the same orders are possible, and no clause or member can be spared.

    needs: for every item its clauses, each a set of items one of which has to be done before. What can never be done
    (items in a ring and what waits for them) keeps its clauses but for repeated and wider ones.
    """
    every = (1 << len(needs)) - 1
    possible = saturate(needs, every)
    gates = _gates(needs, possible)
    narrow = [
        _narrowest([_told_apart(clause & possible, gates) for clause in clauses] if possible >> item & 1 else clauses)
        for item, clauses in enumerate(needs)
    ]
    brief = [
        [clause for clause in clauses if not _follows(clause, clauses, gates)] if possible >> item & 1 else clauses
        for item, clauses in enumerate(narrow)
    ]
    if any(clause.bit_count() > 1 for clauses in brief for clause in clauses):
        for item in members(possible):
            for clause in sorted(brief[item], key=lambda clause: (-clause.bit_count(), clause)):
                whole = brief[item]
                brief[item] = [other for other in whole if other != clause]
                if saturate(brief, every & ~clause) >> item & 1:
                    brief[item] = whole
    return tuple(tuple(sorted(clauses)) for clauses in brief)


def as_networkx(waits: Waits) -> networkx.DiGraph[str]:
    """The waits as a graph for other programs: an arrow leads from what is done first to what waits for it.

    Nodes: the ids of the steps, with `kind` "step", `title` and `number` (from 1); and for every choice a node of `kind`
    "either", named after its step ("lift-board: either 1"), with arrows from each of its members and one to its step.
    """
    import networkx

    graph: networkx.DiGraph[str] = networkx.DiGraph()
    for number, step in enumerate(waits.steps):
        graph.add_node(str(step.id), kind="step", title=step.title, number=number + 1)
    for number, step in enumerate(waits.steps):
        graph.add_edges_from((str(waits.steps[other].id), str(step.id)) for other in members(waits.before[number]))
        for which, either in enumerate(waits.eithers_of(number), 1):
            choice = f"{step.id}: either {which}"
            graph.add_node(choice, kind="either")
            graph.add_edges_from((str(waits.steps[member].id), choice) for member in members(either.items))
            graph.add_edge(choice, str(step.id))
    return graph


def _gates(needs: Sequence[Sequence[ItemSet]], possible: ItemSet) -> list[ItemSet]:
    """For every possible item, the others it cannot be done without."""
    gates = [0] * len(needs)
    for gate in members(possible):
        for item in members(possible & ~saturate(needs, possible & ~(1 << gate)) & ~(1 << gate)):
            gates[item] |= 1 << gate
    return gates


def _told_apart(clause: ItemSet, gates: Sequence[ItemSet]) -> ItemSet:
    """The clause without members that come after another member anyway: that other one has met it by then."""
    return item_set([member for member in members(clause) if not gates[member] & clause])


def _narrowest(clauses: Sequence[ItemSet]) -> list[ItemSet]:
    """Each clause once, without those that hold a narrower one."""
    once = list(dict.fromkeys(clauses))
    return [clause for clause in once if not any(other != clause and other & clause == other for other in once)]


def _follows(clause: ItemSet, clauses: Sequence[ItemSet], gates: Sequence[ItemSet]) -> bool:
    """Whether another step waited for cannot be done before one of `clause`."""
    return any(
        gates[_only(other)] & clause for other in clauses if other != clause and other.bit_count() == 1
    )


def _only(clause: ItemSet) -> int:
    return clause.bit_length() - 1
