"""Where things stand in a site: paths of pages, ids on pages, and links between them, all relative."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from urllib.parse import quote, urlsplit

from generator.anatomy.parts import JointId, PartId
from generator.orders.guide import Device, Guide
from generator.orders.work import Step, StepId, SupplyId, ToolId

LIBRARY = "index.html"
TOOLS = "tools.html"
SAFETY = "safety.html"
COMPARE = "compare.html"
FEED = "feed.xml"
SITEMAP = "sitemap.xml"
ROBOTS = "robots.txt"
MANIFEST = "site.webmanifest"
NOT_FOUND = "404.html"
CONTRIBUTE = "contribute.html"
RULES_PAGE = "rules.html"
FIND = "find.html"
INDEX = "index-a-z.html"
FIND_DATA = "find-index.js"
SEVERAL = "several.html"
SEVERAL_DATA = "several.js"
DEVICE = "index.html"
WHOLE = "guide.html"
WORKINGS = "workings.html"
VERDICT = "verdict.svg"
CHANGES = "changes.html"
CORRECTION = "correction.html"

LinkOf = Callable[[str, str], str | None]
"""From the scheme and target of a reference to the address it links to; None where there is nothing to link to."""


def route_page(part: PartId) -> str:
    """The name of a part's page in its device's folder."""
    return f"to-{part}.html"


def anchor(scheme: str, name: str) -> str:
    """The id under which a part, joint, tool, supply or step stands on a page."""
    return f"{scheme}-{name}"


def links_from(guide: Guide, here: Iterable[str], withheld: Iterable[StepId] = ()) -> LinkOf:
    """Links of a page in the device's folder: on the page itself where `here` has the id, else to where it surely stands.

    here: the ids of the page. withheld: steps whose joints are nowhere shown. Names that point nowhere give None.
    """
    ids = frozenset(here)

    def link_of(scheme: str, target: str) -> str | None:
        name = anchor(scheme, target)
        if name in ids:
            return f"#{name}"
        match scheme:
            case "part":
                return f"{DEVICE}#{name}" if PartId(target) in guide.anatomy.parts else None
            case "joint":
                return f"{DEVICE}#{name}" if JointId(target) in guide.anatomy.joints else None
            case "tool":
                return f"../{TOOLS}#{name}" if ToolId(target) in guide.tools else None
            case "supply":
                return f"../{TOOLS}#{name}" if SupplyId(target) in guide.supplies else None
            case "step":
                return f"{WHOLE}#{name}" if any(step.id == target for step in guide.steps) else None
        return None

    return link_of


def film_address(device: Device, step: Step) -> str | None:
    """The film at the second where the step begins; None where that is not known."""
    return film_at(device, step.film[0]) if step.film is not None else None


def film_at(device: Device, second: int) -> str | None:
    """The film at a second: as the author says its player is asked, else as a media fragment (W3C 2012).

    None where the film has no address. Addresses that are not of the web are never linked to.
    """
    film = device.film_address
    if film is None or not is_web(film):
        return None
    if device.film_at is not None:
        address = device.film_at.replace("{seconds}", str(second)).replace("{address}", film)
        return address if is_web(address) else None
    joint = "&" if urlsplit(film).fragment else ("" if film.endswith("#") else "#")
    return f"{film}{joint}t={second}"


def is_web(address: str) -> bool:
    """Whether a link to `address` leads to the web and to nothing else."""
    try:
        pieces = urlsplit(address)
    except ValueError:
        return False
    return pieces.scheme in ("http", "https") and bool(pieces.netloc)


def source_address(sources: str | None, file: str, line: int = 1) -> str | None:
    """Where a reader can propose a change to `file`, at its line if such can be told; None where nothing names a place."""
    if sources is None or "{path}" not in sources or not is_web(sources):
        return None
    return sources.replace("{line}", str(line)).replace("{path}", quote(file))


def canonical_address(address: str | None, path: str) -> str | None:
    """The full address of a page of the published site."""
    if address is None or not is_web(address):
        return None
    return f"{address.rstrip('/')}/{path.removesuffix('index.html')}"
