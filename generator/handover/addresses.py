"""Where a link of a page leads: to another file of the same pack, to a place on it, or out."""

from __future__ import annotations

import posixpath
from urllib.parse import unquote, urlsplit

from generator.handover.markup import Tag
from generator.pages.addresses import canonical_address


def target_of(path: str, address: str) -> tuple[str, str] | None:
    """The file that `address` on the page `path` names, from the site's folder, and the place on it.

    None for what is no file of the site: the web, mail, data.

    >>> target_of("tarn-5/index.html", "../tools.html#tool-pick"), target_of("a/b.html", "#top"), target_of("a", "x:y")
    (('tools.html', 'tool-pick'), ('a/b.html', 'top'), None)
    """
    try:
        pieces = urlsplit(address)
    except ValueError:
        return None
    if pieces.scheme or pieces.netloc or pieces.path.startswith("/"):
        return None
    if not pieces.path:
        return path, unquote(pieces.fragment)
    file = posixpath.normpath(posixpath.join(posixpath.dirname(path), unquote(pieces.path)))
    if pieces.path.endswith("/") or file == ".":
        file = posixpath.normpath(posixpath.join(file, "index.html"))
    return file, unquote(pieces.fragment)


def leaving(tag: Tag, library_address: str | None, file: str, place: str) -> Tag:
    """A link to what is not in the pack: to the published library, or plain text where nobody knows its address."""
    address = canonical_address(library_address, file)
    if address is not None:
        return tag.having(href=f"{address}#{place}" if place else address, rel="external noreferrer").without("download")
    plain = tag.without("href", "rel", "download", "target")
    return Tag("g" if tag.in_drawing else "span", plain.attributes, tag.in_drawing, tag.is_closed)
