"""Codes on printed sheets: where paper leads back to the page it came from."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote, urlsplit, urlunsplit

from markupsafe import Markup

from generator.figures.code.drawing import code_figure
from generator.figures.code.geometry import Code, code_of
from generator.languages import say
from generator.orders.guide import Library
from generator.pages.addresses import canonical_address

_KEPT = "/%:@!$&'()*+,;=-._~?"
"""Signs that stand in an address as they are (RFC 3986), what is written out already among them."""


@dataclass(frozen=True, slots=True)
class CodeLine:
    """What stands on paper only: drawing is empty where the library has no address, or one too long; words tell the same."""

    drawing: Markup
    words: str


def code_line(library: Library, path: str) -> CodeLine:
    """For the sheet of the page `path`, from the site's folder."""
    code = code_to(library, path)
    if code is None:
        return CodeLine(Markup(), say("This sheet is the page {file} of “{library}”.", file=path, library=library.title))
    return CodeLine(
        Markup(code_figure(code, say("The code for this page"))),
        say("This sheet as a page: {address}", address=code.address),
    )


def code_for_step(library: Library, path: str, place: str) -> Markup:
    """The code for the step with the id `place` on the page `path`; nothing where the library has no address."""
    code = code_to(library, path, place)
    return Markup(code_figure(code, say("The code for this step"))) if code else Markup()


def code_to(library: Library, path: str, place: str = "") -> Code | None:
    """The code for a page of the published site, or for a place on it."""
    address = canonical_address(library.address, path)
    written = _in_ascii(f"{address}#{place}" if place else address) if address else None
    return code_of(written) if written else None


def _in_ascii(address: str) -> str | None:
    """An address as every reader takes it (RFC 3986, RFC 3490 for the name of the host); None where that cannot be."""
    try:
        pieces = urlsplit(address)
        host = pieces.netloc if pieces.netloc.isascii() else pieces.netloc.encode("idna").decode("ascii")
    except (ValueError, UnicodeError):
        return None
    return urlunsplit((pieces.scheme, host, *(quote(piece, safe=_KEPT) for piece in pieces[2:])))
