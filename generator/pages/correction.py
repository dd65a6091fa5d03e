"""The form for a correction by hand: one sheet of paper a device, on which steps are ticked and lines are written."""

from __future__ import annotations

from dataclasses import dataclass

from generator.languages import say
from generator.orders.guide import Guide
from generator.pages.addresses import CONTRIBUTE, CORRECTION, DEVICE, LIBRARY, WHOLE, canonical_address
from generator.pages.frame import Crumb, FrameView, frame_of
from generator.pages.survey import Survey
from generator.pages.typography import DASH
from generator.pages.wording import foreign_language

FEW_TITLES = 24
MOST_TITLES = 45
MOST_NUMBERS = 240
"""Steps that fit on the sheet beside what is written by hand: with titles in two columns or three, or as numbers alone."""


@dataclass(frozen=True, slots=True)
class StepBox:
    """A step that can be ticked. foreign: the language of its title where that is not the page's."""

    number: str
    title: str
    foreign: str


@dataclass(frozen=True, slots=True)
class CorrectionPage:
    """spread: how the steps are laid out: few, many, or numbers; no steps where even those would not fit.

    room: lines to write on for what should stand there, where the steps leave so many.
    """

    frame: FrameView
    name: str
    address: str
    contribute_href: str
    guide_href: str
    author: str
    licence: str
    spread: str
    steps: tuple[StepBox, ...]
    room: int


def correction_page(survey: Survey) -> CorrectionPage:
    guide, library = survey.guide, survey.library
    title = say("Correction on paper")
    spread, steps = _steps(guide)
    return CorrectionPage(
        frame=frame_of(
            library,
            path=f"{guide.id}/{CORRECTION}",
            title=f"{title}: {guide.device.name} – {library.title}",
            description=say("A sheet to print and fill in by hand, for something in the guide that is wrong."),
            crumbs=(Crumb(library.title, f"../{LIBRARY}"), Crumb(guide.device.name, DEVICE), Crumb(title, "")),
            skip=("#form", say("Skip to the form")),
        ),
        name=guide.device.name,
        address=canonical_address(library.address, f"{guide.id}/{WHOLE}") or "",
        contribute_href=f"../{CONTRIBUTE}",
        guide_href=WHOLE,
        author=library.author or "",
        licence=library.licence or "",
        spread=spread,
        steps=steps,
        room=4 if spread == "few" or not steps else 3,
    )


def _steps(guide: Guide) -> tuple[str, tuple[StepBox, ...]]:
    """Numbers are those of the whole guide; a step that is only on a shorter way has none."""
    numbers = guide.number_of
    boxes = tuple(
        StepBox(
            str(numbers.get(step.id, DASH)),
            step.title,
            foreign_language(guide, f"step:{step.id}"),
        )
        for step in guide.steps
    )
    if len(boxes) <= MOST_TITLES:
        return ("few" if len(boxes) <= FEW_TITLES else "many"), boxes
    counted = tuple(StepBox(str(number), "", "") for number in range(1, len(guide.order) + 1))
    return "numbers", counted if len(counted) <= MOST_NUMBERS else ()
