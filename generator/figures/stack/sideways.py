"""Parts that leave sideways: the stack draws them drawn out at their own level."""

from __future__ import annotations

from collections.abc import Mapping

from generator.anatomy.parts import PartId
from generator.figures.plan.before import before_each
from generator.figures.plan.view import drawn_out, shapes_of, view_of
from generator.figures.stack.leaving import Leaving
from generator.orders.guide import Guide

Way = tuple[int, int]

_WAYS: Mapping[int, Way] = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}


def sideways_of(guide: Guide, leaving: Leaving) -> Mapping[PartId, Way]:
    """The parts that can only leave sideways, each with its way along x and y of the device; the same as the plans show."""
    faces, size = guide.device.faces, guide.device.size
    found: dict[PartId, Way] = {}
    for number, (step, before) in enumerate(zip(leaving.steps, before_each(leaving.steps, faces), strict=True)):
        fresh = [part for part in step.lifted if leaving.own.get(part) == number and part not in leaving.taken_by]
        if not any(guide.anatomy.parts[part].box is not None for part in fresh):
            continue
        view = view_of(guide.anatomy, step, before, faces, size)
        for part, degrees in drawn_out(view, shapes_of(guide.anatomy, view, before)[1]).items():
            if part in fresh:
                x, y = _WAYS[degrees]
                found[part] = (x if view.mirror is None else -x, y)
    return found
