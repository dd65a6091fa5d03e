"""What the Unicode locale data say about a language, through Babel: direction, decimal mark, lists, dates, its name.

English is written as in Britain (no comma before the last of a list) and its values stand here, so that a library in
English does not wait for the locale data; a test holds them to those data.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from babel import Locale

ENGLISH = "en"
Last = Literal["and", "or"]


def fallbacks(tag: str) -> tuple[str, ...]:
    """The tag, then what is left as its subtags are taken away from the end.

    >>> fallbacks("de-AT")
    ('de-AT', 'de')
    """
    pieces = tag.split("-")
    return tuple("-".join(pieces[:length]) for length in range(len(pieces), 0, -1))


def direction(tag: str) -> Literal["ltr", "rtl"]:
    """The direction in which a page of that language runs; left to right where the language is not known."""
    return "rtl" if tag.split("-")[0] != ENGLISH and locale_of(tag).text_direction == "rtl" else "ltr"


def name_of(tag: str) -> str:
    """What a language calls itself: `Deutsch`; the tag where that is not known."""
    if tag == ENGLISH:
        return "English"
    locale = _known(tag)
    name = locale.get_display_name() if locale else None
    return name[:1].upper() + name[1:] if name else tag


def decimal_mark_of(tag: str) -> str:
    if tag == ENGLISH:
        return "."
    locale = locale_of(tag)
    return str(locale.number_symbols["latn"]["decimal"])


def list_in(tag: str, words: Sequence[str], last: Last) -> str:
    if tag == ENGLISH:
        return f"{', '.join(words[:-1])} {last} {words[-1]}" if len(words) > 1 else "".join(words)
    from babel.lists import format_list

    return format_list(list(words), "standard" if last == "and" else "or", locale_of(tag))


def day_in(tag: str, value: str) -> str:
    """value: year-month-day."""
    from babel.dates import format_date

    return format_date(date.fromisoformat(value), "long", locale_of(tag))


@lru_cache(maxsize=16)
def locale_of(tag: str) -> Locale:
    """The nearest locale there are data for; British English where there is none."""
    from babel import Locale

    return _known(tag) or Locale("en", "GB")


def _known(tag: str) -> Locale | None:
    from babel import Locale, UnknownLocaleError

    if tag == ENGLISH:
        return Locale("en", "GB")
    for name in fallbacks(tag):
        try:
            return Locale.parse(name, sep="-")
        except (UnknownLocaleError, ValueError):
            continue
    return None
