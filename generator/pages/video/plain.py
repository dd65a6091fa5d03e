"""Plain text as it is pasted elsewhere: one line a thing, nothing unseen in it, never longer than asked."""

from __future__ import annotations

from generator.orders.stretches import Stretch
from generator.pages.typography import NO_BREAK
from generator.source.characters import UNSEEN
from generator.source.values import clock

LONGEST = 200
"""Characters of one name or sentence that a list shows."""

_JOINED = "\u2060"  # holds the dash of a range to its numbers; of no use beyond a page


def plain(text: str) -> str:
    """The text on one line, with plain blanks and without signs that cannot be seen.

    >>> plain("8 screws \\n\\u202e and 2 clips ")
    '8 screws and 2 clips'
    """
    return " ".join(UNSEEN.sub(" ", text.replace(NO_BREAK, " ").replace(_JOINED, "")).split())


def shortened(text: str, most: int = LONGEST) -> str:
    """The plain text, cut with a sign where it is longer than `most` characters.

    >>> shortened("Lift out the speaker box", 10)
    'Lift out…'
    """
    text = plain(text)
    return text if len(text) <= most else f"{text[: most - 1].rstrip()}…"


def weight(text: str) -> int:
    """How long a text is for boxes that count in UTF-16 units: never less than its characters."""
    return len(text.encode("utf-16-le")) // 2


def times_of(stretch: Stretch) -> str:
    """The stretch as one writes it beside a film: `0:42-1:55`, or `0:42-` where nothing tells its end."""
    return f"{clock(stretch.start)}-{clock(stretch.end) if stretch.end is not None else ''}"
