"""Where a tool goes in, and which way a plug comes off: wedges at free edges, small arrows away from sockets."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import Box, Point
from generator.figures.glyphs import PRY_LENGTH, PULL_LENGTH
from generator.figures.plan.placing import Fits, is_touched
from generator.figures.plan.shapes import Entry, Pane, PlacedMark, Shape
from generator.figures.plan.spots import holder_of
from generator.figures.plan.stacking import box_of
from generator.figures.plan.view import View, covers
from generator.languages import later, say
from generator.orders.work import Step, Verb

PRIED = (JointKind.GLUE, JointKind.CLIPS, JointKind.PRESS)
"""Kinds that a tool is worked into; screws, plugs and solder are undone from above."""

ENTRIES_LIMIT = 12
"""Wedges drawn in one step; what has more is pried all round."""

_SIDES = (180, 270, 0, 90)  # outward degrees of the edges: left, upper, right, lower
_BITE = 3.0  # units that the tip of a wedge stands in the part
_HALF_WEDGE, _HALF_ARROW = 7.0, 5.5
_STEPS = (0.0, 13.0, -13.0, 26.0, -26.0, 39.0, -39.0, 52.0, -52.0)  # units along the edge from where a wedge is wanted
_FROM = {
    0: later("from the left at {numbers}"),
    90: later("from above at {numbers}"),
    180: later("from the right at {numbers}"),
    270: later("from below at {numbers}"),
}
_TOWARD = {
    0: later("{numbers} to the right"),
    90: later("{numbers} downward"),
    180: later("{numbers} to the left"),
    270: later("{numbers} upward"),
}


@dataclass(frozen=True, slots=True)
class Wish:
    """A wedge or an arrow that is wanted near `at`, mm on the view.

    box: of the part whose edges count. outward: its edges as degrees of their outward direction, the nearest first; a wedge
    points the other way.
    """

    kind: str
    label: str
    joint: Joint
    at: Point
    box: Box
    outward: tuple[int, ...]


def wishes_of(anatomy: Anatomy, step: Step, view: View, labels: Sequence[tuple[Joint, str, Point]]) -> tuple[Wish, ...]:
    """What is wanted in a step. labels: the marks of its joints, each with its number and place, mm on the view."""
    tools = {action.joint: action.tools for action in step.actions if action.verb is Verb.UNDO and action.joint is not None}
    wishes: list[Wish] = []
    run_done: set[str] = set()
    for joint, label, at in labels:
        if not label or joint.id not in tools:
            continue
        if joint.kind is JointKind.PLUG:
            socket = _socket(anatomy, view, joint, at)
            if socket is not None:
                wishes.append(Wish("pull", label, joint, at, socket, _nearest_sides(socket, at)))
            continue
        holder = holder_of(anatomy, joint, view.hand)
        is_pried = joint.kind in PRIED and bool(tools[joint.id] or joint.tools)
        if not is_pried or holder is None or min(holder.width, holder.height) <= 0:
            continue
        box = view.box(holder)
        if joint.kind is JointKind.GLUE and not joint.positions:
            if joint.id in run_done:
                continue
            run_done.add(joint.id)
            start = view.point(joint.run[0]) if joint.run else _outer(box, view)
            wishes.append(Wish("pry", label, joint, start, box, _nearest_sides(box, start)))
        else:
            wishes.append(Wish("pry", label, joint, at, box, _nearest_sides(box, at)))
    pried = [wish for wish in wishes if wish.kind == "pry"]
    return (*pried[:ENTRIES_LIMIT], *(wish for wish in wishes if wish.kind == "pull"))


def entries_of(
    wishes: Iterable[Wish],
    pane: Pane,
    marks: Sequence[PlacedMark],
    shapes: Sequence[Shape],
    fits: Fits,
    taken: Sequence[tuple[Point, Point]],
    grown: float = 1.0,
) -> tuple[Entry, ...]:
    """The wishes that find room, each at the nearest edge that is free: nothing else lies over it, no mark stands there."""
    grounds = [*taken, *((mark.middle, mark.half) for mark in marks)]
    found: list[Entry] = []
    for wish in wishes:
        tried = _wedges(wish, pane, shapes, grown) if wish.kind == "pry" else _arrows(wish, pane, marks, grown)
        entry = next((e for e in tried if fits(e.middle, e.half) and not is_touched(e.middle, e.half, grounds)), None)
        if entry is not None:
            found.append(entry)
            grounds.append((entry.middle, entry.half))
    return tuple(found)


def entries_in_words(entries: Iterable[Entry]) -> list[str]:
    """What the wedges and small arrows say, a sentence each kind."""
    said: dict[str, dict[str, list[str]]] = {"pry": {}, "pull": {}}
    for entry in entries:
        way = _FROM[entry.degrees] if entry.kind == "pry" else _TOWARD[entry.degrees]
        labels = said[entry.kind].setdefault(way, [])
        if entry.label not in labels:
            labels.append(entry.label)
    sentences = []
    if said["pry"]:
        ways = "; ".join(say(way, numbers=", ".join(labels)) for way, labels in said["pry"].items())
        sentences.append(say("The tool goes in {ways}", ways=ways))
    if said["pull"]:
        ways = "; ".join(say(way, numbers=", ".join(labels)) for way, labels in said["pull"].items())
        sentences.append(say("Plugs come off: {ways}", ways=ways))
    return sentences


def _wedges(wish: Wish, pane: Pane, shapes: Sequence[Shape], grown: float) -> Iterable[Entry]:
    """Wedges along the edges, the nearest edge first, from the wanted place outward."""
    long = (PRY_LENGTH - _BITE) * grown
    holder = max((index for index, shape in enumerate(shapes) if shape.box == wish.box), default=-1)
    for outward in wish.outward:
        dx, dy = _unit(outward)
        for along in _STEPS:
            at = _on_edge(wish.box, outward, wish.at, along * grown / pane.across)
            if at is None:
                continue
            out = (at[0] + dx * 6 / pane.across, at[1] + dy * 6 / pane.across)
            if any(covers(shape, out) for shape in shapes[holder + 1 :]):
                continue
            x, y = pane.point(at)
            middle = (x + dx * long / 2, y + dy * long / 2)
            half = (long / 2, _HALF_WEDGE * grown) if dx else (_HALF_WEDGE * grown, long / 2)
            tip = (x - dx * _BITE * grown, y - dy * _BITE * grown)
            yield Entry("pry", wish.label, tip, (outward + 180) % 360, middle, half, grown)


def _arrows(wish: Wish, pane: Pane, marks: Sequence[PlacedMark], grown: float) -> Iterable[Entry]:
    """Small arrows at the edge of the plug's mark, toward the nearest edge of its socket first."""
    x, y = pane.point(wish.at)
    mark = next((m for m in marks if m.label == wish.label and math.dist(m.of or m.at, (x, y)) < 1), None)
    if mark is None:
        return
    long, wide = PULL_LENGTH * grown, _HALF_ARROW * grown
    for outward in wish.outward:
        dx, dy = _unit(outward)
        reach = mark.half[0] if dx else mark.half[1]
        tail = (mark.middle[0] + dx * (reach + 0.5), mark.middle[1] + dy * (reach + 0.5))
        middle = (tail[0] + dx * long / 2, tail[1] + dy * long / 2)
        yield Entry("pull", wish.label, tail, outward, middle, (long / 2, wide) if dx else (wide, long / 2), grown)


def _socket(anatomy: Anatomy, view: View, joint: Joint, at: Point) -> Box | None:
    """What the plug sits on: the end that lies there and is not in the hand, else any that lies there."""
    ends = [end for end in joint.joins if end != anatomy.base]
    boxes = [(end in view.hand, view.box(box)) for end in ends if (box := box_of(anatomy, end)) is not None]
    here = [(in_hand, box) for in_hand, box in boxes if box.x <= at[0] <= box.right and box.y <= at[1] <= box.bottom]
    return min(here, key=lambda pair: pair[0])[1] if here else None


def _nearest_sides(box: Box, at: Point) -> tuple[int, ...]:
    away = {180: at[0] - box.x, 270: at[1] - box.y, 0: box.right - at[0], 90: box.bottom - at[1]}
    return tuple(sorted(away, key=lambda side: (round(abs(away[side]), 3), _SIDES.index(side))))


def _outer(box: Box, view: View) -> Point:
    """The middle of the part's edge that lies nearest to the outline of the device."""
    field = view.box(view.field) if view.field is not None else box
    x, y = box.centre
    ends = {
        (box.x, y): box.x - field.x,
        (x, box.y): box.y - field.y,
        (box.right, y): field.right - box.right,
        (x, box.bottom): field.bottom - box.bottom,
    }
    return min(ends, key=lambda at: (round(abs(ends[at]), 3), list(ends).index(at)))


def _on_edge(box: Box, outward: int, near: Point, along: float) -> Point | None:
    """The place on an edge nearest to a point, moved along it; None beyond its ends."""
    if outward in (0, 180):
        y = min(max(near[1], box.y), box.bottom) + along
        return (box.right if outward == 0 else box.x, y) if box.y <= y <= box.bottom else None
    x = min(max(near[0], box.x), box.right) + along
    return (x, box.bottom if outward == 90 else box.y) if box.x <= x <= box.right else None


def _unit(degrees: int) -> tuple[int, int]:
    return {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[degrees]
