"""count/unreturned"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.work import Verb
from generator.rules.finding import Finding, Mend
from generator.rules.wording import joint_name, sentence, step_name, verb_for


def unreturned(guide: Guide) -> Iterator[Finding]:
    """A joint is undone that cannot be used again, and nothing new is said to take its place.

    Why: the way back would tell the reader to put back in what broke on the way out.
    Bad: a joint with `reusable: no` and `refit: same` (or no `refit`), undone in step 3.
    Good: `reusable: no` with `refit: new`, and a supply that is `for` the joint.
    Silent when: the joint is not marked `reusable: no`. Everything else that comes out is taken to go back in as it was:
    the way back undoes the way out line by line, so nothing can be forgotten there.
    """
    for joint in guide.anatomy.joints.values():
        undoing = guide.doing(Verb.UNDO, joint.id)
        if joint.reusable == "no" and not joint.is_renewed and undoing:
            name = joint.name
            yield Finding(
                place=joint.places.value("joints", joint.id, "reusable"),
                message=(
                    f"{sentence(joint_name(guide, joint.id))} {verb_for(name, 'comes', 'come')} out and "
                    f"cannot go back in: nothing new takes {verb_for(name, 'its', 'their')} place."
                ),
                why=(f"{sentence(step_name(guide, undoing[0][0].id))} undoes {joint_name(guide, joint.id)}.",),
                mend=Mend("Write `refit: new` for the joint, or correct `reusable`."),
            )
