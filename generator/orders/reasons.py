"""Why an action waits: the reasons a clause can have, each a thing a person understands."""

from __future__ import annotations

from dataclasses import dataclass

from generator.anatomy.parts import JointId, PartId


@dataclass(frozen=True, slots=True)
class Reason:
    """Why an action waits; the words for it stand in `rules.sentences`."""


@dataclass(frozen=True, slots=True)
class Behind(Reason):
    """`joint` cannot be reached while `part` is in front of it."""

    joint: JointId
    part: PartId


@dataclass(frozen=True, slots=True)
class OnTheBench(Reason):
    """`joint` lies under what carries it: it is reached once `carriers` (any of them) is out, away from `part`."""

    joint: JointId
    part: PartId
    carriers: tuple[PartId, ...]


@dataclass(frozen=True, slots=True)
class StillJoined(Reason):
    """`part` is held by `joint`."""

    part: PartId
    joint: JointId


@dataclass(frozen=True, slots=True)
class Under(Reason):
    """`part` cannot come out while `over` lies on it."""

    part: PartId
    over: PartId


@dataclass(frozen=True, slots=True)
class NotSoftened(Reason):
    """The glue `joint` has to be warmed or soaked first."""

    joint: JointId


@dataclass(frozen=True, slots=True)
class PowerFirst(Reason):
    """The supply plug `plug` has to be off before other plugs are undone or boards are lifted."""

    plug: JointId


@dataclass(frozen=True, slots=True)
class MainsFirst(Reason):
    """It has to be seen that the device is unplugged from the mains."""


@dataclass(frozen=True, slots=True)
class ChargeFirst(Reason):
    """The voltage at `part` has to be measured before work behind its cover."""

    part: PartId


@dataclass(frozen=True, slots=True)
class Covered(Reason):
    """`part` cannot be measured while `cover` is on it."""

    part: PartId
    cover: PartId


@dataclass(frozen=True, slots=True)
class TheBase(Reason):
    """`part` is the base: everything is mounted on it and it is never taken away."""

    part: PartId


@dataclass(frozen=True, slots=True)
class LyingWrong(Reason):
    """The device lies with `lying` up; the joint is reached from `face`."""

    lying: str
    face: str


@dataclass(frozen=True, slots=True)
class Clause:
    """Action number `action` of the work waits for any of `members` (numbers in the same work)."""

    action: int
    reason: Reason
    members: frozenset[int]


def missing_effect(reason: Reason) -> tuple[object, ...]:
    """What would have to happen for the reason to go; equal for reasons that the same thing would meet."""
    match reason:
        case StillJoined(joint=joint) | PowerFirst(plug=joint):
            return ("undone", joint)
        case Behind(part=part) | Under(over=part) | Covered(cover=part):
            return ("away", part)
        case _:
            return (reason,)


POWER_REASONS = (PowerFirst, MainsFirst, ChargeFirst)
"""Reasons that keep the reader safe, where the others keep the device whole."""
