"""Pages at old addresses: what was renamed leads on to where it stands now, without a script."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.languages import direction
from generator.orders.guide import Guide, Library
from generator.pages.addresses import DEVICE, anchor, route_page

POLICY = "default-src 'none'; style-src 'self' file:; font-src 'self' file:; base-uri 'none'; form-action 'none'"


@dataclass(frozen=True, slots=True)
class MovedPage:
    language: str
    direction: str
    policy: str
    style_href: str
    name: str
    href: str


def moved_pages(guide: Guide, paths: Iterable[str], library: Library) -> Mapping[str, MovedPage]:
    """Old path to the page that stands there. paths: the pages of the device, which are never overwritten; both from the
    folder of the library's language.

    A part that was renamed leads to its page, or to its line on the device's page where it has none. A device that was
    renamed has all of that under each of its old names too. Old anchors are no pages: they stand beside the new ones.
    """
    own = {path.removeprefix(f"{guide.id}/") for path in paths if path.endswith(".html")}
    targets = {name: name for name in sorted(own)}
    for part in guide.anatomy.parts.values():
        now = route_page(part.id)
        for old in part.formerly:
            targets.setdefault(route_page(PartId(old)), now if now in own else f"{DEVICE}#{anchor('part', part.id)}")
    pages = {}
    language, style = library.language, f"../{'../' * library.folder.count('/')}style.css"
    for folder in (guide.id, *guide.device.formerly):
        for old, target in targets.items():
            if folder != guide.id or old not in own:
                way = target if folder == guide.id else f"../{guide.id}/{target}"
                pages[f"{folder}/{old}"] = MovedPage(language, direction(language), POLICY, style, guide.device.name, way)
    return pages
