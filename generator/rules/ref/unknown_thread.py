"""ref/unknown-thread"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.trade.threads import is_tapping, looked_up_as
from generator.rules.wording import quoted


def unknown_thread(guide: Guide) -> Iterator[Finding]:
    """A thread is in none of the public lists; or it is written M0.8, which is looked up as S0.8 (a note).

    Why: pitch, torque and the right spare screw are looked up by the name of the thread.
    Bad: `thread: M1.3`.
    Good: `thread: M1.4`, as ISO 262 has it; below M1, `thread: S0.8` of the miniature series of ISO 1501.
    Silent when: the thread is in ISO 261, ISO 262 or ISO 1501, with or without a pitch, or is self-tapping (`ST2.9`).
    """
    for joint in guide.anatomy.joints.values():
        if joint.thread is None or is_tapping(joint.thread):
            continue
        place = joint.places.value("joints", joint.id, "thread")
        found = looked_up_as(joint.thread)
        if found is None:
            yield Finding(
                place=place,
                message=f"The thread {quoted(joint.thread)} is in no list of ISO 261, ISO 262 or ISO 1501.",
                why=("Nothing can be looked up for it: neither pitch nor torque.",),
                mend=Mend("Measure the screw again: across the thread, and ten turns along it."),
            )
        elif not joint.thread.strip().startswith(found.name[0]):
            yield Finding(
                place=place,
                message=f"The thread {quoted(joint.thread)} is looked up as {found.name}: the M series begins at M1.",
                mend=Mend(f"Write {found.name}, the name of the miniature series of ISO 1501."),
                level="note",
            )
