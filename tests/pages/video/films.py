"""Films made up for tests: a guide of bare steps, and what the parser of the W3C says of a track."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from generator.orders.guide import Guide, Library
from generator.pages.survey import Survey, survey_of
from generator.pages.video.chapters import Chapter
from tests.orders.test_stretches import Film, film_of
from tests.pages.sites import demo
from tests.scripts.running import value_of

PARSER = Path(__file__).parents[2] / "data" / "webvtt" / "parser.js"
PARSED = """data.map(([text, kind]) => {
  const read = new (globalThis.WebVTTParser || exports.WebVTTParser)().parse(text, kind);
  return {
    errors: read.errors.map(each => `${each.line}:${each.col} ${each.message}`),
    cues: read.cues.map(cue => [cue.id, cue.startTime, cue.endTime, cue.text, String(cue.linePosition)]),
  };
})"""
HOSTILE = 'x\n\n00:00:00.000 --> 99:00:00.000\n\n\u202e</v><script>alert(1)</script> & "--!>" \x00\x0b\u2028STYLE ::cue{}'


@dataclass(frozen=True)
class Read:
    errors: list[str]
    cues: list[list[object]]


def read_tracks(tracks: Sequence[tuple[str, str]]) -> list[Read]:
    """What the parser makes of each: text, and kind (`chapters` or `captions`)."""
    return [Read(each["errors"], each["cues"]) for each in value_of(str(PARSER), PARSED, list(tracks))]


def survey_of_films(*films: Film, length: int | None = None, alternatives: Sequence[Film] = ()) -> Survey:
    return surveyed(film_of(*films, length=length, alternatives=alternatives))


def surveyed(guide: Guide, library: Library | None = None) -> Survey:
    return survey_of(library or Library("Bench", (guide,)), guide)


@cache
def demo_survey() -> Survey:
    return survey_of(demo(), demo().guides[0])


def told(chapters: Sequence[Chapter]) -> list[tuple[int, int | None, str]]:
    return [(chapter.start, chapter.end, chapter.title) for chapter in chapters]
