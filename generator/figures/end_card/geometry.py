"""Where the words and figures of an end card stand, on a picture of 1920 x 1080."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from textwrap import wrap

from generator.figures.index_line.geometry import CLASS_SIZE, ClassLine
from generator.figures.stack.lettering import MONO, width_of, wrapped
from generator.languages import say

WIDTH, HEIGHT = 1920.0, 1080.0
MARGIN = 110.0
COLUMN = 900.0
FIGURES = (1130.0, WIDTH - MARGIN)
"""Left and right end of the column of figures."""
NAME_SIZE, NAME_LINE, NAME_LINES = 92.0, 100.0, 2
WORDS_SIZES = ((44.0, 62.0), (38.0, 54.0), (32.0, 46.0))
"""Size and line of the verdict: the largest in which all of it fits."""
SMALL_SIZE = 28.0
LABEL_SIZE, VALUE_SIZE = 32.0, 30.0
ROW, ROW_DROP = 62.0, 38.0
FOOT_AT = HEIGHT - MARGIN + 30.0
LINE_SCALE = (FIGURES[1] - FIGURES[0]) / CLASS_SIZE[0]
LINE_TOP = HEIGHT - MARGIN - CLASS_SIZE[1] * LINE_SCALE - 44.0
"""Where the line of classes begins, if there is one."""


@dataclass(frozen=True, slots=True)
class Word:
    """One line of words; kind names how it is set."""

    words: str
    at: tuple[float, float]
    kind: str


@dataclass(frozen=True, slots=True)
class EndCard:
    """rules: hairlines, as (left, right, height); line: the index and the corner of its drawing."""

    title: str
    words: tuple[Word, ...]
    rules: tuple[tuple[float, float, float], ...]
    line: ClassLine | None
    line_at: tuple[float, float]
    line_scale: float


def end_card(
    name: str,
    verdict: str,
    author: str,
    figures: Sequence[tuple[str, str]],
    line: ClassLine | None,
    foot: str,
) -> EndCard:
    """verdict: the author's words or, where there are none, what the device is; foot: what the index is, in one line.

    What does not fit is cut with a sign for it; figures that do not fit are left out from the end.
    """
    bottom = HEIGHT - MARGIN - 40.0
    words = []
    y = MARGIN + 78.0
    for one in wrapped(name, NAME_SIZE, COLUMN + 40.0, NAME_LINES):
        words.append(Word(one, (MARGIN, y), "name"))
        y += NAME_LINE
    y += 30.0
    kind, line_high, lines = _verdict(verdict, bottom - y - 50.0)
    for one in lines:
        words.append(Word(one, (MARGIN, y), kind))
        y += line_high
    if author:
        words.append(Word(wrapped(author, SMALL_SIZE * 1.25, COLUMN, 1)[0], (MARGIN, y + 4.0), "author"))
    rows, rules = _figures(figures, LINE_TOP - 14.0 if line else bottom)
    words += rows
    if foot:
        words.append(Word(wrapped(foot, SMALL_SIZE, WIDTH - 2 * MARGIN, 1)[0], (MARGIN, FOOT_AT), "foot"))
    title = say("{device}: verdict", device=name)
    return EndCard(title, tuple(words), rules, line, (FIGURES[0], round(LINE_TOP, 1)), LINE_SCALE)


def _verdict(words: str, room: float) -> tuple[str, float, tuple[str, ...]]:
    """How the verdict is set, the height of its lines, and the lines; cut only if they do not fit in the smallest size."""
    if not words:
        return "verdict", 0.0, ()
    for size, high in WORDS_SIZES:
        lines = wrapped(words, size, COLUMN, len(words))
        if len(lines) * high <= room:
            return f"verdict{size:.0f}", high, lines
    size, high = WORDS_SIZES[-1]
    return f"verdict{size:.0f}", high, wrapped(words, size, COLUMN, max(int(room // high), 1))


def _figures(
    figures: Sequence[tuple[str, str]], bottom: float
) -> tuple[list[Word], tuple[tuple[float, float, float], ...]]:
    left, right = FIGURES
    words: list[Word] = []
    top = MARGIN + 6.0
    rules = [(left, right, top)]
    for label, value in figures:
        fits = width_of(label, LABEL_SIZE) + 30.0 + len(value) * VALUE_SIZE * MONO <= right - left
        most = int((right - left) / (VALUE_SIZE * MONO))
        lines = (value,) if fits else tuple(wrap(value, most, max_lines=2, placeholder="…"))
        room = ROW + (0.0 if fits else len(lines) * ROW_DROP)
        if top + room > bottom:
            break
        words.append(Word(wrapped(label, LABEL_SIZE, right - left, 1)[0], (left, top + 43.0), "label"))
        start = top + 43.0 + (0.0 if fits else ROW_DROP)
        words += [Word(one, (right, start + row * ROW_DROP), "value") for row, one in enumerate(lines)]
        top += room
        rules.append((left, right, top))
    return words, tuple(rules)
