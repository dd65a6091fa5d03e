"""Parts that leave sideways: the stack draws them drawn out at their own level."""

from __future__ import annotations

from collections.abc import Mapping

from generator.anatomy.parts import Box, Part, PartId
from generator.figures.plan.before import before_each
from generator.figures.plan.view import drawn_out, shapes_of, view_of
from generator.figures.stack.leaving import Leaving
from generator.orders.guide import Guide

Way = tuple[int, int]

_NEAR_EDGE = 0.05  # share of the smaller side; the plans ask for less
_ALL = 0.6  # share of the device's area: so large a part is a cover, not something in a slot

_WAYS: Mapping[int, Way] = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}


def sideways_of(guide: Guide, leaving: Leaving) -> Mapping[PartId, Way]:
    """The parts that can only leave sideways, each with its way along x and y of the device; the same as the plans show."""
    faces, size = guide.device.faces, guide.device.size
    found: dict[PartId, Way] = {}
    boxes = [part.box for part in guide.anatomy.parts.values() if part.box is not None]
    if not boxes:
        return found
    left, top = min(box.x for box in boxes), min(box.y for box in boxes)
    field = Box(left, top, max(box.right for box in boxes) - left, max(box.bottom for box in boxes) - top)
    if size is not None:
        field = Box(0.0, 0.0, *size)
    for number, (step, before) in enumerate(zip(leaving.steps, before_each(leaving.steps, faces), strict=True)):
        fresh = [part for part in step.lifted if leaving.own.get(part) == number and part not in leaving.taken_by]
        if not any(_may_slide(guide.anatomy.parts[part], field) for part in fresh):
            continue
        view = view_of(guide.anatomy, step, before, faces, size)
        for part, degrees in drawn_out(view, shapes_of(guide.anatomy, view, before)[1]).items():
            if part in fresh and _may_slide(guide.anatomy.parts[part], field):
                x, y = _WAYS[degrees]
                found[part] = (x if view.mirror is None else -x, y)
    return found


def _may_slide(part: Part, field: Box) -> bool:
    """Whether a part reaches the edge of the device, and is not all of it: worth the closer look that a plan takes."""
    box = part.box
    if box is None or box.width * box.height > _ALL * field.width * field.height:
        return False
    near = _NEAR_EDGE * min(field.width, field.height)
    return min(box.x - field.x, box.y - field.y, field.right - box.right, field.bottom - box.bottom) <= near
