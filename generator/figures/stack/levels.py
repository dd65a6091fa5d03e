"""Levels: how many times the stack is pulled apart between a part and the outside."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.anatomy.parts import PartId
from generator.figures.stack.leaving import Leaving
from generator.figures.stack.solids import Solid
from generator.orders.guide import Guide


def levels_of(guide: Guide, leaving: Leaving, solids: Sequence[Solid]) -> Mapping[PartId, int]:
    """The level of every part that leaves, from 0 (outermost) on, counted for each of the two sides on its own.

    A step that takes something out lies one level below the deepest step it waits for; of steps that would each do, the
    shallowest counts. Steps that take nothing out hand their level on. What leaves together lies together. A part that lies
    under another and leaves later comes below it, even where no clause says so: else it would stay hidden.
    """
    found: dict[PartId, int] = {}
    for is_below in (False, True):
        side = [one for one in solids if one.part in leaving.goes and (one.part in leaving.below) == is_below]
        found |= _levels(guide, leaving, side)
    return found


def _levels(guide: Guide, leaving: Leaving, solids: Sequence[Solid]) -> Mapping[PartId, int]:
    members: dict[int, list[Solid]] = {}
    for one in solids:
        members.setdefault(leaving.goes[one.part], []).append(one)
    waits = _waits(guide, leaving)
    depth: list[int] = []  # of every step: the level of what it takes out, or of what would come next
    level: dict[int, int] = {}
    for step in range(len(leaving.steps)):
        here = 0
        for clause in waits[step]:
            here = max(here, min(depth[member] + (member in members) for member in clause))
        for one in members.get(step, ()):
            for earlier, others in members.items():
                if earlier < step and any(other.z < one.z and other.overlaps(one) for other in others):
                    here = max(here, level[earlier] + 1)
        depth.append(here)
        if step in members:
            level[step] = here
    compact = {old: new for new, old in enumerate(sorted(set(level.values())))}
    return {one.part: compact[level[step]] for step, group in members.items() for one in group}


def _waits(guide: Guide, leaving: Leaving) -> list[list[list[int]]]:
    """For every step of the run its clauses, each as the earlier steps of the run that meet it."""
    stepwise = guide.stepwise
    place = {step.id: index for index, step in enumerate(leaving.steps)}
    waits: list[list[list[int]]] = [[] for _ in leaving.steps]
    numbers = [place.get(step.id) for step in stepwise.steps]
    seen: set[tuple[int, int]] = set()
    for clause in stepwise.clauses:
        here = numbers[clause.step]
        if here is None or (here, clause.items) in seen:
            continue
        seen.add((here, clause.items))
        members = [at for bit, at in enumerate(numbers) if at is not None and clause.items >> bit & 1 and at < here]
        if members:
            waits[here].append(members)
    return waits
