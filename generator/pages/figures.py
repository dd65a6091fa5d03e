"""The figures of a page, set for it: the order map of a run of steps, the stack, and the rail beside each step."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from markupsafe import Markup

from generator.figures.order_map.boxes import Boxes, Positions
from generator.figures.order_map.dot import dot_layout
from generator.figures.order_map.drawing import order_map_block
from generator.figures.order_map.maps import order_maps_of
from generator.figures.order_map.words import WaitsRow, brief_titles, waits_table
from generator.figures.rail.drawing import rail_figure, strip_figure
from generator.figures.rail.geometry import rail_of
from generator.figures.stack.arrangement import Arrangement, arrange
from generator.figures.stack.drawing import NO_WAYS, Ways, stack_figure
from generator.figures.stack.geometry import going_back, stack_from
from generator.figures.stack.listing import parts_list
from generator.figures.stack.shapes import Stack
from generator.figures.svg import ident
from generator.languages import say
from generator.orders.guide import Guide
from generator.orders.waits import Waits, waits_of
from generator.orders.work import Step, StepId
from generator.pages.addresses import WHOLE, anchor


@dataclass(frozen=True, slots=True)
class MapView:
    """What waits for what: drawn, and the same as rows of a table; words say how to read the lines that are in it."""

    drawing: Markup
    rows: tuple[WaitsRow, ...]
    words: str


@dataclass(frozen=True, slots=True)
class RailView:
    """The rail of one step: standing beside it, and lying above it on a narrow page."""

    standing: Markup
    lying: Markup


@dataclass(frozen=True, slots=True)
class PartLineView:
    """A line of the parts list, which says in words what the stack shows."""

    number: str
    name: str
    held_by: str
    size: str


@dataclass(frozen=True, slots=True)
class StackView:
    """A run of steps pulled apart, for wide and for narrow pages, and the same as rows of a table."""

    wide: Markup
    narrow: Markup
    rows: tuple[PartLineView, ...]


@dataclass(frozen=True)
class RunStacks:
    """The stacks of a run, worked out together; None where no part has a box."""

    arranged: Arrangement | None
    drawn: dict[int, Stack] = field(default_factory=dict, compare=False, repr=False)
    """Those worked out so far, by step; the way back shows the same."""

    def out(self, index: int) -> Markup:
        """The stack of step `index` (from 0) on the way out: its parts in the hand, earlier ones gone."""
        return self._of_step(index, "apart", back=False)

    def back(self, index: int) -> Markup:
        """The same step on the way back: what it took out is put in."""
        return self._of_step(index, "together", back=True)

    def _of_step(self, index: int, name: str, *, back: bool) -> Markup:
        if self.arranged is None:
            return Markup()
        if index not in self.drawn:
            self.drawn[index] = stack_from(self.arranged, now=index, narrow=True)
        stack = going_back(self.arranged, self.drawn[index], index) if back else self.drawn[index]
        return Markup(stack_figure(stack, ident(name, str(index + 1))))


def run_stacks(guide: Guide, run: Sequence[Step]) -> RunStacks:
    return RunStacks(arrange(guide, run) if run else None)


def stack_view(guide: Guide, run: Sequence[Step], stacks: RunStacks, ways: Ways = NO_WAYS) -> StackView | None:
    """The whole run pulled apart; None where there is nothing to draw. ways: where its parts lead."""
    if stacks.arranged is None:
        return None
    rows = tuple(
        PartLineView(line.number or "–", line.part.name, line.held_by, line.size_in_words)
        for line in parts_list(guide, run)
    )
    return StackView(
        Markup(stack_figure(stack_from(stacks.arranged), "stack-wide", ways)),
        Markup(stack_figure(stack_from(stacks.arranged, narrow=True, pick=bool(ways)), "stack-narrow", ways)),
        rows,
    )


def map_of(guide: Guide, run: Sequence[Step], here: Collection[StepId], *, is_route: bool) -> MapView | None:
    """The order map of a device, numbered as `run`; None where there is nothing to draw.

    here: the steps that stand on the page itself; boxes of others lead to the whole guide. is_route: `run` is one way
    among others and is to stand out.
    """
    waits = waits_of(guide.stepwise)
    if not run or len(waits.steps) < 2:
        return None
    chosen = frozenset(step.id for step in run) if is_route else frozenset()
    maps = order_maps_of(
        waits,
        run,
        _laid_out,
        brief=brief_titles(guide.anatomy, guide.steps),
        chosen=chosen,
        targets=(run[-1].id,) if is_route else (),
    )

    def link(step: StepId) -> str:
        return f"{'' if step in here else WHOLE}#{anchor('step', step)}"

    return MapView(Markup(order_map_block(maps, "map", link)), waits_table(waits, run), _words(waits, run, is_route))


def rail_view(guide: Guide, run: Sequence[Step], now: int) -> RailView:
    """The rail of step number `now` (from 1) of a run; its hatches are drawn once a page by `rail_patterns`."""
    rail = rail_of(guide, run, now)
    return RailView(
        Markup(rail_figure(rail, ident("rail", str(now)))), Markup(strip_figure(rail, ident("strip", str(now))))
    )


def _words(waits: Waits, run: Sequence[Step], is_route: bool) -> str:
    told = [say("A line leads from a step to each that waits for it.")]
    if is_route:
        told.append(say("Heavy: this way, to where it ends."))
    if any(waits.eithers):
        told.append(say("Dashed: either one of the two will do."))
    if len(waits.steps) > len(run):
        told.append(say("Letters: steps outside this count."))
    return " ".join(told)


@lru_cache(maxsize=256)
def _laid_out(boxes: Boxes) -> Positions:
    """The pages of a device ask for the same layout again and again."""
    return dot_layout(boxes)
