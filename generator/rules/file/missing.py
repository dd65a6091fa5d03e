"""file/missing"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.source.faults import MissingFile

STARTS = {
    "library.yaml": "`title:` and what the collection is called",
    "device.yaml": "`name:` of the device, and `order:` with the names of its step files, one a line",
    "anatomy.yaml": "`base:` with the part that all is mounted on, then `parts:` and `joints:`",
}
"""What is enough to begin each file with."""


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
            mend=Mend(_what_to_add(fault.path)),
        )


def _what_to_add(path: str) -> str:
    start = STARTS.get(path.rpartition("/")[2])
    return f"Add it. To begin with it needs {start}." if start else "Add it."
