"""The page where a reader looks for words, and what it looks them up in."""

from __future__ import annotations

from dataclasses import dataclass

from generator.languages import say
from generator.orders.guide import Library
from generator.pages.addresses import FIND, FIND_DATA, INDEX
from generator.pages.entries import entries_of, kind_words
from generator.pages.frame import Crumb, FrameView, frame_of
from generator.pages.scripts import FINDING, data_script


@dataclass(frozen=True, slots=True)
class FindPage:
    frame: FrameView
    index_href: str


def find_page(library: Library) -> FindPage:
    vendor, own = FINDING
    return FindPage(
        frame=frame_of(
            library,
            path=FIND,
            title=f"{say('Find')} – {library.title}",
            description=say("Look for a device, a part, a step, a joint, a tool, a supply or a note."),
            crumbs=(Crumb(library.title, "index.html"), Crumb(say("Find"), "")),
            skip=("#find", say("Skip to the search")),
            scripts=(vendor, FIND_DATA, own),
        ),
        index_href=INDEX,
    )


def find_data(library: Library) -> str:
    """The entries as the script file that the page loads: rows of kind, name, where, address and text."""
    rows = [[kind_words(entry.kind), entry.name, entry.where, entry.href, entry.text] for entry in entries_of(library)]
    return data_script("partwayEntries", rows)
