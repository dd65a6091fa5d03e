"""Waits made up at random, as the order map is given them."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace

from generator.anatomy.parts import JointId, PartId
from generator.orders.chaining import item_set
from generator.orders.reasons import Clause, StillJoined
from generator.orders.stepwise import StepClause, Stepwise
from generator.orders.waits import Waits, waits_of
from generator.orders.work import Step
from tests.devices import step

REASON = StillJoined(PartId("part"), JointId("joint"))
WORDS = ("Lift", "out", "the", "speaker", "Unplug", "battery", "Free", "coax lead", "and", "joining cable", "Warm", "glass")


def steps_waiting(steps: Sequence[Step], waits: Sequence[tuple[int, set[int]]]) -> Stepwise:
    clauses = tuple(StepClause(s, item_set(m), Clause(s, REASON, frozenset(m))) for s, m in waits)
    needs = tuple(tuple(c.items for c in clauses if c.step == s) for s in range(len(steps)))
    return Stepwise(tuple(steps), clauses, needs, needs)


def named(titles: Sequence[str]) -> tuple[Step, ...]:
    return tuple(replace(step(f"step-{n}", ()), title=title) for n, title in enumerate(titles))


def some_waits(seed: int, count: int) -> Waits:
    """`count` steps, each waiting for some before it, one in six for either of two or three."""
    chance = random.Random(seed)
    reach = chance.choice((4, 8, 20))
    waits: list[tuple[int, set[int]]] = []
    for number in range(1, count):
        near = range(max(0, number - reach), number)
        for _ in range(chance.choice((0, 1, 1, 2, 3))):
            waits.append((number, {chance.choice(near)}))
        if len(near) > 2 and chance.random() < 1 / 6:
            waits.append((number, set(chance.sample(near, chance.choice((2, 3))))))
    titles = [" ".join(chance.choices(WORDS, k=chance.randint(1, 7))) for _ in range(count)]
    return waits_of(steps_waiting(named(titles), waits))
