"""What stands in the way where a part cannot be had: the fewest needs that nothing meets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.orders.chaining import ItemSet, Needs, item_set, members, saturate
from generator.orders.guide import Guide
from generator.orders.necessity import gates_of
from generator.orders.reasons import Reason, missing_effect
from generator.orders.stepwise import StepClause

TRIES = 20_000
"""Sets of needs tried in all, before one is told of which none can be spared, though there may be a smaller one."""

FULL_TRIES = 200
"""Clauses up to which that limit holds; for more it shrinks with their number, as every try takes longer."""


def in_the_way(guide: Guide, goal: ItemSet, allowed: ItemSet) -> tuple[Reason, ...]:
    """A smallest set of things that no step of `allowed` does and that, done, would make a step of `goal` possible.

    Where too many would have to be tried, a set of which none can be spared.

    Needs that only steps beyond `allowed` meet come first, then those that no step meets. Where nothing is missing and steps
    wait for each other, what they wait for is named instead. Empty if no step of `goal` is allowed.
    """
    goal &= allowed
    if not goal:
        return ()
    stepwise = guide.stepwise
    leading = leading_to(stepwise.needs, [goal], allowed)
    clauses = [clause for clause in stepwise.clauses if leading >> clause.step & 1]
    for candidates in _candidates(guide, clauses, allowed):
        reasons: dict[tuple[object, ...], Reason] = {}
        for clause in candidates:
            reasons.setdefault(missing_effect(clause.source.reason), clause.source.reason)
        waivers = _Waivers(clauses, candidates, list(reasons), len(stepwise.steps), allowed)
        chosen = waivers.fewest(goal)
        if chosen is not None:
            return tuple(reasons[effect] for effect in chosen)
    return ()


def leading_to(needs: Needs, goals: Sequence[ItemSet], allowed: ItemSet) -> ItemSet:
    """All items of `allowed` that those of `goals` may lean on, directly or not, and the goals themselves."""
    found = 0
    for goal in goals:
        found |= goal
    fresh = found
    while fresh:
        reached = 0
        for number in members(fresh):
            for clause in needs[number]:
                reached |= clause & allowed
        fresh = reached & ~found
        found |= fresh
    return found


def _candidates(guide: Guide, clauses: Sequence[StepClause], allowed: ItemSet) -> Iterator[list[StepClause]]:
    """The needs that might be said to stand in the way, the most telling first."""
    never = [clause for clause in clauses if not clause.items & allowed]
    barred = [clause for clause in never if clause.items]
    if barred:
        yield barred
        yield [clause for clause in clauses if clause.items & ~allowed]
    yield never
    in_rings = {id(clause) for ring in guide.rings for clause in ring.clauses}
    yield never + [clause for clause in clauses if id(clause) in in_rings]
    yield list(clauses)


class _Waivers:
    """The clauses with, for some of them, one more way to be met: that it is granted from outside."""

    def __init__(
        self,
        clauses: Sequence[StepClause],
        waivable: Sequence[StepClause],
        effects: Sequence[tuple[object, ...]],
        count: int,
        allowed: ItemSet,
    ) -> None:
        self.effects = effects
        self.count = count
        self.allowed = allowed
        number = {effect: count + index for index, effect in enumerate(effects)}
        granted = {id(clause) for clause in waivable}
        self.needs: list[list[ItemSet]] = [[] for _ in range(count + len(effects))]
        for clause in clauses:
            grant = 1 << number[missing_effect(clause.source.reason)] if id(clause) in granted else 0
            self.needs[clause.step].append(clause.items | grant)

    def fewest(self, goal: ItemSet) -> list[tuple[object, ...]] | None:
        """The fewest effects that, granted, make the goal possible; None if not even all of them do."""
        if not self.effects or not goal & self._reached(range(self.count, self.count + len(self.effects))):
            return None
        forced = self._forced(goal)
        left = max(1, TRIES * FULL_TRIES // max(len(self.needs), FULL_TRIES))
        for size in range(len(forced), len(self.effects) + 1):
            chosen, tried = self._that_many(goal, forced, size, left)
            left -= tried
            if chosen is None and left <= 0:
                chosen = self._unsparing(goal, forced)
            if chosen is not None:
                return [self.effects[entry - self.count] for entry in chosen]
        return None

    def _forced(self, goal: ItemSet) -> tuple[int, ...]:
        """The waivers that are in every set that makes the goal possible."""
        every = ((1 << len(self.effects)) - 1) << self.count
        gates = gates_of(self.needs, self.allowed | every)
        shared = every
        for number in members(goal & self._reached(range(self.count, self.count + len(self.effects)))):
            shared &= gates[number]
        return tuple(members(shared))

    def _unsparing(self, goal: ItemSet, forced: Sequence[int]) -> tuple[int, ...]:
        """Waivers that make the goal possible, of which none can be spared: left out by halves, then by ever fewer."""
        certain = item_set(forced)
        tries = [n for n in range(self.count, self.count + len(self.effects)) if not certain >> n & 1]
        size = max(len(tries) // 2, 1)
        while True:
            at = 0
            while at < len(tries):
                fewer = tries[:at] + tries[at + size :]
                if goal & self._reached([*forced, *fewer]):
                    tries = fewer
                else:
                    at += size
            if size == 1:
                return tuple(sorted((*forced, *tries)))
            size = max(size // 2, 1)

    def _reached(self, granted: Sequence[int]) -> ItemSet:
        return saturate(self.needs, self.allowed, sum(1 << number for number in granted))

    def _that_many(
        self, goal: ItemSet, forced: tuple[int, ...], size: int, limit: int
    ) -> tuple[tuple[int, ...] | None, int]:
        """`size` waivers with the forced ones that make the goal possible, by trying the unmet needs of what is stuck.

        Each branch waives one need of a stuck step that leads to the goal, so a smallest set is found if there is one; None
        if there is none, or `limit` sets were tried. Then how many were tried.
        """
        tried = 0
        stack: list[tuple[int, ...]] = [forced]
        seen: set[frozenset[int]] = set()
        while stack and tried < limit:
            chosen = stack.pop()
            tried += 1
            reach = self._reached(chosen)
            if goal & reach:
                return tuple(sorted(chosen)), tried
            if len(chosen) == size:
                continue
            for number in reversed(self._stuck_needs(goal, reach)):
                following = (*chosen, number)
                if frozenset(following) not in seen:
                    seen.add(frozenset(following))
                    stack.append(following)
        return None, tried

    def _stuck_needs(self, goal: ItemSet, reach: ItemSet) -> list[int]:
        """The waivers of unmet needs met when going back from the goal through what is stuck."""
        found: dict[int, None] = {}
        visited, fresh = 0, goal & ~reach
        steps = (1 << self.count) - 1
        while fresh:
            visited |= fresh
            following = 0
            for number in members(fresh):
                for clause in self.needs[number]:
                    if not clause & reach:
                        if clause & ~steps:
                            found[(clause & ~steps).bit_length() - 1] = None
                        following |= clause & steps & self.allowed
            fresh = following & ~visited
        return list(found)
