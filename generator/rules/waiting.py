"""The finding of an action that comes before what it waits for, the same for every reason."""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.reasons import Reason
from generator.orders.walk import Unmet
from generator.rules.finding import Finding
from generator.rules.mends import mend_of
from generator.rules.sentences import what_is_wrong, when_it_happens
from generator.rules.wording import sentence, step_name

MOST_OTHERS = 3
"""How many more actions that wait for the same thing are named."""


def waiting(guide: Guide, *reasons: type[Reason]) -> Iterator[Finding]:
    """One finding for each cause of these kinds, in the order of the work."""
    for entry in guide.causes:
        if isinstance(entry.reason, reasons):
            yield _finding(guide, entry)


def _finding(guide: Guide, entry: Unmet) -> Finding:
    when = when_it_happens(guide, entry)
    others = [f"{sentence(step_name(guide, other.action.step))}: {what_is_wrong(guide, other)}" for other in entry.also]
    return Finding(
        place=entry.action.place,
        message=what_is_wrong(guide, entry),
        why=tuple(dict.fromkeys([line for line in (when,) if line] + others[:MOST_OTHERS])),
        mend=mend_of(guide, entry),
    )
