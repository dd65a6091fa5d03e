"""The feed of changed guides (Atom, RFC 4287), for readers who want to hear when a guide changed."""

from __future__ import annotations

from generator.figures.svg import escaped
from generator.languages import language, say
from generator.orders.guide import Device, Guide, Library
from generator.pages.addresses import FEED, canonical_address


def has_feed(library: Library) -> bool:
    """A feed needs the address of the site and one device at least that says when it changed."""
    return canonical_address(library.address, FEED) is not None and any(_changed(library))


def feed_of(library: Library) -> str:
    """The feed, the latest change first; empty where there is none.

    Nothing is taken from the clock: what does not say when it changed is left out. A guide that was renamed keeps the id it
    had first (RFC 4287, 4.2.6: an id never changes), so that readers are not told of it as of a new one.
    """
    if not has_feed(library):
        return ""
    entries = sorted(_changed(library), key=lambda guide: guide.id)
    entries = sorted(entries, key=lambda guide: guide.device.changed or "", reverse=True)
    head = (
        f"<title>{escaped(library.title)}</title>",
        f"<id>{_address(library, 'index.html')}</id>",
        f'<link rel="self" type="application/atom+xml" href="{_address(library, FEED)}"/>',
        f'<link rel="alternate" type="text/html" href="{_address(library, "index.html")}"/>',
        f"<updated>{_moment(entries[0].device)}</updated>",
        f"<author><name>{escaped(library.author or library.title)}</name></author>",
    )
    lines = "\n".join(("\n".join(head), *(_entry(library, guide) for guide in entries)))
    return (
        '<?xml version="1.0" encoding="utf-8"?>\n'
        f'<feed xmlns="http://www.w3.org/2005/Atom" xml:lang="{escaped(language())}">\n{lines}\n</feed>\n'
    )


def summary_words(device: Device) -> str:
    """What a guide is said to be where its author says nothing about the device."""
    return say("{device}: parts, joints, steps out and back.", device=device.name)


def _entry(library: Library, guide: Guide) -> str:
    device = guide.device
    first = device.formerly[0] if device.formerly else guide.id
    summary = device.about or summary_words(device)
    return "\n".join(
        (
            "<entry>",
            f"<title>{escaped(device.name)}</title>",
            f"<id>{_address(library, f'{first}/index.html')}</id>",
            f'<link rel="alternate" type="text/html" href="{_address(library, f"{guide.id}/index.html")}"/>',
            f"<updated>{_moment(device)}</updated>",
            f"<summary>{escaped(summary)}</summary>",
            "</entry>",
        )
    )


def _changed(library: Library) -> list[Guide]:
    return [guide for guide in library.guides if guide.device.changed is not None]


def _moment(device: Device) -> str:
    """A day as RFC 3339 writes a moment: its beginning, by the clock of Greenwich."""
    return f"{device.changed}T00:00:00Z"


def _address(library: Library, path: str) -> str:
    return escaped(canonical_address(library.address, path) or "")
