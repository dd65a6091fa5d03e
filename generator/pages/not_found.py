"""The page for an address that leads nowhere. It is shown at any depth, so its links start at the root of the host."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any
from urllib.parse import urlsplit

from generator.languages import say
from generator.orders.guide import Library
from generator.pages.addresses import LIBRARY, NOT_FOUND
from generator.pages.frame import Crumb, FrameView, frame_of
from generator.pages.library import PartLink, in_library_order

DEVICES_LIMIT = 40
"""Devices that the page lists; of more it leads to the library alone."""


@dataclass(frozen=True, slots=True)
class NotFoundPage:
    frame: FrameView
    library_href: str
    devices: tuple[PartLink, ...]


def not_found_page(library: Library) -> NotFoundPage:
    """library: one that has an address."""
    root = root_of(library.address or "/")
    guides = in_library_order(library.guides)
    frame = frame_of(
        library,
        path=NOT_FOUND,
        title=f"{say('No such page')} – {library.title}",
        description=say("No page stands at this address."),
        crumbs=(Crumb(library.title, LIBRARY), Crumb(say("No such page"), "")),
        skip=("#top", say("Skip to the text")),
    )
    return NotFoundPage(
        frame=rooted(frame, root),
        library_href=f"{root}{LIBRARY}",
        devices=tuple(PartLink(guide.device.name, f"{root}{guide.id}/index.html") for guide in guides)
        if len(guides) <= DEVICES_LIMIT
        else (),
    )


def root_of(address: str) -> str:
    """The path of a site on its host, with a slash at both ends.

    >>> root_of("https://example.org/kiln-lane"), root_of("https://example.org")
    ('/kiln-lane/', '/')
    """
    return f"{urlsplit(address).path.rstrip('/')}/"


def rooted(frame: FrameView, root: str) -> FrameView:
    """The frame with every link within the site put below `root`; no address of its own, for it has none."""
    changed: dict[str, Any] = {"canonical": "", "feed": "", "languages": ()}
    for field in fields(frame):
        value = getattr(frame, field.name)
        if field.name.endswith("_href") and value and not value.startswith(("#", "http:", "https:")):
            changed[field.name] = f"{root}{value}"
        elif field.name == "crumbs":
            changed[field.name] = tuple(Crumb(c.label, f"{root}{c.href}" if c.href else "") for c in value)
        elif field.name == "scripts":
            changed[field.name] = tuple(f"{root}{script}" for script in value)
    return replace(frame, **changed)
