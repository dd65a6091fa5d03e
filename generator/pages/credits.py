"""Who made the photos of a guide, gathered from all its steps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.languages import say, say_many
from generator.orders.work import StepId
from generator.pages.addresses import WHOLE, anchor
from generator.pages.licences import licence_address
from generator.pages.survey import Survey


@dataclass(frozen=True, slots=True)
class CreditPlace:
    label: str
    href: str


@dataclass(frozen=True, slots=True)
class CreditLine:
    """A name with the licence of its photos, where there is one, how many they are, and the steps that show them."""

    name: str
    licence: str
    licence_href: str
    photos: str
    steps: tuple[CreditPlace, ...]


@dataclass(frozen=True, slots=True)
class CreditsView:
    """unnamed: how many photos carry no name, and whose they are taken to be; empty where all carry one."""

    lines: tuple[CreditLine, ...]
    unnamed: str


def credits_of(survey: Survey) -> CreditsView | None:
    """The names in the order in which the whole guide shows them; None where it shows no photo.

    What names no licence of its own is under that of the library.
    """
    library, numbers = survey.library, survey.guide.number_of
    shown = {step.id for step in survey.shown} | {step.id for step in survey.guide.alternatives}
    found: dict[tuple[str, str], dict[StepId, int]] = {}
    unnamed = 0
    for step in survey.guide.steps:
        for photo in step.photos if step.id in shown and step.id in survey.photos else ():
            if photo.credit is None:
                unnamed += 1
                continue
            steps = found.setdefault((photo.credit, photo.licence or library.licence or ""), {})
            steps[step.id] = steps.get(step.id, 0) + 1
    if not found and not unnamed:
        return None
    lines = tuple(
        CreditLine(
            name,
            licence,
            licence_address(licence) or "",
            say_many("{n}~photo", "{n}~photos", sum(steps.values())),
            _places(steps, numbers),
        )
        for (name, licence), steps in found.items()
    )
    return CreditsView(lines, _unnamed(unnamed, library.author))


def _places(steps: Mapping[StepId, int], numbers: Mapping[StepId, int]) -> tuple[CreditPlace, ...]:
    return tuple(
        CreditPlace(
            say("step~{number}", number=numbers[step]) if step in numbers else say("another way"),
            f"{WHOLE}#{anchor('step', step)}",
        )
        for step in steps
    )


def _unnamed(count: int, author: str | None) -> str:
    if not count:
        return ""
    if author is None:
        return say_many("{n}~photo carries no name.", "{n}~photos carry no name.", count)
    return say_many("{n}~photo is by {author}.", "{n}~photos are by {author}.", count, author=author)
