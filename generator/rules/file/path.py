"""file/path"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted
from generator.source.faults import BadPath


def path(read: HasFaults) -> Iterator[Finding]:
    """A path or link leads where it may not: out of the folder, or to a kind of address that a page does not link to.

    Why: a guide is passed on and opened by strangers; it may show only what lies in its own folder and link only to the web.
    Bad: `file: ../../letters/scan.jpg`, or a link to `javascript:`.
    Good: `file: shade-off.jpg`, or a link that starts with https://.
    Silent when: paths stay in the device's folder and links go to the web, to mail, or into the guide.
    """
    for fault in faults_of(read, BadPath):
        yield Finding(
            place=fault.place,
            message=f"{quoted(fault.written)} cannot be followed ({fault.reason}).",
            mend=Mend(_what_to_do(fault.reason)),
        )


def _what_to_do(reason: str) -> str:
    if reason.startswith("it is a link"):
        return "Put the file or folder itself there."
    if " is named with " in reason or reason.startswith("its name "):
        return "Give it another name."
    if reason.startswith("this text belongs to no device"):
        return "Name an address that starts with https://, or leave the words without a link."
    return "Name a file in the device's folder, or an address that starts with https://."
