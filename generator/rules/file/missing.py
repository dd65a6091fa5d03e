"""file/missing"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.source.faults import MissingFile


def missing(read: HasFaults) -> Iterator[Finding]:
    """A file is not there that every guide or library has.

    Why: without it nothing can be said of the device.
    Bad: a folder `lamp` with steps, but without anatomy.yaml.
    Good: device.yaml and anatomy.yaml in every device's folder.
    Silent when: the file is there, be it nearly empty.
    """
    for fault in faults_of(read, MissingFile):
        yield Finding(
            place=fault.place,
            message=f"There is no file {fault.path}.",
            mend=Mend("Add it; `partway new` writes a small one to start from."),
        )
