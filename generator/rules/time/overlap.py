"""time/overlap"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.work import Step
from generator.rules.finding import Finding, Mend
from generator.rules.wording import step_name
from generator.source.values import clock


def overlap(guide: Guide) -> Iterator[Finding]:
    """Two steps claim the same stretch of the film.

    Why: the clip of one step shows work of the other, and the reader does it too early or twice.
    Bad: `video: "0:42-1:55"` in one step, `video: "1:30-2:10"` in another.
    Good: `video: "0:42-1:30"` and `video: "1:30-2:10"`.
    Silent when: one begins where the other ends, or no end is written.
    """
    filmed = sorted(((film, step) for step in guide.steps if (film := _stretch(step)) is not None), key=lambda each: each[0])
    until, holder = -1, None
    for (start, end), step in filmed:
        if holder is not None and start < until:
            stretch = f"from {clock(start)} to {clock(min(end, until))}"
            yield Finding(
                place=step.places.value("video"),
                message=f"The film {stretch} belongs to two steps: here and {step_name(guide, holder.id)}.",
                mend=Mend("Let one end where the other begins."),
            )
        if end > until:
            until, holder = end, step


def _stretch(step: Step) -> tuple[int, int] | None:
    if step.film is None or step.film[1] is None or step.film[1] <= step.film[0]:
        return None
    return step.film[0], step.film[1]
