"""Accounts of a run of steps: screws by size, tools and supplies by first use, minutes, turns, depth of every part."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import JointId, Part, PartId
from generator.orders.guide import Guide
from generator.orders.routes import Route
from generator.orders.work import Step, Supply, SupplyId, Tool, ToolId, Verb, linked


@dataclass(frozen=True, slots=True, order=True)
class ScrewSize:
    """What tells one screw from another: thread (M1.4), length in mm, drive and head as written; None where not told."""

    thread: str | None
    length: float | None
    drive: str | None
    head: str | None


@dataclass(frozen=True, slots=True)
class ScrewLine:
    """`count` screws of one size, and the steps that take them out, each with its share."""

    size: ScrewSize
    count: int
    steps: tuple[tuple[Step, int], ...]


@dataclass(frozen=True, slots=True)
class ToolUse:
    """A tool and the steps that take it up: on the way out (`steps`) and where they are put back (`back`)."""

    tool: Tool
    steps: tuple[Step, ...]
    back: tuple[Step, ...] = ()


@dataclass(frozen=True, slots=True)
class SupplyUse:
    """A supply and where it is used up: on the way out (`out`) or on the way back, when a joint is made again (`back`)."""

    supply: Supply
    out: tuple[Step, ...]
    back: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Accounts:
    """The accounts of a run of steps, in the order given; seconds is None where a step has no `takes`."""

    screws: tuple[ScrewLine, ...]
    screw_count: int
    joint_count: int
    tools: tuple[ToolUse, ...]
    supplies: tuple[SupplyUse, ...]
    seconds: int | None
    turns: int
    actions: int


def accounts_of(guide: Guide, steps: Sequence[Step]) -> Accounts:
    """What a run of steps takes out, takes up and uses up; a joint undone twice is counted once.

    Tools and supplies are those of the work and those that the words of a step link to: all have to lie ready.

    The way back of the same steps has the same accounts: every screw that comes out goes back.
    """
    undone = _first_undone(guide, steps)
    screws = _screws(guide, undone)
    return Accounts(
        screws=screws,
        screw_count=sum(line.count for line in screws),
        joint_count=sum(joint.count for _, joint in undone),
        tools=_tools(guide, steps),
        supplies=_supplies(guide, steps, undone),
        seconds=sum(step.takes or 0 for step in steps) if all(s.takes is not None for s in steps) else None,
        turns=sum(action.verb is Verb.TURN for step in steps for action in step.actions),
        actions=sum(len(step.actions) for step in steps),
    )


def screw_sizes(joint: Joint) -> tuple[ScrewSize, ...]:
    """The size of every screw of a joint, in the author's order; empty for what is not screwed."""
    if joint.kind is not JointKind.SCREWS:
        return ()
    drive = str(joint.drive) if joint.drive else None
    lengths: list[float | None] = [*joint.lengths[: joint.count]]
    lengths += [None] * (joint.count - len(lengths))
    return tuple(ScrewSize(joint.thread, length, drive, joint.head) for length in lengths)


def _first_undone(guide: Guide, steps: Sequence[Step]) -> tuple[tuple[Step, Joint], ...]:
    found: dict[JointId, Step] = {}
    for step in steps:
        for joint in step.undone:
            found.setdefault(joint, step)
    return tuple((step, guide.joint(joint)) for joint, step in found.items())


def _screws(guide: Guide, undone: Sequence[tuple[Step, Joint]]) -> tuple[ScrewLine, ...]:
    shares: dict[ScrewSize, dict[str, tuple[Step, int]]] = {}
    for step, joint in undone:
        for size in screw_sizes(joint):
            of_step = shares.setdefault(size, {})
            of_step[step.id] = (step, of_step.get(step.id, (step, 0))[1] + 1)
    return tuple(
        ScrewLine(size, sum(count for _, count in shares[size].values()), tuple(shares[size].values()))
        for size in sorted(shares, key=by_size)
    )


def by_size(size: ScrewSize) -> tuple[float, str, float, str, str]:
    """Thin before thick, short before long; what is not told comes last."""
    digits = (size.thread or "").lstrip("MS")
    diameter = float(digits) if digits.replace(".", "", 1).isdigit() else float("inf")
    return (diameter, size.thread or "", size.length or float("inf"), size.drive or "", size.head or "")


def _tools(guide: Guide, steps: Sequence[Step]) -> tuple[ToolUse, ...]:
    uses: dict[ToolId, dict[str, Step]] = {}
    back: dict[ToolId, dict[str, Step]] = {}
    for step in steps:
        for action in step.actions:
            for tool in guide.tools_of(action):
                uses.setdefault(tool, {})[step.id] = step
        for named in linked(step.body, "tool", guide.tools):
            uses.setdefault(ToolId(named), {})[step.id] = step
        for named in linked(step.refitting, "tool", guide.tools):
            back.setdefault(ToolId(named), {})[step.id] = step
    return tuple(
        ToolUse(guide.tools[tool], tuple(uses.get(tool, {}).values()), tuple(back.get(tool, {}).values()))
        for tool in dict.fromkeys((*uses, *back))
    )


def _supplies(
    guide: Guide, steps: Sequence[Step], undone: Sequence[tuple[Step, Joint]]
) -> tuple[SupplyUse, ...]:
    out: dict[SupplyId, dict[str, Step]] = {}
    back: dict[SupplyId, dict[str, Step]] = {}
    for step in steps:
        for action in step.actions:
            for supply in action.supplies:
                out.setdefault(supply, {})[step.id] = step
        for named in linked(step.body, "supply", guide.supplies):
            out.setdefault(SupplyId(named), {})[step.id] = step
        for named in linked(step.refitting, "supply", guide.supplies):
            back.setdefault(SupplyId(named), {})[step.id] = step
    for step, joint in undone:
        for renewed in guide.supplies_for(joint.id) if joint.is_renewed else ():
            back.setdefault(renewed.id, {})[step.id] = step
    used = dict.fromkeys((*out, *back))
    return tuple(
        SupplyUse(guide.supplies[s], tuple(out.get(s, {}).values()), tuple(back.get(s, {}).values())) for s in used
    )


# --- depth ------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Depth:
    """How deep a part sits: steps, actions and parts out of the way (the part itself not counted) on its cheapest route."""

    part: Part
    route: Route
    steps: int
    actions: int
    parts: int


def depth_on(guide: Guide, part: PartId, route: Route) -> Depth:
    """The depth of `part`, reached by `route`."""
    lifted = {other for step in route.steps for other in step.lifted}
    return Depth(guide.part(part), route, len(route.steps), route.actions, len(lifted - {part}))


def pages_of(guide: Guide) -> tuple[PartId, ...]:
    """The parts that get a route page: those the author names, else every replaceable part."""
    if guide.device.pages is not None:
        return tuple(part for part in guide.device.pages if part in guide.anatomy.parts)
    return tuple(part.id for part in guide.anatomy.parts.values() if part.replaceable)

