"""Back to the film: its times on the pages of a device. The pages say all without it, and nothing of it is loaded."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.languages import say
from generator.orders.stretches import Stretch, shots_of, watching
from generator.orders.work import Step
from generator.pages.addresses import WHOLE, anchor, film_at
from generator.pages.survey import Survey
from generator.pages.typography import DASH
from generator.pages.video.chapters import Chapter, chapters_of_film, title_of
from generator.pages.video.files import CHAPTER_LIST, CHAPTERS, DESCRIPTION, OVERLAY, VIDEO, WATCH_LIST, run_folder
from generator.pages.wording import foreign_language
from generator.source.values import clock


@dataclass(frozen=True, slots=True)
class FilmLink:
    """foreign: the language of the label where that is not the page's."""

    label: str
    href: str
    foreign: str = ""


@dataclass(frozen=True, slots=True)
class FilmLine:
    """A stretch of the film: its times, which lead there if the film has an address, and the steps that it shows."""

    time: str
    href: str
    steps: tuple[FilmLink, ...]


@dataclass(frozen=True, slots=True)
class FilmView:
    """What to watch. skip: what need not be watched; unfilmed: what the film does not show; files: for those who publish."""

    lede: str
    lines: tuple[FilmLine, ...]
    skip: str
    unfilmed: str
    files: tuple[FilmLink, ...]


def film_of_device(survey: Survey) -> FilmView | None:
    """Every step of the whole guide; None where the film shows none."""
    chapters = chapters_of_film(survey)
    if not chapters:
        return None
    return FilmView(
        lede=_lede(survey),
        lines=tuple(
            FilmLine(
                clock(chapter.start),
                film_at(survey.guide.device, chapter.start) or "",
                (FilmLink(chapter.title, f"{WHOLE}#{chapter.name}", _foreign(survey, chapter)),),
            )
            for chapter in chapters
        ),
        skip="",
        unfilmed=_unfilmed([step for step in survey.shown if step.id not in shots_of(survey.guide)], survey.shown),
        files=(
            FilmLink(say("chapters (WebVTT)"), f"{VIDEO}/{CHAPTERS}"),
            FilmLink(say("step numbers over the picture (WebVTT)"), f"{VIDEO}/{OVERLAY}"),
            FilmLink(say("list of times"), f"{VIDEO}/{CHAPTER_LIST}"),
            FilmLink(say("description"), f"{VIDEO}/{DESCRIPTION}"),
        ),
    )


def film_of_run(survey: Survey, part: PartId, steps: Sequence[Step]) -> FilmView | None:
    """What of the film the way to a part needs, whose shown steps are given; None where it shows none of them."""
    seen = watching(survey.guide, steps)
    if not seen.parts:
        return None
    numbers = {step.id: number for number, step in enumerate(steps, 1)}
    folder = run_folder(part)
    return FilmView(
        lede=_lede(survey),
        lines=tuple(
            FilmLine(
                _span(stretch),
                film_at(survey.guide.device, stretch.start) or "",
                tuple(_step_link(survey, step, numbers[step.id]) for step in stretch.steps),
            )
            for stretch in seen.parts
        ),
        skip=_skip(seen.skips),
        unfilmed=_unfilmed(seen.unfilmed, steps),
        files=(
            FilmLink(say("what to watch"), f"{folder}/{WATCH_LIST}"),
            FilmLink(say("chapters (WebVTT)"), f"{folder}/{CHAPTERS}"),
            FilmLink(say("step numbers over the picture (WebVTT)"), f"{folder}/{OVERLAY}"),
            FilmLink(say("description"), f"{folder}/{DESCRIPTION}"),
        ),
    )


def _step_link(survey: Survey, step: Step, number: int) -> FilmLink:
    foreign = foreign_language(survey.guide, f"step:{step.id}")
    return FilmLink(title_of(step, str(number)), f"#{anchor('step', step.id)}", foreign)


def _foreign(survey: Survey, chapter: Chapter) -> str:
    return foreign_language(survey.guide, f"step:{chapter.name.removeprefix(anchor('step', ''))}")


def _lede(survey: Survey) -> str:
    if film_at(survey.guide.device, 0) is None:
        return say("Times in the film of the author. This guide says all that is needed without it.")
    return say("Each time opens the film there. This guide says all that is needed without it.")


def _span(stretch: Stretch) -> str:
    if stretch.end is None:
        return say("from {time}", time=clock(stretch.start))
    return f"{clock(stretch.start)}{DASH}{clock(stretch.end)}"


def _skip(skips: Sequence[Stretch]) -> str:
    if not skips:
        return ""
    return say("Not needed for this way: {times}", times=", ".join(_span(each) for each in skips))


def _unfilmed(missing: Sequence[Step], steps: Sequence[Step]) -> str:
    if not missing:
        return ""
    numbers = {step.id: number for number, step in enumerate(steps, 1)}
    return say("Not in the film: {steps}", steps=", ".join(f"{numbers[step.id]}. {step.title}" for step in missing))
