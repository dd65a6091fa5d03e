"""Laying out the plan of a step: the device, the joints' marks, the side, the detail and what is written around them."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import JointKind
from generator.anatomy.parts import Box, PartId, Point
from generator.figures.glyphs import half_size
from generator.figures.plan import words
from generator.figures.plan.before import Before
from generator.figures.plan.marks import Mark, counted, marks_of, numbers_label, span_label
from generator.figures.plan.placing import Wanted, crowded, free_place, place
from generator.figures.plan.shapes import (
    Arrow,
    Caption,
    Detail,
    Elevation,
    Fold,
    Motion,
    Pane,
    PlacedMark,
    Plan,
    Row,
    Shape,
    State,
)
from generator.figures.plan.spots import Spot, spots_of
from generator.figures.plan.stacking import box_of, layers
from generator.figures.plan.view import View, device_shape, shapes_of, view_of
from generator.figures.svg import number as written
from generator.orders.work import Step, Verb

HANDSET_SCALE = 2.8
"""Units per mm of the plan of a handset, so that a hand-sized device is shown near its true size."""

FULL_HEIGHT = 440.0
FULL_WIDTH = 330.0
DEPTH_STRETCH = 2.2
"""How much larger depth is drawn than length in the side view: layers are thin."""

DEPTH_LIMIT = 92.0  # units the side view may take along the depth
DETAIL_RADIUS = 76.0
DETAIL_RADIUS_LIMIT = 104.0
"""A detail made for crowded marks grows to this, to come as near to DETAIL_FROM as it can."""

DETAIL_FROM = 1.8
DETAIL_AT_LEAST = 1.3
DETAIL_MARKS = 1.2
COVER_LIMIT = 0.5
"""Share of the part in hand its marks may cover."""

MARKS_LIMIT = 40
"""Marks a plan carries; beyond that the fasteners of the largest joints share one mark each."""

ROWS_LIMIT = 14
_LEFT, _TOP, _RIGHT, _GAP = 26.0, 34.0, 26.0, 46.0
_LETTER = 8.2  # width of a letter of a caption
_RING: Point = (13.5, 13.5)
_RING_APART = 60.0  # parts nearer than this are lifted under one ring
_HAND = (State.HAND, State.WORKED, State.HIDDEN, State.UNDER, State.ASIDE_HAND)


@dataclass(frozen=True, slots=True)
class _Numbered:
    """A spot with its number, on the view in mm."""

    kind: JointKind
    label: str
    at: Point


def plan_of(
    anatomy: Anatomy,
    step: Step,
    before: Before,
    *,
    number: int,
    faces: tuple[str, ...],
    size: tuple[float, float] | None = None,
) -> Plan:
    """The plan of one step.

    before: what is out and folded aside, and the face up, when the step begins. number: of the step, for its title.
    faces: the device's; size: its width and height in mm, worked out from the boxes if absent. There is a plan for any
    content: what has no place is told in words below the drawing, or instead of it.
    """
    view = view_of(anatomy, step, before, faces, size)
    marks = marks_of(anatomy, step)
    title = words.title_of(step, number)
    if view.field is None:
        return _plan_in_words(anatomy, step, before, view, marks, title)
    field = view.box(view.field)
    layout = _layout(anatomy, view, field, faces)
    pane = layout.pane
    shapes, over = shapes_of(anatomy, view, before)
    device = device_shape(anatomy, view, view.field)
    numbered, placeless = _numbered(anatomy, step, view, marks, pane)
    ground = _Rectangle(3, 3, layout.plan_right, layout.plan_bottom)
    wanted = [_wanted(spot, pane) for spot in numbered]
    focus = _focus(shapes, over, numbered, view, pane, wanted)
    close = [spot for spot in numbered if focus and math.dist(spot.at, focus.middle) <= focus.radius]
    far = [_wanted(spot, pane) for spot in numbered if spot not in close]
    letter_at, taken = _letter(focus, pane, ground, far)
    placed, homeless = place(far, ground.fits, taken)
    undrawn = {part for part in (*view.present, *view.hand) if anatomy.parts[part].box is None}
    runs = _runs(anatomy, step, view)
    detail = None
    if focus is not None:
        ground_shapes = () if view.on_bench else (device,)
        seen = (*ground_shapes, *(shape for shape in (*shapes, *over) if shape.part != device.part))
        detail, lost = _detail(focus, letter_at, close, seen, runs, pane, title, words.joints_in_words(marks))
        homeless += lost
    motion = _motion(anatomy, step, view, pane, ground, placed, detail)
    elevation = _elevation(anatomy, view, layout, field, shapes, over)
    told = [
        *((None, "", anatomy.parts[part].name) for part in view.hand if box_of(anatomy, part) is None),
        *placeless,
        *((mark.kind, mark.label, "see the joint table") for mark in homeless),
    ]
    rows = _rows("without a place in the drawing", told, layout.width, layout.bottom + 14) if told else ()
    bar = _scale_bar(pane, field, layout)
    return Plan(
        title=title,
        desc=words.desc_of(anatomy, step, before, view, marks, undrawn, detail.enlarged if detail else None),
        width=layout.width,
        height=(rows[-1].y + 18) if rows else layout.bottom,
        pane=pane,
        device=device,
        is_on_bench=view.on_bench,
        shapes=shapes,
        over=over,
        runs=runs,
        ticks=_ticks(pane, field),
        marks=placed,
        motion=motion,
        elevation=elevation,
        detail=detail,
        captions=(*_captions(view, layout), *((Caption(f"{bar[2]} mm", bar[3], "scale"),) if bar else ())),
        scale_bar=(bar[0], bar[1]) if bar else None,
        rows=rows,
    )


# --- the sheet ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Rectangle:
    left: float
    top: float
    right: float
    bottom: float

    def fits(self, at: Point, half: Point) -> bool:
        return (
            self.left <= at[0] - half[0]
            and at[0] + half[0] <= self.right
            and self.top <= at[1] - half[1]
            and at[1] + half[1] <= self.bottom
        )


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where things go, units. It follows from the device alone, so that every step of a device has the same."""

    pane: Pane
    side: Pane | None
    depth: float
    side_below: bool
    plan_right: float
    plan_bottom: float
    caption_at: Point
    side_caption_at: Point
    scale_y: float
    width: float
    bottom: float


def scale_of(width: float, height: float) -> float:
    """Units per mm for a device of that size in mm: the handset's unless it would leave or not nearly fill the sheet."""
    fitting = min(FULL_HEIGHT / height, FULL_WIDTH / width)
    return HANDSET_SCALE if 0.8 <= fitting / HANDSET_SCALE <= 1.25 and width * HANDSET_SCALE <= FULL_WIDTH else fitting


def _layout(anatomy: Anatomy, view: View, field: Box, faces: tuple[str, ...]) -> _Layout:
    scale = scale_of(field.width, field.height)
    wide, high = field.width * scale, field.height * scale
    _, depth = layers(anatomy, view.second)
    longest = max((len(face) for face in faces), default=0) + len(" up")
    said = min(longest, 26) * _LETTER
    left = max(_LEFT, said / 2 - wide / 2 + 6)
    pane = Pane(left, _TOP, (field.x, field.y), scale, scale)
    right, bottom = left + wide, _TOP + high
    caption = (left + wide / 2, bottom + 26)
    plan_right = right + max(_RIGHT - 3, said / 2 - wide / 2 + 6)
    if depth <= 0:
        return _Layout(
            pane, None, 0, False, plan_right, bottom + 12, caption, (0, 0), bottom + 48, plan_right + 3, bottom + 58
        )
    deep = min(DEPTH_STRETCH * scale, DEPTH_LIMIT / depth)
    if field.width > field.height:
        top = bottom + 40 + _GAP
        side = Pane(left, top, (field.x, 0), scale, deep)
        low = top + depth * deep
        return _Layout(
            pane,
            side,
            depth,
            True,
            plan_right,
            bottom + 12,
            caption,
            (left + wide / 2, low + 22),
            low + 44,
            plan_right + 3,
            low + 54,
        )
    start = right + max(_GAP, said / 2 - wide / 2 + 50)
    middle = start + depth * deep / 2
    width = max(start + depth * deep + 14, middle + 46)
    return _Layout(
        pane,
        Pane(start, _TOP, (0, field.y), deep, scale),
        depth,
        False,
        right + 22,
        bottom + 12,
        caption,
        (middle, bottom + 26),
        bottom + 48,
        width,
        bottom + 58,
    )


def _captions(view: View, layout: _Layout) -> tuple[Caption, ...]:
    face = textwrap.shorten(view.face, 23, placeholder="…") or "…"
    name = "on the bench" if view.on_bench else f"{face} up" if view.face else "plan"
    if layout.side is None or view.on_bench:
        return (Caption(name, layout.caption_at),)
    deep = layout.side.down if layout.side_below else layout.side.across
    stretch = deep / layout.pane.across
    scale = "to scale" if 0.95 < stretch < 1.05 else f"depth {written(round(stretch, 1) or round(stretch, 2))}×"
    x, y = layout.side_caption_at
    return (
        Caption(name, layout.caption_at),
        Caption("side", (x, y)),
        Caption(scale, (x, y + 17), "note"),
    )


def _scale_bar(pane: Pane, field: Box, layout: _Layout) -> tuple[Point, Point, str, Point] | None:
    """A bar of 1, 2 or 5 times a power of ten mm, about a third of the width: ends, length in words, place of the words."""
    longest = 0.36 * max(field.width, 90 / pane.across)
    power = 10.0 ** math.floor(math.log10(longest))
    length = max(times * power for times in (1, 2, 5) if times * power <= longest)
    start = (pane.left, layout.scale_y - 4)
    end = (pane.left + length * pane.across, layout.scale_y - 4)
    return start, end, written(length), (end[0] + 7, layout.scale_y)


def _ticks(pane: Pane, field: Box) -> tuple[tuple[Point, Point], ...]:
    """Short lines at the middles of the outline's sides."""
    x, y = pane.point(field.centre)
    left, top = pane.point((field.x, field.y))
    right, bottom = pane.point((field.right, field.bottom))
    return (
        ((x, top - 12), (x, top - 3)),
        ((x, bottom + 3), (x, bottom + 12)),
        ((left - 12, y), (left - 3, y)),
        ((right + 3, y), (right + 12, y)),
    )


# --- joints ------------------------------------------------------------------------------------------------------


def _numbered(
    anatomy: Anatomy, step: Step, view: View, marks: Sequence[Mark], pane: Pane
) -> tuple[list[_Numbered], list[tuple[JointKind | None, str, str]]]:
    """Every spot of the step's joints with its number, and the joints that have no place."""
    first = {mark.joint: mark.first for mark in reversed(marks)}
    softened = [action.joint for action in step.actions if action.verb in (Verb.HEAT, Verb.SOAK)]
    unnumbered = [joint for joint in dict.fromkeys(softened) if joint in anatomy.joints and joint not in first]
    joints = [anatomy.joints[joint] for joint in dict.fromkeys(mark.joint for mark in marks)]
    joints += [anatomy.joints[joint] for joint in unnumbered if joint is not None]
    spots = {
        joint.id: spots_of(anatomy, joint, view.hand, roomy=64 / pane.across, stretch=130 / pane.across) for joint in joints
    }
    numbered: list[_Numbered] = []
    placeless: list[tuple[JointKind | None, str, str]] = []
    shared = _shared([len(spots[joint.id]) for joint in joints])
    for joint, is_shared in zip(joints, shared, strict=True):
        start = first.get(joint.id)
        if not spots[joint.id]:
            count = max(joint.count, 1)
            label = span_label(start, start + count - 1) if start else ""
            placeless.append((joint.kind, label, f"{counted(joint.kind, count)}, {joint.name}"))
        for spot in _merged(spots[joint.id]) if is_shared else spots[joint.id]:
            label = span_label(start + spot.first, start + spot.last) if start else ""
            numbered.append(_Numbered(joint.kind, label, view.point(spot.at)))
    return numbered, placeless


def _shared(counts: Sequence[int]) -> list[bool]:
    """Which joints put all their fasteners on one mark, so that the plan is not crowded: the largest first."""
    shared = [False] * len(counts)
    total = sum(counts)
    for index in sorted(range(len(counts)), key=lambda index: (-counts[index], index)):
        if total <= MARKS_LIMIT or counts[index] <= 1:
            break
        shared[index] = True
        total -= counts[index] - 1
    return shared


def _merged(spots: Sequence[Spot]) -> tuple[Spot, ...]:
    middle = (sum(s.at[0] for s in spots) / len(spots), sum(s.at[1] for s in spots) / len(spots))
    return (Spot(min(s.first for s in spots), max(s.last for s in spots), middle),)


def _wanted(spot: _Numbered, pane: Pane) -> Wanted:
    return Wanted(spot.kind, spot.label, pane.point(spot.at), half_size(spot.kind, spot.label))


def _runs(anatomy: Anatomy, step: Step, view: View) -> tuple[tuple[Point, ...], ...]:
    """Runs of glue the author drew, of the joints undone or softened in the step."""
    named = dict.fromkeys(action.joint for action in step.actions if action.joint in anatomy.joints)
    joints = [anatomy.joints[joint] for joint in named if joint is not None]
    return tuple(tuple(view.point(point) for point in joint.run) for joint in joints if len(joint.run) > 1)


# --- detail ------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Focus:
    """What a detail shows, mm, and how large it is drawn, units."""

    middle: Point
    radius: float
    drawn: float


def _focus(
    shapes: Sequence[Shape],
    over: Sequence[Shape],
    numbered: Sequence[_Numbered],
    view: View,
    pane: Pane,
    wanted: Sequence[Wanted],
) -> _Focus | None:
    """What a detail shows, if one is called for.

    It is where the part in hand can be drawn DETAIL_FROM times larger, or its marks would touch each other or cover more
    than COVER_LIMIT of it and there is at least something to gain.
    """
    boxes = [shape.box for shape in (*shapes, *over) if shape.state in _HAND and shape.box.width and shape.box.height]
    points = [spot.at for spot in numbered]
    if view.lifted or view.folded:
        if not boxes:
            return None
        points = [at for at in points if any(_beside(box, at, 20 / pane.across) for box in boxes)]
        points += [corner for box in boxes for corner in ((box.x, box.y), (box.right, box.bottom))]
        margin = 9.0 / pane.across
    else:
        margin = 37.0 / pane.across  # a joint alone needs its surroundings to be found
    if not numbered or not points:
        return None
    left, right = min(p[0] for p in points), max(p[0] for p in points)
    top, bottom = min(p[1] for p in points), max(p[1] for p in points)
    radius = max(math.hypot(right - left, bottom - top) / 2 + margin, 25.0 / pane.across)
    on_plan = radius * pane.across
    area = sum(box.width * box.height for box in boxes) * pane.across**2
    inside = [mark for mark, spot in zip(wanted, numbered, strict=True) if any(_beside(box, spot.at, 0) for box in boxes)]
    covered = sum(4 * mark.half[0] * mark.half[1] for mark in inside)
    drawn = DETAIL_RADIUS
    if drawn < DETAIL_FROM * on_plan and (crowded(wanted) or covered > COVER_LIMIT * area):
        drawn = min(DETAIL_RADIUS_LIMIT, DETAIL_FROM * on_plan)
    is_worth_it = drawn >= (DETAIL_FROM if drawn == DETAIL_RADIUS else DETAIL_AT_LEAST) * on_plan
    return _Focus(((left + right) / 2, (top + bottom) / 2), radius, drawn) if is_worth_it else None


def _beside(box: Box, at: Point, reach: float) -> bool:
    return box.x - reach <= at[0] <= box.right + reach and box.y - reach <= at[1] <= box.bottom + reach


def _letter(
    focus: _Focus | None, pane: Pane, ground: _Rectangle, marks: Sequence[Wanted]
) -> tuple[Point, tuple[tuple[Point, Point], ...]]:
    """Where the letter of the detail stands beside its circle, and the ground the two take."""
    if focus is None:
        return (0.0, 0.0), ()
    x, y = pane.point(focus.middle)
    out = focus.radius * pane.across + 11
    half = (7.0, 9.0)
    around = [(x + out * math.cos(math.radians(a)), y + out * math.sin(math.radians(a))) for a in range(225, 585, 45)]
    free = [at for at in around if ground.fits(at, half)]
    clear = [
        at
        for at in free
        if all(abs(at[0] - m.at[0]) > half[0] + m.half[0] or abs(at[1] - m.at[1]) > half[1] + m.half[1] for m in marks)
    ]
    chosen = (clear or free or around)[0]
    return chosen, ((chosen, half),)


def _detail(
    focus: _Focus,
    letter: Point,
    numbered: Sequence[_Numbered],
    shapes: Sequence[Shape],
    runs: tuple[tuple[Point, ...], ...],
    plan: Pane,
    title: str,
    joints: str,
) -> tuple[Detail, tuple[Wanted, ...]]:
    scale = focus.drawn / focus.radius
    pane = Pane(0.0, 0.0, focus.middle, scale, scale)

    def fits(at: Point, half: Point) -> bool:
        return math.hypot(at[0], at[1]) + max(half) <= focus.drawn + 6

    marks, lost = place([_wanted(spot, pane) for spot in numbered], fits, (), DETAIL_MARKS)
    enlarged = written(round(scale / plan.across, 1))
    return Detail(
        circle=plan.point(focus.middle),
        radius=focus.radius * plan.across,
        letter=(letter[0], letter[1] + 6),
        drawn=focus.drawn,
        corner=(-focus.drawn - 8, -focus.drawn - 6),
        width=2 * focus.drawn + 16,
        height=2 * focus.drawn + 40,
        caption_at=(0.0, focus.drawn + 24),
        pane=pane,
        shapes=tuple(shape for shape in shapes if _reaches(shape.box, focus.middle, focus.radius)),
        runs=runs,
        marks=marks,
        enlarged=enlarged,
        title=f"Detail A: {title}",
        desc=f"The circled place of the plan, enlarged {enlarged} times. Joints: {joints}.",
    ), lost


def _reaches(box: Box, middle: Point, radius: float) -> bool:
    nearest = (min(max(middle[0], box.x), box.right), min(max(middle[1], box.y), box.bottom))
    return math.dist(nearest, middle) <= radius


# --- motion ------------------------------------------------------------------------------------------------------


def _motion(
    anatomy: Anatomy,
    step: Step,
    view: View,
    pane: Pane,
    ground: _Rectangle,
    marks: Sequence[PlacedMark],
    detail: Detail | None,
) -> Motion:
    """Rings where a part is lifted toward the reader (not under a detail, which it would cover), folds, the turn."""
    taken = [(mark.at, mark.half) for mark in marks]
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
        middle = pane.point(view.box(box).centre) if box is not None and detail is None else None
        if middle is None or any(math.dist(middle, other) < _RING_APART for other in lifts):
            continue
        ring = free_place(middle, _RING, ground.fits, taken)
        if ring is not None:
            lifts.append(ring)
            taken.append((ring, _RING))
    turns = any(action.verb is Verb.TURN for action in step.actions)
    across = view.box(view.field).centre[0] if view.field is not None else 0.0
    return Motion(tuple(lifts), tuple(folds), (pane.x(across), pane.top - 6) if turns else None)


def _hinge_side(anatomy: Anatomy, step: Step, view: View, part: PartId, box: Box) -> int:
    """The side a part folds over, in degrees of outward direction: toward the plug it keeps, else its longer side."""
    for joint in anatomy.crossing(part):
        if not joint.may_stay_when_folded or joint.id in step.undone:
            continue
        others = [end for end in joint.joins if end not in anatomy.assemblies[part] and end != anatomy.base]
        spots = spots_of(anatomy, joint, (), 0, 0) if joint.positions or others else ()
        if spots:
            x, y = view.point(spots[0].at)
            aside, down = (x - box.centre[0]) / box.width, (y - box.centre[1]) / box.height
            if abs(aside) >= abs(down):
                return 0 if aside > 0 else 180
            return 90 if down > 0 else 270
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


# --- the side ----------------------------------------------------------------------------------------------------


def _elevation(
    anatomy: Anatomy, view: View, layout: _Layout, field: Box, shapes: Sequence[Shape], over: Sequence[Shape]
) -> Elevation | None:
    side = layout.side
    if side is None or view.on_bench:
        return None
    known, whole = layers(anatomy, view.second)
    below = layout.side_below
    thinnest = 2.4 / (side.down if below else side.across)

    def upright(box: Box, start: float, thickness: float) -> Box:
        return Box(box.x, start, box.width, thickness) if below else Box(start, box.y, thickness, box.height)

    states = {shape.part: shape.state for shape in (*shapes, *over) if shape.part is not None}
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
    flat.sort(key=lambda pair: (pair[1].state in _HAND, pair[0]))
    return Elevation(
        side,
        upright(field, 0.0, whole),
        tuple(shape for _, shape in flat),
        _arrows([shape for _, shape in flat if shape.part in (*view.lifted, *view.folded)], side, below),
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


# --- in words ----------------------------------------------------------------------------------------------------


def _rows(
    heading: str, told: Sequence[tuple[JointKind | str | None, str, str]], width: float, top: float
) -> tuple[Row, ...]:
    """Lines below the drawing; words that do not fit go on below, cut after the second line."""
    rows = [Row(top, heading, is_heading=True)]
    y = top + 12
    for kind, label, said in told[:ROWS_LIMIT]:
        indent = 46 if kind is not None else 0
        room = max(12, int((width - 30 - indent) / 7.6))
        lines = textwrap.wrap(said, room, max_lines=2, placeholder=" …") or [said[:room]]
        y += 18
        rows.append(Row(y, lines[0], str(kind) if kind is not None else None, label))
        for line in lines[1:]:
            y += 18
            rows.append(Row(y, line, "" if kind is not None else None))
        y += 12 if kind is not None else 4
    if len(told) > ROWS_LIMIT:
        rows.append(Row(y + 18, f"and {len(told) - ROWS_LIMIT} more in the joint table"))
    return tuple(rows)


def _plan_in_words(anatomy: Anatomy, step: Step, before: Before, view: View, marks: Sequence[Mark], title: str) -> Plan:
    """The plan of a device that has no boxes: parts in hand, joints and motions, each with its mark."""
    told: list[tuple[JointKind | str | None, str, str]] = []
    joints: dict[str, list[Mark]] = {}
    for mark in marks:
        joints.setdefault(mark.joint, []).append(mark)
    turned = words.turned(step)
    told += [("turn", "", turned)] if turned else []
    for group in joints.values():
        count = sum(mark.last - mark.first + 1 for mark in group)
        name = anatomy.joints[group[0].joint].name
        label = numbers_label((mark.first, mark.last) for mark in group)
        told.append((group[0].kind, label, f"{counted(group[0].kind, count)}, {name}"))
    told += [("lift", "", anatomy.parts[part].name) for part in view.lifted]
    told += [("fold", "", anatomy.parts[part].name) for part in view.folded]
    told += [(None, "", action.words) for action in step.actions if action.verb is Verb.CHECK and action.words]
    if not told:
        told = [(None, "", anatomy.parts[part].name) for part in view.worked] or [(None, "", step.title)]
    width = 345.0
    rows = _rows(f"{view.face} up" if view.face else "what is done", told, width, 30)
    pane = Pane(_LEFT, _TOP, (0.0, 0.0), 1.0, 1.0)
    return Plan(
        title=title,
        desc=words.desc_of(anatomy, step, before, view, marks, (), None),
        width=width,
        height=rows[-1].y + 26,
        pane=pane,
        device=None,
        is_on_bench=view.on_bench,
        shapes=(),
        over=(),
        runs=(),
        ticks=(),
        marks=(),
        motion=Motion(),
        elevation=None,
        detail=None,
        captions=(),
        scale_bar=None,
        rows=rows,
    )
