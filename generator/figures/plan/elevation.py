"""The side of the device, third angle: what lies how deep, and which way the part in hand comes out."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import Box, PartId, Point
from generator.figures.plan.motion import ground_of
from generator.figures.plan.placing import is_touched
from generator.figures.plan.shapes import IN_HAND, Arrow, Elevation, Pane, Shape, State
from generator.figures.plan.sheet import Layout
from generator.figures.plan.stacking import layers
from generator.figures.plan.view import View, seen_of

_ASIDE = (0.0, 22.0, -22.0, 34.0, -34.0)  # units an arrow may be moved along the device


def elevation_of(
    anatomy: Anatomy,
    view: View,
    layout: Layout,
    field: Box,
    shapes: Sequence[Shape],
    sideways: Collection[PartId],
    grounds: Sequence[tuple[Point, Point]],
) -> Elevation | None:
    """The view beside or below the plan; None where no part has a thickness, or the work is done on the bench.

    grounds: what is taken on the plan, as middle and half size; arrows make way for it.
    """
    side = layout.side
    if side is None or view.on_bench:
        return None
    known, whole = layers(anatomy, view.second)
    below = layout.side_below
    thinnest = 2.4 / (side.down if below else side.across)

    def upright(box: Box, start: float, thickness: float) -> Box:
        return Box(box.x, start, box.width, thickness) if below else Box(start, box.y, thickness, box.height)

    states = {shape.part: shape.state for shape in shapes if shape.part is not None}
    flat: list[tuple[float, Shape]] = []
    carried = _carried(anatomy, view)
    for part in anatomy.parts:
        box = anatomy.parts[part].box
        if part not in known or box is None or part not in view.present:
            continue
        drawn = view.box(box)
        layer = known[part]
        start = whole - layer.end if view.mirror is not None else layer.start
        nearness = drawn.bottom if below else drawn.right
        state = states.get(part, State.CARRIED if part in carried else State.PLACE)
        if state not in (State.ASIDE, State.ASIDE_HAND):
            flat.append((nearness, Shape(part, state, upright(drawn, start, max(layer.thickness, thinnest)))))
    moved = [part for part in (*view.lifted, *view.folded) if part not in sideways]
    flat.sort(key=lambda pair: (pair[1].state in IN_HAND, pair[0]))
    return Elevation(
        side,
        upright(field, 0.0, whole),
        seen_of([shape for _, shape in flat]),
        _arrows([shape for _, shape in flat if shape.part in moved], side, below, grounds),
    )


def _carried(anatomy: Anatomy, view: View) -> frozenset[PartId]:
    handled = [part for part in (*view.lifted, *view.folded) if part != anatomy.base]
    return frozenset[PartId]().union(*(anatomy.assemblies[part] for part in handled))


def _arrows(shapes: Sequence[Shape], side: Pane, below: bool, grounds: Sequence[tuple[Point, Point]]) -> tuple[Arrow, ...]:
    """One arrow a lifted part, out of the face that lies up, beside its middle if that is taken; close parts share one."""
    arrows: list[Arrow] = []
    for shape in shapes:
        x, y = side.point(shape.box.centre)
        tries = [Arrow((x + away, side.top - 5), 270) if below else Arrow((side.left - 5, y + away), 180) for away in _ASIDE]
        if any(math.dist(tries[0].tail, other.tail) <= 26 for other in arrows):
            continue
        arrows.append(next((arrow for arrow in tries if not is_touched(*ground_of(arrow), grounds)), tries[0]))
    return tuple(arrows)
