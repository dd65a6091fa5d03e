"""Spare parts that fit several devices, told by their number."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.anatomy.parts import Part
from generator.orders.guide import Guide, Library
from generator.pages.addresses import DEVICE, anchor


@dataclass(frozen=True, slots=True)
class Fit:
    """A part of a device that a spare fits; device: the id of its folder."""

    device: str
    name: str
    anchor: str


Spares = Mapping[str, tuple[Fit, ...]]
"""By the number of a spare part, every part of the library it fits; only numbers that several devices name."""

NO_SPARES: Spares = {}

NAMES_LIMIT = 5
"""Devices that a line of the parts table names; more are counted."""


@dataclass(frozen=True, slots=True)
class FitLink:
    label: str
    href: str


def spares_of(library: Library) -> Spares:
    """Numbers are compared without case and blanks, for catalogues differ in both."""
    found: dict[str, dict[str, Fit]] = {}
    for guide in library.guides:
        for part in guide.anatomy.parts.values():
            if part.spare_number:
                fit = Fit(guide.id, guide.device.name, anchor("part", part.id))
                found.setdefault(_key(part.spare_number), {}).setdefault(guide.id, fit)
    return {number: tuple(fits.values()) for number, fits in found.items() if len(fits) > 1}


def also_fits(spares: Spares, guide: Guide, part: Part) -> tuple[tuple[FitLink, ...], int]:
    """The other devices that the spare of a part fits, and how many more there are than are named."""
    fits = [fit for fit in spares.get(_key(part.spare_number or ""), ()) if fit.device != guide.id]
    links = tuple(FitLink(fit.name, f"../{fit.device}/{DEVICE}#{fit.anchor}") for fit in fits[:NAMES_LIMIT])
    return links, max(0, len(fits) - NAMES_LIMIT)


def _key(number: str) -> str:
    return "".join(number.split()).casefold()
