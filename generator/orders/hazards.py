"""What can hurt on the way: hazards that follow from the work, the parts and the tools, without the author saying so."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from generator.anatomy.joints import JointKind
from generator.anatomy.parts import PartId
from generator.orders.guide import Guide
from generator.orders.power import covers_of
from generator.orders.work import Action, Step, SupplyId, ToolId, Verb, linked
from generator.source.prose import Prose

STANDARD_HAZARDS = frozenset(
    {
        *("flammable", "vapour", "hot surface", "sharp", "glass", "laser"),
        *("mains", "stored charge", "spring", "dust", "fume", "irritant"),
    }
)
"""Hazard words an author may put on tools, supplies and parts and for which a caution stands ready."""

SHOCK_FROM = Decimal(60)
"""V d.c. from which a stored charge is taken to strike: the ES1 limit of IEC 62368-1 for a working device."""

PRYING_KINDS = (JointKind.GLUE, JointKind.CLIPS, JointKind.PRESS)


@dataclass(frozen=True, slots=True)
class Hazard:
    """One hazard of a step. kind: a standard hazard word, or `cell`, `cell near heat`, `licensed`.

    subject names the part, tool or supply it comes from, in the author's words; detail is a quantity or a reason.
    """

    kind: str
    subject: str
    detail: str = ""


def hazards_of(guide: Guide, step: Step) -> tuple[Hazard, ...]:
    """The hazards of one step on the way out, each once: in the order in which the work meets them, then the words."""
    found = [hazard for action in step.actions for hazard in _of_action(guide, step, action)]
    return tuple(dict.fromkeys((*found, *_of_words(guide, step.body))))


def hazards_back(guide: Guide, step: Step) -> tuple[Hazard, ...]:
    """The hazards of putting one step back: making its joints anew, then what its Refitting text takes up."""
    return tuple(dict.fromkeys((*_of_remaking(guide, step), *_of_words(guide, step.refitting))))


def licensed_reason(guide: Guide, step: Step) -> tuple[PartId, str] | None:
    """The first part in this step's work that only licensed practice may touch or measure, with the author's reason.

    Measuring a charge from which one can get a shock is for licensed practice too, marked so or not; the reason is empty
    where the charge alone is it.
    """
    for action in step.actions:
        if action.verb in (Verb.UNDO, Verb.LIFT, Verb.FOLD, Verb.HEAT, Verb.SOAK):
            for part in _touched(guide, action):
                reason = guide.part(part).licensed
                if reason:
                    return part, reason
        elif action.verb is Verb.CHECK and action.part is not None:
            checked = guide.part(action.part)
            if checked.licensed or (checked.charge is not None and checked.charge.volts >= SHOCK_FROM):
                return checked.id, checked.licensed or ""
    return None


def _of_action(guide: Guide, step: Step, action: Action) -> Iterator[Hazard]:
    for tool_id in guide.tools_of(action):
        tool = guide.tools.get(tool_id)
        if tool is not None:
            yield from (Hazard(kind, tool.name) for kind in tool.hazards)
    for supply_id in action.supplies:
        supply = guide.supplies.get(supply_id)
        if supply is not None:
            yield from (Hazard(kind, supply.name) for kind in supply.hazards)
    for part_id in _touched(guide, action):
        part = guide.part(part_id)
        yield from (Hazard(kind, part.name) for kind in part.hazards)
        if part.licensed:
            yield Hazard("licensed", part.name, part.licensed)
        if part.charge is not None:
            yield Hazard("stored charge", part.name, f"{part.charge.volts} V")
        if part.cell is not None and _strains(guide, action):
            yield Hazard("cell", part.name)
        if part.material == "glass" and _strains(guide, action):
            yield Hazard("glass", part.name)
    if action.verb is Verb.UNDO and action.joint is not None and guide.joint(action.joint).kind is JointKind.SOLDER:
        yield Hazard("fume", guide.joint(action.joint).name)
    if action.verb is Verb.CHECK and action.proves == "unplugged":
        yield Hazard("mains", guide.device.name)
    if action.verb is Verb.CHECK and action.proves == "discharged" and action.part is not None:
        charge = guide.part(action.part).charge
        yield Hazard("stored charge", guide.part(action.part).name, f"{charge.volts} V" if charge else "")
    if action.verb in (Verb.LIFT, Verb.FOLD) and action.part is not None:
        for part in guide.anatomy.charged:
            if part.charge is not None and action.part in covers_of(guide.anatomy, part):
                yield Hazard("stored charge", part.name, f"{part.charge.volts} V")
    if action.verb is Verb.HEAT and any(part.cell for part in guide.anatomy.parts.values()):
        yield from _cells_still_in(guide, step, action)


def _of_words(guide: Guide, prose: Prose | None) -> Iterator[Hazard]:
    """The hazards of the tools and supplies that the words link to."""
    for name in linked(prose, "tool", guide.tools):
        tool = guide.tools[ToolId(name)]
        yield from (Hazard(kind, tool.name) for kind in tool.hazards)
    for name in linked(prose, "supply", guide.supplies):
        supply = guide.supplies[SupplyId(name)]
        yield from (Hazard(kind, supply.name) for kind in supply.hazards)


def _of_remaking(guide: Guide, step: Step) -> Iterator[Hazard]:
    """Solder is molten again, with what it was undone with; new glue and solder bring their own."""
    for action in step.actions:
        if action.verb is not Verb.UNDO or action.joint is None:
            continue
        joint = guide.joint(action.joint)
        if joint.kind is JointKind.SOLDER:
            for tool in guide.tools_of(action):
                yield from (Hazard(kind, guide.tools[tool].name) for kind in guide.tools[tool].hazards)
            yield Hazard("fume", joint.name)
        for supply in guide.supplies_for(joint.id) if joint.is_renewed else ():
            yield from (Hazard(kind, supply.name) for kind in supply.hazards)


def _cells_still_in(guide: Guide, step: Step, action: Action) -> Iterator[Hazard]:
    """Cells that are in the device while something is heated, as far as the author's order tells."""
    out: set[PartId] = set()
    for earlier in guide.order:
        if earlier.id == step.id:
            break
        for lifted in earlier.lifted:
            out |= guide.anatomy.assembly(lifted)
    for part in guide.anatomy.parts.values():
        if part.cell is not None and part.id not in out:
            yield Hazard("cell near heat", part.name, f"{part.cell.limit:g} °C")


def _touched(guide: Guide, action: Action) -> tuple[PartId, ...]:
    """The parts an action has its hands on: those of the joint, or the part that is moved."""
    if action.joint is not None:
        return tuple(part for part in guide.joint(action.joint).joins if part != guide.anatomy.base)
    if action.part is not None and action.verb in (Verb.LIFT, Verb.FOLD):
        return (action.part,)
    return ()


def _strains(guide: Guide, action: Action) -> bool:
    """Whether the action bends or pries: undoing glue, clips or a press fit."""
    return (
        action.verb is Verb.UNDO and action.joint is not None and guide.joint(action.joint).kind in PRYING_KINDS
    )
