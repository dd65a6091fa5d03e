"""What has to be done to take one part out of the complete device, as single operations in the guide's own order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.anatomy.parts import JointId, PartId
from generator.orders.clauses import work_of
from generator.orders.guide import Guide
from generator.orders.routes import Route, best_route
from generator.orders.work import Action, Step, StepId, Verb

WORK, HEAT, CLEAN, LOOK = "work", "heat", "clean", "look"

UNNAMED = "unnamed:"
"""Begins the name of a tool that a joint cannot do without and that the guide does not name; its drive or joint follows."""


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation: tools used at once (none: bare hands), what it removes, sets aside, undoes or softens.

    kind: `work`, `heat`, `clean` (a solvent), or `look` for a check or wait with bare hands, which the acts do not count.
    A supply that is applied counts as a tool: the closed list of basic tools knows no other place for it.
    """

    kind: str = WORK
    tools: frozenset[str] = frozenset()
    removes: tuple[PartId, ...] = ()
    sets_aside: tuple[PartId, ...] = ()
    undoes: JointId | None = None
    softens: JointId | None = None
    step: StepId | None = None


@dataclass(frozen=True)
class Path:
    """The operations that take out `taken`, which is the part asked for or the assembly it cannot be told from.

    needs[n]: the choices operation n waits for; of each, a bit set of operations, one has to be done before.
    whole: all that the route's steps do up to the removal, needed or not.
    """

    part: PartId
    taken: PartId
    route: Route
    operations: tuple[Operation, ...]
    needs: tuple[tuple[int, ...], ...]
    whole: tuple[Operation, ...]


@dataclass(frozen=True, slots=True)
class NoPath:
    """The guide does not take the part out. is_fixed: nothing joins it separably to what holds it (soldered, moulded in)."""

    part: PartId
    is_fixed: bool


def path_to(guide: Guide, part: PartId) -> Path | NoPath:
    """What must precede the part's removal, and the removal, on its cheapest route; all else of the route's steps dropped.

    A part without a joint of its own that no step takes out comes with the smallest assembly that some step does take out.
    An answer is kept with the guide: several acts ask for the same parts.
    """
    if ("path", part) not in guide.answers:
        guide.answers["path", part] = _worked_out(guide, part)
    answer: Path | NoPath = guide.answers["path", part]
    return answer


def _worked_out(guide: Guide, part: PartId) -> Path | NoPath:
    taken = part if _is_lifted(guide, part) else _smallest_lifted_assembly(guide, part)
    if taken is None:
        return NoPath(part, is_fixed=_is_fixed(guide, part))
    route = best_route(guide, (taken,), tells_others=False)
    if not isinstance(route, Route):
        return NoPath(part, is_fixed=False)
    actions, needs = _necessary(guide, route.steps, taken)
    whole = _up_to_removal(route.steps, taken)
    return Path(
        part, taken, route, tuple(_operation(guide, action) for action in actions), needs,
        tuple(_operation(guide, action) for action in whole),
    )  # fmt: skip


def _is_lifted(guide: Guide, part: PartId) -> bool:
    return any(part in step.lifted for step in guide.steps)


def _is_fixed(guide: Guide, part: PartId) -> bool:
    return guide.part(part).inside is not None and not guide.anatomy.crossing(part)


def _smallest_lifted_assembly(guide: Guide, part: PartId) -> PartId | None:
    if not _is_fixed(guide, part):
        return None
    above = guide.part(part).inside
    while above is not None and above != guide.anatomy.base:
        if _is_lifted(guide, above):
            return above
        if guide.anatomy.crossing(above):
            return None
        above = guide.part(above).inside
    return None


def _necessary(guide: Guide, steps: Sequence[Step], part: PartId) -> tuple[list[Action], tuple[tuple[int, ...], ...]]:
    """The actions of `steps` that the first removal of `part` cannot do without, with their needs among themselves.

    Going back from the removal, an action stays if it is the last hope of something kept behind it. What has been enabled
    stays enabled, so one pass leaves nothing that could still be dropped.
    """
    actions = _up_to_removal(steps, part)
    goal = len(actions) - 1
    waits = _waits_within(guide, actions)
    kept: list[int] = []
    hopes: dict[int, list[frozenset[int]]] = {}
    for index in range(goal, -1, -1):
        if index == goal or any(choice.isdisjoint(kept) for choice in hopes.get(index, ())):
            kept.insert(0, index)
            for choice in waits[index]:
                hopes.setdefault(min(choice), []).append(choice)
    place = {index: position for position, index in enumerate(kept)}
    needs = tuple(tuple(sum(1 << place[m] for m in choice if m in place) for choice in waits[index]) for index in kept)
    return [actions[index] for index in kept], needs


def _up_to_removal(steps: Sequence[Step], part: PartId) -> tuple[Action, ...]:
    """The actions of `steps` up to the first that lifts `part` out, that one included."""
    actions = work_of(steps)
    goal = next(n for n, action in enumerate(actions) if action.verb is Verb.LIFT and action.part == part)
    return actions[: goal + 1]


def _waits_within(guide: Guide, actions: Sequence[Action]) -> list[list[frozenset[int]]]:
    """For every action the choices it waits for, as positions in `actions` before it."""
    position = {(action.step, action.number): index for index, action in enumerate(actions)}
    index_of = [position.get((action.step, action.number)) for action in work_of(guide.steps)]
    waits: list[list[frozenset[int]]] = [[] for _ in actions]
    for clause in guide.walk.clauses:
        here = index_of[clause.action]
        if here is not None:
            met = [at for member in clause.members if (at := index_of[member]) is not None and at < here]
            if met:
                waits[here].append(frozenset(met))
    for here, action in enumerate(actions):
        if action.verb is Verb.UNDO:
            waits[here] += [frozenset({at}) for at in _softenings(actions[:here], action.joint)]
    return waits


def _softenings(actions: Sequence[Action], joint: JointId | None) -> list[int]:
    """Where `joint` is warmed or soaked: each time counts, as the guide says it is done, whether or not once would do."""
    return [at for at, action in enumerate(actions) if action.verb in (Verb.HEAT, Verb.SOAK) and action.joint == joint]


def _operation(guide: Guide, action: Action) -> Operation:
    tools = frozenset((*guide.tools_of(action), *action.supplies))
    match action.verb:
        case Verb.LIFT if action.part is not None:
            return Operation(WORK, tools, removes=(action.part,), step=action.step)
        case Verb.FOLD if action.part is not None:
            return Operation(WORK, tools, sets_aside=(action.part,), step=action.step)
        case Verb.UNDO if action.joint is not None:
            joint = guide.joint(action.joint)
            held = tools or (frozenset({f"{UNNAMED}{joint.drive or joint.id}"}) if joint.needs_tool else tools)
            return Operation(WORK, held, undoes=joint.id, step=action.step)
        case Verb.HEAT:
            return Operation(HEAT, tools, softens=action.joint, step=action.step)
        case Verb.SOAK:
            return Operation(CLEAN, tools, softens=action.joint, step=action.step)
    return Operation(WORK if tools else LOOK, tools, step=action.step)
