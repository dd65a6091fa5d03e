"""Steps that do nothing but wait for each other, made up from bare needs: for searches that look at nothing else."""

from __future__ import annotations

import random
from collections.abc import Collection, Iterator, Sequence
from itertools import combinations, pairwise

from generator.orders.chaining import Needs, saturate
from generator.orders.reasons import Clause, MainsFirst
from generator.orders.stepwise import StepClause, Stepwise
from generator.orders.work import Step, StepId
from tests.devices import PLACE, PLACES


def stepwise_of(needs: Needs, filmed: Collection[int] = ()) -> Stepwise:
    """Steps `s0`, `s1` and so on with these needs; the author's order is that of their numbers."""
    steps = tuple(
        Step(StepId(f"s{number}"), f"s{number}", (), PLACE, PLACES, is_filmed=number in filmed)
        for number in range(len(needs))
    )
    source = Clause(0, MainsFirst(), frozenset())
    clauses = tuple(StepClause(number, clause, source) for number, each in enumerate(needs) for clause in each)
    plain = tuple(tuple(each) for each in needs)
    return Stepwise(steps, clauses, plain, plain)


def numbers_of(steps: Sequence[Step]) -> list[int]:
    return [int(step.id[1:]) for step in steps]


def made_up(chance: random.Random, size: int, share_of_choices: float) -> list[list[int]]:
    """Needs of `size` steps that stand in any order; some choices point anywhere, so that rings of choices arise."""
    hidden = chance.sample(range(size), size)
    needs: list[list[int]] = [[] for _ in range(size)]
    for place in range(1, size):
        for _ in range(chance.choice((1, 1, 2))):
            wanted = {chance.randrange(place)}
            while chance.random() < share_of_choices / len(wanted):
                wanted.add(chance.randrange(size if chance.random() < 0.3 else place))
            needs[hidden[place]].append(sum(1 << hidden[each] for each in wanted - {place}))
    return needs


def is_possible(needs: Needs, order: Sequence[int]) -> bool:
    done = 0
    for number in order:
        if not all(clause & done for clause in needs[number]):
            return False
        done |= 1 << number
    return True


def can_stay(needs: Needs, kept: Sequence[int]) -> bool:
    """Whether all can be done with the steps of `kept` one after the other, in the order given."""
    chained = [list(each) for each in needs]
    for one, other in pairwise(kept):
        chained[other].append(1 << one)
    everything = (1 << len(needs)) - 1
    return saturate(chained, everything) == everything


def fewest_moves(needs: Needs, filmed: Collection[int] = ()) -> int | None:
    """By trying every set of steps that might stay, the largest first; None if there is no order."""
    return next((len(needs) - len(kept) for kept in larger_first(len(needs)) if {*filmed} <= {*kept}
                 and can_stay(needs, kept)), None)  # fmt: skip


def larger_first(size: int) -> Iterator[tuple[int, ...]]:
    for count in range(size, -1, -1):
        yield from combinations(range(size), count)
