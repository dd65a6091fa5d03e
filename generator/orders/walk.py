"""One walk through an order: every clause that is not met when its action comes up, and work done twice."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from generator.anatomy.device import Anatomy
from generator.orders.clauses import clauses_of, work_of
from generator.orders.faces import missing_turns
from generator.orders.reasons import Clause, LyingWrong, Reason, missing_effect
from generator.orders.work import Action, Step, Verb


@dataclass(frozen=True, slots=True)
class Unmet:
    """An action that comes before what it waits for.

    late: the actions that would meet it and come later in the order (or later in the same step); elsewhere: those in
    alternative steps. Both empty: nothing in the guide ever meets it. also: later actions that wait for the same thing.
    """

    action: Action
    reason: Reason
    late: tuple[Action, ...] = ()
    elsewhere: tuple[Action, ...] = ()
    also: tuple[Unmet, ...] = ()


@dataclass(frozen=True, slots=True)
class Repeat:
    """Work that has no effect: `first` did it already. kind: `again` (done twice) or `gone` (its object has left)."""

    action: Action
    first: Action
    kind: str


@dataclass(frozen=True, slots=True)
class Walk:
    """What one walk found. `unmet` empty means: the whole order can be performed."""

    unmet: tuple[Unmet, ...] = ()
    repeats: tuple[Repeat, ...] = ()
    clauses: tuple[Clause, ...] = field(default=(), repr=False)


def walk(
    anatomy: Anatomy, faces: Sequence[str], power: str, order: Sequence[Step], alternatives: Sequence[Step] = ()
) -> Walk:
    """Walk `order` once; after an unmet clause go on as if the action had been done, so that nothing cascades.

    Unmet clauses come in the order of the work, those of one action in the order of its clauses. Cost: linear.
    """
    work = work_of((*order, *alternatives))
    clauses = clauses_of(anatomy, (*order, *alternatives), power)
    length = len(work_of(order))
    unmet: list[tuple[int, Unmet]] = []
    for clause in clauses:
        if clause.action < length and not any(member < clause.action for member in clause.members):
            ordered = sorted(clause.members)
            late = tuple(work[m] for m in ordered if clause.action < m < length)
            elsewhere = tuple(work[m] for m in ordered if m >= length)
            unmet.append((clause.action, Unmet(work[clause.action], clause.reason, late, elsewhere)))
    numbers = {(action.step, action.number): number for number, action in enumerate(work[:length])}
    for turn in missing_turns(anatomy, faces, order):
        number = numbers[turn.action.step, turn.action.number]
        unmet.append((number, Unmet(turn.action, LyingWrong(turn.lying, turn.face))))
    unmet.sort(key=lambda entry: entry[0])
    return Walk(tuple(entry for _, entry in unmet), tuple(_repeats(work[:length])), clauses)


def causes(unmet: Sequence[Unmet]) -> tuple[Unmet, ...]:
    """One entry a cause: what waits for the same late steps (or the same missing thing) is folded into its first.

    The first keeps its place and reason; the others are listed in its `also`.
    """
    groups: dict[object, list[Unmet]] = {}
    for entry in unmet:
        groups.setdefault(_cause(entry), []).append(entry)
    return tuple(
        Unmet(first.action, first.reason, first.late, first.elsewhere, tuple(rest)) for first, *rest in groups.values()
    )


def _cause(entry: Unmet) -> object:
    if isinstance(entry.reason, LyingWrong):
        return ("turn", entry.action.step, entry.action.number)
    late = tuple(dict.fromkeys(action.step for action in entry.late))
    if not late:
        return ("never", missing_effect(entry.reason))
    if entry.action.step in late:
        return ("inside", entry.action.step)
    return ("late", late)


def _repeats(work: Sequence[Action]) -> list[Repeat]:
    undone: dict[str, Action] = {}
    lifted: dict[str, Action] = {}
    folded: dict[str, Action] = {}
    found: list[Repeat] = []
    for action in work:
        match action.verb:
            case Verb.UNDO if action.joint is not None:
                if action.joint in undone:
                    found.append(Repeat(action, undone[action.joint], "again"))
                undone.setdefault(action.joint, action)
            case Verb.LIFT if action.part is not None:
                if action.part in lifted:
                    found.append(Repeat(action, lifted[action.part], "again"))
                lifted.setdefault(action.part, action)
            case Verb.FOLD if action.part is not None:
                earlier = folded.get(action.part) or lifted.get(action.part)
                if earlier:
                    found.append(Repeat(action, earlier, "again"))
                folded.setdefault(action.part, action)
            case Verb.HEAT | Verb.SOAK if action.joint in undone:
                found.append(Repeat(action, undone[action.joint], "gone"))
    return found
