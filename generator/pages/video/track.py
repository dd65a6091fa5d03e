"""Timed text for players: a WebVTT file (W3C, WebVTT: The Web Video Text Tracks Format, Candidate Recommendation 2019)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.pages.video.plain import plain

HEAD = "WEBVTT"
ARROW = " --> "


@dataclass(frozen=True, slots=True)
class Cue:
    """Words between two seconds of the film. id: unique in its track; settings: where the player sets it."""

    id: str
    start: int
    end: int
    words: str
    settings: str = ""


def track_of(cues: Iterable[Cue]) -> str:
    """The file. The cues begin one after the other and last a second at least: ValueError otherwise.

    Words can hold anything: what would end a cue, begin another or open a tag is written as a character reference.
    """
    blocks = [HEAD]
    before = 0
    for cue in cues:
        if not before <= cue.start < cue.end:
            raise ValueError(f"the cue {cue.id} from {cue.start} to {cue.end} stands out of time")
        before = cue.start
        times = f"{stamp(cue.start)}{ARROW}{stamp(cue.end)}"
        blocks.append("\n".join((cue.id, f"{times} {cue.settings}".rstrip(), escaped_cue(cue.words))))
    return "\n\n".join(blocks) + "\n"


def stamp(seconds: int) -> str:
    """A second of the film as a timestamp.

    >>> stamp(115), stamp(3750)
    ('00:01:55.000', '01:02:30.000')
    """
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02d}:{minutes:02d}:{rest:02d}.000"


def escaped_cue(words: str) -> str:
    """Words on one line of a cue.

    >>> escaped_cue("screws <M2> -->\\n\\n00:00 & more")
    'screws &lt;M2&gt; --&gt; 00:00 &amp; more'
    """
    return plain(words).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
