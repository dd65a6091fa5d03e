"""Captions as words with their times, from WebVTT, SubRip, SBV or plain timed lines, sound or damaged.

No line with words in it is lost: where the time of a caption cannot be read, its words get the time of what stands before.
Captions that roll (each shows again what the one before showed) are told by their words and read once.
"""

from __future__ import annotations

import html
import re
import unicodedata
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from generator.source.characters import with_plain_line_ends
from generator.source.values import clock as film_clock

MOST_WORDS = 60_000
"""About seven hours of speech."""
MOST_SIGNS = 400_000
"""Of all words together, so that no file written from them grows beyond what is read back."""
LONGEST_WORD = 60
LATEST = 99 * 3600 + 59 * 60 + 59  # s: the latest time that the format can say
_LOOK_BACK = 80  # words that a caption may show again

_CLOCK = r"(?:(\d{1,3}):)?(\d{1,3}):(\d{1,2})(?:[.,](\d{1,6}))?"
_TIMING = re.compile(rf"\s*{_CLOCK}\s*(?:-{{1,3}}>|[–—]>|→|,(?=\s*\d+:\d+:))\s*{_CLOCK}(?:[\s,].*)?")
_BROKEN_TIMING = re.compile(r"[^\s]{0,40}\s*-->\s*[^\s]{0,40}(\s.*)?")
_TIMED_LINE = re.compile(rf"\s*[\[(<]?\s*{_CLOCK}\s*[\])>]?\s*(?:[-–—:|]\s*)?(.*)")
_TAG = re.compile(r"</?[A-Za-z][^<>\n]{0,200}>|</>|\{\\[^{}\n]{0,100}\}")
_WORD_TIME = re.compile(rf"<{_CLOCK}>")
_VOICE_OPENED = re.compile(r"<v(?:\.[\w.-]*)?\s[^<>\n]{0,200}>", re.IGNORECASE)
_SOUND = re.compile(
    r"\[[^\[\]\n]{0,80}\]|♪[^♪\n]{0,200}♪?|\((?:applause|music|laughs|laughter|inaudible|musik|applaus|lacht)\)",
    re.IGNORECASE,
)
_HEADER = re.compile(r"\s*WEBVTT(?:[ \t-].*)?")
_LANGUAGE = re.compile(r"\s*language\s*:\s*([A-Za-z]{2,3})\b.*", re.IGNORECASE)
_BLOCK = re.compile(r"\s*(?:NOTE|STYLE|REGION)(?:\s.*)?")
_HEADER_FIELD = re.compile(r"\s*(?:kind|language|X-TIMESTAMP-MAP|style|region)\s*[:=].*", re.IGNORECASE)
_NORM = re.compile(r"^[^\w°]+|[^\w°]+$")
_END = re.compile(r"([.!?…;:,])[\"'”’)\]]*$")


class Unusable(Exception):
    """Nothing can be drafted from this file; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class Word:
    """A word as it is written, and as it is compared: lower case, without the signs around it.

    at, until: seconds from the start of the film. cue: the number of its caption. end: the sign that closes it, if it is one
    of . ! ? ; : , (… counts as a full stop).
    """

    text: str
    norm: str
    at: float
    until: float
    cue: int
    end: str = ""


@dataclass(frozen=True, slots=True)
class Captions:
    """words: in the order of their times. shown_again, sounds: words that were left out for what they are.

    language: as the file says it, or empty. kind: what the file is, in words. cues: how many captions. unordered: captions
    that stood out of order; untimed: captions whose time could not be read.
    """

    words: tuple[Word, ...]
    kind: str
    cues: int
    language: str = ""
    shown_again: tuple[Word, ...] = ()
    sounds: tuple[str, ...] = ()
    unordered: int = 0
    untimed: int = 0

    @property
    def is_punctuated(self) -> bool:
        """Whether sentences end with a sign: at least one word in forty does."""
        ends = sum(word.end in (".", "!", "?") for word in self.words)
        return ends * 40 >= len(self.words)


@dataclass(slots=True)
class _Cue:
    start: float
    end: float
    lines: list[str] = field(default_factory=list)


def read_captions(text: str) -> Captions:
    """The words of a caption file. Unusable where it holds no words, no time at all, or more than fits."""
    lines = _cleaned(text).split("\n")
    if any("-->" in line or _TIMING.fullmatch(line) for line in lines):
        kind, cues, untimed = _cued(lines)
    else:
        kind, cues, untimed = "plain timed lines", list(_timed(lines)), 0
    language = next((match[1].lower() for line in lines[:12] if (match := _LANGUAGE.fullmatch(line))), "")
    starts = [cue.start for cue in cues]
    unordered = sum(later < earlier for earlier, later in pairwise(starts))
    cues.sort(key=lambda cue: cue.start)
    words, again, sounds = _words(cues)
    if not words:
        raise Unusable("There is not a word in it beside times and marks.")
    if len(words) > MOST_WORDS or sum(len(word.text) + 1 for word in words) > MOST_SIGNS:
        raise Unusable(f"It holds more than {MOST_WORDS:,} words or {MOST_SIGNS:,} signs: cut it into several files.")
    return Captions(tuple(words), kind, len(cues), language, tuple(again), tuple(sounds), unordered, untimed)


def normal(text: str) -> str:
    """A word as it is compared.

    >>> normal("“Don’t!”")
    "don't"
    """
    return _NORM.sub("", text.replace("’", "'").replace("ʼ", "'")).lower()


def _cleaned(text: str) -> str:
    """Plain line ends, composed letters, nothing that cannot be seen."""
    text = unicodedata.normalize("NFC", with_plain_line_ends(text))
    return "".join(sign if sign == "\n" or sign.isprintable() else _unseen(sign) for sign in text)


def _unseen(sign: str) -> str:
    is_blank = sign.isspace() or unicodedata.category(sign) in ("Cc", "Zs", "Zl", "Zp")
    return " " if is_blank else ""


def _seconds(groups: Sequence[str | None]) -> float:
    hours, minutes, seconds, part = groups
    total = int(hours or 0) * 3600 + int(minutes or 0) * 60 + int(seconds or 0)
    return min(total + (float(f"0.{part}") if part else 0.0), float(LATEST))


def _cued(lines: list[str]) -> tuple[str, list[_Cue], int]:
    """Captions that stand under a line of times; words outside of any join the caption before them."""
    is_vtt = any(_HEADER.fullmatch(line) for line in lines[:3])
    cues: list[_Cue] = []
    untimed = 0
    skips = is_in_header = False
    for number, line in enumerate(lines):
        blank_before = number == 0 or not lines[number - 1].strip()
        timing = _TIMING.fullmatch(line)
        if timing is not None:
            start, end = _seconds(timing.groups()[:4]), _seconds(timing.groups()[4:8])
            cues.append(_Cue(start, max(start, end)))
            skips = is_in_header = False
        elif "-->" in line and _BROKEN_TIMING.fullmatch(line.strip()):
            at = cues[-1].end if cues else 0.0
            cues.append(_Cue(at, at))
            untimed += 1
            skips = is_in_header = False
        elif not line.strip():
            # A blank line ends a header and a block of notes.
            skips = is_in_header = False
        elif is_vtt and not cues and _HEADER.fullmatch(line):
            is_in_header = True
        elif skips or (is_in_header and _HEADER_FIELD.fullmatch(line)):
            continue
        elif is_vtt and blank_before and _BLOCK.fullmatch(line):
            skips = True
        elif _is_name_of_cue(lines, number, blank_before):
            continue
        else:
            if not cues:
                cues.append(_Cue(0.0, 0.0))
            cues[-1].lines.append(line)
    return ("WebVTT" if is_vtt else "SubRip"), [cue for cue in cues if cue.lines], untimed


def _is_name_of_cue(lines: list[str], number: int, blank_before: bool) -> bool:
    """A line right above a line of times: a number wherever it stands, any one word or number after a blank line."""
    if number + 1 >= len(lines) or "-->" not in lines[number + 1]:
        return False
    line = lines[number].strip()
    return line.isdigit() or (blank_before and len(line.split()) == 1 and any(sign.isdigit() for sign in line))


def _timed(lines: list[str]) -> Iterator[_Cue]:
    """Lines that begin with a time, or stand under one that is alone on its line."""
    found: list[_Cue] = []
    loose: list[str] = []
    for line in lines:
        match = _TIMED_LINE.fullmatch(line)
        if match is not None:
            cue = _Cue(_seconds(match.groups()[:4]), _seconds(match.groups()[:4]))
            if match[5]:
                cue.lines.append(match[5])
            found.append(cue)
        elif line.strip():
            (found[-1].lines if found else loose).append(line)
    if not found:
        raise Unusable("There is no time in it. Captions have a time above each piece of text, or m:ss before each line.")
    if loose:
        found[0].lines[:0] = loose
    for cue, after in zip(found, [*found[1:], None], strict=True):
        if cue.lines:
            length = 0.4 * sum(len(line.split()) for line in cue.lines)  # as fast as people speak
            room = max(after.start - cue.start, 0.0) if after is not None else length
            yield replace(cue, end=cue.start + min(max(length, 0.5), room or length))


def _words(cues: list[_Cue]) -> tuple[list[Word], list[Word], list[str]]:
    kept: list[Word] = []
    again: list[Word] = []
    sounds: list[str] = []
    before: list[Word] = []  # all that the caption before showed
    for number, cue in enumerate(cues):
        shown = list(_words_of(cue, number, sounds))
        if not shown:
            continue
        repeated = _shown_again(before, shown, kept)
        again.extend(shown[:repeated])
        kept.extend(shown[repeated:])
        before = shown
        if len(kept) > MOST_WORDS or len(again) > 10 * MOST_WORDS:
            break  # refused by whoever asked
    return kept, again, sounds


def _shown_again(before: list[Word], shown: list[Word], kept: list[Word]) -> int:
    """How many words at the start of `shown` were on the screen already: the end of the caption before, or all of it."""
    if not before or (shown[0].at > before[-1].until + 1.0 and shown[0].at > before[0].at + 12.0):
        return 0
    old = [word.norm for word in before[-_LOOK_BACK:]]
    new = [word.norm for word in shown]
    for size in range(min(len(old), len(new)), 0, -1):
        if old[-size:] == new[:size]:
            is_whole = size == len(old) or size == len(new)
            return size if size >= 3 or (is_whole and size >= 2) or (size == len(old) == len(new)) else 0
    return 0


def _words_of(cue: _Cue, number: int, sounds: list[str]) -> Iterator[Word]:
    """The words of a caption; where it gives no time for each they are spread evenly."""
    text = "\n".join(cue.lines)
    pieces: list[tuple[float | None, str]] = []
    for match in _SOUND.finditer(_TAG.sub(" ", _WORD_TIME.sub(" ", text))):
        sounds.extend(part for part in match[0].split() if normal(part))
    text = _SOUND.sub(" ", text)
    text = _VOICE_OPENED.sub("\n", text)
    cursor, at = 0, None
    for match in _WORD_TIME.finditer(text):
        pieces.extend((at, part) for part in _parts(text[cursor : match.start()]))
        cursor, at = match.end(), _seconds(match.groups())
    pieces.extend((at, part) for part in _parts(text[cursor:]))
    if not pieces:
        return
    is_timed = any(time is not None for time, _ in pieces)
    step = 0.0 if is_timed else (cue.end - cue.start) / len(pieces)
    times = [cue.start + step * index if time is None else time for index, (time, _) in enumerate(pieces)]
    times = [min(max(time, cue.start), max(cue.end, cue.start)) for time in times]
    ends = [*times[1:], cue.end]
    for (_, part), start, end in zip(pieces, times, ends, strict=True):
        closing = _END.search(part)
        sign = closing[1].replace("…", ".") if closing else ""
        yield Word(part, normal(part), round(start, 2), round(max(min(end, start + 1.0), start), 2), number, sign)


def _parts(text: str) -> list[str]:
    """The words of a piece without its marks; one that is longer than a word is broken, a sign alone is none."""
    plain = html.unescape(_TAG.sub(" ", text))
    plain = "".join(sign if sign.isprintable() else " " for sign in plain)
    found: list[str] = []
    for part in plain.split():
        for start in range(0, len(part), LONGEST_WORD):
            piece = part[start : start + LONGEST_WORD]
            if normal(piece):
                found.append(piece)
            elif found and piece in (".", "!", "?", ",", ";", ":", "…"):
                found[-1] += piece
    return found


def clock(seconds: float) -> str:
    """A time in the film as the format writes it.

    >>> clock(3750.4)
    '1:02:30'
    """
    return film_clock(int(min(seconds, LATEST)))


def index_at(words: Sequence[Word], at: float) -> int:
    """Where the words that begin after `at` start."""
    return bisect_right([word.at for word in words], at)
