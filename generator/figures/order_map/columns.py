"""The waits as a graph in columns: steps, choices, and the long lines that pass columns by."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

from generator.orders.chaining import ItemSet, members
from generator.orders.waits import EitherOne, Waits


class Kind(Enum):
    STEP = 1
    CHOICE = 2
    PASSING = 3  # a long line where it passes a column


@dataclass(frozen=True, slots=True)
class Node:
    """number: of the step, or of the choice; for what passes, of the node where the line starts."""

    kind: Kind
    number: int
    column: int


@dataclass(frozen=True, slots=True)
class Link:
    """A piece of a line between neighbouring columns, by node number."""

    start: int
    end: int
    is_either: bool


@dataclass(frozen=True, slots=True)
class Run:
    """One whole line: the nodes it goes through, first and last a step or a choice."""

    nodes: tuple[int, ...]
    is_either: bool


@dataclass(frozen=True)
class Columns:
    """alone: steps that wait for none and that none waits for; is_cut: lines that close a ring of steps were left out."""

    nodes: tuple[Node, ...]
    links: tuple[Link, ...]
    runs: tuple[Run, ...]
    alone: tuple[int, ...]
    is_cut: bool


Edge = tuple[int, int]


def columns_of(waits: Waits) -> Columns:
    """The column of a step is the longest way to it, a choice counting as a column of its own.

    A line that passes columns by is one node in each of them, shared by all lines of its kind from the same start.
    """
    return columns_among(len(waits.steps), waits.before, waits.eithers)


def columns_among(count: int, before: Sequence[ItemSet], eithers: Sequence[EitherOne]) -> Columns:
    """The same for that many steps, of which nothing else matters."""
    edges = [(other, number) for number in range(count) for other in members(before[number])]
    for which, either in enumerate(eithers):
        edges += [(member, count + which) for member in members(either.items)]
        edges.append((count + which, either.step))
    whole = len(set(edges))
    ranks, edges = _ranked(count + len(eithers), edges)
    # A choice of which a ring has taken all lines in or the line out leads nowhere.
    dead = {
        choice
        for choice in range(count, count + len(eithers))
        if not any(edge[0] == choice for edge in edges) or not any(edge[1] == choice for edge in edges)
    }
    ranks, edges = _ranked(len(ranks), [edge for edge in edges if not dead & set(edge)])
    joined = {end for edge in edges for end in edge}
    is_cut = len(edges) < whole
    nodes: list[Node] = []
    place: dict[int, int] = {}
    for item in sorted(joined):
        place[item] = len(nodes)
        kind = Kind.STEP if item < count else Kind.CHOICE
        nodes.append(Node(kind, item if item < count else item - count, ranks[item]))
    links: dict[Link, None] = {}
    runs = []
    passing: dict[tuple[int, bool, int], int] = {}
    for start, end in edges:
        is_either = start >= count or end >= count
        way = [place[start]]
        for column in range(ranks[start] + 1, ranks[end]):
            key = (start, is_either, column)
            if key not in passing:
                passing[key] = len(nodes)
                nodes.append(Node(Kind.PASSING, place[start], column))
            way.append(passing[key])
        way.append(place[end])
        links.update(dict.fromkeys(Link(one, other, is_either) for one, other in pairwise(way)))
        runs.append(Run(tuple(way), is_either))
    alone = tuple(step for step in range(count) if step not in joined)
    return Columns(tuple(nodes), tuple(links), tuple(runs), alone, is_cut)


def chosen_choices(waits: Waits, chosen: Collection[int]) -> Mapping[int, frozenset[int]]:
    """For every choice the members that the steps `chosen` make use of; none where its own step is not among them."""
    return {
        which: frozenset(member for member in members(either.items) if either.step in chosen and member in chosen)
        for which, either in enumerate(waits.eithers)
    }


def _ranked(count: int, edges: Iterable[Edge]) -> tuple[list[int], list[Edge]]:
    """The longest way to every item, and the edges without those that close a ring.

    In a ring the lowest item comes first: what it still waits for is dropped.
    """
    kept = list(dict.fromkeys(edges))
    ranks = [0] * count
    left = set(range(count))
    while left:
        waiting = {end for start, end in kept if start in left and end in left}
        ready = sorted(left - waiting)
        if not ready:
            first = min(left)
            kept = [edge for edge in kept if not (edge[1] == first and edge[0] in left)]
            ready = [first]
        left -= set(ready)
        for start, end in kept:
            if start in ready:
                ranks[end] = max(ranks[end], ranks[start] + 1)
    return ranks, kept
