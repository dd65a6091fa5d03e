"""How the parts of a step are moved: rings for what is lifted, sweeps over a hinge, the arch of turning over."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import Box, PartId, Point
from generator.figures.plan.placing import free_place
from generator.figures.plan.shapes import ARROW_LENGTH, Arrow, Caption, Detail, Fold, Motion, Pane
from generator.figures.plan.sheet import Layout
from generator.figures.plan.spots import spots_of
from generator.figures.plan.view import View
from generator.orders.work import Step, Verb

_RING: Point = (13.5, 13.5)
_RING_APART = 60.0  # parts nearer than this are lifted under one ring


def motion_of(
    anatomy: Anatomy,
    step: Step,
    view: View,
    layout: Layout,
    grounds: Sequence[tuple[Point, Point]],
    detail: Detail | None,
    slides: Mapping[PartId, Arrow],
    turn: tuple[Point | None, Caption | None],
) -> Motion:
    """Rings where a part is lifted toward the reader (not where a detail shows it), sweeps, the arch of a turn.

    grounds: what is taken on the plan, as middle and half size; slides: of the parts that are drawn out instead of lifted;
    turn: as `turn_of` has it.
    """
    pane = layout.pane
    taken = [*grounds, *(ground_of(arrow) for arrow in slides.values())]
    folds: list[Fold] = []
    for part in view.folded:
        box = anatomy.parts[part].box
        if box is not None and box.width > 0 and box.height > 0:
            fold = _fold(view.box(box), _hinge_side(anatomy, step, view, part, view.box(box)), pane, taken)
            folds.append(fold)
            taken += [(at, (6.0, 6.0)) for at in _points_on(fold.sweep)]
    lifts: list[Point] = []
    for part in view.lifted:
        box = anatomy.parts[part].box
        middle = pane.point(view.box(box).centre) if box is not None and detail is None and part not in slides else None
        if middle is None or any(math.dist(middle, other) < _RING_APART for other in lifts):
            continue
        ring = free_place(middle, _RING, layout.ground.fits, taken)
        if ring is not None:
            lifts.append(ring)
            taken.append((ring, _RING))
    return Motion(tuple(lifts), tuple(slides.values()), tuple(folds), *turn)


def slides_of(anatomy: Anatomy, view: View, pane: Pane, sideways: Mapping[PartId, int]) -> Mapping[PartId, Arrow]:
    """The arrows of the parts that are drawn out sideways. sideways: each with its direction in degrees."""
    return {
        part: _slide(view.box(box), side, pane)
        for part, side in sideways.items()
        if (box := anatomy.parts[part].box) is not None
    }


def ground_of(arrow: Arrow) -> tuple[Point, Point]:
    """The ground a broad arrow takes, as middle and half size."""
    dx, dy = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[arrow.degrees]
    x, y = arrow.tail
    long, wide = ARROW_LENGTH / 2, 9.4
    return (x + dx * long, y + dy * long), (long, wide) if dx else (wide, long)


def turn_of(step: Step, view: View, layout: Layout) -> tuple[Point | None, Caption | None]:
    """The arch over the device, and beside its end the face it lies on then."""
    faces = [action.face for action in step.actions if action.verb is Verb.TURN]
    if not faces:
        return None, None
    pane = layout.pane
    x = pane.x(view.box(view.field).centre[0] if view.field is not None else 0.0)
    start = x + 56.0
    room = int((layout.plan_right - start) / 8.4)
    words = f"{faces[-1]} up"
    told = Caption(words, (start, pane.top - 12), "turned") if faces[-1] and len(words) <= room else None
    return (x, pane.top - 6), told


def ground_of_turn(arch: Point | None, told: Caption | None) -> tuple[tuple[Point, Point], ...]:
    """The ground the arch and its words take, as middle and half size."""
    found = [((arch[0], arch[1] - 9.0), (53.0, 18.0))] if arch is not None else []
    if told is not None:
        half = len(told.words) * 8.0 / 2
        found.append(((told.at[0] + half, told.at[1] - 4.5), (half, 8.0)))
    return tuple(found)


def _slide(box: Box, side: int, pane: Pane) -> Arrow:
    """An arrow out of the edge the part leaves by; its tail lies on the part."""
    (left, top), (right, bottom) = pane.point((box.x, box.y)), pane.point((box.right, box.bottom))
    x, y = (left + right) / 2, (top + bottom) / 2
    tails = {0: (right - 12, y), 90: (x, bottom - 12), 180: (left + 12, y), 270: (x, top + 12)}
    return Arrow(tails[side], side)


def _hinge_side(anatomy: Anatomy, step: Step, view: View, part: PartId, box: Box) -> int:
    """The side a part folds over, in degrees of outward direction.

    It is the edge at which most of the plugs sit that stay, the first of them where they are even; without any its longer
    side.
    """
    votes: dict[int, int] = {}
    inside = anatomy.assemblies[part]
    for joint in anatomy.crossing(part):
        if not joint.may_stay_when_folded or joint.id in step.undone:
            continue
        others = [end for end in joint.joins if end not in inside]
        if all(end != anatomy.base and end not in view.present for end in others):
            continue
        spots = spots_of(anatomy, joint, (), 0, 0) if joint.positions or any(o != anatomy.base for o in others) else ()
        if spots:
            x, y = view.point(spots[0].at)
            away = {0: box.right - x, 90: box.bottom - y, 180: x - box.x, 270: y - box.y}
            side = min(away, key=lambda degrees: (round(abs(away[degrees]), 3), degrees))
            votes[side] = votes.get(side, 0) + 1
    if votes:
        return max(votes, key=lambda side: votes[side])
    return 180 if box.height >= box.width else 270


def _fold(box: Box, side: int, pane: Pane, taken: Sequence[tuple[Point, Point]]) -> Fold:
    """The hinge along one side of the box, and the sweep over it that crosses the fewest marks."""
    (left, top), (right, bottom) = pane.point((box.x, box.y)), pane.point((box.right, box.bottom))
    across = side in (0, 180)
    outward = 1 if side in (0, 90) else -1
    length = right - left if across else bottom - top
    breadth = bottom - top if across else right - left
    edge = {0: right, 90: bottom, 180: left, 270: top}[side]
    middle = (top + bottom) / 2 if across else (left + right) / 2
    start = edge - outward * min(120.0, max(0.6 * length, 16.0))
    reach = breadth / 2 + 8

    def at(along: float, aside: float) -> Point:
        return (along, aside) if across else (aside, along)

    def sweep(share: float, bulge: float) -> tuple[Point, Point, Point, Point]:
        line = middle + share * breadth
        end = line + math.copysign(10.0, bulge)
        return at(start, line), at(start, line + bulge), at(edge, line + bulge), at(edge, end)

    height = min(64.0, max(28.0, 0.5 * breadth))
    tried = [sweep(share, bulge) for share in (0.0, -0.2, 0.2, -0.4, 0.4) for bulge in (-height, height)]
    chosen = min(tried, key=lambda curve: (_crossings(curve, taken), tried.index(curve)))
    falls = chosen[1][1 if across else 0] < chosen[0][1 if across else 0]
    return Fold(
        hinge=(at(edge, middle - reach), at(edge, middle + reach)),
        sweep=chosen,
        degrees=(90 if across else 0) + (0 if falls else 180),
    )


def _crossings(curve: tuple[Point, Point, Point, Point], taken: Sequence[tuple[Point, Point]]) -> int:
    return sum(
        abs(x - at[0]) < half[0] + 4 and abs(y - at[1]) < half[1] + 4 for x, y in _points_on(curve) for at, half in taken
    )


def _points_on(curve: tuple[Point, Point, Point, Point]) -> tuple[Point, ...]:
    """Points along a cubic curve, ends included."""
    found = []
    for index in range(13):
        t = index / 12
        weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
        found.append(
            (
                sum(w * p[0] for w, p in zip(weights, curve, strict=True)),
                sum(w * p[1] for w, p in zip(weights, curve, strict=True)),
            )
        )
    return tuple(found)
