"""Disassembly steps, counted as the acts count them: a step ends with a part removed or the tool changed.

What is counted is the same in Delegated Regulations (EU) 2023/1669 and 2023/2534 as far as both are known; what points a
count is worth, and what a code that ties a part to its device does to it, is not, and stands with each act.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from generator.indices.operations import CLEAN, HEAT, LOOK, Operation
from generator.languages import later
from generator.orders.chaining import members

STATE_LIMIT = 1_000
"""States tried for the fewest steps over all orders, before no such figure is given."""

HAND = frozenset({"bare hand"})

Held = tuple[str, ...] | None
"""The tools of the step that is open, sorted; empty for bare hands, None where no step is open."""


class Ending(StrEnum):
    REMOVED = later("a part is taken out")
    SET_ASIDE = later("a part is set aside, still attached")
    TOOL = later("the tool is changed")
    HEATED = later("heating")
    CLEANED = later("cleaning or dissolving")
    BEFORE_HEAT = later("heating or cleaning begins")
    LAST = later("the work ends")


@dataclass(frozen=True, slots=True)
class Counting:
    """How steps are counted where the acts can be read in two ways; the defaults are the recommended readings.

    set_aside_ends: a part moved aside on its cable ends a step; is_hand_a_tool: bare hands count as a tool;
    is_each_tool_counted: several tools used at once count one step each.
    """

    set_aside_ends: bool = True
    is_hand_a_tool: bool = False
    is_each_tool_counted: bool = True


RECOMMENDED = Counting()


@dataclass(frozen=True, slots=True)
class CountedStep:
    """`count` steps (more than one where several tools are used at once), what ended them and what they were made of."""

    count: int
    ending: Ending
    tools: frozenset[str]
    operations: tuple[Operation, ...]


def counted_steps(operations: Sequence[Operation], counting: Counting = RECOMMENDED) -> tuple[CountedStep, ...]:
    """The steps of a run of operations, in order, each with its reason; their sum is the disassembly depth.

    Source: Delegated Regulation (EU) 2023/2534, Annex I (36) and Annex IV 5.1, read; (EU) 2023/1669 is held to the same.
    """
    done: list[CountedStep] = []
    held: frozenset[str] = frozenset()
    open_step: list[Operation] = []

    def close(ending: Ending) -> None:
        nonlocal held
        if open_step:
            done.append(CountedStep(_worth(held, counting), ending, held, tuple(open_step)))
        open_step.clear()
        held = frozenset()

    for operation in operations:
        tools = operation.tools or (HAND if counting.is_hand_a_tool else frozenset())
        if operation.kind == LOOK:
            continue
        if operation.kind in (HEAT, CLEAN):
            close(Ending.BEFORE_HEAT)
            ending = Ending.HEATED if operation.kind == HEAT else Ending.CLEANED
            done.append(CountedStep(_worth(tools, counting), ending, tools, (operation,)))
            continue
        if tools and held and tools != held:
            close(Ending.TOOL)
        open_step.append(operation)
        held = tools or held
        if operation.removes:
            close(Ending.REMOVED)
        elif operation.sets_aside and counting.set_aside_ends:
            close(Ending.SET_ASIDE)
    close(Ending.LAST)
    return tuple(done)


def depth_of(steps: Sequence[CountedStep]) -> int:
    return sum(step.count for step in steps)


def fewest_steps(
    operations: Sequence[Operation], needs: Sequence[Sequence[int]], counting: Counting = RECOMMENDED
) -> int | None:
    """The least depth over all orders in which the same operations can be done; None if that takes too long to prove.

    needs[n]: choices as bit sets, of each of which one operation has to be done before n. A shortest path over what is done
    and which tool is open; what costs nothing and changes nothing is done at once, which no order can better.
    """
    everything = (1 << len(operations)) - 1
    orders = _Orders(operations, needs, counting)
    least = [_least(operation, counting) for operation in operations]
    queue: list[tuple[int, int, int, int, Held]] = [(sum(least), 0, 0, 0, None)]
    settled: set[tuple[int, Held]] = set()
    pushed = 0
    while queue and len(settled) < STATE_LIMIT:
        bound, _, cost, done, held = heapq.heappop(queue)
        done, possible = orders.taken_in(done, held)
        if (done, held) in settled:
            continue
        settled.add((done, held))
        if done == everything:
            if held is None:
                return cost
            heapq.heappush(queue, (cost + _worth(held, counting), 0, cost + _worth(held, counting), done, None))
            continue
        after = orders.after(held)
        for number in members(possible):
            more, then = after[number]
            pushed += 1
            child = (bound + more - least[number], pushed, cost + more, done | 1 << number, then)
            heapq.heappush(queue, child)
    return None


class _Orders:
    """What can be done next and what it does to the depth, looked up rather than worked out anew in every state."""

    def __init__(self, operations: Sequence[Operation], needs: Sequence[Sequence[int]], counting: Counting) -> None:
        self.operations = operations
        self.counting = counting
        self.everything = (1 << len(operations)) - 1
        self.certain = [sum({choice for choice in choices if choice.bit_count() == 1}) for choices in needs]
        self.choices = [tuple(choice for choice in choices if choice.bit_count() != 1) for choices in needs]
        self.known: dict[Held, tuple[list[tuple[int, Held]], int]] = {}

    def after(self, held: Held) -> list[tuple[int, Held]]:
        """For each operation what it adds to the depth with `held` in hand, and the tools of the step then open."""
        return self._with(held)[0]

    def taken_in(self, done: int, held: Held) -> tuple[int, int]:
        """`done` with all that can be done at no cost and without changing what is held; and what can be done then."""
        free = self._with(held)[1]
        while True:
            possible = self._doable(done)
            if not possible & free:
                return done, possible
            done |= possible & free

    def _with(self, held: Held) -> tuple[list[tuple[int, Held]], int]:
        if held not in self.known:
            after = [_after(operation, held, self.counting) for operation in self.operations]
            self.known[held] = after, sum(1 << number for number, each in enumerate(after) if each == (0, held))
        return self.known[held]

    def _doable(self, done: int) -> int:
        left = self.everything & ~done
        found = 0
        for number in members(left):
            if not self.certain[number] & left and all(choice & done for choice in self.choices[number]):
                found |= 1 << number
        return found


def _least(operation: Operation, counting: Counting) -> int:
    """What an operation adds to the depth in any order, at the least; a look adds nothing, whatever it is said to remove."""
    if operation.kind == LOOK:
        return 0
    ends = operation.removes or (operation.sets_aside and counting.set_aside_ends)
    return _worth(operation.tools, counting) if ends or operation.kind in (HEAT, CLEAN) else 0


def _worth(tools: Sequence[str] | frozenset[str], counting: Counting) -> int:
    return max(1, len(tools)) if counting.is_each_tool_counted else 1


def _after(operation: Operation, held: Held, counting: Counting) -> tuple[int, Held]:
    """What an operation adds to the depth, and the tools of the step then open; None where no step is open."""
    tools = tuple(sorted(operation.tools or (HAND if counting.is_hand_a_tool else ())))
    if operation.kind == LOOK:
        return 0, held
    if operation.kind in (HEAT, CLEAN):
        return (0 if held is None else _worth(held, counting)) + _worth(tools, counting), None
    cost = 0
    if tools and held and tools != held:
        cost, held = _worth(held, counting), None
    then = tools or held or ()
    if operation.removes or (operation.sets_aside and counting.set_aside_ends):
        return cost + _worth(then, counting), None
    return cost, then
