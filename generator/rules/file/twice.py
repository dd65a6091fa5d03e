"""file/twice"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted
from generator.source.faults import KeyTwice


def twice(read: HasFaults) -> Iterator[Finding]:
    """The same key is given twice.

    Why: one of the two would be lost, and nobody could tell which.
    Bad: two parts named `shade:` in anatomy.yaml.
    Good: `shade:` and `inner-shade:`.
    Silent when: every key stands once at its place.
    """
    for fault in faults_of(read, KeyTwice):
        yield Finding(
            place=fault.place,
            message=f"The key {quoted(fault.key)} is given twice, first in line {fault.first.line}.",
            mend=Mend("Take one of the two out, or give it another name."),
        )
