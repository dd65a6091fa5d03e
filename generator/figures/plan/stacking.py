"""Which part lies over which: the order of painting, and depths where the author gave none."""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import Box, Part, PartId


@dataclass(frozen=True, slots=True)
class Layer:
    """Where a part lies along the depth, mm from the first face, and how thick it is drawn."""

    start: float
    thickness: float

    @property
    def end(self) -> float:
        return self.start + self.thickness


def box_of(anatomy: Anatomy, part: PartId) -> Box | None:
    """The part's box, or that of the nearest part it is inside of; never the base's for another part."""
    above: PartId | None = part
    while above is not None and above in anatomy.parts and (above == part or above != anatomy.base):
        if anatomy.parts[above].box is not None:
            return anatomy.parts[above].box
        above = anatomy.parts[above].inside
    return None


def painted(anatomy: Anatomy, from_second: bool, second: str | None) -> tuple[PartId, ...]:
    """The parts with a box from the deepest to the shallowest, as seen from one of the two sides.

    second: the face opposite the first one, if there is one; every other face counts to the side of the first. What
    belongs to the side turned away lies below the base. Depth decides between parts that have one; else `under`, `behind`
    and `inside` do, else the anatomy's order, the first part being the outermost. Contradictions are passed over.
    """
    drawn = [part for part in anatomy.parts.values() if part.box is not None and part.id != anatomy.base]
    near = [part for part in drawn if (part.face == second) == from_second]
    far = [part for part in drawn if (part.face == second) != from_second]
    base = anatomy.parts.get(anatomy.base)
    floor = (base.id,) if base is not None and base.box is not None else ()
    return (*reversed(_deep_to_shallow(anatomy, far)), *floor, *_deep_to_shallow(anatomy, near))


def layers(anatomy: Anatomy, second: str | None) -> tuple[Mapping[PartId, Layer], float]:
    """Every part with a thickness along the depth of the device, and how deep the device is, mm.

    Depths that are missing are worked out: a part lies on what it overlaps with below, hence under what is drawn over it.
    The depth of the device is the furthest any part reaches in from its face; 0 if no part has a thickness.
    """
    depths: dict[PartId, float] = {}
    for from_second in (False, True):
        near = [
            part
            for part in anatomy.parts.values()
            if part.box is not None and part.id != anatomy.base and (part.face == second) == from_second
        ]
        above: list[Part] = []
        for name in reversed(_deep_to_shallow(anatomy, near)):
            part = anatomy.parts[name]
            depths[name] = part.depth if part.depth is not None else _resting_depth(part, above, depths)
            above.append(part)
    base = anatomy.parts.get(anatomy.base)
    if base is not None and base.box is not None:
        depths[base.id] = base.depth or 0.0
    thick = {name: anatomy.parts[name].thickness or 0.0 for name in depths}
    whole = max((depths[name] + thick[name] for name in depths if thick[name] > 0), default=0.0)
    return {
        name: Layer(whole - depth - thick[name] if anatomy.parts[name].face == second else depth, thick[name])
        for name, depth in depths.items()
        if thick[name] > 0
    }, whole


def overlap(one: Box, other: Box) -> bool:
    return one.x < other.right and other.x < one.right and one.y < other.bottom and other.y < one.bottom


def _resting_depth(part: Part, above: Iterable[Part], depths: Mapping[PartId, float]) -> float:
    box = part.box
    return max(
        (
            depths[over.id] + (over.thickness or 0.0)
            for over in above
            if box is not None and over.box is not None and overlap(box, over.box)
        ),
        default=0.0,
    )


def _deep_to_shallow(anatomy: Anatomy, parts: list[Part]) -> list[PartId]:
    """Topological order by what lies over what; ready parts go deepest first, by depth or else by the anatomy's order."""
    rank = {part.id: (-_depth_rank(parts, index), -index) for index, part in enumerate(parts)}
    waits: dict[PartId, set[PartId]] = {part.id: set() for part in parts}
    for lower, upper in _over(anatomy):
        if lower in waits and upper in waits and lower != upper and not _both_known(anatomy, lower, upper):
            waits[upper].add(lower)
    shallower: dict[PartId, list[PartId]] = {part.id: [] for part in parts}
    for upper, lowers in waits.items():
        for lower in lowers:
            shallower[lower].append(upper)
    ready = [(rank[part], part) for part, lowers in waits.items() if not lowers]
    rest = sorted((rank[part], part) for part in waits)
    heapq.heapify(ready)
    order: dict[PartId, None] = {}
    while len(order) < len(parts):
        while rest[0][1] in order:
            rest.pop(0)
        # Nothing ready although parts are left: they lie over each other in a ring, so the deepest goes first.
        part = heapq.heappop(ready)[1] if ready else rest.pop(0)[1]
        if part in order:
            continue
        order[part] = None
        for upper in sorted(shallower[part]):
            waits[upper].discard(part)
            if not waits[upper] and upper not in order:
                heapq.heappush(ready, (rank[upper], upper))
    return list(order)


def _depth_rank(parts: list[Part], index: int) -> float:
    """Depth of a part, or that of the nearest part before it in the anatomy that has one."""
    return next((depth for part in reversed(parts[: index + 1]) if (depth := part.depth) is not None), 0.0)


def _over(anatomy: Anatomy) -> Iterable[tuple[PartId, PartId]]:
    """Pairs (lower, upper)."""
    for part in anatomy.parts.values():
        yield from ((part.id, upper) for upper in part.under)
        if part.inside is not None:
            yield part.inside, part.id
    for joint in anatomy.joints.values():
        for upper in joint.behind:
            yield from ((end, upper) for end in joint.joins if upper not in joint.joins)


def _both_known(anatomy: Anatomy, one: PartId, other: PartId) -> bool:
    return anatomy.parts[one].depth is not None and anatomy.parts[other].depth is not None
