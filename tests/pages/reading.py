"""A rendered page read back: its elements in document order, ids, links and text."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = frozenset({"meta", "link", "img", "br", "hr", "input", "wbr"})
HIDDEN_TEXT = frozenset({"style", "script"})


@dataclass
class Element:
    tag: str
    attributes: dict[str, str]
    place: int
    text: str = ""
    ancestors: tuple[Element, ...] = field(default=(), repr=False)

    @property
    def classes(self) -> frozenset[str]:
        return frozenset(self.attributes.get("class", "").split())

    @property
    def words(self) -> str:
        return " ".join(self.text.split())


class Page(HTMLParser):
    """The elements of a page in document order; every text is added to all elements it stands in."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[Element] = []
        self.unclosed: list[str] = []
        self._open: list[Element] = []
        self.feed(html)
        self.close()
        self.unclosed += [element.tag for element in self._open]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = [name for name, _ in attrs]
        assert len(names) == len(set(names)), f"<{tag}> has an attribute twice: {names}"
        attributes = {name: value or "" for name, value in attrs}
        element = Element(tag, attributes, len(self.elements), ancestors=tuple(self._open))
        self.elements.append(element)
        if tag not in VOID:
            self._open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert self._open, f"</{tag}> closes nothing"
        assert self._open[-1].tag == tag, f"</{tag}> closes <{self._open[-1].tag}>"
        self._open.pop()

    def handle_data(self, data: str) -> None:
        for element in self._open:
            element.text += data

    def all(self, tag: str = "", name: str = "") -> list[Element]:
        """The elements with this tag and this class."""
        return [e for e in self.elements if tag in ("", e.tag) and (not name or name in e.classes)]

    def one(self, identifier: str) -> Element:
        return next(e for e in self.elements if e.attributes.get("id") == identifier)

    def inside(self, outer: Element, tag: str = "", name: str = "") -> list[Element]:
        return [e for e in self.all(tag, name) if outer in e.ancestors]

    @property
    def ids(self) -> list[str]:
        return [e.attributes["id"] for e in self.elements if "id" in e.attributes]

    @property
    def words(self) -> str:
        return next(e for e in self.elements if e.tag == "body").words
