"""Putting the marks of a step on its plan: on the view itself, or in a detail where they need more room."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import Box, Point
from generator.figures.glyphs import PLAIN_SIGN, half_size, number_side, screw_sign
from generator.figures.plan.covered import is_covered
from generator.figures.plan.entries import Wish, entries_of
from generator.figures.plan.lengths import length_words, lengths_beside, lengths_differ
from generator.figures.plan.marks import Mark, span_label
from generator.figures.plan.placing import Fits, Wanted, crowded, place
from generator.figures.plan.rows import joint_row
from generator.figures.plan.shapes import IN_HAND, Detail, Entry, Length, Pane, PlacedMark, Row, Shape
from generator.figures.plan.sheet import Layout, Rectangle
from generator.figures.plan.spots import spots_of
from generator.figures.plan.view import View
from generator.figures.svg import number as written
from generator.languages import in_digits, say
from generator.orders.work import Step, Verb

DETAIL_RADIUS = 76.0
DETAIL_RADIUS_LIMIT = 104.0
"""A detail made for crowded marks grows to this, to come as near to DETAIL_FROM as it can."""

DETAIL_FROM = 1.8
DETAIL_AT_LEAST = 1.3
DETAIL_MARKS = 1.2
COVER_LIMIT = 0.5
"""Share of the part in hand its marks may cover."""

MARKS_LIMITS = (40, 16, 0)
"""Marks a plan carries; beyond the first the fasteners of the largest joints share one mark each, and beyond the next ones
if more than a quarter of the marks had to be led away from their places."""

PLACED_LIMIT = 60  # marks beyond this are told in words
DOTS_LIMIT = 200  # dots beyond this would be a grey field

LED_AWAY = 24.0  # units from its place at which a mark counts as led away


@dataclass(frozen=True, slots=True)
class Scene:
    """All that a plan and its detail both show."""

    layout: Layout
    device: Shape
    shapes: tuple[Shape, ...]
    over: tuple[Shape, ...]
    runs: tuple[tuple[Point, ...], ...]


@dataclass(frozen=True, slots=True)
class Numbered:
    """A spot on the view, mm: fasteners `first` to `last` of a joint whose numbers begin at `start` (None: no numbers).

    positions: where all fasteners of the joint sit, as far as the author says. is_hidden: something lies over it; length:
    of its screws, mm in words, where the screws of the step differ; is_mixed: they have several.
    """

    joint: Joint
    first: int
    last: int
    start: int | None
    at: Point
    positions: tuple[Point, ...]
    is_hidden: bool = False
    length: str = ""
    is_mixed: bool = False

    @property
    def label(self) -> str:
        return span_label(self.start + self.first, self.start + self.last) if self.start else ""


@dataclass(frozen=True, slots=True)
class Joints:
    """The joints of a step with their spots, and lines for those that have none."""

    spots: tuple[tuple[Numbered, ...], ...]
    placeless: tuple[Row, ...]


def numbered_joints(
    anatomy: Anatomy, step: Step, view: View, marks: Sequence[Mark], pane: Pane, shapes: Sequence[Shape]
) -> Joints:
    """Every joint of the step; those that are only warmed or soaked have no number. shapes: as painted, deepest first."""
    first = {mark.joint: mark.first for mark in reversed(marks)}
    softened = [action.joint for action in step.actions if action.verb in (Verb.HEAT, Verb.SOAK)]
    ids = dict.fromkeys((*(mark.joint for mark in marks), *softened))
    spots: list[tuple[Numbered, ...]] = []
    placeless: list[Row] = []
    has_lengths = lengths_differ(marks)
    for joint in [anatomy.joints[joint] for joint in ids if joint is not None and joint in anatomy.joints]:
        start = first.get(joint.id)
        found = spots_of(anatomy, joint, view.hand, roomy=64 / pane.across, stretch=130 / pane.across)
        if not found:
            placeless.append(joint_row(joint, start))
            continue
        spots.append(
            tuple(
                Numbered(
                    joint,
                    spot.first,
                    spot.last,
                    start,
                    view.point(spot.at),
                    tuple(map(view.point, joint.positions)),
                    is_covered(anatomy, view, shapes, joint, view.point(spot.at)),
                    length_words(joint, spot.first, spot.last) if has_lengths and start else "",
                )
                for spot in found
            )
        )
    return Joints(tuple(spots), tuple(placeless))


def shared(joints: Sequence[tuple[Numbered, ...]], limit: int) -> tuple[tuple[Numbered, ...], tuple[Point, ...]]:
    """All spots, where the largest joints put theirs on one mark until there are `limit` marks; and where those sit, mm."""
    merged: set[int] = set()
    total = sum(len(spots) for spots in joints)
    for index in sorted(range(len(joints)), key=lambda index: (-len(joints[index]), index)):
        if total <= limit or len(joints[index]) <= 1:
            break
        merged.add(index)
        total -= len(joints[index]) - 1
    spots: list[Numbered] = []
    dots: list[Point] = []
    for index, joint in enumerate(joints):
        if index in merged:
            spots.append(_merged(joint))
            dots += joint[0].positions
        else:
            spots += joint
    return tuple(spots), tuple(dots[:DOTS_LIMIT])


def _merged(spots: Sequence[Numbered]) -> Numbered:
    middle = (sum(s.at[0] for s in spots) / len(spots), sum(s.at[1] for s in spots) / len(spots))
    first, last = min(s.first for s in spots), max(s.last for s in spots)
    length = length_words(spots[0].joint, first, last) if any(spot.length for spot in spots) else ""
    return replace(
        spots[0],
        first=first,
        last=last,
        at=middle,
        is_hidden=all(spot.is_hidden for spot in spots),
        length=length,
        is_mixed=not length and any(spot.length for spot in spots),
    )


@dataclass(frozen=True, slots=True)
class Marked:
    """The marks of one attempt, on the plan and in its detail. is_calm: few of them had to be led away.

    taken: ground on the plan that is used up, units; unmeasured: the numbers whose screw lengths found no room.
    """

    marks: tuple[PlacedMark, ...]
    homeless: tuple[Wanted, ...]
    detail: Detail | None
    dots: tuple[Point, ...]
    lengths: tuple[Length, ...]
    unmeasured: tuple[str, ...]
    entries: tuple[Entry, ...]
    taken: tuple[tuple[Point, Point], ...]

    @property
    def is_calm(self) -> bool:
        marks = (*self.marks, *(self.detail.marks if self.detail else ()))
        led = sum(mark.of is not None and math.dist(mark.of, mark.at) > LED_AWAY for mark in marks)
        return not self.homeless and led * 4 <= len(marks)


def mark(
    scene: Scene,
    view: View,
    spots: Sequence[Numbered],
    dots: tuple[Point, ...],
    wishes: Sequence[Wish],
    arrows: Sequence[tuple[Point, Point]],
    said: tuple[str, str],
) -> Marked:
    """Place the marks, in a detail where one is called for; then what stands beside them.

    wishes: where tools go in and plugs come off; arrows: ground of the arrows that have their place already; said: the
    title of the plan and its joints in words.
    """
    pane, ground = scene.layout.pane, scene.layout.ground
    focus = _focus(scene, spots, view)
    far = [spot for spot in spots if focus is None or math.dist(spot.at, focus.middle) > focus.radius]
    close = [spot for spot in spots if spot not in far]
    letter, taken = _letter(focus, pane, ground, [_wanted(spot, pane) for spot in far]) if focus else ((0.0, 0.0), ())
    marks, homeless = place([_wanted(spot, pane) for spot in far[:PLACED_LIMIT]], ground.fits, taken)
    homeless += tuple(_wanted(spot, pane) for spot in (*far[PLACED_LIMIT:], *close[PLACED_LIMIT:]))
    outside = [wish for wish in wishes if focus is None or math.dist(wish.at, focus.middle) > focus.radius]
    beside = _beside_marks(marks, outside, scene, pane, ground.fits, (*taken, *arrows))
    detail, unmeasured = None, (*(spot.label for spot in spots if spot.is_mixed), *beside.unmeasured)
    if focus is not None:
        inside = [wish for wish in wishes if wish not in outside]
        detail, lost, more = _detail(focus, letter, close[:PLACED_LIMIT], dots, scene, view.on_bench, inside, said)
        homeless += lost
        unmeasured += more
        dots = tuple(at for at in dots if math.dist(at, focus.middle) > focus.radius)
    return Marked(marks, homeless, detail, dots, beside.lengths, unmeasured, beside.entries, (*taken, *beside.taken))


@dataclass(frozen=True, slots=True)
class _Beside:
    """What stands beside the marks of a pane; taken: the ground of these and of the marks."""

    lengths: tuple[Length, ...]
    unmeasured: tuple[str, ...]
    entries: tuple[Entry, ...]
    taken: tuple[tuple[Point, Point], ...]


def _beside_marks(
    marks: Sequence[PlacedMark],
    wishes: Sequence[Wish],
    scene: Scene,
    pane: Pane,
    fits: Fits,
    taken: Sequence[tuple[Point, Point]],
    grown: float = 1.0,
) -> _Beside:
    lengths, unmeasured = lengths_beside(marks, fits, taken)
    grounds = [(length.middle, length.half) for length in lengths]
    entries = entries_of(wishes, pane, marks, scene.shapes, fits, (*taken, *grounds), grown)
    grounds += [(entry.middle, entry.half) for entry in entries]
    return _Beside(lengths, unmeasured, entries, (*((mark.middle, mark.half) for mark in marks), *grounds))


def _wanted(spot: Numbered, pane: Pane, grown: float = 1.0) -> Wanted:
    kind = spot.joint.kind
    sign = screw_sign(spot.joint, pane.across / grown) if kind is JointKind.SCREWS else PLAIN_SIGN
    return Wanted(
        kind,
        spot.label,
        pane.point(spot.at),
        half_size(kind, spot.label, sign),
        number_side(kind, spot.label),
        sign,
        spot.is_hidden,
        spot.length,
    )


@dataclass(frozen=True, slots=True)
class _Focus:
    """What a detail shows, mm, and how large it is drawn, units."""

    middle: Point
    radius: float
    drawn: float


def _focus(scene: Scene, numbered: Sequence[Numbered], view: View) -> _Focus | None:
    """What a detail shows, if one is called for.

    It is where the part in hand can be drawn DETAIL_FROM times larger, or its marks would touch each other or cover more
    than COVER_LIMIT of it and there is at least something to gain.
    """
    pane = scene.layout.pane
    wanted = [_wanted(spot, pane) for spot in numbered]
    shapes = (*scene.shapes, *scene.over)
    boxes = [shape.box for shape in shapes if shape.state in IN_HAND and shape.box.width and shape.box.height]
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
    middle = scene.layout.drawn_in(((left + right) / 2, (top + bottom) / 2), radius, margin)
    is_grown = drawn > DETAIL_RADIUS
    is_clear = scene.layout.ground.fits(pane.point(middle), (on_plan - 10, on_plan - 10))
    return _Focus(middle, radius, drawn) if is_worth_it and (is_clear or not is_grown) else None


def _beside(box: Box, at: Point, reach: float) -> bool:
    return box.x - reach <= at[0] <= box.right + reach and box.y - reach <= at[1] <= box.bottom + reach


def _letter(
    focus: _Focus, pane: Pane, ground: Rectangle, marks: Sequence[Wanted]
) -> tuple[Point, tuple[tuple[Point, Point], ...]]:
    """Where the letter of the detail stands beside its circle, and the ground the two take."""
    x, y = pane.point(focus.middle)
    out = focus.radius * pane.across + 11
    half = (7.0, 9.0)
    around = [(x + out * math.cos(math.radians(a)), y + out * math.sin(math.radians(a))) for a in range(225, 585, 45)]
    free = [at for at in around if ground.fits(at, half)]
    clear = [
        at
        for at in free
        if all(abs(at[0] - m.middle[0]) > half[0] + m.half[0] or abs(at[1] - m.at[1]) > half[1] + m.half[1] for m in marks)
    ]
    chosen = (clear or free or around)[0]
    return chosen, ((chosen, half),)


def _detail(
    focus: _Focus,
    letter: Point,
    numbered: Sequence[Numbered],
    dots: Sequence[Point],
    scene: Scene,
    on_bench: bool,
    wishes: Sequence[Wish],
    said: tuple[str, str],
) -> tuple[Detail, tuple[Wanted, ...], tuple[str, ...]]:
    title, joints = said
    plan = scene.layout.pane
    scale = focus.drawn / focus.radius
    pane = Pane(0.0, 0.0, focus.middle, scale, scale)

    def fits(at: Point, half: Point) -> bool:
        return math.hypot(at[0], at[1]) + max(half) <= focus.drawn + 6

    marks, lost = place([_wanted(spot, pane, DETAIL_MARKS) for spot in numbered], fits, (), DETAIL_MARKS)
    beside = _beside_marks(marks, wishes, scene, pane, fits, (), DETAIL_MARKS)
    enlarged = written(round(scale / plan.across, 1))
    return (
        Detail(
            circle=plan.point(focus.middle),
            radius=focus.radius * plan.across,
            letter=(letter[0], letter[1] + 6),
            drawn=focus.drawn,
            corner=(-focus.drawn - 8, -focus.drawn - 6),
            width=2 * focus.drawn + 16,
            height=2 * focus.drawn + 40,
            caption_at=(0.0, focus.drawn + 24),
            pane=pane,
            ground=scene.device if scene.device.part is None and not on_bench else None,
            shapes=tuple(shape for shape in (*scene.shapes, *scene.over) if _reaches(shape.box, focus.middle, focus.radius)),
            runs=scene.runs,
            dots=tuple(at for at in dots if math.dist(at, focus.middle) <= focus.radius),
            marks=marks,
            lengths=beside.lengths,
            entries=beside.entries,
            enlarged=enlarged,
            title=say("Detail A: {title}", title=title),
            desc=" ".join(
                (
                    say("The circled place of the plan, enlarged {times} times.", times=in_digits(enlarged)),
                    *([say("Joints: {joints}.", joints=joints)] if joints else []),
                )
            ),
        ),
        lost,
        beside.unmeasured,
    )


def _reaches(box: Box, middle: Point, radius: float) -> bool:
    nearest = (min(max(middle[0], box.x), box.right), min(max(middle[1], box.y), box.bottom))
    return math.dist(nearest, middle) <= radius
