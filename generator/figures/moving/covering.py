"""What is painted before what, so that it is right wherever the moving parts are.

Parts move along the depth only, so two that lie beside each other, seen from a face, stay beside each other: the one nearer
to the viewer is painted later. Of two that lie over each other the outer one is, as it leaves first. (Where one is nearer
along x and the other along y, or one is above and the other nearer, no line of sight meets both.)
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.anatomy.parts import Box, PartId
from generator.figures.stack.arrangement import Arrangement
from generator.figures.stack.solids import Solid

_NEAR = 0.05  # mm


@dataclass(frozen=True, slots=True)
class Body:
    """A part as it covers others: all the ground it passes over (mm of a handset), depth of its top, level.

    layer: 0 leaves through the second face, 1 the base, 2 stays in it, 3 leaves through the first face. slides: the way it
    is drawn out.
    """

    part: PartId
    ground: Box
    z: float
    thickness: float
    level: int
    layer: int
    slides: tuple[float, float]

    @property
    def leaves_behind(self) -> bool:
        """Whether it is drawn out of a side that faces away from the viewer."""
        return min(self.slides) < 0


def painting_order(arranged: Arrangement) -> tuple[PartId, ...]:
    """Every drawn part, what comes later covers what came before. Where three go round in a ring the deepest goes first."""
    left = bodies_of(arranged)
    waits = {one.part: {other.part for other in left if other is not one and is_before(other, one)} for one in left}
    order: list[PartId] = []
    while left:
        ready = next((one for one in left if not waits[one.part]), left[0])
        left.remove(ready)
        order.append(ready.part)
        for gone in waits.values():
            gone.discard(ready.part)
    return tuple(order)


def bodies_of(arranged: Arrangement) -> list[Body]:
    """The parts as the stack paints them, deepest level first."""
    return [
        _body(arranged, solid, number)
        for number, level in reversed(list(enumerate(arranged.levels)))
        for solid in level.solids
    ]


def is_before(one: Body, other: Body) -> bool:
    """Whether `one` has to be painted before `other`."""
    for slider, body, is_first in ((one, other, True), (other, one, False)):
        if slider.leaves_behind and body.layer > 0 and not body.leaves_behind:
            return is_first  # out of a slot in the far side of the base: behind that and all that lies in it
    if {one.layer, other.layer} & {0, 1} and one.layer != other.layer:
        return one.layer < other.layer
    behind, nearer = _is_behind(one.ground, other.ground), _is_behind(other.ground, one.ground)
    if behind or nearer:
        return behind and not nearer
    if one.layer != other.layer:
        return one.layer < other.layer
    if one.level != other.level:
        return one.level > other.level
    if one.z >= other.z + other.thickness - _NEAR:
        return True
    if other.z >= one.z + one.thickness - _NEAR:
        return False
    return one.z > other.z + _NEAR


def _is_behind(one: Box, other: Box) -> bool:
    """Whether a line of sight can meet `one` first and `other` nearer to the viewer, but not the other way round."""
    return one.right <= other.x + _NEAR or one.bottom <= other.y + _NEAR


def _body(arranged: Arrangement, solid: Solid, level: int) -> Body:
    leaving, base = arranged.leaving, arranged.guide.anatomy.base
    dx, dy = solid.shift
    box = solid.box
    ground = Box(min(box.x, box.x - dx), min(box.y, box.y - dy), box.width + abs(dx), box.height + abs(dy))
    layer = 1 if solid.part == base else 0 if solid.part in leaving.below else 3 if solid.part in leaving.goes else 2
    return Body(solid.part, ground, solid.z, solid.thickness, level, layer, (dx, dy))
