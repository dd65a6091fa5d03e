"""file/key"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.rules.wording import listed, near_names, quoted
from generator.source.faults import MissingKey, UnknownKey

ONE_A_FILE = ("library", "device", "anatomy", "step", "file")


def key(read: HasFaults) -> Iterator[Finding]:
    """A key is written that the format does not have, or one is missing that has to be there.

    Why: what stands under a misspelt key would be lost without a word.
    Bad: `undos: shade-screws`, or a step without `title`.
    Good: `undo: shade-screws`.
    Silent when: every key is known and every needed key is there.
    """
    for fault in faults_of(read, UnknownKey):
        yield Finding(
            place=fault.place,
            message=f"{_inside(fault.inside)} has no key {quoted(fault.key)}.",
            why=_what_there_is(fault),
            mend=Mend("Correct the key, or take the line out."),
        )
    for missing in faults_of(read, MissingKey):
        yield Finding(
            place=missing.place,
            message=f"{_inside(missing.inside)} lacks the key {quoted(missing.key)}.",
            mend=Mend(f"Add `{missing.key}:` here."),
        )


def _what_there_is(fault: UnknownKey) -> tuple[str, ...]:
    """The keys that may be meant, and all there are: the near one is often not the one an author looks for."""
    known = (f"Its keys are {listed(fault.known)}.",) if fault.known else ()
    return (near_names(fault.near), *known) if fault.near else known


def _inside(noun: str) -> str:
    """`The joint "back-glue"`, `The device`, but `A photo`: of photos there are several, of devices one a file."""
    if noun in ONE_A_FILE or noun.endswith('"'):
        return f"The {noun}"
    return f"{'An' if noun[:1] in 'aeiou' else 'A'} {noun}"
