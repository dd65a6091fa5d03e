"""The page that stands in for one that is not kept on this device, while there is no network."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from generator.languages import say
from generator.orders.guide import Library
from generator.pages.addresses import LIBRARY
from generator.pages.frame import Crumb, FrameView, frame_of

UNKEPT = "offline.html"


@dataclass(frozen=True, slots=True)
class UnkeptPage:
    frame: FrameView
    heading: str
    lede: str
    kept: str
    library_href: str
    library_label: str


def only_here(library: Library, **told: Any) -> FrameView:
    """A frame without links to the page in other languages: there is one for all."""
    return replace(frame_of(library, **told), languages=())


def unkept_page(library: Library) -> UnkeptPage:
    title = say("Not kept on this device")
    return UnkeptPage(
        frame=only_here(
            library,
            path=UNKEPT,
            title=f"{title} – {library.title}",
            description=say("What is shown without a network in place of a page that was not kept."),
            crumbs=(Crumb(library.title, LIBRARY), Crumb(title, "")),
            skip=("#top", say("Skip to the text")),
        ),
        heading=title,
        lede=say("There is no network now, and the page you asked for was not kept here."),
        kept=say(
            "A guide is kept as a whole once one of its pages was opened with a network. Those guides, the list of all "
            "devices, the tools and the safety page can be read now."
        ),
        library_href=LIBRARY,
        library_label=say("All devices"),
    )
