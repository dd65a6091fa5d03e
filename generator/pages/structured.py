"""What a page says to machines: a value as JSON-LD (W3C, JSON-LD 1.1) that can stand in a page."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from markupsafe import Markup

CONTEXT = "https://schema.org"
"""Names are those of schema.org. Nobody fetches this address to read a page: it says whose names they are."""

_IN_A_PAGE = {sign: f"\\u{ord(sign):04x}" for sign in "<>&\u2028\u2029"}


def data_block(data: Mapping[str, Any]) -> Markup:
    """The value for a `<script type="application/ld+json">`, which no browser runs.

    What could end the element, open a comment in it or stand for a sign is written as an escape of JSON.

    >>> data_block({"name": "</script><!--"})
    Markup('{"@context":"https://schema.org","name":"\\\\u003c/script\\\\u003e\\\\u003c!--"}')
    """
    text = json.dumps({"@context": CONTEXT, **data}, ensure_ascii=False, separators=(",", ":"))
    for sign, escape in _IN_A_PAGE.items():
        text = text.replace(sign, escape)
    return Markup(text)


def iso_duration(seconds: int) -> str:
    """A time as ISO 8601 writes it.

    >>> iso_duration(1620), iso_duration(3725), iso_duration(0)
    ('PT27M', 'PT1H2M5S', 'PT0S')
    """
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    told = "".join(f"{count}{unit}" for count, unit in ((hours, "H"), (minutes, "M"), (rest, "S")) if count)
    return f"PT{told or '0S'}"
