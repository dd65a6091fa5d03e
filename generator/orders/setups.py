"""The order of given steps with the fewest changes of tool, and among those the fewest turns.

What is in the hand and which side lies up is the setup. A step that can be done now, needs no other setup and leaves it as
it is, may as well be done now: brought to the front of the best order it costs nothing there and saves no less later
(doing more never makes anything impossible, never asks for a side that was not asked for, and leaving a stop out of a
sequence of tools or sides adds no change). So the search goes from one setup to the next, with everything done in between
that the setup allows. A step that takes up several tools in sequence, or turns the device itself, is a move of its own.

A* with, for each tool, the number of times it has to be taken up if all others were free to hand; each is a lower bound,
and so is their sum. The same for the sides. Exact, unless a node limit is hit, which is then said.
Source: reference notes on ordering, section 5, with steps of several tools added.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.orders.chaining import ItemSet, Needs, first_first, is_available, item_set, members, saturate
from generator.orders.faces import missing_turns
from generator.orders.guide import Guide
from generator.orders.routes import Turn, tool_changes, with_turning_steps
from generator.orders.work import Step, Verb

NODE_LIMIT = 8_000
"""Setups tried before an order is given with a bound instead of a proof; far above what devices need."""

NOTHING = -1
"""In the hand before the first tool is taken up."""

Label = int
"""A tool (a set of tools held together) or a side, by number."""


@dataclass(frozen=True, slots=True)
class Setups:
    """An order of the steps asked about; added_turns stand between what the steps say, as in a route.

    changes: how often one set of tools is put down for another; turns: how often the device is turned over, written or
    added. bound: no order has fewer changes than bound[0], nor, with that many, fewer turns than bound[1].
    """

    order: tuple[Step, ...]
    added_turns: tuple[Turn, ...]
    changes: int
    turns: int
    bound: tuple[int, int]

    @property
    def is_optimal(self) -> bool:
        return self.bound == (self.changes, self.turns)


def fewest_changes(guide: Guide, steps: Sequence[Step], node_limit: int = NODE_LIMIT) -> Setups | None:
    """The steps in the order with the fewest tool changes, then the fewest turns; None if they have no possible order.

    steps are some of `guide.steps`, none twice. Steps that only turn the device over are left out and put in again where
    they are of use. Where the order given has no more changes and turns than the best, it is given back.
    """
    kept = [step for step in steps if not all(action.verb is Verb.TURN for action in step.actions)]
    number_of = guide.stepwise.numbers()
    place = {number_of[step.id]: index for index, step in enumerate(kept)}
    inside = item_set(set(place))
    needs = [
        tuple(item_set([place[m] for m in members(clause & inside)]) for clause in guide.stepwise.needs[number_of[step.id]])
        for step in kept
    ]
    first = first_first(needs, (1 << len(kept)) - 1, range(len(kept)))
    if first is None:
        return None
    bench = _Bench(guide, kept, needs)
    order, bound = _search(bench, first, node_limit)
    done = tuple(with_turning_steps(guide, [kept[index] for index in order]))
    turns = [Turn(t.action.step, t.action.number, t.face) for t in missing_turns(guide.anatomy, guide.device.faces, done)]
    written = sum(action.verb is Verb.TURN for step in kept for action in step.actions)
    all_turns = len(turns) + sum(action.verb is Verb.TURN for step in done for action in step.actions)
    return Setups(done, tuple(turns), tool_changes(guide, done), all_turns, (bound[0], bound[1] + written))


# --- the work as tools and sides ------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Side:
    """The device has to lie with `face` up, unless a step of `carriers` has put on the bench what is worked on.

    is_turn: the step turns it so itself.
    """

    face: Label
    carriers: ItemSet
    is_turn: bool = False


@dataclass(frozen=True, slots=True)
class _State:
    """Everything `done` that the setup allows."""

    done: ItemSet
    held: Label
    lying: Label


class _Bench:
    """Steps as what they take up, one tool after the other, and the sides they are done on."""

    def __init__(self, guide: Guide, steps: Sequence[Step], needs: Needs) -> None:
        self.needs = needs
        self.everything: ItemSet = (1 << len(steps)) - 1
        labels: dict[frozenset[str], Label] = {}
        self.tools = [
            _blocks(
                labels.setdefault(frozenset(held), len(labels))
                for action in step.actions
                if (held := guide.tools_of(action))
            )
            for step in steps
        ]
        faces = {face: number for number, face in enumerate(guide.device.faces)}
        self.sides = [tuple(_sides(guide, steps, step, faces)) for step in steps]
        self.start = _State(0, NOTHING, 0)
        self.changes_weight = 1 + sum(not side.is_turn for sides in self.sides for side in sides)
        """More than all turns there can be: one change of tool outweighs them."""
        firm = [_blocks(side.face for side in self._firm(number)) for number in range(len(steps))]
        self.by_tool = [_Visits.of(label, self.tools) for label in range(len(labels))]
        self.by_side = [_Visits.of(face, firm) for face in range(len(faces))]
        self.written = [sum(side.is_turn for side in sides) for sides in self.sides]

    def _firm(self, number: int) -> Iterator[_Side]:
        """The sides that a step has to be done on in every order."""
        before = saturate(self.needs, self.everything & ~(1 << number))
        return (side for side in self.sides[number] if not side.is_turn and not side.carriers & before)

    def after(self, state: _State, number: int) -> tuple[int, _State]:
        """What doing a step costs, and the setup after it, nothing else done yet."""
        held, lying, changes, turns = state.held, state.lying, 0, 0
        for tool in self.tools[number]:
            changes += held not in (NOTHING, tool)
            held = tool
        for side in self.sides[number]:
            if side.is_turn or not side.carriers & state.done:
                turns += not side.is_turn and side.face != lying
                lying = side.face
        return changes * self.changes_weight + turns, _State(state.done | 1 << number, held, lying)

    def is_free(self, state: _State, number: int) -> bool:
        """Whether a step needs no other setup and leaves it as it is."""
        return all(tool == state.held for tool in self.tools[number]) and all(
            not side.is_turn and (side.face == state.lying or bool(side.carriers & state.done))
            for side in self.sides[number]
        )

    def settled(self, state: _State) -> tuple[_State, tuple[int, ...]]:
        """All done that the setup allows, and in which order."""
        done, order = state.done, []
        left = list(members(self.everything & ~done))
        while True:
            waiting = []
            for number in left:
                if is_available(self.needs, number, done) and self.is_free(_State(done, state.held, state.lying), number):
                    done |= 1 << number
                    order.append(number)
                else:
                    waiting.append(number)
            if len(waiting) == len(left):
                return _State(done, state.held, state.lying), tuple(order)
            left = waiting

    def moves(self, state: _State) -> Iterator[int]:
        """Steps that could be done next, one for each new setup."""
        seen: set[tuple[tuple[Label, ...], tuple[_Side, ...], Label]] = set()
        for number in members(self.everything & ~state.done):
            if is_available(self.needs, number, state.done):
                asked = tuple(s for s in self.sides[number] if s.is_turn or not s.carriers & state.done)
                is_plain = len(self.tools[number]) < 2 and not any(side.is_turn for side in asked)
                faces = {side.face for side in asked}
                if is_plain and len(faces) < 2:
                    key = (self.tools[number], (), min(faces, default=NOTHING))
                    if key in seen:
                        continue
                    seen.add(key)
                yield number

    def at_least(self, state: _State) -> int:
        """What is still to come costs no less."""
        visits = sum(tool.still(self.needs, self.everything, state.done, state.held) for tool in self.by_tool)
        changes = visits - 1 if visits and state.held == NOTHING else visits
        sides = sum(side.still(self.needs, self.everything, state.done, state.lying) for side in self.by_side)
        written = sum(self.written[number] for number in members(self.everything & ~state.done))
        return changes * self.changes_weight + max(0, sides - written)

    def split(self, cost: int) -> tuple[int, int]:
        return divmod(cost, self.changes_weight)

    def cost_of(self, order: Sequence[int]) -> int:
        state, total = self.start, 0
        for number in order:
            cost, state = self.after(state, number)
            total += cost
        return total


@dataclass(frozen=True, slots=True)
class _Visits:
    """How often one tool has to be taken up (or one side turned up) if all others were free to hand.

    users: steps that use it; bystanders: steps that use none. again: for each user the times it takes the tool up anew
    within itself.
    """

    label: Label
    users: ItemSet
    bystanders: ItemSet
    again: tuple[tuple[int, int], ...]

    @classmethod
    def of(cls, label: Label, uses: Sequence[tuple[Label, ...]]) -> _Visits:
        users = item_set([number for number, labels in enumerate(uses) if label in labels])
        bystanders = item_set([number for number, labels in enumerate(uses) if not labels])
        times = [(1 << number, labels.count(label)) for number, labels in enumerate(uses)]
        return cls(label, users, bystanders, tuple((step, count - 1) for step, count in times if count > 1))

    def still(self, needs: Needs, everything: ItemSet, done: ItemSet, current: Label) -> int:
        """The visits to come after `done`, with `current` in the hand (or up): no order needs fewer."""
        if not self.users & ~done:
            return 0
        count = sum(times for step, times in self.again if not step & done)
        with_it, without_it = self.users | self.bystanders, everything & ~self.users
        if current == self.label:
            done = saturate(needs, with_it, done)
        while self.users & ~done:
            done = saturate(needs, without_it, done)
            if self.users & ~done:
                done = saturate(needs, with_it, done)
                count += 1
        return count


def _blocks(labels: Iterator[Label]) -> tuple[Label, ...]:
    """The labels without repeats next to each other."""
    found: list[Label] = []
    for label in labels:
        if not found or found[-1] != label:
            found.append(label)
    return tuple(found)


def _sides(guide: Guide, steps: Sequence[Step], step: Step, faces: dict[str, int]) -> Iterator[_Side]:
    anatomy = guide.anatomy
    gone: list[PartId] = []
    for action in step.actions:
        if action.verb is Verb.TURN and action.face is not None:
            yield _Side(faces.setdefault(action.face, len(faces)), 0, True)
        elif action.verb is Verb.LIFT and action.part is not None and action.part != anatomy.base:
            gone.append(action.part)
        elif action.verb is Verb.UNDO and action.joint is not None:
            joint = anatomy.joints[action.joint]
            if not any(joint.ends <= anatomy.assembly(part) for part in gone):
                carriers = item_set([
                    number
                    for number, other in enumerate(steps)
                    if other is not step
                    and any(part != anatomy.base and joint.ends <= anatomy.assembly(part) for part in other.lifted)
                ])
                yield _Side(faces.setdefault(joint.face, len(faces)), carriers)


# --- the search -------------------------------------------------------------------------------------------------------


def _search(bench: _Bench, first: tuple[int, ...], node_limit: int) -> tuple[tuple[int, ...], tuple[int, int]]:
    """The best order and a bound on (changes, turns); `first`, a possible order, wins if none is better."""
    best, best_cost = first, bench.cost_of(first)
    start, begun = bench.settled(bench.start)
    rolled = begun + _rolled_out(bench, start)
    if bench.cost_of(rolled) < best_cost:
        best, best_cost = rolled, bench.cost_of(rolled)
    costs = {start: 0}
    came_from: dict[_State, tuple[_State, tuple[int, ...]]] = {}
    queue = [(bench.at_least(start), 0, 0, start)]
    count = 0
    while queue:
        bound, less_cost, _, state = heapq.heappop(queue)
        cost = costs[state]
        if bound >= best_cost:
            break
        if -less_cost > cost:
            continue  # a dearer way to the same state, queued before the cheaper one was found
        if count >= node_limit:
            rolled = _way_to(state, came_from, begun)
            rolled += _rolled_out(bench, state)
            return min(best, rolled, key=bench.cost_of), bench.split(bound)
        if state.done == bench.everything:
            return _way_to(state, came_from, begun), bench.split(cost)
        for number in bench.moves(state):
            step_cost, moved = bench.after(state, number)
            following, absorbed = bench.settled(moved)
            total = cost + step_cost
            if total < costs.get(following, best_cost):
                costs[following] = total
                came_from[following] = (state, (number, *absorbed))
                count += 1
                estimate = total + bench.at_least(following)
                if estimate < best_cost:
                    heapq.heappush(queue, (estimate, -total, count, following))
    return best, bench.split(best_cost)


def _way_to(
    state: _State, came_from: dict[_State, tuple[_State, tuple[int, ...]]], begun: tuple[int, ...]
) -> tuple[int, ...]:
    order: tuple[int, ...] = ()
    while state in came_from:
        state, stretch = came_from[state]
        order = stretch + order
    return begun + order


def _rolled_out(bench: _Bench, state: _State) -> tuple[int, ...]:
    """A whole order from `state` on: always the change that promises to cost least in the end, then lets most be done."""
    order: tuple[int, ...] = ()
    while state.done != bench.everything:
        options = []
        for number in bench.moves(state):
            cost, moved = bench.after(state, number)
            following, absorbed = bench.settled(moved)
            promised = cost + bench.at_least(following)
            options.append((promised, -following.done.bit_count(), number, following, absorbed))
        _, _, number, state, absorbed = min(options, key=lambda option: option[:3])
        order += (number, *absorbed)
    return order
