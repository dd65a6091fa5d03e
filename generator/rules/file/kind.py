"""file/kind"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted
from generator.source.faults import WrongKind


def kind(read: HasFaults) -> Iterator[Finding]:
    """A value is of another kind, or in another unit, than belongs there.

    Why: 80 °F taken for 80 °C, or inches for millimetres, does harm at the bench.
    Bad: `torque: 6 Ncm`, or `takes: soon`.
    Good: `torque: 0.06 N·m`, `takes: 4 min`.
    Silent when: the value is written as the format asks.
    """
    for fault in faults_of(read, WrongKind):
        written = quoted(fault.written) if fault.written else "Nothing"
        yield Finding(
            place=fault.place,
            message=f"{written} is not what {quoted(fault.key)} can be.",
            mend=Mend(f"Write {fault.wanted}."),
        )
