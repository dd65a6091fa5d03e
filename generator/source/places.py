"""Where a value stands in an authored file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

Loc = tuple[str | int, ...]


@dataclass(frozen=True, order=True, slots=True)
class Place:
    """A stretch of text: file (relative to the content folder, forward slashes), first and last position.

    Lines and columns count from 1, in characters; `end_column` is the column after the last character.
    """

    file: str
    line: int = 1
    column: int = 1
    end_line: int = 1
    end_column: int = 1

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Places:
    """The places of the values and keys of one file, by their path of keys and indexes from the top.

    >>> places = Places(Place("a.yaml"), {("joints", "plug"): Place("a.yaml", 3, 5, 3, 20)})
    >>> str(places.value("joints", "plug", "behind"))
    'a.yaml:3:5'
    """

    whole: Place
    values: Mapping[Loc, Place] = field(default_factory=lambda: MappingProxyType({}))
    keys: Mapping[Loc, Place] = field(default_factory=lambda: MappingProxyType({}))

    def value(self, *loc: str | int) -> Place:
        """The place of the value at `loc`, or of the deepest value above it that was written."""
        return _deepest(self.values, loc, self.whole)

    def key(self, *loc: str | int) -> Place:
        """The place of the key that ends `loc`; where there is no such key, the place of the value above."""
        found = self.keys.get(loc)
        return found if found is not None else self.value(*loc)

    def __reduce__(self) -> tuple[type[Places], tuple[Place, dict[Loc, Place], dict[Loc, Place]]]:
        """Read-only views cannot be sent to another process; plain ones can."""
        return Places, (self.whole, dict(self.values), dict(self.keys))


def _deepest(known: Mapping[Loc, Place], loc: Loc, whole: Place) -> Place:
    for end in range(len(loc), 0, -1):
        found = known.get(loc[:end])
        if found is not None:
            return found
    return whole
