"""The site map (sitemaps.org, protocol 0.9), for those who look through a whole site."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.figures.svg import escaped
from generator.pages.addresses import SITEMAP

ADDRESSES_LIMIT = 50_000
BYTES_LIMIT = 50 * 1024 * 1024
"""The most that one file may hold, by the protocol."""

@dataclass(frozen=True, slots=True)
class Mapped:
    """What the map says of a page: the day it changed, and its address in every language by the language's tag."""

    day: str | None = None
    alternates: tuple[tuple[str, str], ...] = ()


_XHTML = "http://www.w3.org/1999/xhtml"
_HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
_SPACE = "http://www.sitemaps.org/schemas/sitemap/0.9"
_FRAME = len(f'{_HEAD}<urlset xmlns="{_SPACE}">\n</urlset>\n')


def sitemap_files(
    addresses: Mapping[str, Mapped],
    site: str,
    *,
    most_addresses: int = ADDRESSES_LIMIT,
    most_bytes: int = BYTES_LIMIT,
) -> dict[str, str]:
    """The files of a site map by path: one, or several and an index of them where one cannot hold all.

    addresses: what is told of each page, by its full address; site: the address of the folder the files stand in, with a
    slash at its end.
    """
    entries = [_entry("url", address, mapped.day, mapped.alternates) for address, mapped in addresses.items()]
    parts = _parts(entries, most_addresses, most_bytes)
    if len(parts) == 1:
        return {SITEMAP: _file("urlset", parts[0])}
    files = {f"sitemap-{number}.xml": _file("urlset", part) for number, part in enumerate(parts, 1)}
    return {SITEMAP: _file("sitemapindex", [_entry("sitemap", f"{site}{name}", None) for name in files]), **files}


def _parts(entries: Sequence[str], most_addresses: int, most_bytes: int) -> list[list[str]]:
    parts: list[list[str]] = [[]]
    size = _FRAME
    for entry in entries:
        weight = len(entry.encode())
        if parts[-1] and (len(parts[-1]) == most_addresses or size + weight > most_bytes):
            parts.append([])
            size = _FRAME
        parts[-1].append(entry)
        size += weight
    return parts


def _entry(name: str, address: str, day: str | None, alternates: Sequence[tuple[str, str]] = ()) -> str:
    changed = f"<lastmod>{day}</lastmod>" if day is not None else ""
    others = "".join(
        f'<link xmlns="{_XHTML}" rel="alternate" hreflang="{escaped(tag)}" href="{escaped(other)}"/>'
        for tag, other in alternates
    )
    return f"<{name}><loc>{escaped(address)}</loc>{changed}{others}</{name}>\n"


def _file(name: str, entries: Sequence[str]) -> str:
    return f'{_HEAD}<{name} xmlns="{_SPACE}">\n{"".join(entries)}</{name}>\n'
