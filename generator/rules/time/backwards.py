"""time/backwards"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.work import Step
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted, step_name
from generator.source.values import clock


def backwards(guide: Guide) -> Iterator[Finding]:
    """A stretch of film ends before it begins; or, as a note, a step is filmed before the one that comes before it.

    Why: a clip cannot run backwards; and a film in another order than the steps is often a slip in a time.
    Bad: `video: "1:55-0:42"`.
    Good: `video: "0:42-1:55"`.
    Silent when: no end is written, or the work was really filmed in the order of the steps.
    """
    for step in (*guide.steps, *guide.unused):
        start, end = step.film or (0, None)
        if end is not None and end <= start:
            yield Finding(
                place=step.places.value("video"),
                message=f"The stretch of film begins at {clock(start)} and ends before that, at {clock(end)}.",
                mend=Mend(f"Write {quoted(f'{clock(end)}-{clock(start)}')} if the two were exchanged."),
            )
    yield from _against_the_order(guide)


def _is_backwards(step: Step) -> bool:
    return step.film is not None and step.film[1] is not None and step.film[1] <= step.film[0]


def _against_the_order(guide: Guide) -> Iterator[Finding]:
    before: Step | None = None
    for step in guide.order:
        if step.film is None or _is_backwards(step):
            continue
        if before is not None and before.film is not None and _ends(step) <= before.film[0]:
            this, that = clock(step.film[0]), clock(before.film[0])
            yield Finding(
                place=step.places.value("video"),
                message=f"The film shows this at {this}, before {step_name(guide, before.id)} at {that}.",
                mend=Mend("Correct the time if it is a slip; a film in another order than the steps is no fault."),
                level="note",
            )
        before = step


def _ends(step: Step) -> int:
    assert step.film is not None
    return step.film[1] if step.film[1] is not None else step.film[0]
