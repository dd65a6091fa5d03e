"""The index from A to Z: parts, steps, joints, tools and supplies by name, and screws by size; for paper and no script."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

from generator.figures.trade_words import drive_words
from generator.languages import say
from generator.orders.accounts import ScrewLine, accounts_of, by_size
from generator.orders.guide import Guide, Library
from generator.pages.addresses import DEVICE, INDEX
from generator.pages.entries import Entry, entries_of, kind_words
from generator.pages.frame import Crumb, FrameView, frame_of
from generator.pages.joints import size_words
from generator.pages.library import PartLink
from generator.pages.typography import capital

LISTED = frozenset({"device", "part", "step", "joint", "tool", "supply"})
OTHERS = "0–9"
"""Where names stand that begin with no letter."""


@dataclass(frozen=True, slots=True)
class PlaceView:
    """One place where a name stands."""

    words: str
    href: str


@dataclass(frozen=True, slots=True)
class NameView:
    name: str
    places: tuple[PlaceView, ...]


@dataclass(frozen=True, slots=True)
class LetterView:
    id: str
    letter: str
    names: tuple[NameView, ...]


@dataclass(frozen=True, slots=True)
class ScrewPlaces:
    size: str
    drive: str
    count: str
    devices: tuple[PartLink, ...]


@dataclass(frozen=True, slots=True)
class AlphabetPage:
    frame: FrameView
    letters: tuple[LetterView, ...]
    screws: tuple[ScrewPlaces, ...]


def alphabet_page(library: Library) -> AlphabetPage:
    return AlphabetPage(
        frame=frame_of(
            library,
            path=INDEX,
            title=f"A–Z – {library.title}",
            description=say("Every part, step, joint, tool and supply by name, and every screw by size."),
            crumbs=(Crumb(library.title, "index.html"), Crumb("A–Z", "")),
            skip=("#letters", say("Skip to the letters")),
        ),
        letters=letters_of(entry for entry in entries_of(library) if entry.kind in LISTED),
        screws=_screws(library.guides),
    )


def letters_of(entries: Iterable[Entry]) -> tuple[LetterView, ...]:
    """Names under their letters, the same name once with all its places; accents and capitals do not count."""
    names: dict[tuple[str, str], list[PlaceView]] = {}
    for entry in entries:
        key = (sorting(entry.name), capital(entry.name))
        kind = kind_words(entry.kind)
        words = f"{kind}, {entry.where}" if entry.where else kind
        names.setdefault(key, []).append(PlaceView(words, entry.href))
    letters: dict[str, list[NameView]] = {}
    for key in sorted(names):
        letters.setdefault(letter_of(key[0]), []).append(NameView(key[1], tuple(names[key])))
    ordered = sorted(letters, key=lambda letter: (letter != OTHERS, letter))
    return tuple(
        LetterView(f"letter-{'other' if letter == OTHERS else letter.casefold()}", letter, tuple(letters[letter]))
        for letter in ordered
    )


def sorting(name: str) -> str:
    """A name as it is sorted.

    >>> sorting("Öse"), sorting("SIM tray")
    ('ose', 'sim tray')
    """
    plain = unicodedata.normalize("NFKD", name.casefold())
    return "".join(character for character in plain if not unicodedata.combining(character))


def letter_of(key: str) -> str:
    return key[0].upper() if key[:1].isalpha() else OTHERS


def _screws(guides: Iterable[Guide]) -> tuple[ScrewPlaces, ...]:
    found: dict[tuple[str, str], list[tuple[Guide, ScrewLine]]] = {}
    lines = [(guide, line) for guide in guides for line in accounts_of(guide, guide.order).screws]
    for guide, line in sorted(lines, key=lambda entry: by_size(entry[1].size)):
        key = (size_words(line.size) or say("no size told"), drive_words(line.size.drive))
        found.setdefault(key, []).append((guide, line))
    return tuple(
        ScrewPlaces(
            size,
            drive,
            str(sum(line.count for _, line in lines)),
            tuple(PartLink(f"{guide.device.name}, {line.count}", f"{guide.id}/{DEVICE}#screws") for guide, line in lines),
        )
        for (size, drive), lines in found.items()
    )
