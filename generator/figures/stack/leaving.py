"""Which parts a run of steps is about, when each leaves, with what, and toward which side."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint
from generator.anatomy.parts import JointId, PartId
from generator.orders.guide import Guide
from generator.orders.numbering import part_numbers
from generator.orders.work import Step, Verb


@dataclass(frozen=True)
class Leaving:
    """A run of steps seen from its parts; steps count from 0.

    own: the step that lifts a part itself (or folds it, if none lifts it); goes: the step in which it leaves the device, on
    its own or inside another; taken_by: the part it leaves inside of. shown: what the figure is about, in the author's
    order, the base among it. below: the parts that leave through the second face.
    """

    anatomy: Anatomy
    steps: tuple[Step, ...]
    numbers: Mapping[PartId, str]
    own: Mapping[PartId, int]
    goes: Mapping[PartId, int]
    taken_by: Mapping[PartId, PartId]
    shown: tuple[PartId, ...]
    below: frozenset[PartId]

    @cached_property
    def undone(self) -> Mapping[JointId, int]:
        """The step that undoes each joint."""
        found: dict[JointId, int] = {}
        for number, step in enumerate(self.steps):
            for joint in step.undone:
                if joint in self.anatomy.joints:
                    found.setdefault(joint, number)
        return found

    @cached_property
    def holding(self) -> Mapping[PartId, tuple[Joint, ...]]:
        """The joints that a part is freed from: those across its assembly that nothing lifted before had across its own."""
        left: set[JointId] = set()
        found: dict[PartId, tuple[Joint, ...]] = {}
        for part in sorted(self.own, key=lambda part: self.own[part]):
            crossing = self.anatomy.crossing(part)
            found[part] = tuple(joint for joint in crossing if joint.id not in left and joint.id in self.undone)
            left.update(joint.id for joint in crossing)
        return found

    def holder(self, joint: Joint) -> PartId | None:
        """The part that the joint's fasteners are drawn on: the end that is freed by undoing it; None if none is."""
        for part, joints in self.holding.items():
            if joint in joints:
                inside = self.anatomy.assembly(part)
                return next((end for end in joint.joins if end in inside), part)
        return None

    def hand(self, now: int) -> tuple[PartId, ...]:
        """The parts lifted or folded in step `now`."""
        named = (a.part for a in self.steps[now].actions if a.verb in (Verb.LIFT, Verb.FOLD))
        return tuple(dict.fromkeys(part for part in named if part is not None and part in self.anatomy.parts))

    def worked(self, now: int) -> tuple[PartId, ...]:
        """The parts whose joints are worked on in step `now`, or which are checked; one a joint."""
        return _worked(self.anatomy, self.steps[now])


def leaving_of(guide: Guide, steps: Sequence[Step]) -> Leaving:
    """See a run of steps from its parts.

    A run that holds the guide's whole order shows every part; a shorter one those it touches, what they carry, and the base.
    """
    anatomy = guide.anatomy
    own: dict[PartId, int] = {}
    for verb in (Verb.LIFT, Verb.FOLD):
        moved: dict[PartId, int] = {}
        for number, step in enumerate(steps):
            for action in step.actions:
                if action.verb is verb and action.part in anatomy.parts and action.part is not None:
                    moved.setdefault(action.part, number)
        own = {**moved, **own}
    own.pop(anatomy.base, None)
    goes: dict[PartId, int] = {}
    taken_by: dict[PartId, PartId] = {}
    for part in anatomy.parts:
        chain = [above for above in _chain(anatomy, part) if above in own]
        if chain:
            first = min(chain, key=lambda above: own[above])
            goes[part] = own[first]
            if first != part:
                taken_by[part] = first
    touched = {*goes, anatomy.base, *(part for step in steps for part in _worked(anatomy, step))}
    is_whole = {step.id for step in guide.order} <= {step.id for step in steps}
    second = guide.device.faces[1] if len(guide.device.faces) > 1 else None
    return Leaving(
        anatomy=anatomy,
        steps=tuple(steps),
        numbers=part_numbers(steps),
        own=own,
        goes=goes,
        taken_by=taken_by,
        shown=tuple(part for part in anatomy.parts if is_whole or part in touched),
        below=frozenset(
            part for part in goes if second is not None and anatomy.parts[taken_by.get(part, part)].face == second
        ),
    )


def _chain(anatomy: Anatomy, part: PartId) -> list[PartId]:
    """The part and what it is inside of, outward, the base left out."""
    chain: list[PartId] = []
    above: PartId | None = part
    while above is not None and above in anatomy.parts and above != anatomy.base and above not in chain:
        chain.append(above)
        above = anatomy.parts[above].inside
    return chain


def _worked(anatomy: Anatomy, step: Step) -> tuple[PartId, ...]:
    found: dict[PartId, None] = {}
    for action in step.actions:
        if action.part is not None and action.part in anatomy.parts and action.part != anatomy.base:
            found[action.part] = None
        joint = anatomy.joints.get(action.joint) if action.joint is not None else None
        if joint is not None:
            ends = [end for end in joint.joins if end != anatomy.base]
            boxed = [end for end in ends if anatomy.parts[end].box is not None]
            for end in (*boxed, *ends)[:1]:
                found[end] = None
    return tuple(found)
