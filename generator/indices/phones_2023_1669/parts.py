"""Which parts of a guide are priority parts of the act, and the way to each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.indices.declarations import roles_in
from generator.indices.operations import NoPath, Operation, Path, path_to
from generator.indices.phones_2023_1669.formula import priority_parts
from generator.indices.phones_2023_1669.tables import PARTS, PriorityPart
from generator.orders.guide import Guide


@dataclass(frozen=True)
class Priorities:
    """The priority parts that carry weight, each with the parts of the guide that have its role, and the way to each."""

    is_foldable: bool
    parts: tuple[tuple[PriorityPart, tuple[PartId, ...]], ...]
    paths: Mapping[PartId, Path | NoPath]

    def first_since_last_part(self, operations: Sequence[Operation]) -> int:
        """The first operation after the last priority part that is taken out before the end of the run."""
        taken = {other.taken for other in self.paths.values() if isinstance(other, Path)}
        latest = 0
        for number, operation in enumerate(operations[:-1]):
            if taken.intersection(operation.removes):
                latest = number + 1
        return latest


def priorities_of(guide: Guide) -> Priorities:
    """The foldable weights hold for what is declared foldable or has a part with the role of a folding mechanism."""
    codes = {part.id: found for part in guide.anatomy.parts.values() if (found := codes_of(part.role))}
    is_foldable = guide.device.kind == "foldable phone" or any("FM" in found for found in codes.values())
    named = tuple(
        (priority, tuple(part for part, found in codes.items() if priority.code in found))
        for priority in priority_parts(is_foldable)
    )
    return Priorities(is_foldable, named, {part: path_to(guide, part) for part in codes})


def codes_of(role: str | None) -> tuple[str, ...]:
    """The codes of the priority parts that a role means; a part may serve as several, one removal then counts for each."""
    named = set(roles_in(role))
    return tuple(part.code for part in PARTS if named.intersection(part.roles))
