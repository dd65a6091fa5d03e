"""The pages of a device as chapters of one document: their order, and ids that stay apart in it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath

from generator.figures.tray.shapes import Paper
from generator.handover.markup import Tag, title_of
from generator.pages.addresses import DEVICE, SAFETY, TOOLS, WHOLE
from generator.pages.tray import tray_name

_REFERS = ("for", "headers", "list", "aria-labelledby", "aria-describedby", "aria-controls", "aria-owns", "aria-details")
_IN_DRAWING = re.compile(r"url\((['\"]?)#([^)'\"]+)\1\)")


@dataclass(frozen=True, slots=True)
class Chapter:
    """One page of the site inside a larger whole; key: its id there, which also begins every id on it."""

    path: str
    key: str
    html: str


def chapters_of(files: Mapping[str, str | bytes], device: str) -> tuple[Chapter, ...]:
    """The device, its whole guide, the ways to its parts by name, tools and safety."""
    ways = sorted(path for path in files if re.fullmatch(rf"{re.escape(device)}/to-[^/]+\.html", path))
    return tuple(_chapters(files, [f"{device}/{DEVICE}", f"{device}/{WHOLE}", *ways, TOOLS, SAFETY], device))


def chapters_to_print(files: Mapping[str, str | bytes], device: str, paper: Paper) -> tuple[Chapter, ...]:
    """What is worth its paper: every step stands in the whole guide, so the ways to single parts are left out.

    The tray sheets of that size of paper stand behind the guide.
    """
    tray = f"{device}/{tray_name(None, paper)}"
    return tuple(_chapters(files, [f"{device}/{DEVICE}", f"{device}/{WHOLE}", tray, TOOLS, SAFETY], device))


def label_of(chapter: Chapter, name: str, library: str) -> str:
    """What a chapter is called in a list under the name of the device: its title without what all of them end in.

    >>> label_of(Chapter("a/to-b.html", "to-b", "<title>To the lid – Pot – Shelf</title>"), "Pot", "Shelf")
    'To the lid'
    """
    return title_of(chapter.html).removesuffix(f" – {library}").removesuffix(f" – {name}")


def of_chapter(chapter: Chapter, tag: Tag) -> Tag:
    """The tag with the ids that it has and names told apart from those of other chapters."""
    changed: dict[str, str | None] = {}
    for name, value in tag.attributes.items():
        if not value:
            continue
        if name == "id":
            changed[name] = place_in(chapter, value)
        elif name in _REFERS:
            changed[name] = " ".join(place_in(chapter, word) for word in value.split())
        elif "url(" in value:
            changed[name] = _IN_DRAWING.sub(lambda found: f"url(#{place_in(chapter, found[2])})", value)
        elif name in ("href", "xlink:href") and tag.name != "a" and value.startswith("#"):
            changed[name] = f"#{place_in(chapter, value[1:])}"
    return tag.having(**changed) if changed else tag


def place_in(chapter: Chapter, place: str) -> str:
    """The id in the whole of the place with that id on the chapter's own page.

    >>> place_in(Chapter("a/to-b.html", "to-b", ""), "out"), place_in(Chapter("a/to-b.html", "to-b", ""), "top")
    ('to-b.out', 'to-b')
    """
    return f"{chapter.key}.{place}" if place and place != "top" else chapter.key


def _chapters(files: Mapping[str, str | bytes], paths: Iterable[str], device: str) -> Iterable[Chapter]:
    for path in paths:
        html = files.get(path)
        if isinstance(html, str):
            key = "device" if path == f"{device}/{DEVICE}" else PurePosixPath(path).stem
            yield Chapter(path, key, html)
