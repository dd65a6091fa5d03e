"""Plain text cut into sentences, and their words counted as the trade counts them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

_END = re.compile(r"(?:[.!?]+|…)[\"'”’)\]]*(?=\s|$)")
_NEVER_LAST = frozenset({"e.g.", "i.e.", "approx.", "ca.", "cf.", "vs.", "dia."})
# These end a sentence as often as not: what follows decides.
_MAYBE_LAST = frozenset({"no.", "nos.", "nr.", "fig.", "figs.", "max.", "min.", "etc.", "incl.", "excl.", "resp."})
_NUMBER = re.compile(r"[(\"'“‘]*[±~≈<>≤≥+−-]?[0-9][0-9.,]*(?:[-–×x/:][0-9][0-9.,]*)*")
_UNITS = frozenset(
    re.split(
        " ",
        "mm cm m km µm μm s sec min h ms °C °F K ° % V mV kV W mW kW Wh mWh kWh A mA µA μA Ah mAh N mN N·m N⋅m N.m Nm "
        "mN·m Pa kPa MPa bar g mg kg l ml Hz kHz MHz GHz Ω kΩ MΩ F µF μF nF pF J lx dB "
        "millimetre millimetres centimetre centimetres metre metres second seconds minute minutes hour hours degree "
        "degrees percent volt volts ampere amperes watt watts newton newtons gram grams",
    )
)


class Stretch(NamedTuple):
    """A sentence in a text: its words in their order, how many they are, and where it starts and ends in the text."""

    text: str
    words: int
    start: int
    end: int


def sentences(text: str) -> tuple[Stretch, ...]:
    """The sentences of `text` in order; what stands in parentheses is taken out and counts as sentences of its own.

    >>> [(each.text, each.words) for each in sentences("Undo the screws (No. 0, 0.6 mm). Lift.")]
    [('Undo the screws.', 3), ('No. 0, 0.6 mm', 3), ('Lift.', 1)]

    Source: ASD-STE100, counting of words: text in parentheses is a new sentence.
    """
    asides = tuple(_asides(text))
    outside: list[int] = []
    at = 0
    for opened, closed in asides:
        before = text[at:opened]
        if text[closed + 1 : closed + 2] in (".", ",", ";", ":", "!", "?"):
            before = before.rstrip()
        outside.extend(range(at, at + len(before)))
        at = closed + 1
    outside.extend(range(at, len(text)))
    found = list(_cut(text, outside))
    for opened, closed in asides:
        found.extend(_cut(text, range(opened + 1, closed)))
    return tuple(sorted(found, key=lambda stretch: (stretch.start, stretch.end)))


def count_words(text: str) -> int:
    """Words in one sentence: a hyphenated word is one, and so is a number with its unit.

    >>> count_words("Slide a 0.6 mm thin opening-pick in and wait 2 min.")
    9

    Source: ASD-STE100, counting of words.
    """
    total, after_number, after_newton = 0, False, False
    for word in re.split(r"[\s—]+", text):
        bare = word.rstrip(".,;:!?)\"'”’")
        if after_number and bare in _UNITS:
            after_number, after_newton = False, bare == "N"
            continue
        if after_newton and bare == "m":
            after_newton = False
            continue
        after_number = _NUMBER.fullmatch(bare) is not None
        after_newton = False
        total += any(sign.isalnum() for sign in word)
    return total


def _asides(text: str) -> Iterator[tuple[int, int]]:
    """Where a parenthesis opens and closes; one that starts inside a word, as in `screw(s)`, is part of the word."""
    depth, opened = 0, 0
    for at, sign in enumerate(text):
        if sign == "(" and (depth or at == 0 or text[at - 1].isspace()):
            opened = at if depth == 0 else opened
            depth += 1
        elif sign == ")" and depth:
            depth -= 1
            if depth == 0:
                yield opened, at


def _cut(text: str, indexes: Sequence[int]) -> Iterator[Stretch]:
    plain = "".join(text[index] for index in indexes)
    start = 0
    for match in _END.finditer(plain):
        if _is_end(plain, start, match):
            yield from _stretch(plain, start, match.end(), indexes)
            start = match.end()
    yield from _stretch(plain, start, len(plain), indexes)


def _is_end(plain: str, start: int, match: re.Match[str]) -> bool:
    follows = re.compile(r"\s*").match(plain, match.end())
    after = plain[follows.end() : follows.end() + 1] if follows else ""
    if not after:
        return True
    before = plain[max(start, match.start() - 12) : match.end()].split()
    word = before[-1].lower().lstrip("(\"'“‘[") if before else ""
    if word in _NEVER_LAST:
        return False
    goes_on = after.islower() or after.isdigit()
    if word in _MAYBE_LAST:
        return not goes_on
    return not (after.islower() and match[0].startswith(("…", "..")))


def _stretch(plain: str, start: int, end: int, indexes: Sequence[int]) -> Iterator[Stretch]:
    piece = plain[start:end]
    words = count_words(piece)
    if words:
        first = start + len(piece) - len(piece.lstrip())
        last = start + len(piece.rstrip()) - 1
        yield Stretch(" ".join(piece.split()), words, indexes[first], indexes[last] + 1)
