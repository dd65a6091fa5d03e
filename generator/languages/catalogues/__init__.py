"""The catalogues that ship with the program, read as values."""

from __future__ import annotations

import gettext
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from io import BytesIO

DOMAIN = "partway"


@dataclass(frozen=True, slots=True)
class Catalogue:
    """The words of one language. texts: by context (or None) and English text, the plural forms in the language's order.

    form: from a count to the index of its plural form.
    """

    texts: Mapping[tuple[str | None, str], tuple[str, ...]]
    form: Callable[[int], int]


def shipped() -> tuple[str, ...]:
    """The languages there are catalogues for, beside English, in the order of their tags."""
    return tuple(sorted(entry.name for entry in files(__name__).iterdir() if (entry / "LC_MESSAGES").is_dir()))


@lru_cache(maxsize=16)
def read_catalogue(tag: str) -> Catalogue | None:
    """The catalogue of exactly that tag; None where none ships. Untranslated and fuzzy entries are left out."""
    if tag not in shipped():
        return None
    return catalogue_from((files(__name__) / tag / "LC_MESSAGES" / f"{DOMAIN}.po").read_bytes())


def catalogue_from(text: bytes) -> Catalogue:
    """A catalogue from the text of a `.po` file."""
    from babel.messages.pofile import read_po

    read = read_po(BytesIO(text))
    texts: dict[tuple[str | None, str], tuple[str, ...]] = {}
    for message in read:
        ids = message.id if isinstance(message.id, (tuple, list)) else (message.id,)
        said = message.string
        strings = tuple(text or "" for text in (said if isinstance(said, (tuple, list)) else (said,)))
        if ids[0] and not message.fuzzy and all(strings):
            texts[message.context, ids[0]] = strings
    return Catalogue(texts, gettext.c2py(read.plural_expr))
