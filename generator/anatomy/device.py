"""The anatomy of one device: parts and joints, with assemblies worked out once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import JointId, Part, PartId


@dataclass(frozen=True)
class Anatomy:
    """Parts and joints by id, in the author's order; `base` is what everything is mounted on."""

    base: PartId
    parts: Mapping[PartId, Part]
    joints: Mapping[JointId, Joint] = field(default_factory=dict)

    @cached_property
    def assemblies(self) -> Mapping[PartId, frozenset[PartId]]:
        """A(p) for every part: p and every part whose `inside` chain leads to p; A(base) is the whole device.

        A chain of `inside` that bites its own tail must have been cut before (see `reading.read_anatomy`).
        """
        members: dict[PartId, set[PartId]] = {part: {part} for part in self.parts}
        for part in self.parts:
            for above in self.chain(part):
                members[above].add(part)
        members[self.base] = set(self.parts)
        return {part: frozenset(inner) for part, inner in members.items()}

    def assembly(self, part: PartId) -> frozenset[PartId]:
        return self.assemblies[part]

    @cached_property
    def _crossing(self) -> Mapping[PartId, tuple[Joint, ...]]:
        found: dict[PartId, list[Joint]] = {part: [] for part in self.parts}
        for joint in self.joints.values():
            chains = [frozenset(self.chain(end)) for end in joint.ends]
            above_any = frozenset[PartId]().union(*chains)
            for part in above_any - chains[0].intersection(*chains) - {self.base}:
                found[part].append(joint)
        return {part: tuple(joints) for part, joints in found.items()}

    def chain(self, part: PartId) -> Iterator[PartId]:
        """The part, what it is inside, what that is inside, and so on."""
        above: PartId | None = part
        while above is not None and above in self.parts:
            yield above
            above = self.parts[above].inside

    def crossing(self, part: PartId) -> tuple[Joint, ...]:
        """The joints that hold A(part) to the rest, in the author's order."""
        return self._crossing[part]

    @cached_property
    def charged(self) -> tuple[Part, ...]:
        """The parts that store a charge."""
        return tuple(part for part in self.parts.values() if part.charge is not None)

    @cached_property
    def supply_plugs(self) -> tuple[Joint, ...]:
        """The plugs that join a part with a cell: what makes the device dead when it is undone."""
        return tuple(
            joint
            for joint in self.joints.values()
            if joint.kind is JointKind.PLUG and any(self.parts[end].cell for end in joint.joins)
        )


def crosses(joint: Joint, assembly: frozenset[PartId]) -> bool:
    """Whether `joint` joins at least one part in `assembly` and at least one outside."""
    return any(end in assembly for end in joint.joins) and any(end not in assembly for end in joint.joins)
