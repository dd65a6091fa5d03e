"""What is to be seen of the device before a step: which parts, in which state, on which field, mirrored or not."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import Box, Part, PartId, Point
from generator.figures.plan.before import Before, shown_face
from generator.figures.plan.shapes import Shape, State
from generator.figures.plan.stacking import overlap, painted
from generator.orders.work import Step, Verb

HIDDEN_FROM = 0.5
"""Share of a part in hand that others must cover for it to be drawn as hidden."""

_AT_EDGE = 0.02  # share of the device's smaller side within which a part counts as lying at its edge
_SAMPLES = 9  # points a side for measuring how much of a part is covered


@dataclass(frozen=True, slots=True)
class View:
    """A step as seen.

    face: the one drawn, as named by the author; mirror: where x = 0 of the second face lies on the first, None if seen from
    the first; field: what the device takes up, mm as authored, None if nothing has a box. lifted, folded, worked: the parts
    in hand. on_bench: the part in hand left the device before, with what it sits in.
    """

    face: str
    mirror: float | None
    second: str | None
    field: Box | None
    lifted: tuple[PartId, ...]
    folded: tuple[PartId, ...]
    worked: tuple[PartId, ...]
    on_bench: bool
    present: frozenset[PartId]

    @property
    def hand(self) -> tuple[PartId, ...]:
        return (*self.lifted, *self.folded) or self.worked

    def point(self, point: Point) -> Point:
        return point if self.mirror is None else (self.mirror - point[0], point[1])

    def box(self, box: Box) -> Box:
        return box if self.mirror is None else replace(box, x=self.mirror - box.right)


def view_of(anatomy: Anatomy, step: Step, before: Before, faces: tuple[str, ...], size: tuple[float, float] | None) -> View:
    """The view a step is drawn in; every face but the second is seen from the first."""
    face = shown_face(step, before)
    second = faces[1] if len(faces) > 1 else None
    field = _field(anatomy, size)
    lifted = _once(step, Verb.LIFT, anatomy)
    folded = tuple(part for part in _once(step, Verb.FOLD, anatomy) if part not in lifted)
    worked = _worked(anatomy, step)
    hand = (*lifted, *folded) or worked
    carriers = {part: _carrier(anatomy, part, before) for part in hand}
    on_bench = bool(hand) and all(carriers.values())
    present = frozenset(
        part
        for part in anatomy.parts
        if part != anatomy.base
        and (carrier := _carrier(anatomy, part, before)) != part
        and (carrier in carriers.values() if on_bench else carrier is None)
    )
    if on_bench:
        present |= {carrier for carrier in carriers.values() if carrier is not None}
    return View(
        face=face,
        mirror=field.x + field.right if field is not None and second is not None and face == second else None,
        second=second,
        field=field,
        lifted=lifted,
        folded=folded,
        worked=worked,
        on_bench=on_bench,
        present=present,
    )


def shapes_of(anatomy: Anatomy, view: View, before: Before) -> tuple[tuple[Shape, ...], tuple[Shape, ...]]:
    """The parts to paint, deepest first, and the outlines that go over everything: hidden or folded aside."""
    states = _states(anatomy, view, before)
    solid: list[Shape] = []
    over: list[Shape] = []
    for name in painted(anatomy, view.mirror is not None, view.second):
        state = states.get(name)
        if state is None or (state is State.BASE and view.on_bench):
            continue
        shape = _shape(anatomy.parts[name], state, view)
        if state in (State.ASIDE, State.ASIDE_HAND):
            over.append(replace(shape, features=(), holes=()))
        else:
            solid.append(shape)
    for index, shape in enumerate(solid):
        if shape.state in (State.HAND, State.WORKED):
            share = _covered(shape, [other for other in solid[index + 1 :] if other.state is not State.CARRIED])
            if share >= HIDDEN_FROM:
                state = State.HIDDEN if shape.state is State.HAND else State.UNDER
                over.append(replace(shape, state=state, features=()))
    return seen_of(solid), tuple(over)


def seen_of(shapes: Sequence[Shape]) -> tuple[Shape, ...]:
    """The shapes of which something is to be seen when they are painted in that order."""
    return tuple(
        shape for index, shape in enumerate(shapes) if not any(_hides(upper, shape) for upper in shapes[index + 1 :])
    )


def drawn_out(view: View, over: Iterable[Shape]) -> Mapping[PartId, int]:
    """The lifted parts that can only leave sideways, with the direction in degrees (0 right, 90 down).

    That is a part which lies under others that stay, at the edge of the device: a tray in its slot.
    """
    found: dict[PartId, int] = {}
    field = view.box(view.field) if view.field is not None else None
    for shape in over:
        if field is None or shape.state is not State.HIDDEN or shape.part not in view.lifted:
            continue
        box, near = shape.box, _AT_EDGE * min(field.width, field.height)
        gaps = {
            0: field.right - box.right,
            90: field.bottom - box.bottom,
            180: box.x - field.x,
            270: box.y - field.y,
        }
        side = min(gaps, key=lambda degrees: (gaps[degrees], degrees))
        if gaps[side] <= near:
            found[shape.part] = side
    return found


def device_shape(anatomy: Anatomy, view: View, field: Box) -> Shape:
    """The outline of the whole device: that of the base where it has one, with the base's or the largest cover's corner."""
    base = anatomy.parts.get(anatomy.base)
    covers = [part.corner for part in anatomy.parts.values() if part.box is not None and _spans(part.box, field)]
    if base is not None and base.box is not None and _spans(base.box, field):
        shape = _shape(base, State.BASE, view)
        return replace(shape, corner=shape.corner or max(covers, default=0.0), holes=(), features=())
    return Shape(None, State.BASE, view.box(field), max(covers, default=0.0))


def _field(anatomy: Anatomy, size: tuple[float, float] | None) -> Box | None:
    boxes = [part.box for part in anatomy.parts.values() if part.box is not None]
    if not boxes:
        return None
    if size is not None and min(size) > 0:
        return Box(0.0, 0.0, *size)
    left, top = min(box.x for box in boxes), min(box.y for box in boxes)
    field = Box(left, top, max(box.right for box in boxes) - left, max(box.bottom for box in boxes) - top)
    return field if min(field.width, field.height) > 0 else None


def _once(step: Step, verb: Verb, anatomy: Anatomy) -> tuple[PartId, ...]:
    named = (action.part for action in step.actions if action.verb is verb and action.part in anatomy.parts)
    return tuple(dict.fromkeys(part for part in named if part is not None))


def _worked(anatomy: Anatomy, step: Step) -> tuple[PartId, ...]:
    """The part each joint of the step is on, or each part that is checked."""
    found: dict[PartId, None] = {}
    for action in step.actions:
        if action.part in anatomy.parts and action.part is not None:
            found[action.part] = None
        joint = anatomy.joints.get(action.joint) if action.joint is not None else None
        if joint is not None:
            ends = [end for end in joint.joins if end != anatomy.base] or list(joint.joins)
            found[next((end for end in ends if anatomy.parts[end].box is not None), ends[0])] = None
    return tuple(found)


def _carrier(anatomy: Anatomy, part: PartId, before: Before) -> PartId | None:
    """The lifted part that took this one out with it, the part itself if it was lifted; None if it is still in."""
    above: PartId | None = part
    while above is not None and above in anatomy.parts:
        if above in before.out:
            return above
        above = anatomy.parts[above].inside
    return None


def _states(anatomy: Anatomy, view: View, before: Before) -> Mapping[PartId, State]:
    handled = {*view.lifted, *view.folded}
    carried = frozenset[PartId]().union(*(anatomy.assemblies[part] for part in handled if part != anatomy.base))
    aside = frozenset[PartId]().union(*(anatomy.assemblies[part] for part in before.folded if part in anatomy.parts))
    states: dict[PartId, State] = {anatomy.base: State.BASE}
    for part in (*view.present, *view.hand):
        if part in view.hand:
            in_hand = State.HAND if part in handled else State.WORKED
            states[part] = State.ASIDE_HAND if part in aside or part not in view.present else in_hand
        elif part in aside:
            # What a folded part carries is shown by the folded part's own outline.
            if part in before.folded:
                states[part] = State.ASIDE
        else:
            states[part] = State.CARRIED if part in carried else State.PLACE
    return states


def _shape(part: Part, state: State, view: View) -> Shape:
    box = part.box or Box(0.0, 0.0, 0.0, 0.0)
    limit = min(box.width, box.height) / 2
    return Shape(
        part=part.id,
        state=state,
        box=view.box(box),
        corner=max(0.0, min(part.corner, limit)),
        points=tuple(view.point(point) for point in part.outline) if len(part.outline) > 2 else (),
        holes=tuple(view.box(hole) for hole in part.holes),
        features=tuple(
            replace(feature, centre=view.point(feature.centre), box=view.box(feature.box) if feature.box else None)
            for feature in part.features
        ),
    )


def _covered(shape: Shape, others: Iterable[Shape]) -> float:
    others = [other for other in others if overlap(shape.box, other.box)]
    if not others:
        return 0.0
    samples = [
        (shape.box.x + shape.box.width * (i + 0.5) / _SAMPLES, shape.box.y + shape.box.height * (j + 0.5) / _SAMPLES)
        for i in range(_SAMPLES)
        for j in range(_SAMPLES)
    ]
    own = [point for point in samples if covers(shape, point)]
    return sum(any(covers(other, point) for other in others) for point in own) / len(own) if own else 0.0


def covers(shape: Shape, point: Point) -> bool:
    """Whether the shape's material is at that point; corners count as square."""
    if not _within(shape.box, point) or any(_within(hole, point) for hole in shape.holes):
        return False
    return not shape.points or _in_polygon(shape.points, point)


def _within(box: Box, point: Point) -> bool:
    return box.x <= point[0] <= box.right and box.y <= point[1] <= box.bottom


def _in_polygon(points: tuple[Point, ...], at: Point) -> bool:
    """Even-odd rule: how often a line to the right of the point crosses the outline."""
    inside = False
    for (x0, y0), (x1, y1) in zip(points, (*points[1:], points[0]), strict=True):
        if (y0 > at[1]) != (y1 > at[1]) and at[0] < (x1 - x0) * (at[1] - y0) / (y1 - y0) + x0:
            inside = not inside
    return inside


def _hides(upper: Shape, lower: Shape) -> bool:
    """Whether nothing of `lower` can be seen under `upper`, so that it need not be drawn."""
    if (
        upper.points
        or upper.holes
        or lower.points
        or lower.state is State.BASE
        or upper.state in (State.HIDDEN, State.UNDER)
    ):
        return False
    inset = 0.3 * max(0.0, upper.corner - lower.corner)  # a square corner at a round one: 1 - 1/sqrt(2) of the radius
    return (
        upper.box.x + inset <= lower.box.x
        and upper.box.y + inset <= lower.box.y
        and lower.box.right <= upper.box.right - inset
        and lower.box.bottom <= upper.box.bottom - inset
    )


def _spans(box: Box, field: Box) -> bool:
    return box.width >= 0.95 * field.width and box.height >= 0.95 * field.height
