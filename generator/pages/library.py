"""The library page: which devices there are, by kind and maker, and what is known about each."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from generator.languages import later, say, say_many
from generator.orders.accounts import Accounts, accounts_of, pages_of
from generator.orders.guide import Guide, Library
from generator.pages.addresses import COMPARE, FEED, LIBRARY, RULES_PAGE, route_page
from generator.pages.compare import Compared, Comparison, comparison_of
from generator.pages.feed import has_feed
from generator.pages.frame import Crumb, Fact, FrameView, frame_of
from generator.pages.typography import capital, counted, held

KINDS = {
    "phone": later("Phones"),
    "foldable phone": later("Foldable phones"),
    "tablet": later("Tablets"),
    "other": later("Other devices"),
}
"""Headings of the kinds, in the order in which they stand; a kind that is not here comes after them by its own name."""

NO_MAKER = later("No maker named")

MANY = 20
"""Devices from which on the page is a list with letters to jump to, and not a card for each."""


@dataclass(frozen=True, slots=True)
class PartLink:
    label: str
    href: str


@dataclass(frozen=True, slots=True)
class DeviceCard:
    """A device with its figures; brief: the same in a line, where there are many."""

    id: str
    name: str
    href: str
    about: str
    figures: tuple[Fact, ...]
    brief: str
    parts: tuple[PartLink, ...]
    guide_href: str


@dataclass(frozen=True, slots=True)
class MakerGroup:
    id: str
    heading: str
    devices: tuple[DeviceCard, ...]


@dataclass(frozen=True, slots=True)
class KindGroup:
    """letters: where to jump to within the kind; none where there are few devices."""

    id: str
    heading: str
    count: str
    letters: tuple[PartLink, ...]
    makers: tuple[MakerGroup, ...]


@dataclass(frozen=True, slots=True)
class LibraryPage:
    frame: FrameView
    title: str
    about: str
    is_list: bool
    kinds: tuple[KindGroup, ...]
    nothing: str
    comparison: Comparison | None
    compare_href: str
    feed_href: str
    rules_href: str


def library_page(library: Library, compared: Sequence[Compared] = ()) -> LibraryPage:
    """compared: what each guide brings to the comparison of devices."""
    about = _about(library)
    is_list = len(library.guides) > MANY
    ordered = in_library_order(library.guides)
    comparison = None if is_list else comparison_of(compared)
    return LibraryPage(
        frame=frame_of(
            library,
            path=LIBRARY,
            title=library.title,
            description=about,
            crumbs=(Crumb(library.title, ""),),
            skip=("#devices", say("Skip to the devices")),
        ),
        title=library.title,
        about=about,
        is_list=is_list,
        kinds=tuple(
            _kind(kind, tuple(guides), number, is_list)
            for number, (kind, guides) in enumerate(groupby(ordered, key=lambda guide: guide.device.kind), 1)
        ),
        nothing="" if library.guides else say("There is no guide here yet."),
        comparison=comparison,
        compare_href=COMPARE if is_list and compared else "",
        feed_href=FEED if has_feed(library) else "",
        rules_href="" if library.folder else RULES_PAGE,
    )


def in_library_order(guides: Sequence[Guide]) -> tuple[Guide, ...]:
    """The devices as the library page has them: by kind, maker and name."""
    return tuple(sorted(guides, key=_by_kind_and_maker))


def in_the_order_of(library: Library, lines: Sequence[Compared]) -> tuple[Compared, ...]:
    """Lines of the comparison in the order in which the library page has the devices."""
    places = {guide.id: place for place, guide in enumerate(in_library_order(library.guides))}
    return tuple(sorted(lines, key=lambda line: places[line.id]))


def _about(library: Library) -> str:
    """What this is, in sentences that are facts."""
    told = [library.about] if library.about else []
    if library.guides:
        steps = sum(len(guide.order) for guide in library.guides)
        pages = sum(len(pages_of(guide)) for guide in library.guides)
        told.append(
            say_many(
                "{devices}, {steps}, {n}~part with a page of its own.",
                "{devices}, {steps}, {n}~parts with a page of their own.",
                pages,
                devices=counted(len(library.guides), "device", "devices"),
                steps=counted(steps, "step", "steps"),
            )
        )
    if library.author:
        told.append(say("Written by {author}.", author=library.author))
    return " ".join(told)


# --- groups -----------------------------------------------------------------------------------------------------


def _by_kind_and_maker(guide: Guide) -> tuple[int, str, bool, str, str, str]:
    """Kinds in their order, then makers and names by the alphabet; what has no maker comes last."""
    kind, maker = guide.device.kind, guide.device.maker
    known = list(KINDS).index(kind) if kind in KINDS else len(KINDS)
    return known, kind, maker is None, _sorted_as(maker or ""), _sorted_as(guide.device.name), guide.id


def _sorted_as(text: str) -> str:
    """A text without accents and case, as a list of names is sorted in most languages."""
    plain = unicodedata.normalize("NFKD", text)
    return "".join(sign for sign in plain if not unicodedata.combining(sign)).casefold()


def _kind(kind: str, guides: tuple[Guide, ...], number: int, is_list: bool) -> KindGroup:
    makers = tuple(
        MakerGroup(f"kind-{number}-maker-{place}", maker or say(NO_MAKER), tuple(_card(guide) for guide in of_maker))
        for place, (maker, of_maker) in enumerate(groupby(guides, key=lambda guide: guide.device.maker), 1)
    )
    return KindGroup(
        id=f"kind-{number}",
        heading=say(KINDS[kind]) if kind in KINDS else capital(kind),
        count=counted(len(guides), "device", "devices"),
        letters=_letters(makers) if is_list else (),
        makers=makers,
    )


def _letters(makers: Sequence[MakerGroup]) -> tuple[PartLink, ...]:
    """The first maker of each letter; of a single maker the first device of each."""
    named = [(maker.heading, maker.id) for maker in makers if maker.heading != say(NO_MAKER)]
    if len(makers) == 1:
        named = [(device.name, device.id) for device in makers[0].devices]
    first: dict[str, str] = {}
    for name, place in named:
        first.setdefault(_letter(name), f"#{place}")
    return tuple(PartLink(letter, place) for letter, place in first.items()) if len(first) > 1 else ()


def _letter(name: str) -> str:
    """The letter under which a name stands; one sign for all that begin with none."""
    sign = _sorted_as(name)[:1].upper()
    return sign if sign.isalpha() else "#"


# --- devices ----------------------------------------------------------------------------------------------------


def _card(guide: Guide) -> DeviceCard:
    device = guide.device
    accounts = accounts_of(guide, guide.order)
    return DeviceCard(
        id=f"device-{guide.id}",
        name=device.name,
        href=f"{guide.id}/index.html",
        about=held(device.about or ""),
        figures=(
            Fact(say("Parts"), str(len(guide.anatomy.parts))),
            Fact(say("Steps"), say("{number} out, {number} back", number=len(guide.order))),
            Fact(say("Joints"), str(accounts.joint_count)),
            Fact(say("Screws"), _screws(accounts)),
        ),
        brief=", ".join(
            (
                counted(len(guide.order), "step", "steps"),
                counted(accounts.joint_count, "joint", "joints"),
                counted(accounts.screw_count, "screw", "screws"),
            )
        ),
        parts=tuple(PartLink(guide.part(part).name, f"{guide.id}/{route_page(part)}") for part in pages_of(guide)),
        guide_href=f"{guide.id}/guide.html",
    )


def _screws(accounts: Accounts) -> str:
    sizes = len(accounts.screws)
    if not sizes:
        return say("none")
    return say_many("{screws}, of {n}~size", "{screws}, of {n}~sizes", sizes, screws=accounts.screw_count)
