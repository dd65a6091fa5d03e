"""Words on the sheet: how wide they come out, and where they break. Sizes in mm; `tray.css` sets the same sizes.

Widths are estimates on the safe side for the two faces of the theme, so that a layout can be made without a font at hand.
"""

from __future__ import annotations

import unicodedata

NUMBER = 8.0
"""Height of the letters of a step's number; mono."""

NAME = 3.6
"""Names of parts; serif, semibold."""

SMALL = 2.7
"""Everything small, and the numbers of rings; mono. 7.7 pt on paper, 10.2 px on a screen that shows it at 1:1."""

TITLE = 8.0
"""The heading of the sheet; serif."""

NOTE = 4.0
"""The line below the heading; serif, italic."""

SMALL_LEADING = 3.6
NAME_LEADING = 4.2

_MONO = 0.61
_SERIF = 0.56


def mono_width(words: str, size: float = SMALL) -> float:
    return _signs(words) * _MONO * size


def serif_width(words: str, size: float = NAME) -> float:
    return _signs(words) * _SERIF * size


def mono_lines(words: str, width: float, most: int, size: float = SMALL) -> tuple[str, ...]:
    """The words in lines of at most that width, in mm; what does not fit ends with an ellipsis."""
    return _broken(words, max(4, int(width / (_MONO * size))), most)


def serif_lines(words: str, width: float, most: int, size: float = NAME) -> tuple[str, ...]:
    return _broken(words, max(4, int(width / (_SERIF * size))), most)


def _signs(words: str) -> int:
    """Widths of letters; signs of East Asian scripts take two."""
    return sum(2 if unicodedata.east_asian_width(sign) in "WF" else 1 for sign in words)


def _broken(words: str, room: int, most: int) -> tuple[str, ...]:
    lines: list[str] = []
    current = ""
    for word in words.split():
        while word:
            trial = f"{current} {word}" if current else word
            if _signs(trial) <= room:
                current, word = trial, ""
            elif current:
                lines.append(current)
                current = ""
            else:
                head = _head(word, room)
                lines.append(head)
                word = word[len(head) :]
            if len(lines) > most:
                break
    if current:
        lines.append(current)
    if len(lines) <= most:
        return tuple(lines)
    return (*lines[: most - 1], _head(lines[most - 1], room - 1).rstrip() + "…")


def _head(word: str, room: int) -> str:
    """As many of the first signs as fit, at least one."""
    end = 1
    while end < len(word) and _signs(word[: end + 1]) <= room:
        end += 1
    return word[:end]
