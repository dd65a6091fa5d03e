"""language/work"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted
from generator.source.faults import NotWords


def work(read: HasFaults) -> Iterator[Finding]:
    """A translation of a step has a key that is no words: work, times, ids.

    Why: work stands once, in the original; a second copy would be ignored here and go out of date.
    Bad: `work:` in `steps/open-back.de.md`.
    Good: `title:`, `cautions:` and `checks:` there, and the words below.
    Silent when: the translation has words only.
    """
    for fault in faults_of(read, NotWords):
        yield Finding(
            place=fault.place,
            message=f"A translation has words only, and {quoted(fault.key)} is none of them.",
            mend=Mend("Take it out here; it stands in the original."),
        )
