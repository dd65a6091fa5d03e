"""Clauses between whole steps: a step is atomic for the reader, and what happens inside it needs nothing from outside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from generator.orders.chaining import ItemSet
from generator.orders.clauses import work_of
from generator.orders.reasons import POWER_REASONS, Clause
from generator.orders.work import Step


@dataclass(frozen=True, slots=True)
class StepClause:
    """Step number `step` waits for any step of `items` (a bit set); `source` is the action's clause behind it."""

    step: int
    items: ItemSet
    source: Clause


@dataclass(frozen=True)
class Stepwise:
    """Steps by number with their clauses; `needs` is what chaining wants, `bare` the same without the power clauses."""

    steps: tuple[Step, ...]
    clauses: tuple[StepClause, ...]
    needs: tuple[tuple[ItemSet, ...], ...] = field(repr=False)
    bare: tuple[tuple[ItemSet, ...], ...] = field(repr=False)

    def numbers(self) -> dict[str, int]:
        return {step.id: number for number, step in enumerate(self.steps)}


def stepwise(steps: Sequence[Step], clauses: Sequence[Clause]) -> Stepwise:
    """Lift clauses between actions to clauses between steps; `clauses` number the actions of `work_of(steps)`.

    A clause met earlier within its own step is dropped; one met only later within its own step stays without members.
    """
    owner = [number for number, step in enumerate(steps) for _ in step.actions]
    assert len(owner) == len(work_of(steps))
    lifted: list[StepClause] = []
    for clause in clauses:
        step = owner[clause.action]
        if any(member < clause.action and owner[member] == step for member in clause.members):
            continue
        items = 0
        for member in clause.members:
            if owner[member] != step:
                items |= 1 << owner[member]
        lifted.append(StepClause(step, items, clause))
    return Stepwise(tuple(steps), tuple(lifted), _needs(len(steps), lifted), _needs(len(steps), _without_power(lifted)))


def _without_power(clauses: Sequence[StepClause]) -> list[StepClause]:
    return [clause for clause in clauses if not isinstance(clause.source.reason, POWER_REASONS)]


def _needs(count: int, clauses: Sequence[StepClause]) -> tuple[tuple[ItemSet, ...], ...]:
    needs: list[dict[ItemSet, None]] = [{} for _ in range(count)]
    for clause in clauses:
        needs[clause.step][clause.items] = None
    return tuple(tuple(entry) for entry in needs)
