"""What was reworded, word by word."""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import SequenceMatcher
from enum import StrEnum

MOST_WORDS = 3_000
"""Words and signs of a text that are held against each other; a longer text is shown whole, old and new."""

_WORD = re.compile(r"\s+|\w+|[^\w\s]")


class Fate(StrEnum):
    KEPT = "kept"
    GONE = "gone"
    CAME = "came"


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of text and what became of it."""

    fate: Fate
    text: str


def reworded(old: str, new: str) -> tuple[Piece, ...]:
    """`old` and `new` as one text: what was kept, what went, what came in its place; nothing where they are equal.

    The pieces kept or gone make up `old`, those kept or come make up `new`.
    """
    if old == new:
        return ()
    before, after = _WORD.findall(old), _WORD.findall(new)
    if max(len(before), len(after)) > MOST_WORDS:
        return _pieces((Fate.GONE, old), (Fate.CAME, new))
    found: list[tuple[Fate, str]] = []
    for kind, i, j, k, m in SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        if kind == "equal":
            found.append((Fate.KEPT, "".join(before[i:j])))
        else:
            found += [(Fate.GONE, "".join(before[i:j])), (Fate.CAME, "".join(after[k:m]))]
    return _pieces(*_without_islands(found))


def _without_islands(found: list[tuple[Fate, str]]) -> list[tuple[Fate, str]]:
    """A lone space kept between two changed words is taken with them: `the old cover` is read better than `the _ cover`."""
    result: list[tuple[Fate, str]] = []
    for index, (fate, text) in enumerate(found):
        is_island = fate is Fate.KEPT and text.isspace() and 0 < index < len(found) - 1
        if is_island:
            result += [(Fate.GONE, text), (Fate.CAME, text)]
        else:
            result.append((fate, text))
    runs: list[tuple[Fate, str]] = []
    gone = came = ""
    for fate, text in result:
        if fate is Fate.KEPT:
            runs += [(Fate.GONE, gone), (Fate.CAME, came), (fate, text)]
            gone = came = ""
        elif fate is Fate.GONE:
            gone += text
        else:
            came += text
    return [*runs, (Fate.GONE, gone), (Fate.CAME, came)]


def _pieces(*found: tuple[Fate, str]) -> tuple[Piece, ...]:
    return tuple(Piece(fate, text) for fate, text in found if text)


def nearby(pieces: tuple[Piece, ...], around: int = 60) -> tuple[Piece, ...]:
    """The same with long stretches that were kept cut down to what stands next to a change, `around` characters a side."""
    shortened = []
    for index, piece in enumerate(pieces):
        text = piece.text
        if piece.fate is Fate.KEPT:
            head = "" if index == 0 else _to_word(text[:around], end=True)
            tail = "" if index == len(pieces) - 1 else _to_word(text[-around:], end=False)
            if len(head) + len(tail) + 3 < len(text):
                text = f"{head}…{tail}"
        shortened.append(Piece(piece.fate, text))
    return tuple(shortened)


def _to_word(text: str, *, end: bool) -> str:
    """Without the piece of a word at the end at which the text was cut."""
    if end:
        return text[: text.rfind(" ") + 1] or text
    return text[text.find(" ") :] if " " in text else text
