"""The language in force, and saying things in it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any

from markupsafe import Markup, escape

from generator.languages import catalogues
from generator.languages.catalogues import Catalogue
from generator.languages.locales import ENGLISH, Last, day_in, decimal_mark_of, fallbacks, list_in

NO_BREAK = "\u00a0"

_SPOKEN: ContextVar[tuple[str, Catalogue | None]] = ContextVar("spoken", default=(ENGLISH, None))


@contextmanager
def speaking(tag: str) -> Iterator[None]:
    """The language `tag` is in force inside; its nearest catalogue is used (`de` for `de-AT`), or English."""
    found = (catalogues.read_catalogue(name) for name in fallbacks(tag))
    before = _SPOKEN.set((tag, next((catalogue for catalogue in found if catalogue), None)))
    try:
        yield
    finally:
        _SPOKEN.reset(before)


def language() -> str:
    """The tag of the language in force."""
    return _SPOKEN.get()[0]


def say(text: str, /, **fields: Any) -> str:
    """The text in the language in force, its fields filled in. A field the text names and is not given: KeyError."""
    return _filled(_text(None, text), fields)


def say_as(context: str, text: str, /, **fields: Any) -> str:
    """As `say`; context: in a word or two, which of the meanings of the English text is meant."""
    return _filled(_text(context, text), fields)


def say_many(one: str, many: str, n: int, /, **fields: Any) -> str:
    """The plural form for `n`; {n} in it is the number."""
    catalogue = _SPOKEN.get()[1]
    forms = catalogue.texts.get((None, one)) if catalogue else None
    if catalogue is None or forms is None:
        text = one if n == 1 else many
    else:
        text = forms[min(catalogue.form(n), len(forms) - 1)]
    return _filled(text, {"n": n, **fields})


def forms_of(text: str, /) -> tuple[str, ...]:
    """The text in the language in force, not filled in: its plural forms if it has any, empty where it is untranslated."""
    catalogue = _SPOKEN.get()[1]
    return catalogue.texts.get((None, text), ()) if catalogue else ()


def form_for(n: int) -> int:
    """Which of the plural forms the language in force has for a count."""
    catalogue = _SPOKEN.get()[1]
    return catalogue.form(n) if catalogue else int(n != 1)


def later(text: str, /) -> str:
    """The text as it is. Marks it as one that `say` will be given by way of a table."""
    return text


def decimal_mark() -> str:
    """What stands before the decimals of a number."""
    return decimal_mark_of(language())


def in_digits(digits: str) -> str:
    """A number that is written with a point, such as `3.5`, with what the language has for it."""
    return digits.replace(".", decimal_mark())


def list_of(words: Sequence[str], last: Last = "and") -> str:
    """`a`, `a and b`, `a, b and c` (or `or`), as the language writes lists; nothing for no words."""
    return list_in(language(), words, last)


def day(value: str) -> str:
    """A date, year-month-day, in words: `25 November 2026`."""
    return day_in(language(), value)


def _text(context: str | None, text: str) -> str:
    catalogue = _SPOKEN.get()[1]
    if catalogue is None:
        return text
    return catalogue.texts.get((context, text), (text,))[0]


def _filled(text: str, fields: dict[str, Any]) -> str:
    text = text.replace("~", NO_BREAK)
    if not fields:
        return text
    if any(hasattr(value, "__html__") for value in fields.values()):
        return Markup(text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")).format_map(
            {key: escape(value) for key, value in fields.items()}
        )
    return text.format_map(fields)
