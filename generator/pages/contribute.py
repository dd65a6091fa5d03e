"""The page for those who want to send a correction: the author's own words, and below them what the program knows."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from generator.languages import direction, say
from generator.orders.guide import Library
from generator.pages.addresses import CONTRIBUTE, CORRECTION, LIBRARY, RULES_PAGE, WHOLE, source_address
from generator.pages.frame import Crumb, FrameView, frame_of
from generator.pages.licences import licence_address
from generator.pages.typography import held_html
from generator.pages.wording import lowered
from generator.source.prose import Prose, render_prose


@dataclass(frozen=True, slots=True)
class SourceLinks:
    """A device and where a change to its files can be written; guide_href: its whole guide, form_href: its form."""

    name: str
    guide_href: str
    source_href: str
    form_href: str


@dataclass(frozen=True, slots=True)
class ContributePage:
    """prose: the author's words, empty where there are none. rules_href: every check in English, for the first language."""

    frame: FrameView
    prose: Markup
    author: str
    has_sources: bool
    devices: tuple[SourceLinks, ...]
    rules_href: str
    licence: str
    licence_href: str


def contribute_page(library: Library) -> ContributePage:
    """The page in the language of the library. Its words link to the web alone: it belongs to no device."""
    title = say("How to send a correction")
    words = library.contribute
    devices = tuple(
        SourceLinks(
            guide.device.name,
            f"{guide.id}/{WHOLE}",
            source_address(library.sources, guide.device.place.file) or "",
            f"{guide.id}/{CORRECTION}",
        )
        for guide in library.guides
    )
    return ContributePage(
        frame=frame_of(
            library,
            path=CONTRIBUTE,
            title=f"{title} – {library.title}",
            description=say("What helps when something in a guide is wrong, and how a correction is sent."),
            crumbs=(Crumb(library.title, LIBRARY), Crumb(title, "")),
            skip=("#sending", say("Skip to how it is sent")),
            source_href=source_address(library.sources, words.place.file) if words else None,
        ),
        prose=_prose(words, library.language if "contribute" not in library.foreign else library.original, library),
        author=library.author or "",
        has_sources=source_address(library.sources, "library.yaml") is not None,
        devices=devices,
        rules_href="" if library.folder else RULES_PAGE,
        licence=library.licence or "",
        licence_href=(licence_address(library.licence) or "") if library.licence else "",
    )


def _prose(words: Prose | None, language: str, library: Library) -> Markup:
    """The words as safe HTML below an h2, marked where they are in another language than the page."""
    if words is None or not words.markdown.strip():
        return Markup()
    html = Markup(held_html(lowered(render_prose(words, lambda scheme, target: None), 3)))
    if language == library.language:
        return html
    return Markup('<div lang="{}" dir="{}">\n{}</div>\n').format(language, direction(language), html)
