"""The site map (sitemaps.org, protocol 0.9), for those who look through a whole site."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.figures.svg import escaped
from generator.pages.addresses import SITEMAP

ADDRESSES_LIMIT = 50_000
BYTES_LIMIT = 50 * 1024 * 1024
"""The most that one file may hold, by the protocol."""

_HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
_SPACE = "http://www.sitemaps.org/schemas/sitemap/0.9"
_FRAME = len(f'{_HEAD}<urlset xmlns="{_SPACE}">\n</urlset>\n')


def sitemap_files(
    addresses: Mapping[str, str | None],
    site: str,
    *,
    most_addresses: int = ADDRESSES_LIMIT,
    most_bytes: int = BYTES_LIMIT,
) -> dict[str, str]:
    """The files of a site map by path: one, or several and an index of them where one cannot hold all.

    addresses: full address of each page and the day it changed, None where that is not told; site: the address of the
    folder the files stand in, with a slash at its end.
    """
    parts = _parts([_entry("url", address, day) for address, day in addresses.items()], most_addresses, most_bytes)
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


def _entry(name: str, address: str, day: str | None) -> str:
    changed = f"<lastmod>{day}</lastmod>" if day is not None else ""
    return f"<{name}><loc>{escaped(address)}</loc>{changed}</{name}>\n"


def _file(name: str, entries: Sequence[str]) -> str:
    return f'{_HEAD}<{name} xmlns="{_SPACE}">\n{"".join(entries)}</{name}>\n'
