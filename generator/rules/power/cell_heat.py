"""power/cell-heat"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import Part, PartId
from generator.orders.bench import separates_from_joint
from generator.orders.guide import Guide
from generator.orders.work import Action, Verb
from generator.rules.finding import Finding, Mend
from generator.rules.wording import joint_name, number, part_name, sentence, verb_for


def cell_heat(guide: Guide) -> Iterator[Finding]:
    """A joint at a cell, or at a part fastened to a cell, is warmed above what the cell may bear.

    Why: a cell that gets too hot swells, vents or burns; 60 °C is the limit where anatomy.yaml gives none.
    Bad: `heat: battery-glue` with `to: 80 °C`, and the battery still in the device.
    Good: `soak: battery-glue`, or `to: 50 °C`, or the battery lifted out before.
    Silent when: no temperature is written for the action or the joint, the cell has left, or the only thing the joint and
    the cell share is the base or a plug on its cable.
    """
    before: list[Action] = []
    for action in (action for step in guide.order for action in step.actions):
        if action.verb is Verb.HEAT and action.joint is not None:
            yield from _too_warm(guide, action, guide.joint(action.joint), before)
        before.append(action)


def _too_warm(guide: Guide, action: Action, joint: Joint, before: Sequence[Action]) -> Iterator[Finding]:
    temperature = action.temperature if action.temperature is not None else joint.temperature
    if temperature is None:
        return
    for cell in (part for part in guide.anatomy.parts.values() if part.cell is not None):
        assert cell.cell is not None  # chosen for having one
        if temperature > cell.cell.limit and _is_beside(guide, joint, cell) and not _has_left(guide, cell, joint, before):
            source = "this line" if action.temperature is not None else f"`at` of {joint_name(guide, joint.id)}"
            yield Finding(
                place=action.place,
                message=(
                    f"{sentence(joint_name(guide, joint.id))} must not be warmed to {number(temperature)} °C here: "
                    f"{part_name(guide, cell.id)} beside {verb_for(joint.name, 'it', 'them')} may get no warmer than "
                    f"{number(cell.cell.limit)} °C."
                ),
                why=(f"The temperature comes from {source}. No step before takes {part_name(guide, cell.id)} out.",),
                mend=Mend(
                    f"Stay at or below {number(cell.cell.limit)} °C, soak instead, "
                    f"or take {part_name(guide, cell.id)} out before."
                ),
            )


def _is_beside(guide: Guide, joint: Joint, cell: Part) -> bool:
    """Whether the joint joins the cell, or a part other than the base that is fastened to the cell."""
    touching: set[PartId] = {cell.id}
    for other in guide.anatomy.joints.values():
        if cell.id in other.ends and other.kind is not JointKind.PLUG:
            touching |= other.ends - {guide.anatomy.base}
    return bool(joint.ends & touching)


def _has_left(guide: Guide, cell: Part, joint: Joint, before: Sequence[Action]) -> bool:
    return any(
        action.verb is Verb.LIFT
        and action.part is not None
        and action.part != guide.anatomy.base
        and separates_from_joint(guide.anatomy, action.part, Verb.LIFT, cell.id, joint)
        for action in before
    )
