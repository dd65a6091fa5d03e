"""Screws over their holes, and the axes they go in along."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import JointId, PartId
from generator.figures.stack.apart import Level
from generator.figures.stack.leaving import Leaving
from generator.figures.stack.projection import projected
from generator.figures.stack.solids import Solid

HOVER = 15.0
"""mm of a handset that a screw is drawn over its hole."""

SCREWS_LIMIT = 60
"""Screws drawn on one part; of more the first ones are."""

_PLAIN_THREAD = 1.6  # mm, of a screw whose thread is not told
_LEAST_THREAD = 1.2  # mm of a handset: thinner screws are drawn like this, or they would be hairs
_MOST_THREAD = 4.0
_PLAIN_LENGTH = 4.0
_LENGTHS = (2.0, 9.0)  # mm of a handset: shortest and longest shaft drawn


@dataclass(frozen=True, slots=True)
class Fastened:
    """A screw in mm: its hole in the part at x, y; diameter and length as drawn; where in the stack its axis ends.

    start and end: levels by number from the top of the sheet; end_depth: where on that level, mm from the first face.
    """

    part: PartId
    joint: JointId
    x: float
    y: float
    diameter: float
    length: float
    start: int
    end: int
    end_depth: float


def fastened(leaving: Leaving, levels: Sequence[Level], by: float) -> tuple[Fastened, ...]:
    """The screws that the run takes out, on the parts they leave with; `by` scales mm of the device.

    Screws without a place are left out; so are those of parts that are not drawn or drawn slid out.
    """
    where = {solid.part: (number, solid) for number, level in enumerate(levels) for solid in level.solids}
    found: list[Fastened] = []
    for joint in leaving.anatomy.joints.values():
        if joint.kind is not JointKind.SCREWS or joint.id not in leaving.undone or not joint.positions:
            continue
        holder = leaving.holder(joint)
        if holder not in where:
            continue
        start, solid = where[holder]
        if solid.shift != (0.0, 0.0):
            continue
        end, depth = _bite(leaving, joint, holder, where, start)
        found += [
            Fastened(holder, joint.id, x * by, y * by, _diameter(joint, by), _length(joint, index, by), start, end, depth)
            for index, (x, y) in enumerate(joint.positions[:SCREWS_LIMIT])
        ]
    return tuple(found)


def axes_of(screws: Sequence[Fastened], levels: Sequence[Level]) -> tuple[tuple[tuple[float, float, float], ...], ...]:
    """For every level the stretches of axes that reach it from the level above: u, upper v, lower v in isometric mm.

    Painted after the parts of that level and before those of the level above, every stretch is hidden by what lies in front
    of it and hides what lies behind.
    """
    found: list[list[tuple[float, float, float]]] = [[] for _ in levels]
    tops = {solid.part: solid for level in levels for solid in level.solids}
    for screw in screws:
        solid = tops[screw.part]
        upper, lower = sorted((screw.start, screw.end))
        if upper == lower:
            continue
        starts_above = screw.start < screw.end
        near = solid.z + solid.thickness if starts_above else solid.z
        for level in range(upper + 1, lower + 1):
            # Depth at which the axis passes a level it does not end on: that of the place the screw sits at.
            top = near if level - 1 == screw.start else screw.end_depth if level - 1 == screw.end else solid.z
            foot = near if level == screw.start else screw.end_depth if level == screw.end else solid.z
            u, high = projected(screw.x, screw.y, levels[level - 1].offset + top)
            _, low = projected(screw.x, screw.y, levels[level].offset + foot)
            if low - high > 0.5:
                found[level].append((u, high, low))
    return tuple(tuple(lines) for lines in found)


def _bite(
    leaving: Leaving, joint: Joint, holder: PartId, where: Mapping[PartId, tuple[int, Solid]], start: int
) -> tuple[int, float]:
    """The level and depth of what the joint's screws go into: the other end furthest away, else the base."""
    others = [end for end in joint.joins if end in where and end != holder] or [
        base for base in (leaving.anatomy.base,) if base in where and base != holder
    ]
    if not others:
        return start, where[holder][1].z
    toward = max(others, key=lambda end: (abs(where[end][0] - start), end))
    level, solid = where[toward]
    return level, solid.z if level >= start else solid.z + solid.thickness


def _diameter(joint: Joint, by: float) -> float:
    written = (joint.thread or "").strip().lstrip("MS").partition("x")[0].partition("×")[0]
    known = float(written) if written.replace(".", "", 1).isdigit() else _PLAIN_THREAD
    return round(max(_LEAST_THREAD, min(known * by, _MOST_THREAD)), 1)


def _length(joint: Joint, index: int, by: float) -> float:
    known = joint.lengths[index] if index < len(joint.lengths) else _PLAIN_LENGTH
    return round(max(_LENGTHS[0], min(known * by, _LENGTHS[1])), 1)
