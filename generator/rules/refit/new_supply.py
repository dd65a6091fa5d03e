"""refit/new-supply"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.work import Verb
from generator.rules.finding import Finding, Mend
from generator.rules.wording import joint_name, sentence


def new_supply(guide: Guide) -> Iterator[Finding]:
    """A joint has to be made anew, and no supply is for it.

    Why: the reader has the device open on the bench and finds that the tape or glue for closing it is not there.
    Bad: `back-glue: {refit: new}`, and nothing in supplies.yaml with `for: back-glue`.
    Good: `back-tape: {name: adhesive frame for the back, for: back-glue}` in supplies.yaml.
    Silent when: no step undoes the joint, or the Refitting text of a step that does names a supply.
    """
    for joint in guide.anatomy.joints.values():
        undoing = guide.doing(Verb.UNDO, joint.id)
        named = any(
            reference.scheme == "supply" for step, _ in undoing if step.refitting for reference in step.refitting.references
        )
        if joint.is_renewed and undoing and not named and not guide.supplies_for(joint.id):
            yield Finding(
                place=joint.places.value("joints", joint.id, "refit"),
                message=f"{sentence(joint_name(guide, joint.id))} cannot be made anew: no supply is for that.",
                mend=Mend(f"Add a supply with `for: {joint.id}` to supplies.yaml."),
            )
