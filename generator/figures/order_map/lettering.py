"""Words cut to lines that fit, by the widths of the letters."""

from __future__ import annotations

from functools import lru_cache

_WIDTHS = {
    220: "'",
    240: " ",
    320: "!,.:;j|",
    340: "-il",
    360: "[]",
    380: "/\\ft{}",
    400: "()IJ`",
    440: '"?',
    460: "*",
    480: "rs",
    500: "z",
    540: "$_ce",
    560: "0123456789#+<=>S^a~",
    580: "g",
    600: "Zovxy",
    620: "FLkq",
    640: "EPbdpu",
    660: "Thn",
    680: "BCXY",
    720: "ARV",
    740: "&GK",
    760: "DNOQU",
    820: "H",
    860: "w",
    880: "@",
    940: "M",
    960: "%",
    980: "m",
    1020: "W",
}
"""Thousandths of the size; Source Serif 4 at weight 600, the boldest it is used in here, rounded up to the next 20."""

_WIDTH = {sign: width for width, signs in _WIDTHS.items() for sign in signs}
_OTHER = 700  # letters with accents, Greek, Cyrillic
_FULL = 1050  # signs that fill a square, as in Chinese or Japanese, and whatever lies beyond
_FULL_FROM = "\u1100"
_LONGEST = 400  # signs that are looked at; no box holds as many


def width_of(words: str, size: float) -> float:
    """The width of a line of the text face, in units of `size`; on the safe side."""
    return sum(_WIDTH.get(sign, _FULL if sign >= _FULL_FROM else _OTHER) for sign in words) * size / 1000


@lru_cache(maxsize=4096)
def lines_of(words: str, room: float, size: float, most: int) -> tuple[str, ...]:
    """The words in at most `most` lines no wider than `room`, of even length where they fit; what is left over is cut.

    A word too long for a line is broken. There is always at least one line. Asked again for each map, so remembered.
    """
    lines = _filled(words[:_LONGEST], room, size)
    if len(lines) > most:
        kept = lines[:most]
        return (*kept[:-1], _cut(f"{kept[-1]} {lines[most]}", room, size))
    narrow = room
    while narrow > room / 3 and len(_filled(words[:_LONGEST], narrow - size / 2, size)) == len(lines):
        narrow -= size / 2
    even = _filled(words[:_LONGEST], narrow, size)
    return lines if _breaks(words[:_LONGEST], even) and not _breaks(words[:_LONGEST], lines) else even


def _filled(words: str, room: float, size: float) -> tuple[str, ...]:
    lines: list[str] = []
    line = ""
    for word in words.split():
        longer = f"{line} {word}" if line else word
        if width_of(longer, size) <= room:
            line = longer
            continue
        if line:
            lines.append(line)
        line = word
        while width_of(line, size) > room and len(line) > 1:
            head = _fitting(line, room, size)
            lines.append(head)
            line = line[len(head) :]
    return (*lines, line) if line or not lines else tuple(lines)


def _breaks(words: str, lines: tuple[str, ...]) -> bool:
    return [word for line in lines for word in line.split()] != words.split()


def _fitting(word: str, room: float, size: float) -> str:
    length = len(word)
    while length > 1 and width_of(word[:length], size) > room:
        length -= 1
    return word[:length]


def _cut(words: str, room: float, size: float) -> str:
    """The words up to the room, at a space if there is one, with an ellipsis."""
    head = _fitting(words, room - width_of("…", size), size)
    at_space = head.rsplit(" ", 1)[0] if " " in head and not words[len(head) :].startswith(" ") else head
    return f"{at_space.rstrip(' ,;:')}…"
