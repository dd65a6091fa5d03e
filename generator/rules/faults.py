"""The faults of reading that a guide or a library carries."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol, TypeVar

from generator.source.faults import Fault

F = TypeVar("F", bound=Fault)


class HasFaults(Protocol):
    """A guide or a library."""

    @property
    def faults(self) -> tuple[Fault, ...]: ...


def faults_of(read: HasFaults, kind: type[F]) -> Iterator[F]:
    """The faults of one kind, in the order in which they were met."""
    return (fault for fault in read.faults if isinstance(fault, kind))
