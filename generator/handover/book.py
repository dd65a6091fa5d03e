"""A device's guide as an EPUB 3 book (W3C Recommendation, EPUB 3.3), written entry by entry."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath
from urllib.parse import quote
from uuid import NAMESPACE_URL, uuid5

from markupsafe import Markup

from generator.figures.stack.arrangement import arrange
from generator.figures.stack.drawing import stack_figure
from generator.figures.stack.geometry import stack_from
from generator.figures.svg import escaped
from generator.handover.addresses import leaving, target_of
from generator.handover.archive import archive_of
from generator.handover.chapters import Chapter, chapters_of, label_of
from generator.handover.marks import mark_of
from generator.handover.markup import Tag, single_picture, with_tags, without_scripts
from generator.handover.plain_style import plain_style
from generator.handover.xhtml import as_xhtml
from generator.languages import direction, say
from generator.orders.guide import Guide, Library
from generator.pages.addresses import canonical_address
from generator.pages.survey import up_to_stop
from generator.pages.theme import STYLE, Theme, set_page

Files = Mapping[str, str | bytes]

MIMETYPE = "application/epub+zip"
FOLDER = "book"
PACKAGE = f"{FOLDER}/package.opf"
COVER = "cover.svg"
_COVER_WIDTH, _COVER_HEIGHT = 1200, 1600

_TYPES = {
    ".css": "text/css",
    ".woff2": "font/woff2",
    ".txt": "text/plain",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".png": "image/png",
    ".webp": "image/webp",
    ".svg": "image/svg+xml",
    ".xhtml": "application/xhtml+xml",
}
_DROPPED = {"base", "link", "meta"}
_CONTAINER = f"""<?xml version="1.0" encoding="UTF-8"?>
<container version="1.0" xmlns="urn:oasis:names:tc:opendocument:xmlns:container">
<rootfiles><rootfile full-path="{PACKAGE}" media-type="application/oebps-package+xml"/></rootfiles>
</container>
"""


_DIRECTION = re.compile(r"(?<![-\w])direction\s*:[^;{}]*;?")
"""Books say which way they run in their pages, not in their style (EPUB 3.3, 6.3.1.3)."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A file of the book; path: below its folder; properties: what the package says of it."""

    id: str
    path: str
    type: str
    data: str | bytes
    properties: str = ""

    @property
    def href(self) -> str:
        """The path as an address: authors name photos as they like."""
        return quote(self.path)


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the book's contents."""

    href: str
    label: str


@dataclass(frozen=True, slots=True)
class BookView:
    """What the package document and the contents page say."""

    language: str
    direction: str
    identifier: str
    title: str
    library: str
    author: str
    licence: str
    about: str
    source: str
    modified: str
    mark: str
    entries: tuple[Entry, ...]
    spine: tuple[str, ...]
    lines: tuple[Line, ...]
    summary: str


def book(files: Files, library: Library, guide: Guide, theme: Theme, modified: str) -> bytes:
    """The book. files: the site of a library that has this guide only; modified: as in 1980-01-01T00:00:00Z."""
    chapters = chapters_of(files, guide.id)
    names = {chapter.path: str(PurePosixPath(chapter.path).with_suffix(".xhtml")) for chapter in chapters}
    pages = tuple(
        _page(f"chapter-{number}", chapter, names, files, library.address) for number, chapter in enumerate(chapters, 1)
    )
    rest = tuple(_carried(files, pages))
    cover = Entry("cover-image", COVER, _TYPES[".svg"], _cover(theme, library, guide), "cover-image")
    address = canonical_address(library.address, f"{guide.id}/") or ""
    view = BookView(
        language=library.language,
        direction=direction(library.language),
        identifier=f"urn:uuid:{uuid5(NAMESPACE_URL, address or f'{library.title}/{guide.id}')}",
        title=guide.device.name,
        library=library.title,
        author=library.author or library.title,
        licence=library.licence or "",
        about=library.about or "",
        source=address,
        modified=modified,
        mark=mark_of(guide.id),
        entries=(cover, *pages, *rest),
        spine=tuple(page.id for page in pages),
        lines=tuple(
            Line(names[chapter.path], label_of(chapter, guide.device.name, library.title)) for chapter in chapters
        ),
        summary=say(
            "Every figure has a text alternative that says the order of the work, and every figure of a whole run stands "
            "again as a table. Nothing is said by colour alone."
        ),
    )
    cover_page = as_xhtml(set_page(theme, "book-cover", view))
    contents = as_xhtml(set_page(theme, "book-contents", view))
    return archive_of(
        (
            ("mimetype", MIMETYPE),
            ("META-INF/container.xml", _CONTAINER),
            (PACKAGE, set_page(theme, "book-package", view)),
            (f"{FOLDER}/contents.xhtml", contents),
            (f"{FOLDER}/cover.xhtml", cover_page),
            *((f"{FOLDER}/{entry.path}", entry.data) for entry in view.entries),
        ),
        mark_of(guide.id),
        stored=frozenset(("mimetype",)),
    )


def _page(ident: str, chapter: Chapter, names: Mapping[str, str], files: Files, address: str | None) -> Entry:
    def change(each: Tag) -> Tag | None:
        tag = single_picture(each)
        if tag is None:
            return None
        if tag.name in _DROPPED:
            return tag if tag.get("rel") == "stylesheet" or tag.get("charset") or tag.get("name") == "viewport" else None
        where = tag.get("href") if tag.name == "a" else ""
        target = target_of(chapter.path, where) if where else None
        if target is None:
            return tag
        file, place = target
        if file == chapter.path:
            return tag.having(href=f"#{place or 'top'}")
        if file in names:
            up = "../" * chapter.path.count("/")
            return tag.having(href=f"{up}{names[file]}" + (f"#{place}" if place else ""))
        return leaving(tag, address, file, place)

    text = as_xhtml(with_tags(without_scripts(chapter.html), change))
    return Entry(ident, names[chapter.path], _TYPES[".xhtml"], text, "svg" if "<svg" in text else "")


def _carried(files: Files, pages: tuple[Entry, ...]) -> Iterator[Entry]:
    """Style, fonts with their licences, and the photos that stand on the pages."""
    sources = [(page.path, source) for page in pages for source in re.findall(r'\ssrc="([^"]*)"', str(page.data))]
    shown = {target[0] for path, source in sources if (target := target_of(path, source))}
    wanted = [path for path in sorted(files) if path == STYLE or path.startswith("fonts/") or path in shown]
    for number, path in enumerate(wanted, 1):
        kind = _TYPES.get(PurePosixPath(path).suffix.lower())
        if kind is not None:
            data = files[path]
            yield Entry(f"carried-{number}", path, kind, _DIRECTION.sub("", data) if isinstance(data, str) else data)


def _cover(theme: Theme, library: Library, guide: Guide) -> str:
    """The device pulled apart under its name; colours are written out, as the picture stands alone."""
    shown, _ = up_to_stop(guide, guide.order)
    arranged = arrange(guide, shown) if shown else None
    figure = Markup(stack_figure(stack_from(arranged), "stack")) if arranged else Markup()
    style = plain_style(theme, ("stack",))
    drawing = re.sub(r"^<svg ", '<svg x="90" y="400" ', _sized(str(figure), _COVER_WIDTH - 180, _COVER_HEIGHT - 560))
    size = min(84, int(1700 / max(len(guide.device.name), 1)))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_COVER_WIDTH} {_COVER_HEIGHT}" width="{_COVER_WIDTH}" '
        f'height="{_COVER_HEIGHT}" role="img" aria-labelledby="cover-title"><title id="cover-title">'
        f"{escaped(say('{device}, pulled apart', device=guide.device.name))}</title><style>{escaped(style)}</style>"
        f'<rect class="cover__paper" width="{_COVER_WIDTH}" height="{_COVER_HEIGHT}"/>'
        f'<path class="cover__line" d="M90 130H{_COVER_WIDTH - 90}M90 330H{_COVER_WIDTH - 90}M90 1500H{_COVER_WIDTH - 90}"/>'
        f'<text class="cover__name" x="90" y="260" font-size="{size}">{escaped(guide.device.name)}</text>'
        f'<text class="cover__library" x="90" y="1548" font-size="30">{escaped(library.title)}</text>{drawing}</svg>\n'
    )


def _sized(figure: str, width: int, height: int) -> str:
    """The figure in a field of that size; its own proportions hold."""
    opening = figure[: figure.find(">") + 1]
    fitted = re.sub(r'\s(width|height)="[^"]*"', "", opening)
    return fitted.replace("<svg ", f'<svg width="{width}" height="{height}" ', 1) + figure[len(opening) :]
