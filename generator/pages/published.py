"""What a published site has beside its pages: a feed, a site map, a page for wrong addresses.

All of it needs the address of the site.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from generator.orders.guide import Library
from generator.pages.addresses import FEED, LIBRARY, NOT_FOUND, ROBOTS, SITEMAP, canonical_address
from generator.pages.feed import feed_of
from generator.pages.not_found import not_found_page, root_of
from generator.pages.sitemap import sitemap_files
from generator.pages.theme import Theme, set_page


def published_files(library: Library, theme: Theme, pages: Iterable[str]) -> Mapping[str, str]:
    """Path to text; nothing where the library has no address. pages: the paths of all pages that a reader may look for."""
    site = canonical_address(library.address, LIBRARY)
    if library.address is None or site is None:
        return {}
    days = {guide.id: guide.device.changed for guide in library.guides}
    named = {
        canonical_address(library.address, path) or "": days.get(path.partition("/")[0])
        for path in sorted(pages)
        if path.endswith(".html") and path != NOT_FOUND
    }
    files = {NOT_FOUND: set_page(theme, "not-found", not_found_page(library)), **sitemap_files(named, site)}
    feed = feed_of(library)
    if feed:
        files[FEED] = feed
    # Robots ask for this file at the root of a host and nowhere else.
    if root_of(library.address) == "/":
        files[ROBOTS] = f"User-agent: *\nAllow: /\nSitemap: {site}{SITEMAP}\n"
    return files
