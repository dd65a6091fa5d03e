"""Step numbers over the film, as a caption track that nobody has to burn in: it can be switched off and translated."""

from __future__ import annotations

from collections.abc import Iterable

from generator.languages import say
from generator.pages.video.chapters import LEAST, Chapter, drawn_together
from generator.pages.video.track import Cue, track_of

TITLE_LASTS = 8
"""Seconds for which the title stands beside the number; then the number alone goes on standing, out of the way."""

AT_THE_TOP = "line:0 position:4% align:start"
"""The first line of the picture, from the left: hands and captions are below."""


def overlay_track(chapters: Iterable[Chapter]) -> str:
    cues = []
    for chapter in drawn_together(chapters, 1):
        end = chapter.end if chapter.end is not None else chapter.start + LEAST
        turn = min(end, chapter.start + TITLE_LASTS)
        cues.append(Cue(chapter.name, chapter.start, turn, chapter.title, AT_THE_TOP))
        if end > turn and chapter.number:
            words = say("Step {number}", number=chapter.number)
            cues.append(Cue(f"{chapter.name}-on", turn, end, words, AT_THE_TOP))
    return track_of(cues)
