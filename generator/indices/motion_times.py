"""Handling time from published motion-time tables: only the few motions whose times could be read, so a floor.

Reaching, moving and undoing are left out: their times need distances that a guide does not give, or a table of connector
times that could not be read. Never a duration of the work; the author's minutes are that, where given.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from generator.anatomy.joints import JointKind
from generator.orders.guide import Guide
from generator.orders.routes import tool_changes
from generator.orders.work import Step, Verb

SECONDS_PER_TMU = Decimal("0.036")
"""The unit of the tables, one hundred-thousandth of an hour: MTM-1 data card of 2019, read."""

LEFT_OUT = "Reaching, moving, unscrewing, prying, warming and waiting are not in it: their times were not at hand."


@dataclass(frozen=True, slots=True)
class Motion:
    """A motion with its time in TMU, the table it stands in, and how well it is known."""

    name: str
    tmu: Decimal
    source: str
    tag: str


TOOL_CHANGE = Motion(
    "laying a tool down and taking another up", Decimal(40), "Basic MOST, A1 B0 G1 and A1 B0 P1", "computed"
)
GRASP_SCREW = Motion("grasping a very small object", Decimal("3.5"), "MTM-1, grasp G1B, textbook table", "verified")
GRASP_PART = Motion("grasping an object", Decimal("2.0"), "MTM-1, grasp G1A, textbook table", "verified")


@dataclass(frozen=True, slots=True)
class Handling:
    """How often a motion comes up, and what that takes in seconds."""

    motion: Motion
    times: int

    @property
    def seconds(self) -> Decimal:
        return self.times * self.motion.tmu * SECONDS_PER_TMU


def handling_of(guide: Guide, steps: Sequence[Step]) -> tuple[Handling, ...]:
    """The motions of a run of steps that have a published time, each with its count; their sum is a floor."""
    actions = [action for step in steps for action in step.actions]
    joints = [guide.joint(action.joint) for action in actions if action.verb is Verb.UNDO and action.joint is not None]
    return (
        Handling(TOOL_CHANGE, tool_changes(guide, steps)),
        Handling(GRASP_SCREW, sum(joint.count for joint in joints if joint.kind is JointKind.SCREWS)),
        Handling(GRASP_PART, sum(action.verb is Verb.LIFT for action in actions)),
    )


def seconds_of(handling: Sequence[Handling]) -> Decimal:
    return sum((entry.seconds for entry in handling), Decimal(0))
