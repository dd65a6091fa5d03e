"""How the device stands before a step: what is out, what is folded aside, which face lies up."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.orders.work import Action, Step, Verb


@dataclass(frozen=True, slots=True)
class Before:
    """out: the parts lifted so far (what they carry goes with them); folded: those folded aside and not yet lifted."""

    face_up: str
    out: frozenset[PartId] = frozenset()
    folded: frozenset[PartId] = frozenset()


def before_each(steps: Iterable[Step], faces: tuple[str, ...]) -> tuple[Before, ...]:
    """How the device stands before each of the steps, done in that order from a whole device on its first face."""
    stands = Before(faces[0] if faces else "")
    found = []
    for step in steps:
        found.append(stands)
        for action in step.actions:
            stands = after(stands, action)
    return tuple(found)


def after(stands: Before, action: Action) -> Before:
    """How the device stands once the action is done."""
    if action.verb is Verb.LIFT and action.part is not None:
        return Before(stands.face_up, stands.out | {action.part}, stands.folded - {action.part})
    if action.verb is Verb.FOLD and action.part is not None and action.part not in stands.out:
        return Before(stands.face_up, stands.out, stands.folded | {action.part})
    if action.verb is Verb.TURN and action.face is not None:
        return Before(action.face, stands.out, stands.folded)
    return stands


def shown_face(step: Step, before: Before) -> str:
    """The face a step is drawn from: the one up when a part is first moved, else when a joint is undone, else at the end."""
    stands = before
    moved, undone = None, None
    for action in step.actions:
        if moved is None and action.verb in (Verb.LIFT, Verb.FOLD):
            moved = stands.face_up
        if undone is None and action.verb is Verb.UNDO:
            undone = stands.face_up
        stands = after(stands, action)
    return next(face for face in (moved, undone, stands.face_up) if face is not None)
