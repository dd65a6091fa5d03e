"""The way to a part: the cheapest set of steps that can be done and ends with the part in the hand.

Clauses between steps are AND of OR. Almost always the necessary steps alone are doable and the answer is immediate;
otherwise branch and bound over the open choices, exact unless a node limit is hit, which is then said; a solver, where one
is installed, is then asked as well.
Source of the method: delete-free planning with necessary steps as landmarks (reference notes on ordering, sections 2 and 3).
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from generator.anatomy.parts import JointId, PartId
from generator.orders.chaining import ItemSet, Needs, first_first, members, saturate
from generator.orders.faces import MissingTurn, missing_turns
from generator.orders.guide import Guide
from generator.orders.landmarks import still_to_pay
from generator.orders.necessity import Gates, gates_of, in_order
from generator.orders.no_way import in_the_way, leading_to
from generator.orders.reasons import Reason
from generator.orders.solver import can_solve, cheapest_by_solver
from generator.orders.stepwise import Stepwise
from generator.orders.turn_bounds import TurnBounds
from generator.orders.work import Step, ToolId, Verb

NODE_LIMIT = 20_000
"""Branch-and-bound nodes before a route is given with a bound instead of a proof; far above what devices need."""

ALTERNATIVE_LIMIT = 5
"""How many near-best routes are kept for showing."""

ALTERNATIVE_NODES = 2_000

FULL_LIMITS = 100
"""Steps up to which these limits hold; for more they shrink with the square, as a node takes longer and more come up."""

Rank = tuple[int, int, tuple[int, ...]]
"""What routes are compared by: cost, tool changes, then the author's order."""


@dataclass(frozen=True, slots=True)
class Turn:
    """A turn the route has to add: before action `number` of `step`, so that `face` lies up."""

    step: str
    number: int
    face: str


@dataclass(frozen=True)
class Route:
    """A way to `parts`: `steps` in the order they are done; `added_turns` stand between what the steps say.

    actions counts all actions with the added turns; seconds is None where a step has no `takes`. cost is what was made
    least: seconds where every step of the guide has them, else actions. safety: kept only for the reader's safety;
    necessary: shared by every way there is. bound: no route can cost less; equal to cost if is_optimal.
    """

    parts: tuple[PartId, ...]
    steps: tuple[Step, ...]
    added_turns: tuple[Turn, ...]
    actions: int
    seconds: int | None
    tool_changes: int
    turns: int
    safety: tuple[Step, ...]
    necessary: tuple[Step, ...]
    cost: int
    bound: int
    is_optimal: bool
    alternatives: tuple[Route, ...] = ()

    @property
    def back(self) -> tuple[Step, ...]:
        """The way back: the same steps, last out first in."""
        return self.steps[::-1]


@dataclass(frozen=True, slots=True)
class Without:
    """What a route may not do: undo one of `joints`, take up one of `tools`."""

    joints: tuple[JointId, ...] = ()
    tools: tuple[ToolId, ...] = ()

    def bars(self, guide: Guide, step: Step) -> bool:
        if not self.joints and not self.tools:
            return False
        taken_up = {tool for action in step.actions for tool in guide.tools_of(action)}
        return not (taken_up.isdisjoint(self.tools) and set(step.undone).isdisjoint(self.joints))

    def each_left_out(self) -> Iterator[Without]:
        """What is left when one joint or tool is allowed again."""
        for joint in self.joints:
            yield replace(self, joints=tuple(other for other in self.joints if other != joint))
        for tool in self.tools:
            yield replace(self, tools=tuple(other for other in self.tools if other != tool))


EVERYTHING_MAY_BE_USED = Without()


@dataclass(frozen=True)
class Blocked:
    """No way to `part`: `in_the_way` is a smallest set of needs that nothing in the guide meets.

    Empty: no step lifts the part out at all. without: what of that which a route may not use makes it so, as little as
    will; every way to the part uses some of it, and the needs are those that no other step meets. Empty: there is no way
    whatever is used.
    """

    part: PartId
    in_the_way: tuple[Reason, ...]
    without: Without = EVERYTHING_MAY_BE_USED


@dataclass(frozen=True)
class NoRoute:
    """Not every part asked for can be reached."""

    parts: tuple[PartId, ...]
    blocked: tuple[Blocked, ...]


def best_route(
    guide: Guide, parts: Sequence[PartId], without: Without = EVERYTHING_MAY_BE_USED, tells_others: bool = True
) -> Route | NoRoute:
    """The cheapest way to all of `parts` in one go, with its near-best alternatives; none uses what is in `without`.

    Ties go to fewer tool changes, then to the author's order. Deterministic: limits count nodes, never time. An answer is
    kept with the guide, since one part is asked for by many. tells_others: whether alternatives are looked for, which takes
    longer than the way itself; if not there may be some all the same.
    """
    asked = (tuple(parts), without)
    if ("route", *asked) not in guide.answers and (tells_others or ("route alone", *asked) not in guide.answers):
        guide.answers["route" if tells_others else "route alone", *asked] = _searched(guide, *asked, tells_others)
    answer: Route | NoRoute = guide.answers.get(("route", *asked)) or guide.answers["route alone", *asked]
    return answer


def _searched(guide: Guide, parts: tuple[PartId, ...], without: Without, tells_others: bool) -> Route | NoRoute:
    search = _Search(guide, parts, without)
    blocked = tuple(
        _blocked(guide, part, without)
        for part, goal in zip(search.parts, search.goals, strict=True)
        if not goal & saturate(search.needs, search.allowed)
    )
    return NoRoute(search.parts, blocked) if blocked else search.best(tells_others)


def _blocked(guide: Guide, part: PartId, without: Without) -> Blocked:
    """Why there is no way to `part`, and as little of `without` as makes it so."""
    is_smaller = True
    while is_smaller:
        is_smaller = False
        for smaller in without.each_left_out():
            search = _Search(guide, (part,), smaller)
            if not search.goals[0] & saturate(search.needs, search.allowed):
                without, is_smaller = smaller, True
                break
    search = _Search(guide, (part,), without)
    return Blocked(part, in_the_way(guide, search.goals[0], search.allowed), without)


@dataclass(frozen=True, slots=True, order=True)
class _Node:
    """Routes that hold `committed` and are part of `allowed`: none costs less than `bound`; number breaks ties by age.

    most: what they may cost; a route that holds another has to cost less than that one, so no step is done for nothing.
    """

    bound: int
    number: int
    committed: ItemSet = field(compare=False)
    allowed: ItemSet = field(compare=False)
    most: int | None = field(compare=False)


class _Search:
    """One search; holds the step clauses, the goals and the costs."""

    def __init__(self, guide: Guide, parts: tuple[PartId, ...], without: Without) -> None:
        self.guide = guide
        self.parts = parts
        self.without = without
        self.stepwise: Stepwise = guide.stepwise
        self.steps = self.stepwise.steps
        self.needs = self.stepwise.needs
        self.goals = [
            sum(1 << number for number, step in enumerate(self.steps) if part in step.lifted) for part in parts
        ]
        self.allowed: ItemSet = sum(
            1 << number
            for number, step in enumerate(self.steps)
            if step.actions and not _only_turns(step) and not without.bars(guide, step)
        )
        self.has_minutes = all(step.takes is not None for step in self.steps)
        self.costs = [self._cost(step) for step in self.steps]
        faces = guide.device.faces
        self.turn_bounds = None if self.has_minutes else TurnBounds(guide.anatomy, faces[0], self.steps, self.needs)
        self.prices = self.costs if self.turn_bounds is None else [
            cost - turns for cost, turns in zip(self.costs, self.turn_bounds.written, strict=True)
        ]
        """Costs for the bounds: a turn that an optional step makes itself may save the one that would be added."""
        self.gates = Gates(self.needs, in_order(self.needs, self.allowed))
        self.cost_bits, self.price_bits = _bits_of(self.costs), _bits_of(self.prices)
        self.nodes = 0

    def _cost(self, step: Step) -> int:
        if self.has_minutes and step.takes is not None:
            return max(step.takes, 1)
        return len(step.actions)

    def _limit(self, nodes: int) -> int:
        size = max(len(self.steps), FULL_LIMITS)
        return nodes * FULL_LIMITS**2 // size**2

    # --- best ---

    def best(self, tells_others: bool) -> Route:
        start = self._node(self.allowed, 0, None)
        assert start is not None  # the caller has seen that every goal can be reached
        necessary = start.committed
        is_settled = self._is_doable(start.committed)
        first = start.committed if is_settled else self._complete(start.committed, start.allowed)
        best = (self._rank(first), first)
        queue = [start]
        open_bound: int | None = None
        seen: set[tuple[ItemSet, ItemSet]] = set()
        while queue:
            node: _Node | None = heapq.heappop(queue)
            assert node is not None
            if node.bound > best[0][0]:
                break
            if self.nodes > self._limit(NODE_LIMIT):
                open_bound = node.bound
                break
            most = node.most
            if self._is_doable(node.committed):
                rank = self._rank(node.committed)
                if most is None or rank[0] <= most:
                    best = min(best, (rank, node.committed))
                most = min(rank[0] - 1, best[0][0] if most is None else most)
                node = self._node(node.allowed, node.committed, min(most, best[0][0]))
            if node is None or (node.committed, node.allowed) in seen:
                continue
            seen.add((node.committed, node.allowed))
            most = best[0][0] if most is None else min(most, best[0][0])
            choice = self._choice(node.committed, node.allowed, most + 1 - node.bound)
            if choice is not None:
                for child in (
                    self._node(node.allowed, node.committed | 1 << choice, most),
                    self._node(node.allowed & ~(1 << choice), node.committed, most),
                ):
                    if child is not None:
                        heapq.heappush(queue, child)
        if open_bound is not None and can_solve():
            items, proved = cheapest_by_solver(self.needs, self.costs, start.allowed, start.committed, self.goals)
            open_bound = max(open_bound, proved)
            if items is not None:
                thin = self._thinned(items, self.needs)
                best = min(best, (self._rank(thin), thin))
        cost = best[0][0]
        bound = cost if open_bound is None else min(open_bound, cost)
        others = tuple(self._alternatives(best[1], necessary)) if tells_others else ()
        return self._route(best[1], necessary, bound, others)

    def _node(self, allowed: ItemSet, committed: ItemSet, most: int | None) -> _Node | None:
        """What follows from `committed` and `allowed`, with its bound; None if it cannot be done, or not for `most`."""
        settled = self._settled(allowed, committed, most)
        if settled is None:
            return None
        paid, committed, reach = settled
        bound = paid + still_to_pay(self.needs, self.prices, reach, committed, self.goals)
        return None if most is not None and bound > most else _Node(bound, self.nodes, committed, reach, most)

    def _settled(self, allowed: ItemSet, committed: ItemSet, most: int | None) -> tuple[int, ItemSet, ItemSet] | None:
        """What is paid at least, and `committed` and `allowed` with what follows from them; None if it cannot be done.

        All that is then necessary is committed, and what would cost more than `most` with all it needs is not allowed.
        """
        self.nodes += 1
        while True:
            reach = saturate(self.needs, allowed)
            if committed & ~reach or any(not goal & reach for goal in self.goals):
                return None
            gates = self.gates.among(reach)
            committed |= self._necessary(reach, gates)
            for number in members(committed):
                committed |= gates[number]
            paid = _total(self.cost_bits, committed)
            if self.turn_bounds is not None:
                paid += self.turn_bounds.at_least(committed, reach)
            if most is None:
                return paid, committed, reach
            too_dear = 0
            for number in members(reach & ~committed):
                added = (gates[number] | 1 << number) & ~committed
                if paid + _total(self.price_bits, added) > most:
                    too_dear |= 1 << number
            if not too_dear:
                return paid, committed, reach
            allowed = reach & ~too_dear

    def _is_doable(self, items: ItemSet) -> bool:
        return saturate(self.needs, items) == items and all(goal & items for goal in self.goals)

    def _choice(self, committed: ItemSet, allowed: ItemSet, spare: int) -> int | None:
        """A step to decide on: one that could meet an unmet need; else one that may save turns for less than `spare`."""
        done = saturate(self.needs, committed)
        for wanted in self._unmet_choices(committed, done):
            options = wanted & allowed & ~committed
            if options:
                return min(members(options), key=lambda n: (self.costs[n], n))
        if self.turn_bounds is None:
            return None
        affordable = [n for n in members(self._swaying(committed) & allowed & ~committed) if self.prices[n] < spare]
        return min(affordable, key=lambda n: (self.costs[n], n), default=None)

    def _swaying(self, items: ItemSet) -> ItemSet:
        """Steps one of which has to be added to `items`, which are doable, if fewer turns are to be added.

        That is what a step could wait for instead that is now done after a later one, and what would carry work to the
        bench. Any other step never pays: those of `items` keep their order with it, and a turn that it makes itself saves
        at most the one that would be added.
        """
        assert self.turn_bounds is not None
        found, latest = 0, -1
        for number in self._order(items):
            if number < latest:
                for clause in self.needs[number]:
                    found |= clause
            latest = max(latest, number)
            found |= self.turn_bounds.carriers[number]
        return found

    def _unmet_choices(self, committed: ItemSet, done: ItemSet) -> Iterator[ItemSet]:
        for goal in self.goals:
            if not goal & committed:
                yield goal
        for number in members(committed & ~done):
            for clause in self.needs[number]:
                if not clause & done:
                    yield clause

    def _complete(self, committed: ItemSet, allowed: ItemSet) -> ItemSet:
        """Some doable set that holds `committed`: all that is relevant, then dropped one by one from the end."""
        wanted = [goal & allowed for goal in self.goals]
        items = saturate(self.needs, leading_to(self.needs, [committed, *wanted], allowed))
        for number in sorted(members(items), reverse=True):
            smaller = items & ~(1 << number)
            if not committed >> number & 1 and self._is_doable(smaller):
                items = smaller
        return items

    # --- alternatives ---

    def _alternatives(self, best: ItemSet, necessary: ItemSet) -> Iterator[Route]:
        """Other ways from which no step can be left out, at most one step longer than the best."""
        limit = best.bit_count() + 1
        found: dict[ItemSet, Rank] = {}
        for items in self._minimal_sets(limit):
            if items != best and items not in found:
                found[items] = self._rank(items)
        for items in sorted(found, key=found.__getitem__)[:ALTERNATIVE_LIMIT]:
            yield self._route(items, necessary, found[items][0], ())

    def _minimal_sets(self, limit: int) -> Iterator[ItemSet]:
        nodes = 0
        each_one = [1] * len(self.steps)
        stack: list[tuple[ItemSet, ItemSet]] = [(0, self.allowed)]
        while stack and nodes < self._limit(ALTERNATIVE_NODES):
            committed, allowed = stack.pop()
            nodes += 1
            settled = self._settled(allowed, committed, None)
            if settled is None:
                continue
            _, committed, allowed = settled
            count = committed.bit_count()
            if count > limit or count + still_to_pay(self.needs, each_one, allowed, committed, self.goals) > limit:
                continue
            done = saturate(self.needs, committed)
            wanted = next((w & allowed & ~committed for w in self._unmet_choices(committed, done)), 0)
            if self._is_doable(committed):
                if self._necessary(committed, self.gates.among(committed)) == committed:
                    yield committed
                continue
            branches = []
            for number in members(wanted):
                branches.append((committed | 1 << number, allowed))
                allowed &= ~(1 << number)  # ways with this step have been told apart from those without
            stack += reversed(branches)

    # --- giving the answer ---

    def _rank(self, items: ItemSet) -> Rank:
        order = self._order(items)
        steps = [self.steps[number] for number in order]
        cost = sum(self.costs[number] for number in order)
        if not self.has_minutes:
            cost += sum(1 for _ in missing_turns(self.guide.anatomy, self.guide.device.faces, steps))
        return (cost, tool_changes(self.guide, steps), order)

    def _order(self, items: ItemSet) -> tuple[int, ...]:
        order = first_first(self.needs, items, range(len(self.steps)))
        assert order is not None  # only doable sets are put in order
        return order

    def _route(self, items: ItemSet, necessary: ItemSet, bound: int, alternatives: tuple[Route, ...]) -> Route:
        cost = self._rank(items)[0]
        steps = with_turning_steps(self.guide, [self.steps[number] for number in self._order(items)], self.without)
        turns = tuple(_added(turn) for turn in missing_turns(self.guide.anatomy, self.guide.device.faces, steps))
        written = sum(action.verb is Verb.TURN for step in steps for action in step.actions)
        kept_for_safety = self._only_for_safety(items)
        number_of = self.stepwise.numbers()
        return Route(
            parts=self.parts,
            steps=tuple(steps),
            added_turns=turns,
            actions=sum(len(step.actions) for step in steps) + len(turns),
            seconds=_seconds(steps),
            tool_changes=tool_changes(self.guide, steps),
            turns=written + len(turns),
            safety=tuple(step for step in steps if kept_for_safety >> number_of[step.id] & 1),
            necessary=tuple(self.steps[number] for number in members(necessary)),
            cost=cost,
            bound=min(bound, cost),
            is_optimal=bound >= cost,
            alternatives=alternatives,
        )

    def _only_for_safety(self, items: ItemSet) -> ItemSet:
        """What of `items` the parts would not need if safety asked for nothing; what saves turns is not meant."""
        needed = self._thinned(items, self.needs)
        bare = self.stepwise.bare
        if all(bare[number] == self.needs[number] for number in members(needed)):
            return 0
        return needed & ~self._thinned(needed, bare)

    def _thinned(self, items: ItemSet, needs: Needs) -> ItemSet:
        """`items`, which can be done, without those that can be left out; of several such the last go first.

        Gone through again until nothing goes: an alternative stands behind the step that waits for it.
        """
        kept = items
        spare = sorted(members(items & ~self._necessary(items, gates_of(needs, items))), reverse=True)
        is_smaller = True
        while is_smaller:
            is_smaller = False
            for number in spare:
                smaller = kept & ~(1 << number)
                if smaller != kept and all(goal & smaller for goal in self.goals) and saturate(needs, smaller) == smaller:
                    kept, is_smaller = smaller, True
        return kept

    def _necessary(self, reach: ItemSet, gates: Sequence[ItemSet]) -> ItemSet:
        """What every way to the goals by steps of `reach` has in common."""
        found = 0
        for goal in self.goals:
            shared = reach
            for number in members(goal & reach):
                shared &= gates[number] | 1 << number
            found |= shared
        return found


def with_turning_steps(
    guide: Guide, steps: Sequence[Step], without: Without = EVERYTHING_MAY_BE_USED
) -> list[Step]:
    """The steps with the author's own turning-over step wherever the same turn would have to be added just before a step."""
    number_of = guide.stepwise.numbers()
    result = list(steps)
    spare = [s for s in guide.order if _only_turns(s) and len(s.actions) == 1 and not without.bars(guide, s)]
    while True:
        turn = next(missing_turns(guide.anatomy, guide.device.faces, result), None)
        if turn is None or not _begins_with(result, turn):
            return result
        before = number_of[turn.action.step]
        fitting = (s for s in reversed(spare) if s.actions[0].face == turn.face and number_of[s.id] < before)
        found = next(fitting, None)
        if found is None:
            return result
        spare.remove(found)
        result.insert(next(i for i, step in enumerate(result) if step.id == turn.action.step), found)


def tool_changes(guide: Guide, steps: Sequence[Step]) -> int:
    """How often one set of tools is put down for another; taking up the first is none, and bare hands change nothing."""
    changes, held = 0, None
    for step in steps:
        for action in step.actions:
            tools = frozenset(guide.tools_of(action))
            if tools:
                changes += held is not None and tools != held
                held = tools
    return changes


def _bits_of(numbers: Sequence[int]) -> tuple[ItemSet, ...]:
    """The numbers turned on their side: for each binary digit, lowest first, the set of places where it is 1."""
    digits = max((number.bit_length() for number in numbers), default=0)
    return tuple(sum(1 << at for at, number in enumerate(numbers) if number >> digit & 1) for digit in range(digits))


def _total(bits: Sequence[ItemSet], items: ItemSet) -> int:
    """The sum of the numbers at the places of `items`."""
    return sum((items & places).bit_count() << digit for digit, places in enumerate(bits))


def _only_turns(step: Step) -> bool:
    return all(action.verb in (Verb.TURN, Verb.WAIT) for action in step.actions)


def _begins_with(steps: Sequence[Step], turn: MissingTurn) -> bool:
    """Whether nothing else in the step comes before the missing turn that would be done on the other side."""
    step = next(s for s in steps if s.id == turn.action.step)
    return not any(a.verb in (Verb.UNDO, Verb.TURN) for a in step.actions[: turn.action.number])


def _added(turn: MissingTurn) -> Turn:
    return Turn(turn.action.step, turn.action.number, turn.face)


def _seconds(steps: Sequence[Step]) -> int | None:
    return sum(step.takes or 0 for step in steps) if all(step.takes is not None for step in steps) else None
