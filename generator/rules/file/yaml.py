"""file/yaml"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.source.faults import BrokenYaml


def yaml(read: HasFaults) -> Iterator[Finding]:
    """A file is no data that can be read, or uses signs that this format leaves out.

    Why: nothing of the file can be used until it is put right.
    Bad: `title: Lift: the shade`, where the second colon starts a new key.
    Good: `title: "Lift: the shade"`.
    Silent when: the file is plain YAML without anchors, aliases and tags.
    """
    for fault in faults_of(read, BrokenYaml):
        yield Finding(place=fault.place, message=fault.problem, mend=Mend(fault.hint) if fault.hint else None)
