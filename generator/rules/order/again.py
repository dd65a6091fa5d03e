"""order/again"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.walk import Repeat
from generator.orders.work import Verb
from generator.rules.finding import Finding, Mend
from generator.rules.wording import DONE, object_name, part_name, sentence, step_name


def again(guide: Guide) -> Iterator[Finding]:
    """Something is undone or lifted a second time; folding again what is folded or out is a note.

    Why: the reader looks for a screw that is already in the tray, and doubts every step since.
    Bad: step 2 and step 5 both do `undo: shade-screws`.
    Good: step 5 names the joint that is meant, or leaves the line out.
    Silent when: the second time stands in an alternative step, which is another way to the same end.
    """
    for repeat in guide.walk.repeats:
        if repeat.kind == "again":
            yield Finding(
                place=repeat.action.place,
                message=_message(guide, repeat),
                mend=Mend("Leave this line out, or name what is really meant."),
                level="note" if repeat.action.verb is Verb.FOLD else None,
            )


def _message(guide: Guide, repeat: Repeat) -> str:
    action, first = repeat.action, repeat.first
    done = DONE[action.verb]
    where = step_name(guide, first.step) if first.step != action.step else f"line {first.place.line} of this step"
    if action.verb is first.verb:
        return f"{sentence(object_name(guide, action))} cannot be {done} twice: {where} did it before."
    assert action.part is not None  # only parts are folded and lifted
    return f"{sentence(part_name(guide, action.part))} cannot be {done}: {where} lifted it out before."
