"""Writing SVG: numbers, escaped text, attributes in the order given, ids that are safe whatever the content says."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from functools import lru_cache

Attribute = str | float | None

NAMESPACE = "http://www.w3.org/2000/svg"

_UNSAFE_IN_ID = re.compile(r"[^a-z0-9-]")
# Most of what is drawn needs no look at every sign.
_PLAIN = re.compile(r"[\w .,:;()/#%×–-]*", re.ASCII)
# What XML 1.0 (section 2.2) does not allow in a document, not even escaped.
_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@lru_cache(maxsize=1 << 16)
def number(value: float) -> str:
    """A length as text: two decimals at most, no exponent, no trailing zeros, never `-0`.

    ValueError for what is not a finite number.

    >>> number(2.50), number(-0.001), number(1e3)
    ('2.5', '0', '1000')
    """
    if not math.isfinite(value):
        raise ValueError(f"{value} cannot be drawn: a coordinate has to be a finite number")
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def escaped(text: str) -> str:
    """Text that is safe between tags and in quoted attributes; characters XML forbids become U+FFFD."""
    if _PLAIN.fullmatch(text):
        return text
    text = _NOT_XML.sub("\ufffd", text)
    for sign, entity in (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"), ('"', "&quot;"), ("'", "&#39;")):
        text = text.replace(sign, entity)
    return text


def ident(*words: str) -> str:
    """An id made of content, the words joined by hyphens; signs an id should not hold become their code point.

    >>> ident("lamp", "shade-screws"), ident("4", "a b")
    ('lamp-shade-screws', 'n4-a_20_b')
    """
    joined = _UNSAFE_IN_ID.sub(lambda sign: f"_{ord(sign.group()):x}_", "-".join(words))
    return joined if joined[:1].isalpha() else f"n{joined}"


def element(name: str, attributes: Mapping[str, Attribute], *content: str) -> str:
    """One element. Attributes keep their order, None leaves one out; `content` is SVG text already made."""
    written = "".join(f' {key}="{_attribute(value)}"' for key, value in attributes.items() if value is not None)
    inner = "".join(content)
    return f"<{name}{written}>{inner}</{name}>" if inner else f"<{name}{written}/>"


def text(words: str, attributes: Mapping[str, Attribute]) -> str:
    """A line of text, escaped."""
    return element("text", attributes, escaped(words))


def figure(
    name: str,
    *,
    ident: str,
    size: tuple[float, float],
    title: str,
    desc: str,
    content: Iterable[str],
    corner: tuple[float, float] = (0.0, 0.0),
    role: str = "img",
) -> str:
    """A whole SVG with its text alternatives.

    name: class of the block; ident: prefix of the ids of title and desc, unique on its page; size in units, which are
    also its CSS pixels before a theme scales it; corner: what the upper left corner is called; role: `group` for a figure
    that holds links, which `img` would hide.
    """
    width, height = number(size[0]), number(size[1])
    return element(
        "svg",
        {
            "xmlns": NAMESPACE,
            "class": name,
            "viewBox": f"{number(corner[0])} {number(corner[1])} {width} {height}",
            "width": width,
            "height": height,
            "role": role,
            "aria-labelledby": f"{ident}-title {ident}-desc",
        },
        element("title", {"id": f"{ident}-title"}, escaped(title)),
        element("desc", {"id": f"{ident}-desc"}, escaped(desc)),
        *content,
    )


def path_data(points: Iterable[tuple[float, float]], closed: bool = True) -> str:
    """Straight lines through the points, as the `d` of a path."""
    joined = "L".join(f"{number(x)} {number(y)}" for x, y in points)
    return f"M{joined}Z" if closed else f"M{joined}"


def _attribute(value: str | float) -> str:
    return escaped(value) if isinstance(value, str) else number(value)
