"""text/bare"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted


def bare(guide: Guide) -> Iterator[Finding]:
    """A step has work, but not a word on how to do it.

    Why: a line such as "undo the clips" does not say where to begin, how hard to pull, or what to look out for.
    Bad: a step file that ends with its second `---`.
    Good: one or two sentences below it.
    Silent when: there is any text in the body, or no work.
    """
    for step in (*guide.steps, *guide.unused):
        if step.actions and (step.body is None or not step.body.markdown.strip()):
            yield Finding(
                place=step.place,
                message=f"The step {quoted(step.title)} has work, but no words that say how to do it.",
                mend=Mend("Write where to begin, how it lets go, and what to look out for."),
            )
