"""What changed in a guide, and when, in its author's words: a page that can be printed and laid beside the bench."""

from __future__ import annotations

from dataclasses import dataclass

from generator.languages import day, say, say_many
from generator.pages.addresses import CHANGES, DEVICE, source_address
from generator.pages.codes import CodeLine, code_line
from generator.pages.frame import Crumb, Fact, FrameView, frame_of
from generator.pages.survey import Survey
from generator.pages.wording import foreign_language


@dataclass(frozen=True, slots=True)
class ChangeWords:
    """foreign: the language of the words where that is not the page's."""

    words: str
    foreign: str = ""


@dataclass(frozen=True, slots=True)
class ChangeEntry:
    """The changes of one day: the day as machines read it, in words, and what was changed."""

    date: str
    day: str
    words: tuple[ChangeWords, ...]


@dataclass(frozen=True, slots=True)
class ChangesPage:
    frame: FrameView
    name: str
    device_href: str
    lede: str
    block: tuple[Fact, ...]
    entries: tuple[ChangeEntry, ...]
    code: CodeLine


def changes_page(survey: Survey) -> ChangesPage | None:
    """The latest day first, the changes of a day as they were written; None where the guide tells none."""
    guide, device = survey.guide, survey.guide.device
    if not device.changes:
        return None
    days: dict[str, list[ChangeWords]] = {}
    for index, change in enumerate(device.changes):
        days.setdefault(change.day, []).append(ChangeWords(change.words, foreign_language(guide, f"change:{index}")))
    path = f"{guide.id}/{CHANGES}"
    latest = max(days)
    return ChangesPage(
        frame=frame_of(
            survey.library,
            path=path,
            title=f"{say('{device}, what changed', device=device.name)} – {survey.library.title}",
            description=say("What changed in the guide to the {device}, and when.", device=device.name),
            crumbs=(
                Crumb(survey.library.title, "../index.html"),
                Crumb(device.name, DEVICE),
                Crumb(say("What changed"), ""),
            ),
            skip=("#changes", say("Skip to the changes")),
            source_href=source_address(survey.library.sources, f"{guide.id}/device.yaml"),
        ),
        name=device.name,
        device_href=DEVICE,
        lede=say("If you work from a printed sheet that is older than a change below, look at that change first."),
        block=(
            Fact(say("Last changed"), day(latest)),
            Fact(say("On record"), say_many("{n}~change", "{n}~changes", len(device.changes))),
        ),
        entries=tuple(ChangeEntry(date, day(date), tuple(days[date])) for date in sorted(days, reverse=True)),
        code=code_line(survey.library, path),
    )
