"""ref/twice"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted


def twice(guide: Guide) -> Iterator[Finding]:
    """A step is named a second time in the order or the alternatives.

    Why: one file is one page of work done once; nobody can tell which of the two places is meant.
    Bad: `- lift-shade` as second and as fifth line of the order.
    Good: the step stands once; what really happens twice has a file of its own.
    Silent when: every step is named once.
    """
    for step, place in guide.named_twice:
        first = guide.line_in_order(step)
        where = f" line {first.line}" if first is not None else " an earlier line"
        yield Finding(
            place=place,
            message=f"The step {quoted(step)} stands in the order twice: here and in{where}.",
            mend=Mend("Take one of the two lines out."),
        )
