"""The moving picture of a run of steps, made from its stack: where every part begins, when it goes, what covers it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from generator.anatomy.parts import PartId
from generator.figures.moving.covering import painting_order
from generator.figures.moving.shapes import Heading, Mover, Moving, Turn
from generator.figures.moving.timing import Timetable, timetable
from generator.figures.stack.arrangement import Arrangement
from generator.figures.stack.geometry import stack_from
from generator.figures.stack.lettering import wrapped
from generator.figures.stack.outlines import straight
from generator.figures.stack.painting import rings_of
from generator.figures.stack.projection import projected
from generator.figures.stack.shapes import Chains, Label, Ring, Slab, Stack
from generator.figures.stack.solids import Solid
from generator.languages import decimal_mark, say, say_many

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

TITLE_SIZE = 46.0
COUNT_SIZE = 34.0
NUMBER_SIZE = 88.0
HEAD_HEIGHT = 138.0
FOOT_HEIGHT = 86.0
MARGIN = 24.0
NUMBER_ROOM = 126.0
"""Units: letters of headings, height above and below the picture, room at the sides and for the number."""

_NAMES_LIMIT = 40
_ROOM = 0.3  # mm a part may reach under the rim of the hollow and still count as sitting in it


def moving_of(arranged: Arrangement, name: str, what: str) -> Moving:
    """The moving picture of an arranged run.

    name and what: the title, as "Lamp" and "taken apart". Every part stands where it does in the stack of the run and comes
    there from its place in the device.
    """
    steps = arranged.leaving.steps
    stack = stack_from(arranged, narrow=True)
    slabs = {slab.part: slab for slab in stack.painted if isinstance(slab, Slab)}
    levels = {solid.part: number for number, level in enumerate(arranged.levels) for solid in level.solids}
    solids = {solid.part: solid for level in arranged.levels for solid in level.solids}
    order = painting_order(arranged)
    times = timetable(steps)
    what = say_many("{what}, in {n} step", "{what}, in {n} steps", len(steps), what=what)
    width, room = stack.width, stack.width - 2 * MARGIN - NUMBER_ROOM
    return Moving(
        title=f"{name}: {what}",
        desc=_desc(arranged, times),
        timetable=times,
        corner=(stack.corner[0], round(stack.corner[1] - HEAD_HEIGHT, 1)),
        width=width,
        height=round(stack.height + HEAD_HEIGHT + FOOT_HEIGHT, 1),
        picture_top=stack.corner[1],
        forms=stack.forms,
        movers=tuple(_mover(arranged, slabs[part], solids[part], levels[part]) for part in order),
        chains=_chains(stack, arranged, order, levels),
        labels=tuple((_comes(arranged, label), label) for label in stack.labels),
        rim=_rim(arranged, stack.height),
        whole=Heading(
            "",
            (
                *wrapped(name, TITLE_SIZE, room + NUMBER_ROOM, 1),
                *wrapped(what, COUNT_SIZE, room + NUMBER_ROOM, 1),
            ),
        ),
        headings=tuple(
            Heading(str(number), wrapped(step.title, TITLE_SIZE, room, 2)) for number, step in enumerate(steps, 1)
        ),
    )


def _mover(arranged: Arrangement, slab: Slab, solid: Solid, level: int) -> Mover:
    leaving, units = arranged.leaving, arranged.units
    step = leaving.goes.get(slab.part)
    down = start_below(arranged, slab.part, level)
    aside = projected(-solid.shift[0], -solid.shift[1], 0.0)
    slot = None if solid.shift == (0.0, 0.0) else (0.0, round(down * units, 1))
    start = (round(aside[0] * units, 1), round((aside[1] + down) * units, 1))
    turns = tuple(Turn(screw.at, screw.form, leaving.undone[screw.joint], screw.is_below) for screw in slab.screws)
    accents = []
    for number in range(len(leaving.steps)):
        hand = leaving.hand(number)
        if slab.part in (hand or leaving.worked(number)):
            accents.append((number, bool(hand)))
    return Mover(
        slab=replace(slab, screws=(), slide=None),
        step=step,
        start=start if step is not None else (0.0, 0.0),
        slot=slot,
        accents=tuple(accents),
        turns=turns,
        is_sunk=step is not None and slab.part not in leaving.below and _is_sunk(arranged, solid),
        is_unseen=max(solid.shift) > 0,
    )


def start_below(arranged: Arrangement, part: PartId, level: int) -> float:
    """How far below its place in the stack a part is in the assembled device, mm; less than 0 where it is above.

    Where the base has no hollow the parts lie on it, the deepest at the bottom.
    """
    base = next((number for number, one in enumerate(arranged.levels) if _holds(one.solids, arranged)), None)
    if base is None:
        # Without the base what leaves through the second face closes up to what leaves through the first.
        return arranged.levels[-1].offset - arranged.levels[level].offset
    down = arranged.levels[base].offset - arranged.levels[level].offset
    if arranged.pocket is not None or part in arranged.leaving.below:
        return down
    floor = next(one.z for one in arranged.levels[base].solids if one.part == arranged.guide.anatomy.base)
    leaving = arranged.leaving
    feet = [
        one.z + one.thickness
        for each in arranged.levels
        for one in each.solids
        if one.part in leaving.goes and one.part not in leaving.below and one.shift == (0.0, 0.0)
    ]
    return down - max(0.0, max(feet, default=floor) - floor)


def _holds(solids: Sequence[Solid], arranged: Arrangement) -> bool:
    return any(solid.part == arranged.guide.anatomy.base for solid in solids)


def _chains(
    stack: Stack, arranged: Arrangement, order: Sequence[PartId], levels: dict[PartId, int]
) -> tuple[tuple[int, Chains], ...]:
    """The axes of screws, each after the last part painted of the level it reaches down to."""
    found = []
    level = None
    for one in stack.painted:
        if isinstance(one, Slab):
            level = levels[one.part]
        elif level is not None:
            after = max(index for index, part in enumerate(order) if levels[part] == level)
            found.append((after, one))
    return tuple(sorted(found, key=lambda pair: pair[0]))


def _comes(arranged: Arrangement, label: Label) -> int:
    """The step that takes the part out; one inside another keeps its number until it leaves that."""
    leaving = arranged.leaving
    return leaving.own.get(label.part, leaving.goes.get(label.part, 0))


def _is_sunk(arranged: Arrangement, solid: Solid) -> bool:
    """Whether a part reaches down past the top of the base, inside its hollow."""
    import shapely

    if arranged.pocket is None or solid.shift != (0.0, 0.0):
        return False
    base = next(one for level in arranged.levels for one in level.solids if one.part == arranged.guide.anatomy.base)
    if solid.z + solid.thickness <= base.z:
        return False
    place = shapely.make_valid(shapely.Polygon([projected(x, y, base.z) for x, y in straight(solid.top_rings()[0])]))
    return bool(shapely.buffer(arranged.pocket.rim, _ROOM).contains(place))


def _rim(arranged: Arrangement, height: float) -> tuple[Ring, ...]:
    """The hollow of the base with all that is above it on the sheet: what rises from it is seen there and nowhere else."""
    import shapely

    if arranged.pocket is None:
        return ()
    offset = next(one.offset for one in arranged.levels if _holds(one.solids, arranged))
    up = height / arranged.units
    swept: list[BaseGeometry] = [arranged.pocket.rim]
    for ring in shapely.get_rings(shapely.get_parts(arranged.pocket.rim)).tolist():
        for (u0, v0), (u1, v1) in pairwise(shapely.get_coordinates(ring).tolist()):
            if abs(u0 - u1) > 0.001:
                swept.append(shapely.Polygon([(u0, v0), (u1, v1), (u1, v1 - up), (u0, v0 - up)]))
    return rings_of(shapely.union_all(swept), arranged.units, offset)


def _desc(arranged: Arrangement, times: Timetable) -> str:
    """The order in words, with what each step takes out."""
    leaving = arranged.leaving
    told = []
    for number, step in enumerate(leaving.steps[:_NAMES_LIMIT]):
        parts = [leaving.anatomy.parts[part].name for part in leaving.hand(number)]
        told.append(f"{number + 1} {step.title.rstrip('. ')}" + (f" ({', '.join(parts)})" if parts else ""))
    more = len(leaving.steps) - len(told)
    told += [say("and {number} more", number=more)] if more > 0 else []
    return say(
        "The parts rise out of the device one step after the other, screws first, until all stand drawn apart. "
        "It takes {seconds} seconds and begins anew. {steps}.",
        seconds=f"{times.seconds:g}".replace(".", decimal_mark()),
        steps="; ".join(told),
    )
