"""Exact sums of points of which some are not known: the range, the values in between, what widens the range most.

All in decimals, which hold the acts' weights exactly; binary fractions put sums on the wrong side of a class bound.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import product

from generator.indices.workings import Fact, Points, Width

ASSIGNMENT_LIMIT = 20_000
"""Ways to settle facts that hang together before they are taken one cell at a time, which may add values in between."""


@dataclass(frozen=True, slots=True)
class Term:
    """share × min(ceiling, facts): what one cell adds to the sum."""

    share: Decimal
    ceiling: Points
    facts: tuple[Fact, ...] = ()

    def worth(self, settled: Mapping[str, Points]) -> Decimal:
        return self.share * min((self.ceiling, *(settled[fact.key] for fact in self.facts)))

    def lowest(self) -> Decimal:
        return self.worth({fact.key: fact.points[0] for fact in self.facts})

    def highest(self) -> Decimal:
        return self.worth({fact.key: fact.points[-1] for fact in self.facts})


@dataclass(frozen=True, slots=True)
class Reach:
    """The values the sum can take; is_exact is False where some may be listed that no settling of the facts gives."""

    values: frozenset[Decimal]
    is_exact: bool


def lowest(terms: Sequence[Term]) -> Decimal:
    """The sum with every unknown at its worst; exact, since no sum falls when points rise."""
    return sum((term.lowest() for term in terms), Decimal(0))


def highest(terms: Sequence[Term]) -> Decimal:
    """The sum with every unknown at its best."""
    return sum((term.highest() for term in terms), Decimal(0))


def reachable(terms: Sequence[Term]) -> Reach:
    """Every value of the sum. Terms that share a fact are settled together, so nothing impossible is listed."""
    sums = {sum((term.lowest() for term in terms if not term.facts), Decimal(0))}
    is_exact = True
    for group in _hanging_together([term for term in terms if term.facts]):
        parts = [group] if _ways(group) <= ASSIGNMENT_LIMIT else [[term] for term in group]
        is_exact = is_exact and (len(parts) == 1)
        for part in parts:
            worths = frozenset(_worths(part))
            sums = {one + other for one in sums for other in worths}
    return Reach(frozenset(sums), is_exact)


def widths(terms: Sequence[Term]) -> tuple[Width, ...]:
    """What each unknown fact takes from the best sum when it alone turns out worst; widest first, then as they come."""
    best = {fact.key: fact.points[-1] for term in terms for fact in term.facts}
    facts = {fact.key: fact for term in terms for fact in term.facts}
    found = []
    for fact in facts.values():
        worst = {**best, fact.key: fact.points[0]}
        using = [term for term in terms if fact in term.facts]
        found.append(Width(fact, sum((term.worth(best) - term.worth(worst) for term in using), Decimal(0))))
    return tuple(sorted(found, key=lambda entry: -entry.width))


def _hanging_together(terms: Sequence[Term]) -> list[list[Term]]:
    """Terms in groups: two that share a fact are in the same."""
    groups: list[tuple[set[str], list[Term]]] = []
    for term in terms:
        keys = {fact.key for fact in term.facts}
        touching = [group for group in groups if group[0] & keys]
        groups = [group for group in groups if not group[0] & keys]
        members = [member for group in touching for member in group[1]]
        groups.append((keys.union(*(group[0] for group in touching)), [*members, term]))
    return [members for _, members in groups]


def _ways(group: Sequence[Term]) -> int:
    ways = 1
    for fact in {fact.key: fact for term in group for fact in term.facts}.values():
        ways *= len(fact.points)
    return ways


def _worths(group: Sequence[Term]) -> Iterator[Decimal]:
    """What the group can be worth; a lone term takes each value between its ends that one of its facts offers."""
    if len(group) == 1:
        (term,) = group
        floor, ceiling = term.lowest(), term.highest()
        offered = {term.share * points for fact in term.facts for points in (*fact.points, term.ceiling)}
        yield from (worth for worth in offered if floor <= worth <= ceiling)
        return
    facts = list({fact.key: fact for term in group for fact in term.facts}.values())
    for choice in product(*(fact.points for fact in facts)):
        settled = {fact.key: points for fact, points in zip(facts, choice, strict=True)}
        yield sum((term.worth(settled) for term in group), Decimal(0))
