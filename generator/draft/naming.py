"""Ids and names from spoken words."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection

_LONGEST = 40
_SPELLED = {"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss", "ø": "o", "æ": "ae", "œ": "oe", "ł": "l", "đ": "d", "&": " "}


def id_of(words: str, otherwise: str) -> str:
    """An id made of words; `otherwise` where they hold no letter that can stand in one.

    >>> id_of("Küchenwaage, Boden", "part")
    'kuechenwaage-boden'
    """
    text = "".join(_SPELLED.get(sign, sign) for sign in words.lower())
    text = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode("ascii")
    pieces = re.findall(r"[a-z0-9]+", text.replace("'", ""))
    found = "-".join(pieces)[:_LONGEST].strip("-")
    return found or otherwise


def unlike(id: str, taken: Collection[str]) -> str:
    """The id itself, or with the first number from 2 that makes it unlike those taken."""
    number, found = 1, id
    while found in taken:
        number += 1
        found = f"{id}-{number}"
    return found
