"""Clauses: what has to have happened before an action can be done, each with its reason.

Every action waits for the AND of its clauses; a clause is the OR of its members, any earlier one of which will do.
The semantics are those of the format: what has been enabled stays enabled (planning without deletes).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from generator.anatomy.device import Anatomy
from generator.orders.bench import bench_clauses
from generator.orders.power import power_clauses
from generator.orders.reasons import Clause
from generator.orders.work import Action, Step


def work_of(steps: Iterable[Step]) -> tuple[Action, ...]:
    """The work: the flat list of the actions of all steps, in the order given."""
    return tuple(action for step in steps for action in step.actions)


def clauses_of(anatomy: Anatomy, steps: Sequence[Step], power: str = "none") -> tuple[Clause, ...]:
    """Every clause of every action of `steps`, members numbered as in `work_of(steps)`.

    power: cell, mains, both or none, as in device.yaml. A clause without members can never be met.
    """
    work = work_of(steps)
    bench = tuple(bench_clauses(anatomy, work))
    return bench + tuple(power_clauses(anatomy, work, bench, power))
