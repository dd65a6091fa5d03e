"""The contact sheet of a device: for each step the stills to choose from, as one page that opens anywhere."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from shlex import quote

from markupsafe import Markup

from generator.handover.single import policy_for, whole_sheet
from generator.media.stills import Offered, clock
from generator.orders.guide import Guide
from generator.orders.work import Step, StepId
from generator.pages.theme import Theme, set_page, shared_files

SHEET = "contact-sheet.css"


@dataclass(frozen=True, slots=True)
class OfferedView:
    """src: the picture itself as a data address; choice: what the command is told to take it."""

    src: str
    width: int
    height: int
    alt: str
    number: str
    time: str
    told: str
    choice: str
    is_first: bool


@dataclass(frozen=True, slots=True)
class StepView:
    """note: why nothing is offered, or that the step has photos already; empty otherwise."""

    number: str
    title: str
    id: str
    film: str
    note: str
    offers: tuple[OfferedView, ...]


@dataclass(frozen=True, slots=True)
class ContactSheet:
    mark: str
    policy: str
    style: Markup
    title: str
    film: str
    command: str
    steps: tuple[StepView, ...]


def mark_of_sheet(device: str) -> str:
    """What stands at the head of a contact sheet, by which it is known again."""
    return f"partway contact sheet: {device}"


def contact_sheet(
    guide: Guide,
    steps: Sequence[Step],
    offers: Mapping[StepId, Sequence[Offered]],
    notes: Mapping[StepId, str],
    film: str,
    theme: Theme,
) -> str:
    """The page. film: the name of the film's file; notes: what is told of a step beside its pictures."""
    sheet = dict(theme.files)[SHEET]
    style = whole_sheet(shared_files(theme)) + (sheet if isinstance(sheet, str) else sheet.decode("utf-8"))
    numbers = {step.id: str(number) for number, step in enumerate(guide.order, 1)}
    view = ContactSheet(
        mark=mark_of_sheet(guide.id),
        policy=policy_for(style),
        style=Markup(style),
        title=f"{guide.device.name}: stills to choose from",
        film=film,
        command=f"partway stills {guide.id} --video {quote(film)} --take",
        steps=tuple(
            StepView(
                number=numbers.get(step.id, "–"),
                title=step.title,
                id=step.id,
                film=_span(step),
                note=notes.get(step.id, ""),
                offers=tuple(_view(step, n, each) for n, each in enumerate(offers.get(step.id, ()), 1)),
            )
            for step in steps
        ),
    )
    return set_page(theme, "contact-sheet", view)


def _view(step: Step, number: int, offered: Offered) -> OfferedView:
    found = offered.candidate
    return OfferedView(
        src=f"data:image/jpeg;base64,{b64encode(offered.picture).decode('ascii')}",
        width=offered.width,
        height=offered.height,
        alt=f"Still {number} for {step.title}, at {clock(found.time)}",
        number=str(number),
        time=clock(found.time),
        told=f"sharpness {found.sharpness:.0f}, movement {found.moved:.1f}, in front {found.covered:.0%}",
        choice=f"{step.id}={number}",
        is_first=number == 1,
    )


def _span(step: Step) -> str:
    if step.film is None:
        return ""
    start, end = step.film
    short = [clock(seconds).removesuffix(".00") for seconds in (start, end) if seconds is not None]
    return "–".join(short)
