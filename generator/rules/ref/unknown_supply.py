"""ref/unknown-supply"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.dangling import HasDangling, dangling
from generator.rules.finding import Finding


def unknown_supply(read: HasDangling) -> Iterator[Finding]:
    """A step or the prose names a supply that supplies.yaml does not have.

    Why: the reader cannot get ready what is nowhere described, nor be warned of it.
    Bad: `supply: alcohol`, where supplies.yaml has `solvent`.
    Good: `supply: solvent`.
    Silent when: the name is one of supplies.yaml.
    """
    yield from dangling(read, "supply", "supplies.yaml")
