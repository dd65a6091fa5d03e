"""time/bad"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted
from generator.source.faults import BadTime


def bad(read: HasFaults) -> Iterator[Finding]:
    """A time in the film cannot be read.

    Why: the link to the film would lead nowhere, and no still can be cut.
    Bad: `video: "0:75"`, or `video: 1m20`.
    Good: `video: "1:15"`, or a stretch: `video: "0:42-1:55"`.
    Silent when: times are written `m:ss` or `h:mm:ss`.
    """
    for fault in faults_of(read, BadTime):
        yield Finding(
            place=fault.place,
            message=f"The time {quoted(fault.written)} cannot be found in a film.",
            mend=Mend(f"Write {fault.wanted}."),
        )
