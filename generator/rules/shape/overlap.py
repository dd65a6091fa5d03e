"""shape/overlap"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from generator.anatomy.parts import Part
from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.wording import part_name, sentence

TOLERANCE = 0.05
"""mm; see shape/outside."""


def overlap(guide: Guide) -> Iterator[Finding]:
    """Two parts take up the same room.

    Why: one of them is measured wrongly, and the section drawing shows one running through the other.
    Bad: a battery from 1.9 to 6.7 mm below the back, and a cable from 1.5 to 2.5 mm in the same place.
    Good: the cable from 1.5 to 1.8 mm, above the battery.
    Silent when: `depth` or `thickness` of one is not written, they are on different faces, one is the base or sits inside
    the other, one has an `outline` or `holes` (its box says too much), or they overlap by no more than 0.05 mm.
    """
    parts = [part for part in guide.anatomy.parts.values() if part.id != guide.anatomy.base and _is_known(part)]
    for one, other in combinations(parts, 2):
        if one.face == other.face and not _belong_together(guide, one, other) and _share_room(one, other):
            yield Finding(
                place=other.places.value("parts", other.id, "box"),
                message=(
                    f"{sentence(part_name(guide, other.id))} cannot be where {part_name(guide, one.id)} is: "
                    "their boxes and depths overlap."
                ),
                mend=Mend("Measure `box`, `depth` and `thickness` of both again."),
            )


def _is_known(part: Part) -> bool:
    has_measures = part.box is not None and part.depth is not None and part.thickness is not None
    return has_measures and not part.outline and not part.holes


def _belong_together(guide: Guide, one: Part, other: Part) -> bool:
    return one.id in guide.anatomy.assembly(other.id) or other.id in guide.anatomy.assembly(one.id)


def _share_room(one: Part, other: Part) -> bool:
    assert one.box is not None and other.box is not None
    assert one.depth is not None and other.depth is not None and one.thickness is not None and other.thickness is not None
    shared = (
        min(one.box.right, other.box.right) - max(one.box.x, other.box.x),
        min(one.box.bottom, other.box.bottom) - max(one.box.y, other.box.y),
        min(one.depth + one.thickness, other.depth + other.thickness) - max(one.depth, other.depth),
    )
    return all(length > TOLERANCE for length in shared)
