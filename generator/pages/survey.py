"""What all pages of one device lean on, worked out once: its ways, its accounts, its numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from generator.anatomy.parts import PartId
from generator.orders.accounts import Accounts, accounts_of, pages_of
from generator.orders.guide import Guide, Library
from generator.orders.hazards import licensed_reason
from generator.orders.numbering import part_numbers
from generator.orders.routes import NoRoute, Route, Turn, best_route
from generator.orders.work import Action, Step, StepId, Verb
from generator.pages.photos import PhotoView
from generator.pages.spares import NO_SPARES, Spares

Way = Route | NoRoute


@dataclass(frozen=True, slots=True)
class Stop:
    """Where a guide hands over: `step` touches `part`, which is for licensed practice only, for `reason`.

    An empty reason stands for the charge that the part stores.
    """

    step: Step
    part: PartId
    reason: str


@dataclass(frozen=True)
class Survey:
    """One device, worked out.

    ways: the best way to every part that some step lifts or that has a page; numbers: the number of each part that the
    order takes out; shown: the steps of the order up to `stop`; photos: by step, ready to be set; spares: those that fit
    several devices of the library.
    """

    library: Library
    guide: Guide
    ways: Mapping[PartId, Way]
    pages: tuple[PartId, ...]
    accounts: Accounts
    numbers: Mapping[PartId, str]
    shown: tuple[Step, ...]
    stop: Stop | None
    photos: Mapping[StepId, tuple[PhotoView, ...]] = field(default_factory=dict)
    spares: Spares = field(default_factory=dict)


def survey_of(
    library: Library,
    guide: Guide,
    photos: Mapping[StepId, tuple[PhotoView, ...]] | None = None,
    spares: Spares = NO_SPARES,
) -> Survey:
    """Work out what the pages of `guide` need. Cost: one route search a part."""
    pages = pages_of(guide)
    lifted = dict.fromkeys(part for step in guide.steps for part in step.lifted if part != guide.anatomy.base)
    shown, stop = up_to_stop(guide, guide.order)
    return Survey(
        library=library,
        guide=guide,
        ways={part: best_route(guide, (part,)) for part in dict.fromkeys((*lifted, *pages))},
        pages=pages,
        accounts=accounts_of(guide, guide.order),
        numbers=part_numbers(guide.order),
        shown=shown,
        stop=stop,
        photos=photos or {},
        spares=spares,
    )


def up_to_stop(guide: Guide, steps: Sequence[Step]) -> tuple[tuple[Step, ...], Stop | None]:
    """The steps before the first that touches what only licensed practice may touch, and that stop."""
    for index, step in enumerate(steps):
        found = licensed_reason(guide, step)
        if found is not None:
            return tuple(steps[:index]), Stop(step, *found)
    return tuple(steps), None


def with_turns(steps: Sequence[Step], turns: Sequence[Turn]) -> tuple[Step, ...]:
    """The steps with the turns that a route adds put where they belong, as actions of their own.

    An added turn has the number -1, which no authored action has.
    """
    result = []
    for step in steps:
        added = {turn.number: turn.face for turn in turns if turn.step == step.id}
        actions: list[Action] = []
        for action in step.actions:
            if action.number in added:
                actions.append(Action(step.id, ADDED, Verb.TURN, step.place, face=added[action.number]))
            actions.append(action)
        result.append(replace(step, actions=tuple(actions)) if added else step)
    return tuple(result)


ADDED = -1
"""The number of an action that the author did not write."""
