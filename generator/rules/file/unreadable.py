"""file/unreadable"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.source.faults import UnreadableFile


def unreadable(read: HasFaults) -> Iterator[Finding]:
    """A file or folder is there and cannot be read.

    Why: what is in it is missing from the guide.
    Bad: a step file saved in an old encoding, or one that only its owner may open.
    Good: text saved as UTF-8 that you may read.
    Silent when: the file opens and is UTF-8.
    """
    for fault in faults_of(read, UnreadableFile):
        yield Finding(
            place=fault.place,
            message=f"{fault.path} cannot be read: {fault.reason}.",
            mend=Mend(_what_to_do(fault.reason)),
        )


def _what_to_do(reason: str) -> str:
    if "link" in reason:
        return "Put the file or folder itself there."
    if "folder" in reason or "plain file" in reason:
        return "Take it away, or put there what belongs there."
    return "Save it again as UTF-8 text, in a place you may read."
