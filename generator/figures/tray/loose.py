"""What comes loose in each step of a run: screws with their places on the part they held, and small parts. mm."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import Box, JointId, Part, PartId, Point
from generator.orders.accounts import ScrewSize, screw_sizes
from generator.orders.guide import Guide
from generator.orders.work import Step, Verb

SMALL = (60.0, 40.0)
"""mm; a part that fits into this lying either way gets a place on the tray."""


@dataclass(frozen=True, slots=True)
class LooseScrew:
    """One screw. number: in the undoing order of its step, as in the plan; at: mm on the device, None where not told."""

    number: int
    size: ScrewSize
    at: Point | None
    joint: Joint
    index: int


@dataclass(frozen=True, slots=True)
class Holding:
    """A part and the screws that held it; the part is None where no part but the base has a hand in it.

    is_mirrored: the screws are reached from the second face, so that x runs the other way.
    """

    part: Part | None
    screws: tuple[LooseScrew, ...]
    is_mirrored: bool = False


@dataclass(frozen=True, slots=True)
class Loose:
    """What step number `number` frees, its back number beside it."""

    step: Step
    number: int
    back: int
    holdings: tuple[Holding, ...]
    small: tuple[Part, ...]

    @property
    def screws(self) -> tuple[LooseScrew, ...]:
        return tuple(screw for holding in self.holdings for screw in holding.screws)


def loose_of(guide: Guide, steps: Sequence[Step]) -> tuple[Loose, ...]:
    """The steps that free what the hand can lose, in order, counted from 1 among all. A joint undone twice counts once."""
    undone: set[JointId] = set()
    lifted: set[PartId] = set()
    found = []
    for number, step in enumerate(steps, 1):
        holdings = _holdings(guide, step, undone)
        held = {holding.part.id for holding in holdings if holding.part}
        small = tuple(
            guide.part(part)
            for part in dict.fromkeys(step.lifted)
            if part not in lifted | held and part != guide.anatomy.base and is_small(guide.part(part).box)
        )
        undone |= set(step.undone)
        lifted |= set(step.lifted)
        if holdings or small:
            found.append(Loose(step, number, 2 * len(steps) + 1 - number, holdings, small))
    return tuple(found)


def is_small(box: Box | None) -> bool:
    if box is None or min(box.width, box.height) <= 0:
        return False
    return max(box.width, box.height) <= SMALL[0] and min(box.width, box.height) <= SMALL[1]


def is_seen_from_second(guide: Guide, face: str) -> bool:
    faces = guide.device.faces
    return len(faces) > 1 and face == faces[1]


def _holdings(guide: Guide, step: Step, undone: Iterable[JointId]) -> tuple[Holding, ...]:
    """The step's screws by the part they held, parts in the order of their first screw."""
    groups: dict[tuple[PartId | None, bool], list[LooseScrew]] = {}
    number = 1
    for joint_id in dict.fromkeys(step.undone):
        joint = guide.joint(joint_id)
        if joint.kind is JointKind.SCREWS and joint_id not in undone:
            key = (_carrier(guide, step, joint), is_seen_from_second(guide, joint.face))
            places = [*joint.positions[: joint.count], *[None] * (joint.count - len(joint.positions))]
            groups.setdefault(key, []).extend(
                LooseScrew(number + index, size, place, joint, index)
                for index, (size, place) in enumerate(zip(screw_sizes(joint), places, strict=True))
            )
        number += joint.count
    return tuple(
        Holding(guide.part(part) if part is not None else None, tuple(screws), is_mirrored)
        for (part, is_mirrored), screws in groups.items()
    )


def _carrier(guide: Guide, step: Step, joint: Joint) -> PartId | None:
    """The part a joint's screws are laid out on: one that leaves in this step, else the first that is not the base."""
    ends = [end for end in joint.joins if end != guide.anatomy.base and end in guide.anatomy.parts]
    leaving = {a.part for a in step.actions if a.verb in (Verb.LIFT, Verb.FOLD)}
    drawn = [end for end in ends if _has_room(guide.part(end).box)]
    return next((end for end in drawn if end in leaving), None) or next(iter([*drawn, *ends]), None)


def _has_room(box: Box | None) -> bool:
    return box is not None and min(box.width, box.height) > 0


def mirrored(point: Point, box: Box) -> Point:
    """A place on the part as seen from the other side, the part's box staying where it is."""
    return (box.x + box.right - point[0], point[1])


def mirrored_box(inner: Box, box: Box) -> Box:
    return replace(inner, x=box.x + box.right - inner.right)
