"""What a published site has beside its pages: a feed, a site map, a page for wrong addresses.

All of it needs the address of the site.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from generator.orders.guide import Library
from generator.pages.addresses import LIBRARY, NOT_FOUND, ROBOTS, SITEMAP, canonical_address
from generator.pages.not_found import not_found_page, root_of
from generator.pages.sitemap import Mapped, sitemap_files
from generator.pages.theme import Theme, set_page


def published_files(library: Library, theme: Theme, pages: Iterable[str]) -> Mapping[str, str]:
    """Path to text; nothing where the library has no address. pages: the paths of all pages that a reader may look for."""
    site = canonical_address(library.address, LIBRARY)
    if library.address is None or site is None:
        return {}
    days = {guide.id: guide.device.changed for guide in library.guides}
    named = {
        canonical_address(library.address, path) or "": Mapped(
            days.get(_within(library, path).partition("/")[0]), _alternates(library, path)
        )
        for path in sorted(pages)
        if path.endswith(".html") and path != NOT_FOUND
    }
    files = {NOT_FOUND: set_page(theme, "not-found", not_found_page(library)), **sitemap_files(named, site)}
    # Robots ask for this file at the root of a host and nowhere else.
    if root_of(library.address) == "/":
        files[ROBOTS] = f"User-agent: *\nAllow: /\nSitemap: {site}{SITEMAP}\n"
    return files


def _within(library: Library, path: str) -> str:
    """The path of a page within the folder of its language."""
    folder = next((folder for folder in library.folders.values() if folder and path.startswith(folder)), "")
    return path.removeprefix(folder)


def _alternates(library: Library, path: str) -> tuple[tuple[str, str], ...]:
    """The same page in every language, itself among them; nothing where there is one language only."""
    if len(library.folders) < 2:
        return ()
    own = _within(library, path)
    return tuple(
        (tag, canonical_address(library.address, f"{folder}{own}") or "") for tag, folder in library.folders.items()
    )
