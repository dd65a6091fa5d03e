"""file/size"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.source.faults import TooBig


def size(read: HasFaults) -> Iterator[Finding]:
    """A file is larger, deeper nested or longer than a guide can need.

    Why: such a file is a slip or a trap, and reading it could take all of the machine's memory.
    Bad: a step file of 40 MB.
    Good: photos and clips in `media`, words in the step.
    Silent when: it stays within the bounds.
    """
    for fault in faults_of(read, TooBig):
        yield Finding(
            place=fault.place,
            message=f"The {fault.what} goes beyond what is read: {fault.limit}.",
            mend=Mend("Make it smaller, or divide it."),
        )
