"""What a reader should know before the first step: what can hurt or break, and what else is in reach on the way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.orders.routes import Route
from generator.orders.work import Step
from generator.pages.addresses import anchor, route_page
from generator.pages.cautions import gathered
from generator.pages.library import PartLink
from generator.pages.survey import Survey
from generator.pages.typography import steps_words


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
    """beside: parts that come out on this way or could with no step more."""

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
        tuple(risks),
        tuple(PartLink(guide.part(other).name, route_page(other)) for other in in_reach(survey, steps) if other != part),
    )


def in_reach(survey: Survey, steps: Sequence[Step]) -> tuple[PartId, ...]:
    """The parts with a page whose whole way lies within `steps`."""
    here = {step.id for step in steps}
    return tuple(
        part
        for part in survey.pages
        if isinstance(way := survey.ways[part], Route) and {step.id for step in way.steps} <= here
    )
