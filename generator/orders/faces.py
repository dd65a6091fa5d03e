"""Which side lies up: the turns a piece of work states, and those it still lacks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import PartId
from generator.orders.work import Action, Step, Verb


@dataclass(frozen=True, slots=True)
class MissingTurn:
    """`action` works on `face`, but the device lies with `lying` up."""

    action: Action
    lying: str
    face: str


def missing_turns(anatomy: Anatomy, faces: Sequence[str], steps: Sequence[Step]) -> Iterator[MissingTurn]:
    """The turns that `steps`, done in this order from `faces[0]` up, would need beside those they state.

    Each missing turn is counted once: after it the device is taken to lie right. A joint that has left the base with all
    its ends is worked on at the bench, where faces no longer matter.
    """
    lying = faces[0]
    gone: set[PartId] = set()
    for step in steps:
        for action in step.actions:
            if action.verb is Verb.TURN and action.face is not None:
                lying = action.face
            elif action.verb is Verb.UNDO and action.joint is not None:
                joint = anatomy.joints[action.joint]
                if joint.face != lying and not any(joint.ends <= anatomy.assembly(part) for part in gone):
                    yield MissingTurn(action, lying, joint.face)
                    lying = joint.face
            elif action.verb is Verb.LIFT and action.part is not None and action.part != anatomy.base:
                gone.add(action.part)


def face_before(faces: Sequence[str], steps: Sequence[Step]) -> tuple[str, ...]:
    """For every step the face that lies up when it begins, by the turns the steps state."""
    result: list[str] = []
    lying = faces[0]
    for step in steps:
        result.append(lying)
        for action in step.actions:
            if action.verb is Verb.TURN and action.face is not None:
                lying = action.face
    return tuple(result)
