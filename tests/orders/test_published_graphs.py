"""Published precedence graphs: the program's clauses give the known numbers of orders, strengths and downsets.

Task i becomes part i, held by one joint of its own and lying `under` every part that has to leave before it.
Where the graphs and the numbers come from: tests/data/README.md.
"""

from __future__ import annotations

import csv
import random
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import networkx
import pytest

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import JointKind
from generator.orders.clauses import clauses_of, work_of
from generator.orders.walk import walk
from generator.orders.work import Step, Verb
from tests.devices import BASE, action, joint, part, step

DATA = Path(__file__).parent.parent / "data"
Pair = tuple[int, int]


@dataclass(frozen=True)
class Graph:
    """Tasks 1 to `size` with whole-number times; (i, j) in `pairs`: i directly before j."""

    size: int
    times: tuple[int, ...]
    pairs: frozenset[Pair]

    @property
    def backwards(self) -> Graph:
        return Graph(self.size, self.times, frozenset((after, before) for before, after in self.pairs))


def read_graph(text: str) -> Graph:
    """An IN2 file: n, n task times, then pairs `i,j` up to `-1,-1`."""
    lines = text.split()
    size = int(lines[0])
    pairs = [tuple(int(number) for number in line.split(",")) for line in lines[size + 1 :]]
    end = pairs.index((-1, -1))
    return Graph(size, tuple(int(line) for line in lines[1 : size + 1]), frozenset((i, j) for i, j in pairs[:end]))


GRAPHS = {path.stem: read_graph(path.read_text("ascii")) for path in sorted((DATA / "precedence").glob("*.IN2"))}


def overview() -> dict[str, tuple[int, int, int, float, int | None]]:
    """The table in tests/data/README.md: n, direct arcs, time sum, order strength in %, downsets (None: not counted out)."""
    rows = re.findall(
        r"^\| (\w+)\.IN2 \| (\d+) \| (\d+) \| (\d+) \| ([\d.]+) \| \d+ \| (\d+|more than a million) \|$",
        (DATA / "README.md").read_text("utf-8"),
        re.MULTILINE,
    )
    return {
        name: (int(size), int(arcs), int(time), float(strength), int(downsets) if downsets.isdigit() else None)
        for name, size, arcs, time, strength, downsets in rows
    }


OVERVIEW = overview()


def table() -> dict[str, dict[str, list[str]]]:
    """trade/precedence.csv: values by quantity and graph."""
    found: dict[str, dict[str, list[str]]] = {}
    with (DATA / "trade" / "precedence.csv").open(encoding="utf-8", newline="") as lines:
        for row in csv.DictReader(lines):
            name, _, task = row["key"].partition(":")
            value = f"{task}={row['value']}" if task else row["value"]
            found.setdefault(row["quantity"], {}).setdefault(name, []).append(value)
    return found


TABLE = table()
COUNTED = {"Mertens": "MERTENS", "Bowman": "BOWMAN8", "Jaeschke": "JAESCHKE", "Jackson": "JACKSON", "Mansoor": "MANSOOR"}
ORDERS = {"Mertens": 45, "Bowman": 16, "Jaeschke": 24, "Jackson": 756, "Mansoor": 550}


# The graph as a device


def device_of(graph: Graph) -> tuple[Anatomy, tuple[Step, ...]]:
    """Parts held by a press fit each, under what leaves before them; one step a task, numbered from 1 in its id."""
    tasks = range(1, graph.size + 1)
    parts = {BASE: part(BASE)}
    joints = {}
    for task in tasks:
        over = tuple(f"part-{before}" for before, after in sorted(graph.pairs) if after == task)
        known = part(f"part-{task}", under=over)
        fit = joint(f"fit-{task}", JointKind.PRESS, known.id, BASE)
        parts[known.id] = known
        joints[fit.id] = fit
    steps = tuple(
        step(f"take-{task}", [action(Verb.UNDO, joint=f"fit-{task}"), action(Verb.LIFT, part=f"part-{task}")])
        for task in tasks
    )
    return Anatomy(BASE, parts, joints), steps


Waits = tuple[tuple[frozenset[int], ...], ...]
"""For every step (from 0) its clauses between steps: sets of steps one of which has to be done before."""


@cache
def waits_of(graph: Graph) -> Waits:
    """What each step waits for, by the program's clauses; a clause met within its own step is left out."""
    anatomy, steps = device_of(graph)
    owner = [number for number, one in enumerate(steps) for _ in one.actions]
    assert len(owner) == len(work_of(steps))
    waits: list[set[frozenset[int]]] = [set() for _ in steps]
    for clause in clauses_of(anatomy, steps, "none"):
        own = owner[clause.action]
        if not any(owner[member] == own and member < clause.action for member in clause.members):
            waits[own].add(frozenset(owner[member] for member in clause.members) - {own})
    return tuple(tuple(sorted(clauses, key=sorted)) for clauses in waits)


def downsets_with_orders(waits: Waits) -> dict[int, int]:
    """Every set of steps that can be done (as bits) with the number of orders it can be done in."""
    masks = [[sum(1 << number for number in clause) for clause in clauses] for clauses in waits]
    layer, found = {0: 1}, {0: 1}
    while layer:
        following: dict[int, int] = {}
        for done, orders in layer.items():
            for number, clauses in enumerate(masks):
                if not done >> number & 1 and all(done & clause for clause in clauses):
                    then = done | 1 << number
                    following[then] = following.get(then, 0) + orders
        found |= following
        layer = following
    return found


def number_of_orders(graph: Graph) -> int:
    return downsets_with_orders(waits_of(graph)).get((1 << graph.size) - 1, 0)


def closure(waits: Waits) -> networkx.DiGraph[int]:
    """What comes before what, directly or not, as the clauses have it; each clause has exactly one member here."""
    direct: networkx.DiGraph[int] = networkx.DiGraph()
    direct.add_nodes_from(range(len(waits)))
    for number, clauses in enumerate(waits):
        for clause in clauses:
            (before,) = clause
            direct.add_edge(before, number)
    return networkx.transitive_closure_dag(direct)


# The files


def test_files_are_what_the_overview_says() -> None:
    assert set(GRAPHS) == set(OVERVIEW) and len(GRAPHS) == 14
    for name, graph in GRAPHS.items():
        size, arcs, time, _, _ = OVERVIEW[name]
        assert (graph.size, len(graph.pairs), sum(graph.times)) == (size, arcs, time), name
        assert len(graph.times) == size


@pytest.mark.parametrize("name", COUNTED)
def test_table_and_files_tell_of_the_same_graphs(name: str) -> None:
    graph = GRAPHS[COUNTED[name]]
    pairs = {tuple(int(task) for task in pair.split(">")) for pair in TABLE["precedes"][name]}
    times = dict(value.split("=") for value in TABLE["task time"][name])
    assert pairs == graph.pairs
    assert [int(times[str(task)]) for task in range(1, graph.size + 1)] == list(graph.times)
    assert [int(value) for value in TABLE["feasible orders (linear extensions)"][name]] == [ORDERS[name]]


# The program's clauses


@pytest.mark.parametrize("name", COUNTED)
def test_number_of_possible_orders(name: str) -> None:
    graph = GRAPHS[COUNTED[name]]
    assert number_of_orders(graph) == ORDERS[name]
    assert number_of_orders(graph.backwards) == ORDERS[name]


@pytest.mark.parametrize("name", COUNTED)
def test_a_ring_leaves_no_order(name: str) -> None:
    graph = GRAPHS[COUNTED[name]]
    for before, after in closure(waits_of(graph)).edges:
        ring = Graph(graph.size, graph.times, graph.pairs | {(after + 1, before + 1)})
        assert number_of_orders(ring) == 0


@pytest.mark.parametrize("name", GRAPHS)
def test_order_strength(name: str) -> None:
    graph = GRAPHS[name]
    pairs = closure(waits_of(graph)).number_of_edges()
    assert round(100 * pairs / (graph.size * (graph.size - 1) / 2), 2) == OVERVIEW[name][3]
    for other, stem in COUNTED.items():
        if stem == name:
            assert [int(value) for value in TABLE["ordered pairs in transitive closure"][other]] == [pairs]


@pytest.mark.parametrize("name", [name for name, row in OVERVIEW.items() if row[4] is not None and row[4] <= 10_000])
def test_number_of_downsets(name: str) -> None:
    assert len(downsets_with_orders(waits_of(GRAPHS[name]))) == OVERVIEW[name][4]
    assert len(downsets_with_orders(waits_of(GRAPHS[name].backwards))) == OVERVIEW[name][4]


@pytest.mark.parametrize("name", GRAPHS)
def test_orders_of_the_reference_library_are_accepted_and_others_refused(name: str) -> None:
    graph = GRAPHS[name]
    anatomy, steps = device_of(graph)
    reference: networkx.DiGraph[int] = networkx.DiGraph(graph.pairs)
    reference.add_nodes_from(range(1, graph.size + 1))
    chance = random.Random(name)
    refused = 0
    for _ in range(12):
        rank = {task: chance.random() for task in reference}
        order = list(networkx.lexicographical_topological_sort(reference, key=rank.__getitem__))
        assert is_accepted(anatomy, steps, order)
        mixed = chance.sample(order, len(order))
        assert is_accepted(anatomy, steps, mixed) == is_topological(graph.pairs, mixed)
        refused += not is_topological(graph.pairs, mixed)
        before, after = chance.choice(sorted(graph.pairs))
        one, other = order.index(before), order.index(after)
        order[one], order[other] = order[other], order[one]
        assert not is_accepted(anatomy, steps, order)
    assert refused


def is_accepted(anatomy: Anatomy, steps: Sequence[Step], order: Iterable[int]) -> bool:
    return not walk(anatomy, ("back",), "none", [steps[task - 1] for task in order]).unmet


def is_topological(pairs: Iterable[Pair], order: Sequence[int]) -> bool:
    place: Mapping[int, int] = {task: number for number, task in enumerate(order)}
    return all(place[before] < place[after] for before, after in pairs)
