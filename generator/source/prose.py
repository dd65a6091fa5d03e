"""Markdown as authors write it: sentences and references with their places, refused links and HTML as faults."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any
from urllib.parse import unquote

from markdown_it import MarkdownIt
from markdown_it.common.utils import escapeHtml
from markdown_it.token import Token

from generator.source.characters import shown, with_plain_line_ends
from generator.source.faults import BadPath, Fault, RawHtml, TooBig
from generator.source.places import Place
from generator.source.sentences import sentences
from generator.source.values import address_refusal, path_refusal

SCHEMES = ("part", "joint", "tool", "supply", "step")

_SCHEME = re.compile(r"\s*([A-Za-z][A-Za-z0-9+.-]*):")
_TAG = re.compile(r"</?([A-Za-z][A-Za-z0-9-]*)")
MOST_IN_LINKS = 1 << 20  # characters of the addresses and titles of all links and pictures of a text
_FARTHEST = 4096  # characters to look ahead for a text behind the signs that mark it up


@dataclass(frozen=True, slots=True)
class Reference:
    """A link into the guide: `[the pick](tool:opening-pick)`. scheme: part, joint, tool, supply or step."""

    scheme: str
    target: str
    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence as read aloud, without markup. words after ASD-STE100 counting (see `sentences`)."""

    text: str
    words: int
    place: Place


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture set into prose: `![the open back](media/open.jpg)`; path as written, from the device's folder."""

    path: str
    alt: str
    place: Place


@dataclass(frozen=True, slots=True)
class FileLink:
    """A link to a file beside the guide: `[the list](notes.txt)`; path without what follows ? or #."""

    path: str
    place: Place


@dataclass(frozen=True, slots=True)
class Prose:
    """A stretch of Markdown and what was found in it."""

    markdown: str
    place: Place
    sentences: tuple[Sentence, ...] = ()
    references: tuple[Reference, ...] = ()
    faults: tuple[Fault, ...] = ()
    pictures: tuple[Picture, ...] = ()
    files: tuple[FileLink, ...] = ()


def read_prose(text: str, file: str, first_line: int = 1) -> Prose:
    """Find what stands in `text`. first_line: the line of `file` it starts in.

    Headings and tables hold no sentences; references are found everywhere but in code and in the words of a picture.
    """
    text = with_plain_line_ends(text).replace("\0", "\ufffd")  # as Markdown reads it, so that places can be counted
    lines = text.split("\n")
    spoken: list[Sentence] = []
    references: list[Reference] = []
    pictures: list[Picture] = []
    files: list[FileLink] = []
    faults: list[Fault] = []
    room = MOST_IN_LINKS
    for stretch in _stretches(_reader().parse(text), lines, file, first_line):
        if stretch.is_spoken:
            spoken.extend(_sentences_of(stretch))
        room -= _length_of_attributes(stretch)
        if room < 0:
            faults.append(TooBig(stretch.place(0, 1), "length of all addresses together", f"{MOST_IN_LINKS} characters"))
            break
        for scheme, target, words, place in _links_of(stretch):
            if scheme and target:
                references.append(Reference(scheme, target, words, place))
            else:
                written = f"{scheme}:{target}" if scheme else target
                reason = f"it names nothing after {scheme}:" if scheme else link_refusal(written)
                if reason is not None:
                    faults.append(BadPath(place, shown(unquote(written)), reason))
                elif not scheme and _SCHEME.match(unquote(target)) is None and not target.startswith("#"):
                    files.append(FileLink(unquote(re.split("[?#]", target)[0]), place))
        for path, alt, place in _pictures_of(stretch):
            reason = picture_refusal(path)
            if reason is None:
                pictures.append(Picture(unquote(re.split("[?#]", path)[0]), alt, place))
            else:
                faults.append(BadPath(place, shown(unquote(path)), reason))
    if "<" in text:
        faults.extend(_raw_html(text, lines, file, first_line))
    whole = Place(file, first_line, 1, first_line + len(lines) - 1, len(lines[-1]) + 1)
    ordered = tuple(sorted(faults, key=lambda fault: fault.place))
    return Prose(text, whole, tuple(spoken), tuple(references), ordered, tuple(pictures), tuple(files))


def split_refitting(body: str, headings: tuple[str, ...] = ("refitting",)) -> tuple[str, tuple[str, int] | None]:
    """The words of a step, and what stands under its heading `## Refitting` with the line that starts in, from 0.

    headings: what that heading may be called, in small letters; a translation may use the word of its language.

    The section ends at the next heading of its level or above. It leaves blank lines behind, so that what follows it
    keeps its line.

    >>> split_refitting("Lift.\\n\\n## Refitting\\nPress.\\n")
    ('Lift.\\n', ('Press.\\n', 3))
    """
    body = with_plain_line_ends(body)
    if not any(heading in body.casefold() for heading in headings):
        return body, None
    lines = body.split("\n")
    tokens = _reader().parse(body)
    found = [
        (token.map[0], token.map[1], tokens[index + 1].content)
        for index, token in enumerate(tokens)
        if token.type == "heading_open" and token.tag in ("h1", "h2") and token.level == 0 and token.map
    ]
    for number, (first, after, title) in enumerate(found):
        if title.strip().casefold() in headings:
            end = found[number + 1][0] if number + 1 < len(found) else len(lines)
            left = [*lines[:first], *[""] * (end - first), *lines[end:]]
            main = "\n".join(left).rstrip("\n")
            return f"{main}\n" if main else "", ("\n".join(lines[after:end]), after)
    return body, None


def render_prose(prose: Prose, link_of: Callable[[str, str], str | None]) -> str:
    """HTML that is safe to put into a page: raw HTML and refused links come out as the text they are.

    link_of: from a reference's scheme and target to the address it links to; None makes it plain text.
    """
    renderer = _renderer()
    env: dict[str, Any] = {}
    tokens = renderer.parse(prose.markdown, env)
    for token in tokens:
        if token.children:
            _aim(token.children, link_of)
    return str(renderer.renderer.render(tokens, renderer.options, env))


def link_refusal(address: str) -> str | None:
    """Why prose may not link to `address`; None where it may: the web, mail, our own schemes, the folder, the page."""
    if address.startswith("#"):
        return None
    scheme = _SCHEME.match(unquote(address))
    if scheme is None:
        return path_refusal(unquote(re.split("[?#]", address)[0]))
    name = scheme[1].lower()
    if name in ("http", "https"):
        return address_refusal(address)
    if name in (*SCHEMES, "mailto") and address[: len(name) + 1].lower() == f"{name}:":
        return None
    return f"links that start with {shown(name)}: are not allowed"


def picture_refusal(address: str) -> str | None:
    """Why prose may not show the picture at `address`; None where it may: it lies in the folder."""
    if _SCHEME.match(unquote(address)) or address.startswith("//"):
        return "a picture has to lie in the device's folder"
    return path_refusal(unquote(re.split("[?#]", address)[0]))


def markdown_tokens(text: str) -> list[Token]:
    """`text` as the parser sees it: blocks with their lines, and in them the words with what marks them up."""
    return _reader().parse(text)


# --- the parsers -------------------------------------------------------------------------------------------------


@lru_cache(maxsize=1)
def _reader() -> MarkdownIt:
    """Takes every link, so that refused ones can be told, and keeps escapes apart, so that places can be counted."""
    reader = _parser(html=False)
    reader.validateLink = lambda url: True  # type: ignore[method-assign]
    reader.core.ruler.disable("text_join")
    return reader


@lru_cache(maxsize=1)
def _html_reader() -> MarkdownIt:
    reader = _parser(html=True)
    reader.validateLink = lambda url: True  # type: ignore[method-assign]
    return reader


@lru_cache(maxsize=1)
def _renderer() -> MarkdownIt:
    renderer = _parser(html=False)
    renderer.validateLink = lambda url: link_refusal(url) is None  # type: ignore[method-assign]
    renderer.add_render_rule("image", _render_picture)
    return renderer


def _parser(html: bool) -> MarkdownIt:
    parser = MarkdownIt("commonmark", {"html": html}).enable(["table", "strikethrough"])
    rules = {rule.name: rule.fn for rule in parser.inline.ruler.__rules__}
    for name, made in (("link", "link_open"), ("image", "image"), ("autolink", "link_open"), ("html_inline", "html_inline")):
        parser.inline.ruler.at(name, _with_span(rules[name], made))
    return parser


def _with_span(rule: Callable[[Any, bool], bool], made: str) -> Callable[[Any, bool], bool]:
    """`rule`, noting on the token it makes where in the text it began and ended: the parser itself forgets."""

    def noting(state: Any, silent: bool) -> bool:
        start, count = state.pos, len(state.tokens)
        if not rule(state, silent):
            return False
        if not silent:
            token = next(token for token in state.tokens[count:] if token.type == made)
            token.meta = {**token.meta, "span": (start, state.pos), "source": state.src[start : state.pos]}
        return True

    return noting


def _render_picture(renderer: Any, tokens: Any, index: int, options: Any, env: Any) -> str:
    token = tokens[index]
    source = str(token.attrs["src"])
    if picture_refusal(source) is not None:
        return str(escapeHtml(token.meta["source"]))
    token.attrs["src"] = f"media/{source.removeprefix('media/')}"  # both ways of writing it name one file
    token.attrs["alt"] = _alt(token)
    return str(renderer.renderToken(tokens, index, options, env))


def _aim(tokens: list[Token], link_of: Callable[[str, str], str | None]) -> None:
    """Point our references where `link_of` says, or make them plain text; links cannot stand within links."""
    is_plain = False
    for index, token in enumerate(tokens):
        if token.type == "link_open":
            scheme, target = _target(str(token.attrs["href"]))
            address = link_of(scheme, target) if scheme and target else (target or None)
            is_plain = address is None
            token.attrs = {} if address is None else {**token.attrs, "href": address}
            if scheme and token.markup == "autolink":
                tokens[index + 1].content = _words(target)
        if is_plain and token.type in ("link_open", "link_close"):
            token.tag = "span"


def _target(href: str) -> tuple[str, str]:
    """Scheme in lower case and what follows it, for our own schemes; for all else no scheme and the whole."""
    scheme, colon, rest = href.partition(":")
    if colon and scheme.lower() in SCHEMES:
        return scheme.lower(), unquote(rest)
    return "", href


def _words(target: str) -> str:
    """What a reference without a text of its own is called: `<part:upper-cover>` is the upper cover."""
    return target.replace("-", " ")


# --- places ------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Stretch:
    """The inline text of one block. spots: for each of its lines where it starts in it, and in the file."""

    token: Token
    is_spoken: bool
    file: str
    spots: tuple[tuple[int, int, tuple[int, ...] | int], ...]

    def place(self, start: int, end: int) -> Place:
        line, column = self.spot(start)
        end_line, end_column = self.spot(end - 1)
        return Place(self.file, line, column, end_line, end_column + 1)

    def spot(self, offset: int) -> tuple[int, int]:
        low, high = 0, len(self.spots) - 1
        while low < high:
            middle = (low + high + 1) // 2
            low, high = (middle, high) if self.spots[middle][0] <= offset else (low, middle - 1)
        start, line, columns = self.spots[low]
        if isinstance(columns, int):
            return line, max(1, columns + offset - start)
        return line, columns[min(offset - start, len(columns) - 1)]


def _stretches(tokens: list[Token], lines: list[str], file: str, first_line: int) -> Iterator[_Stretch]:
    row, cursor = -1, 0
    above = ""
    for token in tokens:
        if token.type != "inline" or token.map is None:
            above = token.type
            continue
        is_cell = above in ("th_open", "td_open")
        if is_cell and token.map[0] != row:
            row, cursor = token.map[0], 0
        spots: list[tuple[int, int, tuple[int, ...] | int]] = []
        offset = 0
        for number, piece in enumerate(token.content.split("\n"), start=token.map[0]):
            source = lines[min(number, len(lines) - 1)]
            columns = _columns(piece, source, cursor if is_cell else None)
            spots.append((offset, first_line + number, columns))
            if is_cell and piece:
                cursor = columns + len(piece) - 1 if isinstance(columns, int) else columns[-1]
            offset += len(piece) + 1
        yield _Stretch(token, above == "paragraph_open", file, tuple(spots))


def _columns(piece: str, source: str, cursor: int | None) -> tuple[int, ...] | int:
    """The column in which `piece` starts in its line, from 1; in a cell with escaped bars, the column of each sign.

    cursor: how much of the line is done with, for the cells of a table; None where the piece ends the line.
    """
    bare = piece.strip()
    lead = len(piece) - len(piece.lstrip())
    if cursor is None:
        end = source.rstrip()
        found = len(end) - len(bare) if end.endswith(bare) else source.find(bare)
        return max(found, 0) + 1 - lead
    found = source.find(bare, cursor)
    if found >= 0 or "|" not in bare:
        return max(found, cursor) + 1 - lead
    found = max(source.find(bare.replace("|", "\\|"), cursor), cursor)
    columns: list[int] = []
    for sign in bare:
        found += sign == "|"
        columns.append(found + 1)
        found += 1
    return tuple(columns)


def _visible(stretch: _Stretch) -> Iterator[tuple[Token, str, int]]:
    """Every piece that is read aloud with its token and where it starts in the stretch."""
    content, cursor = stretch.token.content, 0
    for token in stretch.token.children or ():
        if token.type in ("link_open", "image"):
            start, end = token.meta["span"]
            cursor = end if token.type == "image" else start + 1
            ends = end
            if token.type == "image":
                yield token, " ", start
        elif token.type == "link_close":
            cursor = ends
        elif token.type in ("softbreak", "hardbreak"):
            found = content.find("\n", cursor)
            cursor = found + 1 if found >= 0 else cursor
            yield token, " ", max(cursor - 1, 0)
        elif token.type == "code_inline":
            opened = max(content.find(token.markup, cursor), cursor) + len(token.markup)
            closed = content.find(token.markup, opened + len(token.content.rstrip()))
            found = content.find(token.content, opened, opened + len(token.content) + 2)
            yield token, token.content, found if found >= 0 else opened
            cursor = (closed if closed >= 0 else opened) + len(token.markup)
        elif token.type in ("text", "text_special") and token.content:
            written = token.markup if token.type == "text_special" else token.content
            found = content.find(written, cursor, cursor + len(written) + _FARTHEST)
            cursor = found if found >= 0 else cursor
            yield token, token.content, cursor
            cursor += len(written)


def _sentences_of(stretch: _Stretch) -> Iterator[Sentence]:
    text: list[str] = []
    offsets: list[int] = []
    for token, piece, start in _visible(stretch):
        is_special = token.type == "text_special"
        text.append(piece)
        offsets.extend(start if is_special else start + index for index in range(len(piece)))
    last = len(stretch.token.content)
    for found in sentences("".join(text)):
        start, end = offsets[found.start], min(offsets[found.end - 1] + 1, last)
        yield Sentence(found.text, found.words, stretch.place(start, max(end, start + 1)))


def _links_of(stretch: _Stretch) -> Iterator[tuple[str, str, str, Place]]:
    opened: Token | None = None
    words: list[str] = []
    for token in stretch.token.children or ():
        if token.type == "link_open":
            opened, words = token, []
        elif token.type == "link_close" and opened is not None:
            scheme, target = _target(str(opened.attrs["href"]))
            is_bare = bool(scheme) and opened.markup == "autolink"
            text = _words(target) if is_bare else " ".join("".join(words).split())
            yield scheme, target, text, stretch.place(*opened.meta["span"])
            opened = None
        elif opened is not None:
            words.append(" " if token.type in ("softbreak", "hardbreak") else "" if token.type == "image" else token.content)


def _length_of_attributes(stretch: _Stretch) -> int:
    """Characters of all addresses and titles: a definition stands once and is copied to each of its uses."""
    return sum(len(str(value)) for token in stretch.token.children or () for value in (token.attrs or {}).values())


def _pictures_of(stretch: _Stretch) -> Iterator[tuple[str, str, Place]]:
    for token in stretch.token.children or ():
        if token.type == "image":
            yield str(token.attrs["src"]), _alt(token), stretch.place(*token.meta["span"])


def _alt(picture: Token) -> str:
    pieces = (
        " " if token.type in ("softbreak", "hardbreak") else _alt(token) if token.type == "image" else token.content
        for token in picture.children or ()
    )
    return " ".join("".join(pieces).split())


def _raw_html(text: str, lines: list[str], file: str, first_line: int) -> Iterator[Fault]:
    """HTML that Markdown would pass on if it were let; a closing tag is told only where nothing opened it."""
    opened: set[str] = set()
    tokens = _html_reader().parse(text)
    found: list[tuple[Place, str]] = []
    for token in tokens:
        if token.type == "html_block" and token.map is not None:
            line = lines[token.map[0]]
            number, column = first_line + token.map[0], max(line.find("<"), 0) + 1
            found.append((Place(file, number, column, number, len(line) + 1), token.content))
    for stretch in _stretches(tokens, lines, file, first_line):
        for token in stretch.token.children or ():
            if token.type == "html_inline":
                found.append((stretch.place(*token.meta["span"]), token.content))
    for place, written in sorted(found):
        match = _TAG.match(written.lstrip())
        tag = match[1].lower() if match else "comment"
        if written.lstrip().startswith("</") and tag in opened:
            continue
        opened.add(tag)
        yield RawHtml(place, shown(tag))
