"""Finished pages as a row of tags and text: addresses and ids are changed without touching anything else."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from html import escape, unescape
from types import MappingProxyType

_TAG = re.compile(
    r"<!--.*?-->|<(?P<end>/?)(?P<name>[A-Za-z][^\s/>]*)"
    r"(?P<attributes>(?:\"[^\"]*\"|'[^']*'|[^>\"'])*?)(?P<closed>/?)>",
    re.DOTALL,
)
_ATTRIBUTE = re.compile(r"([^\s=\"'/]+)(?:\s*=\s*(?:\"([^\"]*)\"|'([^']*)'|([^\s\"'>]+)))?")
_SCRIPT = re.compile(r"<(script|noscript)\b.*?</\1\s*>\s*", re.DOTALL | re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Tag:
    """The start of an element. A value of None stands for an attribute without one; in_drawing: inside an `svg`."""

    name: str
    attributes: Mapping[str, str | None]
    in_drawing: bool = False
    is_closed: bool = False

    def get(self, name: str) -> str:
        return self.attributes.get(name) or ""

    def having(self, **changed: str | None) -> Tag:
        return replace(self, attributes=MappingProxyType({**self.attributes, **changed}))

    def without(self, *names: str) -> Tag:
        kept = {name: value for name, value in self.attributes.items() if name not in names}
        return replace(self, attributes=MappingProxyType(kept))

    @property
    def text(self) -> str:
        written = "".join(
            f" {name}" if value is None else f' {name}="{escape(value)}"' for name, value in self.attributes.items()
        )
        return f"<{self.name}{written}{'/' if self.is_closed else ''}>"


def with_tags(html: str, change: Callable[[Tag], Tag | None]) -> str:
    """The page with every start tag changed; a tag that is not changed keeps its bytes.

    None takes a void element such as `link` out. A tag under another name gets an end tag of that name too.
    """
    pieces: list[str] = []
    renamed: list[tuple[str, str]] = []  # elements that have another name now, and those of the same name inside them
    at = 0
    depth = 0
    for found in _TAG.finditer(html):
        name = found["name"]
        if name is None:
            continue
        if found["end"]:
            depth -= name == "svg"
            if renamed and renamed[-1][0] == name:
                new = renamed.pop()[1]
                if new != name:
                    pieces += [html[at : found.start()], f"</{new}>"]
                    at = found.end()
            continue
        tag = Tag(name, _attributes(found["attributes"]), depth > 0, bool(found["closed"]))
        depth += name == "svg" and not tag.is_closed
        changed = change(tag)
        if changed != tag:
            pieces += [html[at : found.start()], "" if changed is None else changed.text]
            at = found.end()
        new = name if changed is None else changed.name
        if not tag.is_closed and (new != name or any(old == name for old, _ in renamed)):
            renamed.append((name, new))
    return "".join([*pieces, html[at:]])


def single_picture(tag: Tag) -> Tag | None:
    """Of a photo in several formats and sizes the one that every reader can show: a pack carries that one alone."""
    if tag.name == "source" and "srcset" in tag.attributes:
        return None
    return tag.without("srcset", "sizes") if tag.name == "img" and "srcset" in tag.attributes else tag


def without_scripts(html: str) -> str:
    """The page without its scripts: what is handed over as one file works without."""
    return _SCRIPT.sub("", html)


def main_of(html: str) -> str:
    """What stands in a page's main part; ValueError where there is none."""
    found = re.search(r"<main\b[^>]*>(.*)</main>", html, re.DOTALL)
    if found is None:
        raise ValueError("a page without a main part")
    return found[1]


def title_of(html: str) -> str:
    """The title of a page as plain text; drawings further down have titles of their own."""
    found = re.search(r"<title>(.*?)</title>", html, re.DOTALL)
    if found is None:
        raise ValueError("a page without a title")
    return " ".join(unescape(found[1]).split())


def _attributes(text: str) -> Mapping[str, str | None]:
    values: dict[str, str | None] = {}
    for found in _ATTRIBUTE.finditer(text):
        value = next((given for given in found.groups()[1:] if given is not None), None)
        values[found[1]] = None if value is None else unescape(value)
    return MappingProxyType(values)
