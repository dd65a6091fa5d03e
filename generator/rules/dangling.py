"""The finding of a name that points nowhere, the same for every kind of thing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol

from generator.anatomy.reading import Dangling
from generator.rules.finding import Finding, Mend
from generator.rules.wording import near_names, quoted


class HasDangling(Protocol):
    """A guide or a library."""

    @property
    def dangling(self) -> tuple[Dangling, ...]: ...


def dangling(read: HasDangling, kind: str, where: str) -> Iterator[Finding]:
    """One finding for each name of this kind; where: the file in which such things are named, as a sentence says it."""
    for name in read.dangling:
        if name.kind == kind:
            yield Finding(
                place=name.place,
                message=f"There is no {kind} {quoted(name.name)} in {where}.",
                why=(near_names(name.near),) if name.near else (),
                mend=Mend(f"Correct the name, or add the {kind}."),
            )
