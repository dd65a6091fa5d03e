"""The side of the device, third angle: what lies how deep, and which way the part in hand comes out."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import Box, PartId
from generator.figures.plan.shapes import IN_HAND, Arrow, Elevation, Pane, Shape, State
from generator.figures.plan.sheet import Layout
from generator.figures.plan.stacking import layers
from generator.figures.plan.view import View, seen_of


def elevation_of(
    anatomy: Anatomy, view: View, layout: Layout, field: Box, shapes: Sequence[Shape], sideways: Collection[PartId]
) -> Elevation | None:
    """The view beside or below the plan; None where no part has a thickness, or the work is done on the bench."""
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
        _arrows([shape for _, shape in flat if shape.part in moved], side, below),
    )


def _carried(anatomy: Anatomy, view: View) -> frozenset[PartId]:
    handled = [part for part in (*view.lifted, *view.folded) if part != anatomy.base]
    return frozenset[PartId]().union(*(anatomy.assemblies[part] for part in handled))


def _arrows(shapes: Sequence[Shape], side: Pane, below: bool) -> tuple[Arrow, ...]:
    """One arrow a lifted part, out of the face that lies up; parts close together share one."""
    arrows: list[Arrow] = []
    for shape in shapes:
        x, y = side.point(shape.box.centre)
        at = (x, side.top - 5) if below else (side.left - 5, y)
        if all(math.dist(at, other.tail) > 26 for other in arrows):
            arrows.append(Arrow(at, 270 if below else 180))
    return tuple(arrows)
