"""refit/words"""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.joints import Joint, JointKind
from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.wording import joint_name, sentence


def words(guide: Guide) -> Iterator[Finding]:
    """A step undoes what takes care to make again, and has no Refitting text (for a plug alone: a note).

    Why: how to clean and lay new glue, and which screw goes where, cannot be told from the way out.
    Bad: a step that undoes `back-glue` with `refit: new`, and no `## Refitting` below its text.
    Good: `## Refitting`, and below it: "Scrape both faces clean. Lay new tape. Press for a minute."
    Silent when: the step has a Refitting text, or undoes only clips, press fits, screws of one length and old glue.
    """
    for step in guide.steps:
        if step.refitting is not None and step.refitting.markdown.strip():
            continue
        joints = [guide.joint(joint) for joint in step.undone]
        careful = [joint for joint in joints if _reason(joint)]
        plugs = [joint for joint in joints if joint.kind is JointKind.PLUG]
        for joint in (careful or plugs)[:1]:
            name = sentence(joint_name(guide, joint.id))
            yield Finding(
                place=step.place,
                message=f"{name} cannot be put back from this step alone: there is no Refitting text.",
                why=(f"{sentence(_reason(joint) or 'a plug has to be lined up before it is pressed home')}.",),
                mend=Mend("Write `## Refitting` below the text, and what matters on the way back."),
                level=None if careful else "note",
            )


def _reason(joint: Joint) -> str:
    if joint.kind is JointKind.GLUE and joint.is_renewed:
        return "the old glue has to come off and new glue goes on"
    if joint.kind is JointKind.SCREWS and len(set(joint.lengths)) > 1:
        return "the screws differ in length, and a long one in the wrong hole does harm"
    return ""
