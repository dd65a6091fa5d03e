"""Waits between steps: as few as say the same. Exhaustive orders and networkx are the second opinion."""

from __future__ import annotations

import random
import re
from pathlib import Path

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.anatomy.parts import JointId, PartId
from generator.orders.chaining import item_set, members
from generator.orders.reading import read_guides
from generator.orders.reasons import Clause, StillJoined
from generator.orders.stepwise import StepClause, Stepwise
from generator.orders.waits import EitherOne, as_networkx, reduced, waits_of
from generator.source.reading import read_library
from tests.devices import step

REASON = StillJoined(PartId("part"), JointId("joint"))
GRAPHS = sorted((Path(__file__).parent.parent / "data" / "precedence").glob("*.IN2"))
Needs = list[tuple[int, ...]]


def steps_waiting(count: int, waits: list[tuple[int, set[int]]]) -> Stepwise:
    clauses = tuple(StepClause(s, item_set(m), Clause(s, REASON, frozenset(m))) for s, m in waits)
    needs = tuple(tuple(c.items for c in clauses if c.step == s) for s in range(count))
    return Stepwise(tuple(step(f"step-{n}", ()) for n in range(count)), clauses, needs, needs)


def sets(items: int) -> set[int]:
    return set(members(items))


def possible_orders(needs: Needs) -> set[tuple[int, ...]]:
    """Every sequence, also those that stop early, in which each item finds its clauses met."""
    found = {()}
    layer: set[tuple[int, ...]] = {()}
    while layer:
        layer = {
            (*done, item)
            for done in layer
            for item in range(len(needs))
            if item not in done and all(clause & item_set(list(done)) for clause in needs[item])
        }
        found |= layer
    return found


@st.composite
def any_needs(draw: st.DrawFn) -> Needs:
    count = draw(st.integers(1, 5))
    clause = st.integers(1, (1 << count) - 1)
    needs = draw(st.lists(st.lists(clause, max_size=3), min_size=count, max_size=count))
    return [tuple(c & ~(1 << item) for c in clauses if c & ~(1 << item)) for item, clauses in enumerate(needs)]


@given(any_needs())
def test_what_is_left_allows_the_same_orders(needs: Needs) -> None:
    assert possible_orders([*reduced(needs)]) == possible_orders(needs)


@given(any_needs())
def test_no_wait_that_is_left_can_be_spared(needs: Needs) -> None:
    kept = reduced(needs)
    orders = possible_orders([*kept])
    can_be_done = {item for order in orders for item in order}
    for item in can_be_done:
        for clause in kept[item]:
            fewer = [tuple(c for c in row if (n, c) != (item, clause)) for n, row in enumerate(kept)]
            assert possible_orders(fewer) != orders


@pytest.mark.parametrize("seed", range(40))
def test_single_waits_are_the_transitive_reduction(seed: int) -> None:
    chance = random.Random(seed)
    count = chance.randint(2, 60)
    places = chance.sample(range(count), count)
    share = chance.choice((0.05, 0.2, 0.6))
    edges = [(places[a], places[b]) for b in range(count) for a in range(b) if chance.random() < share]
    waits = waits_of(steps_waiting(count, [(after, {before}) for before, after in edges]))
    graph = nx.DiGraph(edges)
    graph.add_nodes_from(range(count))
    expected = set(nx.transitive_reduction(graph).edges)
    assert {(before, after) for after in range(count) for before in members(waits.before[after])} == expected
    assert waits.eithers == ()


@pytest.mark.parametrize("path", GRAPHS, ids=lambda path: path.stem)
def test_published_graphs_are_reduced_as_networkx_does(path: Path) -> None:
    lines = path.read_text("ascii").split()
    size = int(lines[0])
    pairs = [tuple(int(n) - 1 for n in re.split(",", line)) for line in lines[size + 1 :] if line != "-1,-1"]
    pairs = [pair for pair in pairs if min(pair) >= 0]
    waits = waits_of(steps_waiting(size, [(after, {before}) for before, after in pairs]))
    graph = nx.DiGraph(pairs)
    graph.add_nodes_from(range(size))
    expected = set(nx.transitive_reduction(graph).edges)
    assert {(before, after) for after in range(size) for before in members(waits.before[after])} == expected


def test_a_choice_stays_and_loses_members_that_come_after_another() -> None:
    waits = waits_of(steps_waiting(5, [(1, {0}), (3, {0, 1, 2}), (4, {1, 2})]))
    assert waits.eithers == (EitherOne(3, item_set({0, 2})), EitherOne(4, item_set({1, 2})))


def test_a_choice_with_a_member_that_is_waited_for_anyway_is_none() -> None:
    waits = waits_of(steps_waiting(4, [(2, {0}), (3, {2}), (3, {0, 1})]))
    assert waits.eithers == () and sets(waits.before[3]) == {2}


def test_a_wait_that_both_members_of_a_choice_have_is_implied() -> None:
    waits = waits_of(steps_waiting(4, [(1, {0}), (2, {0}), (3, {1, 2}), (3, {0})]))
    assert waits.before[3] == 0 and waits.eithers == (EitherOne(3, item_set({1, 2})),)


def test_a_run_turns_a_choice_into_a_wait_and_numbers_its_own_steps() -> None:
    known = steps_waiting(4, [(3, {1, 2}), (2, {0})])
    waits = waits_of(known, [known.steps[2], known.steps[3]])
    assert [one.id for one in waits.steps] == ["step-2", "step-3"]
    assert waits.before == (0, 1) and waits.eithers == ()


def test_steps_in_a_ring_keep_their_waits() -> None:
    waits = waits_of(steps_waiting(4, [(0, {1}), (1, {0}), (2, {1}), (3, {2}), (3, {2, 0})]))
    assert [sets(before) for before in waits.before] == [{1}, {0}, {1}, {2}]


def test_the_graph_for_others_has_choices_as_nodes() -> None:
    graph = as_networkx(waits_of(steps_waiting(4, [(3, {1, 2}), (3, {0})])))
    assert graph.nodes["step-0"] == {"kind": "step", "title": "step-0", "number": 1}
    choice = "step-3: either 1"
    assert graph.nodes[choice] == {"kind": "either"}
    assert set(graph.edges) == {("step-0", "step-3"), ("step-1", choice), ("step-2", choice), (choice, "step-3")}


def test_the_demo_has_its_two_choices() -> None:
    guide = read_guides(read_library(Path("content"))).guides[0]
    waits = waits_of(guide.stepwise)
    told = {
        waits.steps[either.step].id: {waits.steps[member].id for member in members(either.items)}
        for either in waits.eithers
    }
    assert told == {
        "unplug-battery": {"lift-upper-cover", "lift-plug-plate"},
        "draw-out-battery": {"take-out-leads", "fold-joining-cable"},
    }
    assert waits_of(guide.stepwise, guide.order).eithers == ()
