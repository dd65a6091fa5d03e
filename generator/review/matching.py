"""Which things of two states of a guide are the same thing, whatever they are called."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from typing import TypeVar

K = TypeVar("K", bound=str)

Traits = frozenset[Hashable]

LIKE_ENOUGH = 0.6
"""Traits shared of all traits of both, from which a thing that went and one that came are taken for one renamed thing."""

MOST_COMPARED = 400
"""Things gone or come that are held against each other; beyond that only what says its old name counts as renamed."""


def renamed(
    gone: Mapping[K, Traits], came: Mapping[K, Traits], formerly: Mapping[K, Sequence[str]]
) -> dict[K, K]:
    """New name to old name for what went under one name and came under another.

    First by what the author says it was called before, then the likest pairs; ties go by the order of the names.
    """
    found: dict[K, K] = {}
    taken: set[K] = set()
    for name in came:
        old = next((old for old in gone if old in formerly.get(name, ()) and old not in taken), None)
        if old is not None:
            found[name] = old
            taken.add(old)
    if max(len(gone), len(came)) > MOST_COMPARED:
        return found
    pairs = [
        (-_likeness(gone[old], came[new]), old, new)
        for old in gone
        for new in came
        if old not in taken and new not in found and _likeness(gone[old], came[new]) >= LIKE_ENOUGH
    ]
    for _, old, new in sorted(pairs):
        if old not in taken and new not in found:
            found[new] = old
            taken.add(old)
    return found


def _likeness(one: Traits, other: Traits) -> float:
    either = len(one | other)
    return len(one & other) / either if either else 0.0
