"""The finding of a name that points nowhere, the same for every kind of thing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol

from generator.anatomy.reading import Dangling
from generator.rules.finding import Finding, Mend
from generator.rules.wording import near_names, quoted
from generator.source.places import Place


class HasDangling(Protocol):
    """A guide or a library."""

    @property
    def dangling(self) -> tuple[Dangling, ...]: ...


def dangling(read: HasDangling, kind: str, where: str) -> Iterator[Finding]:
    """One finding for each name of this kind; where: what such things are named in, `{device}` standing for the folder."""
    for name in read.dangling:
        if name.kind == kind:
            yield Finding(
                place=name.place,
                message=f"There is no {kind} {quoted(name.name)} in {_in_folder(where, name.place)}.",
                why=(near_names(name.near),) if name.near else (),
                mend=Mend(f"Correct the name, or add the {kind}."),
            )


def _in_folder(where: str, place: Place) -> str:
    folder, slash, _ = place.file.partition("/")
    return where.replace("{device}/", f"{folder}/" if slash else "any ")
