"""file/kind"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted
from generator.source.characters import shown
from generator.source.faults import WrongKind

NOTHING = shown(None)
"""How a value that was left empty is named in a fault."""

NAMED = (shown([]), shown({}))
"""Values that a fault does not repeat but names; they are no text of the author's."""


def kind(read: HasFaults) -> Iterator[Finding]:
    """A value is of another kind, or in another unit, than belongs there.

    Why: 80 °F taken for 80 °C, or inches for millimetres, does harm at the bench.
    Bad: `torque: 6 Ncm`, or `takes: soon`.
    Good: `torque: 0.06 N·m`, `takes: 4 min`.
    Silent when: the value is written as the format asks.
    """
    for fault in faults_of(read, WrongKind):
        yield Finding(place=fault.place, message=_what_is_wrong(fault), mend=Mend(f"Write {fault.wanted}."))


def _what_is_wrong(fault: WrongKind) -> str:
    if fault.is_key:
        return f"The key {quoted(fault.written)} does not fit what stands beside it."
    if fault.written == NOTHING:
        return f"Nothing is written for {quoted(fault.key)}."
    if fault.key == fault.written:
        return f"{quoted(fault.written)} cannot be a name here."
    written = "What stands here" if fault.written in NAMED else quoted(fault.written)
    return f"{written} is not what {quoted(fault.key)} can be."
