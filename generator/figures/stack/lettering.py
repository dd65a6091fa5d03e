"""Lettering: how wide words run in the theme's faces, and where they break."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

_SERIF = {  # hundredths of the letter size, from the widths of the theme's serif, rounded up between 400 and 650
    35: " '|!,.:;-iljI()[]{}/`",
    40: '"ft?',
    50: "rsz*J_\\",
    58: "aceg0123456789xyvo#$+<=>^~",
    66: "bdhknpquSFLPETZ",
    75: "ABCDGKNOQRUVXY&",
    84: "Hw@",
    98: "mM%",
    104: "W",
}
_OF_SIGN = {sign: width / 100 for width, signs in _SERIF.items() for sign in signs}
_OTHER = 0.75
MONO = 0.6
"""Width of every sign of the theme's mono, as a share of its size."""


def width_of(words: str, size: float) -> float:
    """How wide words run at most in the theme's serif, in the unit of `size`; a little too much rather than too little.

    >>> width_of("lid", 10.0)
    13.6
    """
    return round(sum(_advance(sign) for sign in words) * size, 2)


def wrapped(words: str, size: float, room: float, lines: int) -> tuple[str, ...]:
    """Words in at most so many lines of `room`, broken at blanks and after hyphens, inside a word only if it is too long.

    What does not fit in the last line is cut, with a sign for it. There is always one line at least.
    """
    found: list[str] = []
    line = ""
    for piece in _pieces(" ".join(words.split()), size, room):
        if width_of((line + piece).rstrip(), size) <= room:
            line += piece
        else:
            found.append(line.rstrip())
            line = piece.lstrip()
    found.append(line.rstrip())
    found = [one for one in found if one] or [""]
    if len(found) > lines:
        last = found[lines - 1]
        while last and width_of(last + "…", size) > room:
            last = last[:-1]
        found = [*found[: lines - 1], last.rstrip() + "…"]
    return tuple(found)


def _pieces(words: str, size: float, room: float) -> Iterator[str]:
    """Words with the blank or hyphen that ends them; a word wider than the room in pieces that fit."""
    piece = ""
    for sign in words:
        if width_of((piece + sign).rstrip(), size) > room:
            yield piece
            piece = ""
        piece += sign
        if sign in " -–/":
            yield piece
            piece = ""
    if piece:
        yield piece


def _advance(sign: str) -> float:
    if sign in _OF_SIGN:
        return _OF_SIGN[sign]
    if unicodedata.combining(sign):
        return 0.0
    if unicodedata.east_asian_width(sign) in ("W", "F"):
        return 1.05
    plain = unicodedata.normalize("NFD", sign)[0]
    return _OF_SIGN.get(plain, _OTHER)
