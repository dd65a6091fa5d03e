"""The frame of every page: its head, where it stands in the site, what stands at its foot."""

from __future__ import annotations

from dataclasses import dataclass

from generator.orders.guide import Library
from generator.pages.addresses import FIND, INDEX, SAFETY, TOOLS, canonical_address
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
class FrameView:
    """skip_href: where the skip link leads; scripts: addresses of script files, in the order they run."""

    language: str
    title: str
    description: str
    policy: str
    style_href: str
    canonical: str
    crumbs: tuple[Crumb, ...]
    scripts: tuple[str, ...]
    install_href: str
    find_href: str
    index_href: str
    tools_href: str
    safety_href: str
    skip_href: str
    skip_label: str
    imprint: str
    source_href: str


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
) -> FrameView:
    """path: of the page, and scripts: of script files, from the site's folder; skip: address and label of the skip link."""
    root = "../" * path.count("/")
    return FrameView(
        language=library.languages[0] if library.languages else "en",
        title=title,
        description=description,
        policy=POLICY,
        style_href=f"{root}{STYLE}",
        canonical=canonical_address(library.address, path) or "",
        crumbs=crumbs,
        scripts=tuple(f"{root}{script}" for script in scripts),
        install_href=f"{root}{INSTALL}",
        find_href=f"{root}{FIND}",
        index_href=f"{root}{INDEX}",
        tools_href=f"{root}{TOOLS}",
        safety_href=f"{root}{SAFETY}",
        skip_href=skip[0],
        skip_label=skip[1],
        imprint=" ".join(sentence(text) for text in _imprint(library)),
        source_href=source_href or "",
    )


@dataclass(frozen=True, slots=True)
class Fact:
    """A line of a title block or of a list of figures; href is empty where the value is no link."""

    label: str
    value: str
    href: str = ""


def _imprint(library: Library) -> list[str]:
    told = [library.title]
    told += [f"Written by {library.author}"] if library.author else []
    told += [f"Licence: {library.licence}"] if library.licence else []
    return told
