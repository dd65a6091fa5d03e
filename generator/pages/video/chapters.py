"""Chapters of the film: as a track for players that read one, and as a list of times for those that read a description."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from generator.languages import say
from generator.orders.hazards import licensed_reason
from generator.orders.stretches import PAUSE, shots_of
from generator.orders.work import Step
from generator.pages.addresses import anchor
from generator.pages.survey import Survey
from generator.pages.video.plain import shortened
from generator.pages.video.track import Cue, track_of
from generator.source.values import clock

LEAST = PAUSE
"""Seconds that a chapter of a list lasts at least, and the first begins with the film: common practice among players."""

LONGEST_TITLE = 100
"""Characters of a title in a list."""


@dataclass(frozen=True, slots=True)
class Chapter:
    """A stretch of the film with a title; end is None where nothing tells it.

    name: unique among those of a film; number: that of its step, empty where it has none.
    """

    name: str
    start: int
    end: int | None
    title: str
    number: str = ""


def chapters_of_film(survey: Survey) -> tuple[Chapter, ...]:
    """Every step that the guide shows, the other ways among them, in the order of the film."""
    guide = survey.guide
    others = [step for step in guide.alternatives if licensed_reason(guide, step) is None]
    return _chapters(survey, [*_numbered(survey.shown), *((step, "") for step in others)])


def chapters_of_run(survey: Survey, steps: Sequence[Step]) -> tuple[Chapter, ...]:
    """The steps of one way, with its own numbers, in the order of the film; what lies between is no chapter."""
    return _chapters(survey, _numbered(steps))


def title_of(step: Step, number: str) -> str:
    """The title of a step with its number on the page; what has none is a way outside the count."""
    return f"{number}. {step.title}" if number else say("Another way: {step}", step=step.title)


def chapter_track(chapters: Iterable[Chapter]) -> str:
    """The chapters as a track; none reaches into the next one."""
    return track_of(
        Cue(chapter.name, chapter.start, _end(chapter), chapter.title) for chapter in drawn_together(chapters, 1)
    )


def chapter_list(chapters: Sequence[Chapter], length: int | None) -> tuple[str, ...]:
    """A time and a title a line, as players look for them in a description.

    The first begins with the film, and none lasts less than `LEAST` seconds: what is shorter is drawn together with the
    one before it.
    """
    if not chapters:
        return ()
    found = [*chapters]
    if found[0].start >= LEAST:
        found.insert(0, Chapter("opening", 0, found[0].start, say("Before the first step")))
    else:
        found[0] = replace(found[0], start=0)
    last = max((chapter.end for chapter in found if chapter.end is not None), default=0)
    if length is not None and all(chapter.end is not None for chapter in found) and length - last >= LEAST:
        found.append(Chapter("closing", last, length, say("After the last step")))
    return tuple(
        f"{clock(chapter.start)} {shortened(chapter.title, LONGEST_TITLE)}"
        for chapter in drawn_together(found, LEAST, length)
    )


def drawn_together(chapters: Iterable[Chapter], least: int, length: int | None = None) -> tuple[Chapter, ...]:
    """The chapters, each beginning at least `least` seconds after the one before and before the end of the film.

    One that does not is told with the one before it. None ends after the next begins.
    """
    found: list[Chapter] = []
    for chapter in chapters:
        is_late = length is not None and length - chapter.start < least
        if found and (chapter.start - found[-1].start < least or is_late):
            before = found[-1]
            end = None if before.end is None or chapter.end is None else max(before.end, chapter.end)
            numbers = ", ".join(number for number in (before.number, chapter.number) if number)
            found[-1] = replace(before, end=end, title=f"{before.title} / {chapter.title}", number=numbers)
        else:
            found.append(chapter)
    ends = [chapter.start for chapter in found[1:]]
    return tuple(
        replace(chapter, end=after if chapter.end is None else min(chapter.end, after))
        for chapter, after in zip(found, ends, strict=False)
    ) + tuple(found[-1:])


def _numbered(steps: Sequence[Step]) -> list[tuple[Step, str]]:
    return [(step, str(number)) for number, step in enumerate(steps, 1)]


def _chapters(survey: Survey, steps: Sequence[tuple[Step, str]]) -> tuple[Chapter, ...]:
    shots = shots_of(survey.guide)
    found = [
        Chapter(anchor("step", step.id), shots[step.id].start, shots[step.id].end, title_of(step, number), number)
        for step, number in steps
        if step.id in shots
    ]
    return tuple(sorted(found, key=lambda chapter: chapter.start))


def _end(chapter: Chapter) -> int:
    """Where the end is not told, a track needs one all the same."""
    return chapter.end if chapter.end is not None else chapter.start + LEAST
