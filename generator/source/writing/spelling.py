"""One spelling for each quantity: a number, a blank, its unit; times of the film as a clock shows them."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from generator.source.values import (
    Duration,
    FilmSpan,
    clock,
    read_film_length,
    read_line,
    read_reason,
    read_temperature,
    read_torque,
    read_wait,
    read_years,
)

Reader = Callable[[Any], Any]

_BREAK = re.compile(r"[ \t]*[\t\n\r][ \t\n\r]*")
_DURATION = re.compile(r"([0-9.]+)(?:\s?[-–]\s?([0-9.]+))?\s?(s|min|h)")
_NUMBER = re.compile(r"[-−]?[0-9.]+")


def is_prose(read: Reader | None) -> bool:
    """Whether a value is words, which may go on over several lines."""
    return read in (read_line, read_reason, read_wait)


def is_of_the_film(read: Reader | None) -> bool:
    return read in (FilmSpan.read, read_film_length)


def spelled(text: str, read: Reader | None) -> str:
    """`text` in the one spelling of what `read` makes of it; as it is where that is not known to mean the same.

    >>> spelled("3–4min", Duration.read), spelled("70°C", read_temperature), spelled("0.029 Nm", read_torque)
    ('3-4 min', '70 °C', '0.029 N·m')
    >>> spelled("00:42 - 61:55", FilmSpan.read)
    '0:42-1:01:55'
    """
    if read is None:
        return text
    try:
        new = _spelled(text, read)
        return new if read(new) == read(text) else text
    except ValueError:
        return text


def _spelled(text: str, read: Reader) -> str:
    if is_prose(read):
        line = _BREAK.sub(" ", text.strip())
        return _duration(line) if read == read_wait else line
    bare = text.strip()
    if read == Duration.read:
        return _duration(bare)
    number = _NUMBER.match(bare)
    if read == FilmSpan.read:
        return "-".join(clock(_seconds(each)) for each in re.split(r"\s?[-–]\s?", bare))
    if read == read_film_length:
        return clock(_seconds(bare))
    if number is None:
        return text
    if read == read_temperature:
        return f"{number[0].replace('−', '-')} °C"
    if read == read_torque:
        return f"{number[0]} N·m"
    if read == read_years:
        return f"{number[0]} {'year' if int(number[0]) == 1 else 'years'}"
    return text


def _duration(text: str) -> str:
    found = _DURATION.fullmatch(text)
    if found is None:
        return text
    return f"{found[1]}-{found[2]} {found[3]}" if found[2] else f"{found[1]} {found[3]}"


def _seconds(text: str) -> int:
    """Seconds of a time in the film, which may be its very start. ValueError for what is no time."""
    return FilmSpan.read(text).start

