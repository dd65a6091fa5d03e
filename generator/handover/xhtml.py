"""HTML pages as XHTML: read as a browser reads them, written as XML with each drawing in its own namespace."""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.etree.ElementTree import Element
from xml.sax.saxutils import escape, quoteattr

import tinyhtml5

HTML = "http://www.w3.org/1999/xhtml"
XML_SPACES = {
    "http://www.w3.org/1999/xlink": "xlink",
    "http://www.w3.org/XML/1998/namespace": "xml",
}
EPUB = "http://www.idpf.org/2007/ops"
_VOID = {"area", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
_NAMED = re.compile(r"\{([^}]*)\}(.*)", re.DOTALL)
# What XML 1.0 (section 2.2) does not allow in a document.
_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def as_xhtml(html: str) -> str:
    """The page as a well-formed XML document. Comments are left out, and so is what XML cannot hold."""
    tree = tinyhtml5.parse(html)
    return '<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE html>\n' + "".join(_written(tree, "")) + "\n"


def _written(node: Element, around: str) -> Iterator[str]:
    """An element and all in it; around: the namespace of what it stands in."""
    found = _NAMED.fullmatch(str(node.tag)) if isinstance(node.tag, str) else None
    if found is not None:
        space, name = found.groups()
        own = f' xmlns="{space}"' if space != around else ""
        yield f"<{name}{own}{''.join(_attributes(node))}"
        if node.text or len(node) or (space == HTML and name not in _VOID):
            yield f">{_text(node.text)}"
            for child in node:
                yield from _written(child, space)
            yield f"</{name}>"
        else:
            yield "/>"
    yield _text(node.tail)


def _attributes(node: Element) -> Iterator[str]:
    for key, value in node.attrib.items():
        found = _NAMED.fullmatch(key)
        if found is None:
            if key == "epub:type":
                yield f' xmlns:epub="{EPUB}"'
            elif not re.fullmatch(r"[A-Za-z_][\w.-]*", key) or key == "xmlns":
                continue
            yield f" {key}={quoteattr(_NOT_XML.sub('', value))}"
        elif found[1] in XML_SPACES:
            prefix = XML_SPACES[found[1]]
            declared = "" if prefix == "xml" else f' xmlns:{prefix}="{found[1]}"'
            yield f"{declared} {prefix}:{found[2]}={quoteattr(_NOT_XML.sub('', value))}"


def _text(text: str | None) -> str:
    return escape(_NOT_XML.sub("", text or ""))
