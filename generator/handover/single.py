"""A device's guide as one page: style, fonts and photos inside, links between its chapters inside as well."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from posixpath import dirname, join, normpath
from urllib.parse import unquote

from markupsafe import Markup

from generator.figures.tray.shapes import A4, Paper
from generator.handover.addresses import leaving, target_of
from generator.handover.chapters import Chapter, chapters_of, chapters_to_print, label_of, of_chapter, place_in
from generator.handover.marks import mark_of
from generator.handover.markup import Tag, main_of, single_picture, title_of, with_tags, without_scripts
from generator.languages import direction, say
from generator.orders.guide import Guide, Library
from generator.pages.theme import STYLE, Theme, set_page
from generator.pages.typography import sentence

Files = Mapping[str, str | bytes]

_URL = re.compile(r"url\((['\"]?)([^)'\"]+)\1\)")
_TYPES = {
    ".woff2": "font/woff2",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".png": "image/png",
    ".webp": "image/webp",
    ".svg": "image/svg+xml",
}


@dataclass(frozen=True, slots=True)
class ChapterView:
    key: str
    title: str
    body: Markup


@dataclass(frozen=True, slots=True)
class SinglePage:
    """mark: by which the file is known again; policy allows the one style sheet that stands in the page."""

    mark: str
    language: str
    direction: str
    title: str
    name: str
    policy: str
    style: Markup
    chapters: tuple[ChapterView, ...]
    imprint: str


def single_page(files: Files, library: Library, guide: Guide, theme: Theme) -> str:
    """The whole guide and every way as one page. files: the site of a library that has this guide only."""
    return bound(chapters_of(files, guide.id), whole_sheet(files), files, library, guide, theme)


def page_to_print(files: Files, library: Library, guide: Guide, theme: Theme, paper: Paper) -> str:
    """The page from which a PDF of that size of paper is made."""
    sheet = f"{whole_sheet(files)}@page {{ size: {'A4' if paper is A4 else paper.id}; }}\n"
    return bound(chapters_to_print(files, guide.id, paper), sheet, files, library, guide, theme)


def bound(
    chapters: Sequence[Chapter], style: str, files: Files, library: Library, guide: Guide, theme: Theme
) -> str:
    """The chapters as one page with this style sheet."""
    keys = {chapter.path: chapter for chapter in chapters}
    view = SinglePage(
        mark=mark_of(guide.id),
        language=library.language,
        direction=direction(library.language),
        title=f"{guide.device.name} – {library.title}",
        name=guide.device.name,
        policy=policy_for(style),
        style=Markup(style),
        chapters=tuple(
            ChapterView(
                chapter.key,
                label_of(chapter, guide.device.name, library.title),
                _body(chapter, keys, files, library.address),
            )
            for chapter in chapters
        ),
        imprint=" ".join(
            sentence(words)
            for words in (
                library.title,
                say("Written by {author}", author=library.author) if library.author else "",
                say("Licence: {licence}", licence=library.licence) if library.licence else "",
            )
            if words
        ),
    )
    return set_page(theme, "single", view)


def policy_for(style: str) -> str:
    """Only this very style sheet, and what stands in the page itself; nothing runs, nothing is fetched or sent."""
    digest = b64encode(sha256(style.encode("utf-8")).digest()).decode("ascii")
    return (
        f"default-src 'none'; style-src 'sha256-{digest}'; font-src data:; img-src data:; "
        "base-uri 'none'; form-action 'none'"
    )


def _body(chapter: Chapter, keys: Mapping[str, Chapter], files: Files, address: str | None) -> Markup:
    def change(each: Tag) -> Tag | None:
        kept = single_picture(each)
        if kept is None:
            return None
        tag = _told_apart(chapter, of_chapter(chapter, kept))
        if tag.name == "img":
            return tag.having(src=_data_address(files, chapter.path, tag.get("src")) or tag.get("src"))
        where = tag.get("href") if tag.name == "a" else ""
        target = target_of(chapter.path, where) if where else None
        if target is None:
            return tag
        if target[0] in keys:
            return tag.having(href=f"#{place_in(keys[target[0]], target[1])}")
        return leaving(tag, address, *target)

    return Markup(with_tags(without_scripts(main_of(chapter.html)), change))


def _told_apart(chapter: Chapter, tag: Tag) -> Tag:
    """A section is called by its chapter too: chapters have the same headings, and those who listen jump by name."""
    if tag.name != "section":
        return tag
    named, label = tag.get("aria-labelledby"), tag.get("aria-label")
    if named:
        return tag.having(**{"aria-labelledby": f"{chapter.key} {named}"})
    return tag.having(**{"aria-label": f"{title_of(chapter.html)}: {label}"}) if label else tag


def whole_sheet(files: Files) -> str:
    """The style sheet with the fonts in it; nothing in it can end the element that it stands in."""
    sheet = files[STYLE]
    text = sheet if isinstance(sheet, str) else sheet.decode("utf-8")

    def written_out(found: re.Match[str]) -> str:
        data = _data_address(files, STYLE, found[2])
        return f'url("{data}")' if data else found[0]

    return _URL.sub(written_out, text).replace("</", "<\\/")


def _data_address(files: Files, path: str, address: str) -> str | None:
    """The file as a data address (RFC 2397); None where it is not one of the site's."""
    name = normpath(join(dirname(path), unquote(address)))
    data = files.get(name)
    ending = name[name.rfind(".") :].lower()
    if data is None or ending not in _TYPES:
        return None
    raw = data.encode("utf-8") if isinstance(data, str) else data
    return f"data:{_TYPES[ending]};base64,{b64encode(raw).decode('ascii')}"
