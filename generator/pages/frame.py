"""The frame of every page: its head, where it stands in the site, what stands at its foot."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from generator.languages import direction, name_of, say
from generator.orders.guide import Library
from generator.pages.addresses import CONTRIBUTE, FEED, FIND, INDEX, MANIFEST, SAFETY, TOOLS, canonical_address
from generator.pages.feed import has_feed
from generator.pages.licences import licence_address
from generator.pages.scripts import with_words
from generator.pages.structured import data_block
from generator.pages.theme import STYLE
from generator.pages.typography import sentence

INSTALL = "scripts/install.js"
"""Lets a served site be kept and installed; does nothing on a page that is opened from a folder."""

POLICY = (
    "default-src 'none'; script-src 'self' file:; style-src 'self' file:; font-src 'self' file:; "
    "img-src 'self' file: data:; worker-src 'self'; manifest-src 'self' file:; base-uri 'none'; form-action 'none'"
)
"""Only the site's own script files run, none that stands in a page; nothing is sent or fetched from elsewhere.

`file:` is for browsers to which a page opened from a folder has no origin that 'self' could mean; a page that is served
cannot fetch files, so there it allows nothing.
"""


@dataclass(frozen=True, slots=True)
class Crumb:
    """One page above this one; href is empty for the page itself."""

    label: str
    href: str


@dataclass(frozen=True, slots=True)
class LanguageLink:
    """The same page in another language; name: what that language calls itself; address: the full one, if there is any."""

    language: str
    name: str
    href: str
    address: str


@dataclass(frozen=True, slots=True)
class FrameView:
    """skip_href: where the skip link leads; scripts: addresses of script files, in the order they run.

    feed: the address of the feed of changes, a full one, so that a copy that lies elsewhere still knows it.

    card: what the page says of itself to those who show links to it (Open Graph, ogp.me), by property; structured: what it
    says to machines, empty where it says nothing.
    """

    language: str
    direction: str
    languages: tuple[LanguageLink, ...]
    title: str
    description: str
    policy: str
    style_href: str
    canonical: str
    feed: str
    crumbs: tuple[Crumb, ...]
    scripts: tuple[str, ...]
    install_href: str
    manifest_href: str
    find_href: str
    index_href: str
    tools_href: str
    safety_href: str
    contribute_href: str
    skip_href: str
    skip_label: str
    imprint: str
    source_href: str
    licence_href: str
    card: tuple[tuple[str, str], ...]
    structured: Markup


def frame_of(
    library: Library,
    *,
    path: str,
    title: str,
    description: str,
    crumbs: tuple[Crumb, ...],
    skip: tuple[str, str],
    source_href: str | None = None,
    scripts: tuple[str, ...] = (),
    image: tuple[str, str] | None = None,
    structured: Mapping[str, Any] | None = None,
) -> FrameView:
    """path: of the page, and scripts: of script files, from the folder of its language; skip: address and label of a link.

    image: path of a picture from the site's folder, as it stands in an address, and its words; structured: a thing of
    schema.org that the page is about.
    """
    root = "../" * path.count("/")
    home = root + "../" * library.folder.count("/")
    language = library.language
    canonical = canonical_address(library.address, path) or ""
    return FrameView(
        language=language,
        direction=direction(language),
        languages=_languages(library, home, path),
        title=title,
        description=description,
        policy=POLICY,
        style_href=f"{home}{STYLE}",
        canonical=canonical,
        feed=(canonical_address(library.address, FEED) or "") if has_feed(library) else "",
        crumbs=crumbs,
        scripts=tuple(f"{home if script.startswith('scripts/') else root}{script}" for script in with_words(scripts)),
        install_href=f"{home}{INSTALL}",
        manifest_href=f"{root}{MANIFEST}",
        find_href=f"{root}{FIND}",
        index_href=f"{root}{INDEX}",
        tools_href=f"{root}{TOOLS}",
        safety_href=f"{root}{SAFETY}",
        contribute_href=f"{root}{CONTRIBUTE}",
        skip_href=skip[0],
        skip_label=skip[1],
        imprint=" ".join(sentence(text) for text in _imprint(library)),
        source_href=source_href or "",
        licence_href=(licence_address(library.licence) or "") if library.licence else "",
        card=_card(library, title, description, canonical, language, image, is_article=bool(structured)),
        structured=data_block({**structured, "inLanguage": language}) if structured else Markup(),
    )


def _card(
    library: Library,
    title: str,
    description: str,
    canonical: str,
    language: str,
    image: tuple[str, str] | None,
    *,
    is_article: bool,
) -> tuple[tuple[str, str], ...]:
    """What a link to the page is shown with; addresses only where the site has one, since they have to be whole."""
    picture = canonical_address(home_address(library), image[0]) if image else None
    told = [
        ("og:type", "article" if is_article else "website"),
        ("og:title", title),
        ("og:description", description),
        ("og:site_name", library.title),
        ("og:url", canonical),
        ("og:locale", language.replace("-", "_") if "-" in language else ""),
        ("og:image", picture or ""),
        ("og:image:alt", image[1] if image and picture else ""),
    ]
    return tuple((name, value) for name, value in told if value)


@dataclass(frozen=True, slots=True)
class Fact:
    """A line of a title block or of a list of figures; href is empty where the value is no link."""

    label: str
    value: str
    href: str = ""


def _languages(library: Library, home: str, path: str) -> tuple[LanguageLink, ...]:
    address = home_address(library)
    return tuple(
        LanguageLink(tag, name_of(tag), f"{home}{folder}{path}", canonical_address(address, f"{folder}{path}") or "")
        for tag, folder in library.folders.items()
        if tag != library.language
    )


def home_address(library: Library) -> str | None:
    """The address of the whole site: that of a language's folder without it."""
    return library.address.removesuffix(library.folder) if library.address and library.folder else library.address


def _imprint(library: Library) -> list[str]:
    told = [library.title]
    told += [say("Written by {author}", author=library.author)] if library.author else []
    told += [say("Licence: {licence}", licence=library.licence)] if library.licence else []
    return told
