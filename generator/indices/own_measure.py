"""Our own plain measure: what it takes to reach each part, as counts that need no table and no act.

Steps, actions, tool changes, minutes and fasteners that cannot go back are those of the part's route in this guide, counted
whole: a step that does more than the part needs counts with all it does. Nothing is weighed against anything else, and
steps are no effort: public studies found that counted steps do not always follow measured time.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import JointId, PartId
from generator.languages import later
from generator.orders.accounts import pages_of
from generator.orders.guide import Guide
from generator.orders.routes import Route, best_route

SAYS = later(
    "Counted on the part's cheapest route in this guide, steps taken whole. A fastener is counted as not reusable where "
    "something new goes back in its place, piece by piece."
)


@dataclass(frozen=True)
class Effort:
    """What it takes to reach one part: counts of its route; seconds is None where a step has no `takes`.

    not_reusable: joints on the way that are made anew, with how many fasteners each has; unsaid: glue joints of which the
    author did not say whether they hold again. All None or empty where the guide does not take the part out.
    """

    part: PartId
    role: str | None
    steps: int | None = None
    actions: int | None = None
    tool_changes: int | None = None
    seconds: int | None = None
    not_reusable: tuple[tuple[JointId, int], ...] = ()
    unsaid: tuple[JointId, ...] = ()

    @property
    def is_reached(self) -> bool:
        return self.steps is not None


def efforts(guide: Guide, parts: Iterable[PartId]) -> tuple[Effort, ...]:
    """The own measure of each part, in the order given."""
    return tuple(_effort(guide, part) for part in parts)


def measured_parts(guide: Guide) -> tuple[PartId, ...]:
    """The parts with a role; where none has one, those with a route page."""
    with_role = tuple(part.id for part in guide.anatomy.parts.values() if part.role is not None)
    return with_role or pages_of(guide)


def is_made_anew(joint: Joint) -> bool:
    """Whether the joint needs something new to be made again, as far as the author says."""
    return joint.reusable in ("supplied with spare", "no") or (joint.is_renewed and joint.reusable != "yes")


def _effort(guide: Guide, part: PartId) -> Effort:
    role = guide.part(part).role
    route = best_route(guide, (part,), tells_others=False)
    if not isinstance(route, Route):
        return Effort(part, role)
    joints = [guide.joint(name) for name in dict.fromkeys(name for step in route.steps for name in step.undone)]
    return Effort(
        part=part,
        role=role,
        steps=len(route.steps),
        actions=route.actions,
        tool_changes=route.tool_changes,
        seconds=route.seconds,
        not_reusable=tuple((joint.id, joint.count) for joint in joints if is_made_anew(joint)),
        unsaid=tuple(
            joint.id for joint in joints if joint.kind is JointKind.GLUE and joint.reusable is None and not joint.is_renewed
        ),
    )
