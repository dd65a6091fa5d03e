"""The order map, put together: what waits for what, laid out and joined by orthogonal lines."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from functools import lru_cache

from generator.anatomy.parts import Point
from generator.figures.order_map import words
from generator.figures.order_map.boxes import Layout
from generator.figures.order_map.columns import Columns, Kind, chosen_choices, columns_among
from generator.figures.order_map.joining import joined
from generator.figures.order_map.layered import balanced
from generator.figures.order_map.lettering import width_of
from generator.figures.order_map.routing import Routes, routes_of
from generator.figures.order_map.shapes import Diamond, Form, Line, OrderMap, Place, Standing, Words
from generator.figures.order_map.sizes import CAPTION, CAPTION_GAP, CAPTION_SIZE, DIAMOND, Sizes, boxes_of, sizes_of
from generator.languages import say
from generator.orders.chaining import ItemSet
from generator.orders.waits import EitherOne, Waits
from generator.orders.work import Step, StepId

ALONE_GAP = 14.0  # between boxes of steps that stand alone
ALONE_TOP = 44.0  # from the map to them, with their caption
ALONE_WIDTH = {True: 900.0, False: 310.0}  # of their rows at least, by whether the map has titles
KEY_HEIGHT = 34.0

def order_map_of(
    waits: Waits,
    run: Sequence[Step],
    layout: Layout,
    form: Form,
    *,
    most_lines: int = 2,
    said: Mapping[StepId, str] | None = None,
    chosen: Collection[StepId] = (),
    targets: Collection[StepId] = (),
) -> OrderMap:
    """The map of all steps in `waits`.

    run: the steps in their order, which number the boxes; steps outside it are alternatives and get letters. chosen: the
    steps of the route to show up; targets: what it leads to. most_lines: of a title; said: words instead of it. layout:
    see `dot.dot_layout`. There is a map of any waits; of a ring of steps one line is left out, which its words say.
    """
    titles = tuple((said or {}).get(step.id, step.title) for step in waits.steps)
    columns, sizes, routes = _laid_out(waits.before, waits.eithers, titles, layout, form, most_lines)
    picked = {number for number, step in enumerate(waits.steps) if step.id in chosen or step.id in targets}
    used = chosen_choices(waits, picked)
    middles, diamonds = _middles(columns, routes, sizes, used)
    width, height = sizes.turned((routes.along, routes.across))
    alone, (width, height), captions = _alone(columns.alone, sizes, (width, height))
    key = None
    if diamonds and not form.is_titled:
        key = (DIAMOND, height + KEY_HEIGHT - DIAMOND)
        captions.append(Words(say(CAPTION), (2 * DIAMOND + CAPTION_GAP, key[1] + 5.0)))
        width, height = max(width, captions[-1].at[0] + width_of(say(CAPTION), CAPTION_SIZE)), height + KEY_HEIGHT
    numbers = words.numbers_of(waits, run)
    in_run = {step.id for step in run}
    return OrderMap(
        form=form,
        width=width,
        height=height,
        title=words.title_of(waits, numbers, targets),
        desc=words.desc_of(waits, numbers, chosen, targets, is_cut=columns.is_cut),
        places=tuple(
            Place(
                step=step.id,
                number=numbers[step.id],
                title=step.title,
                words=titles[number],
                lines=sizes.lines[number],
                at=(middles | alone)[number],
                width=sizes.width,
                height=sizes.height,
                standing=_standing(step.id, chosen, targets),
                is_alternative=step.id not in in_run,
            )
            for number, step in enumerate(waits.steps)
        ),
        lines=_lines(columns, routes, sizes, picked, used),
        diamonds=diamonds,
        captions=tuple(captions),
        key=key,
        is_cut=sizes.is_cut,
    )


@lru_cache(maxsize=64)
def _laid_out(
    before: tuple[ItemSet, ...],
    eithers: tuple[EitherOne, ...],
    titles: tuple[str, ...],
    layout: Layout,
    form: Form,
    most_lines: int,
) -> tuple[Columns, Sizes, Routes]:
    """Boxes and lines in their places. They do not lean on the way that is shown, so the pages of a device share them."""
    columns = columns_among(len(titles), before, eithers)
    sizes = sizes_of(titles, form, most_lines)
    boxes = boxes_of(columns, sizes)
    halves = [sizes.half(node) for node in columns.nodes]
    places = layout(boxes)
    # From top to bottom the width is what is scarce: the order is kept, but boxes move together.
    across = [place[1] for place in (balanced(boxes, places) if form.runs_down else places)]
    return columns, sizes, routes_of(columns, boxes, across, halves)


def _standing(step: StepId, chosen: Collection[StepId], targets: Collection[StepId]) -> Standing:
    if step in targets:
        return Standing.TARGET
    return Standing.CHOSEN if step in chosen else Standing.OTHER


def _middles(
    columns: Columns, routes: Routes, sizes: Sizes, used: Mapping[int, frozenset[int]]
) -> tuple[dict[int, Point], tuple[Diamond, ...]]:
    """The middles of the boxes by step number, and the diamonds."""
    middles: dict[int, Point] = {}
    diamonds = []
    for node, place in routes.middles.items():
        entry, at = columns.nodes[node], sizes.turned(place)
        if entry.kind is Kind.STEP:
            middles[entry.number] = at
        elif entry.kind is Kind.CHOICE:
            diamonds.append(Diamond(at, bool(used[entry.number]), sizes.caption_at(at)))
    return middles, tuple(diamonds)


def _lines(
    columns: Columns, routes: Routes, sizes: Sizes, picked: Collection[int], used: Mapping[int, frozenset[int]]
) -> tuple[Line, ...]:
    """The lines with those of the route last."""
    lines = []
    for run, corners in zip(columns.runs, routes.corners, strict=True):
        start, end = columns.nodes[run.nodes[0]], columns.nodes[run.nodes[-1]]
        if end.kind is Kind.CHOICE:
            is_chosen = start.number in used[end.number]
        elif start.kind is Kind.CHOICE:
            is_chosen = bool(used[start.number])
        else:
            is_chosen = start.number in picked and end.number in picked
        turned = tuple(sizes.turned(corner) for corner in corners)
        lines.append(Line(turned, turned, is_chosen, run.is_either, end.kind is Kind.STEP))
    return joined(sorted(lines, key=lambda line: line.is_chosen))


def _alone(
    steps: Sequence[int], sizes: Sizes, extent: Point
) -> tuple[dict[int, Point], Point, list[Words]]:
    """Steps that no line leads to or from, in rows below the map; with the size of it all and the rows' caption."""
    if not steps:
        return {}, extent, []
    width, height = extent
    top = height + ALONE_TOP if height else ALONE_TOP / 2
    in_row = max(1, int((max(width, ALONE_WIDTH[sizes.form.is_titled]) + ALONE_GAP) // (sizes.width + ALONE_GAP)))
    middles = {}
    for place, step in enumerate(steps):
        row, column = divmod(place, in_row)
        middles[step] = (
            column * (sizes.width + ALONE_GAP) + sizes.width / 2,
            top + row * (sizes.height + ALONE_GAP) + sizes.height / 2,
        )
    right = max(x for x, _ in middles.values()) + sizes.width / 2
    bottom = max(y for _, y in middles.values()) + sizes.height / 2
    return middles, (max(width, right), bottom), [Words(say(words.ALONE), (0.0, top - 10.0))]
