"""Rings: the shortest is shown, every one is found, and none where there is an order. networkx is the second opinion."""

from __future__ import annotations

import random

import networkx as nx

from generator.anatomy.parts import JointId, PartId
from generator.orders.chaining import item_set, members
from generator.orders.reasons import Clause, StillJoined
from generator.orders.rings import Ring, rings
from generator.orders.stepwise import StepClause, Stepwise
from tests.devices import step

REASON = StillJoined(PartId("part"), JointId("joint"))


def steps_waiting(count: int, waits: list[tuple[int, set[int]]]) -> Stepwise:
    clauses = tuple(StepClause(s, item_set(m), Clause(s, REASON, frozenset(m))) for s, m in waits)
    needs = tuple(tuple(c.items for c in clauses if c.step == s) for s in range(count))
    return Stepwise(tuple(step(f"step-{n}", ()) for n in range(count)), clauses, needs, needs)


def test_an_order_has_no_ring() -> None:
    assert rings(steps_waiting(3, [(2, {1}), (1, {0})])) == ()


def test_the_shortest_ring_is_shown_and_starts_with_its_first_step() -> None:
    waits = [(0, {1}), (1, {2}), (2, {3}), (3, {0}), (2, {1})]
    (ring,) = rings(steps_waiting(4, waits))
    assert ring.steps == (1, 2)
    assert ring.is_simple
    assert [clause.step for clause in ring.clauses] == [1, 2]


def test_two_rings_are_two_findings() -> None:
    found = rings(steps_waiting(5, [(0, {1}), (1, {0}), (2, {3}), (3, {2}), (4, {0})]))
    assert [ring.steps for ring in found] == [(0, 1), (2, 3)]


def test_a_need_nothing_meets_is_no_ring() -> None:
    assert rings(steps_waiting(2, [(0, set()), (1, {0})])) == ()


def test_either_or_of_steps_that_all_wait_is_a_block_of_which_none_can_be_left_out() -> None:
    waits = [(0, {1, 2}), (1, {0}), (2, {0})]
    (ring,) = rings(steps_waiting(3, waits))
    assert (ring.steps, ring.is_simple) == ((0, 1, 2), False)


def test_rings_of_random_needs_agree_with_networkx() -> None:
    chance = random.Random("rings")
    for _ in range(400):
        count = chance.randint(2, 8)
        waits = [(s, {m}) for s in range(count) for m in range(count) if s != m and chance.random() < 0.18]
        graph = nx.DiGraph([(s, next(iter(m))) for s, m in waits])
        found = rings(steps_waiting(count, waits))
        if nx.is_directed_acyclic_graph(graph):
            assert found == ()
        else:
            assert len(found[0].steps) == min(len(cycle) for cycle in nx.simple_cycles(graph))
            for ring in found:
                assert_follows(ring, graph)


def assert_follows(ring: Ring, graph: nx.DiGraph) -> None:
    following = ring.steps[1:] + ring.steps[:1]
    for here, there, clause in zip(ring.steps, following, ring.clauses, strict=True):
        assert graph.has_edge(here, there)
        assert (clause.step, clause.items) == (here, 1 << there)


def test_random_either_or_blocks_are_minimal() -> None:
    chance = random.Random("blocks")
    seen = 0
    for _ in range(400):
        count = chance.randint(3, 7)
        waits = [
            (s, set(chance.sample([n for n in range(count) if n != s], 2))) for s in range(count) if chance.random() < 0.9
        ]
        stepwise = steps_waiting(count, waits)
        for ring in rings(stepwise)[:1]:
            seen += 1
            block = item_set(ring.steps)
            assert is_blocked(stepwise, block)
            assert not any(is_blocked(stepwise, block & ~(1 << out)) for out in members(block))
    assert seen > 50


def is_blocked(stepwise: Stepwise, items: int) -> bool:
    """Whether some steps of `items` wait only for one another, by taking away what does not until nothing changes."""
    while items:
        free = [s for s in members(items) if all(clause & ~items for clause in stepwise.needs[s])]
        if not free:
            return True
        items &= ~item_set(free)
    return False
