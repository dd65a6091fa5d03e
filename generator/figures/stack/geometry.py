"""The stack of a run of steps, or of one of its steps, put together: states, paint, labels and words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from generator.anatomy.parts import PartId
from generator.figures.stack import words
from generator.figures.stack.anchors import anchors_of
from generator.figures.stack.arrangement import Arrangement, arrange, placed
from generator.figures.stack.captions import LETTERINGS, Caption, caption_of, column_of, labels_of
from generator.figures.stack.leaders import SIDE_LIMIT
from generator.figures.stack.leaving import Leaving
from generator.figures.stack.painting import painted
from generator.figures.stack.projection import Point, projected
from generator.figures.stack.screws import HOVER
from generator.figures.stack.shapes import IN_HAND, Label, ScrewForm, Stack, State, Variant
from generator.orders.guide import Guide
from generator.orders.work import Step

PARTS_LIMIT = 40
SHEET_LIMIT = 1650.0
"""Parts, and units of height, up to which names stand at the leaders; beyond, numbers do, and the parts list says the rest.

With these, letters keep 6 pt where the figure fills the width or the height of an A4 page inside margins of 16 mm.
"""

_MARGIN = 10.0


def stack_of(
    guide: Guide, steps: Sequence[Step], *, now: int | None = None, narrow: bool = False, back: bool = False
) -> Stack | None:
    """The stack of a run of steps; None where no part of it has a box, so that the parts list stands alone.

    now: the step of the run, from 0, whose parts are in the hand: what left before it is an outline, what is still in is
    muted. Without it every part is in its place. narrow: numbers alone, for small screens. back: the way back, which shows
    the same things (the hand puts in what it took out) in other words. IndexError for a `now` outside the run.
    """
    arranged = arrange(guide, steps)
    return stack_from(arranged, now=now, narrow=narrow, back=back) if arranged is not None else None


def stacks_of(
    guide: Guide, steps: Sequence[Step], *, narrow: bool = False, back: bool = False
) -> tuple[Stack, ...]:
    """The stacks of every step of a run, in the order of the run; none where no part has a box.

    The same as `stack_of` for each `now`, worked out together.
    """
    arranged = arrange(guide, steps)
    if arranged is None:
        return ()
    return tuple(stack_from(arranged, now=now, narrow=narrow, back=back) for now in range(len(steps)))


def states_of(leaving: Leaving, now: int | None) -> Mapping[PartId, State]:
    """How every part that is shown stands in step `now` of the run, or in the run as a whole."""
    base = leaving.anatomy.base
    if now is None:
        return {part: State.BASE if part == base else State.PLACE for part in leaving.shown}
    hand = leaving.hand(now)
    worked = () if hand else leaving.worked(now)
    states: dict[PartId, State] = {}
    for part in leaving.shown:
        if part in hand:
            states[part] = State.HAND
        elif part == base:
            states[part] = State.BASE
        elif leaving.goes.get(part, now) < now:
            states[part] = State.OUT
        elif leaving.taken_by.get(part) in hand and leaving.goes[part] == now:
            states[part] = State.CARRIED
        else:
            states[part] = State.WORKED if part in worked else State.MUTED
    return states


def stack_from(
    arranged: Arrangement, *, now: int | None = None, narrow: bool = False, back: bool = False, pick: bool = False
) -> Stack:
    """The same as `stack_of`, of a run that has been arranged already: for a page that shows it in several ways.

    pick: its numbers are to be links, so a narrow one gives them room.
    """
    leaving = arranged.leaving
    states = states_of(leaving, now)
    variant = _variant(arranged, now, narrow)
    if pick and variant is Variant.NARROW:
        variant = Variant.PICK
    labels = _labels(arranged, states, variant)
    corner, width, height = _sheet(arranged, labels, variant)
    if variant is Variant.FULL and (_fuller_side(labels) > SIDE_LIMIT or height > SHEET_LIMIT):
        variant = Variant.NUMBERS
        labels = _labels(arranged, states, variant)
        corner, width, height = _sheet(arranged, labels, variant)
    forms: dict[ScrewForm, int] = {}
    paint = painted(arranged, states, forms)
    return Stack(
        title=words.title_of(arranged.guide.device.name, leaving, now, back),
        desc=words.desc_of(leaving, now, back, arranged.sideways, arranged.undrawn),
        variant=variant,
        corner=corner,
        width=width,
        height=height,
        forms=tuple(forms),
        painted=paint,
        labels=labels,
        undrawn=arranged.undrawn,
    )


def going_back(arranged: Arrangement, stack: Stack, now: int) -> Stack:
    """The stack of step `now` on the way out as it is called on the way back: it shows the same."""
    return replace(
        stack,
        title=words.title_of(arranged.guide.device.name, arranged.leaving, now, True),
        desc=words.desc_of(arranged.leaving, now, True, arranged.sideways, arranged.undrawn),
    )


def _fuller_side(labels: Sequence[Label]) -> int:
    on_left = sum(label.is_left for label in labels)
    return max(on_left, len(labels) - on_left)


def _variant(arranged: Arrangement, now: int | None, narrow: bool) -> Variant:
    if now is not None:
        return Variant.STEP_NARROW if narrow else Variant.STEP
    if narrow:
        return Variant.NARROW
    drawn = sum(len(level.solids) for level in arranged.levels)
    return Variant.NUMBERS if drawn > PARTS_LIMIT else Variant.FULL


# --- labels -----------------------------------------------------------------------------------------------------


def _labels(arranged: Arrangement, states: Mapping[PartId, State], variant: Variant) -> tuple[Label, ...]:
    leaving, parts = arranged.leaving, arranged.guide.anatomy.parts
    captions = []
    for level in arranged.levels:
        for solid in level.solids:
            part, number = solid.part, leaving.numbers.get(solid.part, "")
            if (variant.is_of_step and states[part] not in IN_HAND) or not (number or variant.has_names):
                continue
            note = words.held_by(leaving, part, part in arranged.sideways)
            captions.append(caption_of(part, states[part], number, _capital(parts[part].name) or part, note, variant))
    filled = frozenset(part for part, state in states.items() if state is not State.OUT)
    anchors = anchors_of(arranged.levels, (caption.part for caption in captions), filled)
    units, hover = arranged.units, HOVER * arranged.units
    spots = [projected(s.x, s.y, arranged.levels[s.start].offset) for s in arranged.screws]
    return labels_of(
        captions,
        {part: (placed(*left, units), placed(*right, units)) for part, (left, right) in anchors.items()},
        (arranged.bounds[0] * units, arranged.bounds[2] * units),
        [(u * units, v * units - hover) for u, v in spots] if not variant.is_of_step else (),
        variant,
        _column(arranged, captions, variant),
    )


def _capital(name: str) -> str:
    """A name as a label has it: authors write it as in the middle of a sentence."""
    name = name.strip()
    return name[:1].upper() + name[1:]


def _column(arranged: Arrangement, captions: Sequence[Caption], variant: Variant) -> float:
    """Where names begin; in the stacks of single steps at the same place all through the run."""
    if not variant.is_of_step:
        return column_of(captions, LETTERINGS[variant])
    numbers = [Caption(part, State.HAND, number, (), ()) for part, number in arranged.leaving.numbers.items()]
    return column_of(numbers, LETTERINGS[variant])


def _sheet(arranged: Arrangement, labels: Sequence[Label], variant: Variant) -> tuple[Point, float, float]:
    """Corner, width and height: the drawing with its labels; the same for every step of a run."""
    letters, units = LETTERINGS[variant], arranged.units
    left, top, right, bottom = (length * units for length in arranged.bounds)
    if variant.is_of_step:
        column = _column(arranged, (), variant)
        lower, upper = left - _MARGIN, right + letters.away + column + letters.room + _MARGIN
    else:
        reach = max([right - x for x in (left, *(label.target[0] for label in labels))] + [0.0])
        outer = max([x - left for x in (right, *(label.target[2] for label in labels))] + [0.0])
        lower, upper = right - max(reach, outer) - _MARGIN, left + max(reach, outer) + _MARGIN
    top = min([top, *(label.box[1] for label in labels)]) - _MARGIN
    bottom = max([bottom, *(label.box[3] for label in labels)]) + _MARGIN
    return (round(lower, 1), round(top, 1)), round(upper - lower, 1), round(bottom - top, 1)
