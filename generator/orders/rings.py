"""Steps that wait for each other: found by forward chaining, shown by the shortest ring."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass

from generator.orders.chaining import ItemSet, members, saturate
from generator.orders.stepwise import StepClause, Stepwise


@dataclass(frozen=True, slots=True)
class Ring:
    """Steps of which none can be the first: each waits for the next (the last for the first) by the clause beside it.

    Where either of several would do and all of them wait, `is_simple` is False and the steps are a smallest such set in
    the sense that leaving any one out would free the rest.
    """

    steps: tuple[int, ...]
    clauses: tuple[StepClause, ...]
    is_simple: bool


def rings(stepwise: Stepwise) -> tuple[Ring, ...]:
    """Every ring of the steps, one after the other; each is shown once and then taken as solved.

    Clauses that nothing can ever meet are left aside: they are faults of their own, not rings.
    """
    count = len(stepwise.steps)
    everything = (1 << count) - 1
    clauses = [clause for clause in stepwise.clauses if clause.items]
    needs = _needs(count, clauses)
    done = saturate(needs, everything)
    found: list[Ring] = []
    while done != everything:
        stuck = everything & ~done
        blocking = [c for c in clauses if stuck >> c.step & 1 and not c.items & done]
        ring = _shortest_ring(blocking) or _smallest_block(needs, blocking, stuck)
        found.append(ring)
        for step in ring.steps:
            done |= 1 << step
        done = saturate(needs, everything, done)
    return tuple(found)


def _needs(count: int, clauses: Sequence[StepClause]) -> list[list[ItemSet]]:
    needs: list[list[ItemSet]] = [[] for _ in range(count)]
    for clause in clauses:
        needs[clause.step].append(clause.items)
    return needs


def _shortest_ring(blocking: Sequence[StepClause]) -> Ring | None:
    """The shortest ring of clauses with a single member, by breadth-first search from each step; None if there is none.

    A step that was searched from is taken out, and with it what is then on no ring.
    """
    edges: dict[int, dict[int, StepClause]] = {}
    for clause in blocking:
        if clause.items & (clause.items - 1) == 0:
            edges.setdefault(clause.step, {}).setdefault(clause.items.bit_length() - 1, clause)
    best: list[int] | None = None
    on_rings = {step: set(leads) for step, leads in edges.items()}
    before: dict[int, set[int]] = {}
    for step, leads in edges.items():
        for there in leads:
            before.setdefault(there, set()).add(step)
    _take_out([step for step in {*before, *on_rings} if not on_rings.get(step) or not before.get(step)], on_rings, before)
    for start in sorted(edges):
        if not on_rings.get(start):
            continue
        path = _way_back_to(start, on_rings)
        _take_out([start], on_rings, before)
        if path is not None and (best is None or len(path) < len(best)):
            best = path
    if best is None:
        return None
    following = best[1:] + best[:1]
    return Ring(tuple(best), tuple(edges[a][b] for a, b in zip(best, following, strict=True)), True)


def _take_out(steps: Sequence[int], following: dict[int, set[int]], before: dict[int, set[int]]) -> None:
    """Take steps out of the graph, then all that leads nowhere any more or that nothing leads to."""
    leaving = list(steps)
    while leaving:
        step = leaving.pop()
        for there in following.pop(step, ()):
            before[there].discard(step)
            if not before[there]:
                leaving.append(there)
        for here in before.pop(step, ()):
            following[here].discard(step)
            if not following[here]:
                leaving.append(here)


def _way_back_to(start: int, edges: dict[int, set[int]]) -> list[int] | None:
    came_from: dict[int, int] = {}
    queue = deque([start])
    while queue:
        here = queue.popleft()
        for there in sorted(edges.get(here, ())):
            if there == start:
                path = [here]
                while path[-1] != start:
                    path.append(came_from[path[-1]])
                return path[::-1]
            if there not in came_from:
                came_from[there] = here
                queue.append(there)
    return None


def _smallest_block(needs: Sequence[Sequence[ItemSet]], blocking: Sequence[StepClause], stuck: ItemSet) -> Ring:
    """An inclusion-minimal set of steps each of which has a clause lying wholly inside it."""
    block = stuck
    for step in members(stuck):
        if block >> step & 1:
            smaller = _blocked_within(needs, block & ~(1 << step))
            if smaller:
                block = smaller
    chosen = {c.step: c for c in reversed(blocking) if block >> c.step & 1 and not c.items & ~block}
    steps = tuple(members(block))
    return Ring(steps, tuple(chosen[step] for step in steps), False)


def _blocked_within(needs: Sequence[Sequence[ItemSet]], items: ItemSet) -> ItemSet:
    """The largest subset of `items` in which every step has a clause lying wholly inside the subset."""
    while True:
        freed = 0
        for step in members(items):
            if not any(clause and not clause & ~items for clause in needs[step]):
                freed |= 1 << step
        if not freed:
            return items
        items &= ~freed
