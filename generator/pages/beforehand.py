"""What a reader should know before the first step: how deep it goes, what does not survive it, what can hurt or break, and
what else is in reach on the way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.languages import list_of, say, say_many
from generator.orders.guide import Guide
from generator.orders.routes import Route
from generator.orders.work import Step
from generator.pages.addresses import anchor, route_page
from generator.pages.cautions import gathered
from generator.pages.library import PartLink
from generator.pages.survey import Survey
from generator.pages.typography import measure, steps_words


@dataclass(frozen=True, slots=True)
class RiskLine:
    """A hazard by its signal word; steps tells where it is met, href leads to the first of them."""

    level: str
    signal: str
    hazard: str
    steps: str
    href: str


@dataclass(frozen=True, slots=True)
class BeforeView:
    """lines: sentences on how deep it goes and what is made new. beside: parts that come out on this way or could with no
    step more."""

    lines: tuple[str, ...]
    risks: tuple[RiskLine, ...]
    beside: tuple[PartLink, ...]


def beforehand(survey: Survey, steps: Sequence[Step], part: PartId) -> BeforeView:
    """For the way to `part`, whose shown steps are given."""
    guide = survey.guide
    risks = []
    for entry in gathered(guide, steps):
        first = min(entry.places)
        back = first >= len(steps)
        step = steps[2 * len(steps) - 1 - first] if back else steps[first]
        risks.append(
            RiskLine(
                entry.panel.level,
                entry.panel.signal,
                entry.panel.hazard,
                steps_words(place + 1 for place in entry.places),
                f"#{anchor('back' if back else 'step', step.id)}",
            )
        )
    return BeforeView(
        (*_depth(guide, steps, part), *_renewed(guide, steps)),
        tuple(risks),
        tuple(PartLink(guide.part(other).name, route_page(other)) for other in in_reach(survey, steps) if other != part),
    )


def _depth(guide: Guide, steps: Sequence[Step], part: PartId) -> Iterator[str]:
    """How far in the part lies, and how much comes out for it; nothing where the way stops before it."""
    lifted = {other for step in steps for other in step.lifted}
    if part not in lifted:
        return
    found = guide.part(part)
    if found.depth is not None:
        yield say(
            "The {part} lies {depth}~mm deep, seen from the {face}.",
            part=found.name,
            depth=measure(found.depth, 1),
            face=guide.word(found.face),
        )
    others = len(lifted - {part})
    if others:
        yield say_many("{n}~other part comes out on the way.", "{n}~other parts come out on the way.", others)


def _renewed(guide: Guide, steps: Sequence[Step]) -> Iterator[str]:
    """What does not survive being undone, and what takes its place."""
    joints = [guide.joint(joint) for joint in dict.fromkeys(joint for step in steps for joint in step.undone)]
    gone = [joint for joint in joints if joint.is_renewed]
    if gone:
        supplies = dict.fromkeys(supply.name for joint in gone for supply in guide.supplies_for(joint.id))
        names, bought = list_of([joint.name for joint in gone]), list_of([*supplies])
        yield (
            say("Made new on the way back, so buy it first: {joints} ({supplies}).", joints=names, supplies=bought)
            if supplies
            else say("Made new on the way back: {joints}.", joints=names)
        )


def in_reach(survey: Survey, steps: Sequence[Step]) -> tuple[PartId, ...]:
    """The parts with a page whose whole way lies within `steps`."""
    here = {step.id for step in steps}
    return tuple(
        part
        for part in survey.pages
        if isinstance(way := survey.ways[part], Route) and {step.id for step in way.steps} <= here
    )
