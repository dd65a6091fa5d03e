"""One hatch a material, told apart by its pattern."""

from __future__ import annotations

from enum import StrEnum

from generator.anatomy.parts import Part
from generator.figures.svg import NAMESPACE, Attribute, element


class Hatch(StrEnum):
    """What a layer is made of; the word is part of the id of its pattern."""

    GLASS = "glass"
    METAL = "metal"
    PLASTIC = "plastic"
    BOARD = "board"
    CELL = "cell"
    FILM = "film"
    FOAM = "foam"
    OTHER = "other"
    BASE = "base"


_WORDS = {
    Hatch.GLASS: "glass ceramic sapphire",
    Hatch.METAL: "metal steel stainless brass bronze copper aluminium aluminum iron titanium zinc magnesium alloy",
    Hatch.PLASTIC: "plastic nylon abs polycarbonate acrylic resin rubber silicone",
    Hatch.BOARD: "board pcb",
    Hatch.CELL: "cell battery",
    Hatch.FILM: "film foil tape sheet graphite paper flex",
    Hatch.FOAM: "foam felt sponge cork",
}
_MATERIAL = {word: hatch for hatch, words in _WORDS.items() for word in words.split()}

# Kind of line, size of the tile, and how far it is turned; distances in units.
_PATTERNS: dict[Hatch, tuple[str, float, float, int]] = {
    Hatch.GLASS: ("M0 0V5.5", 5.5, 5.5, 45),
    Hatch.METAL: ("M0 0V2.8", 2.8, 2.8, 45),
    Hatch.PLASTIC: ("M0 0V5M2 0V5", 7, 5, -45),
    Hatch.BOARD: ("M1 1.5h1.4M3.7 4.2h1.4", 5.4, 5.4, 0),
    Hatch.CELL: ("M0 2H8M0 6H3.5", 8, 8, 0),
    Hatch.FILM: ("M0 2.5Q2 .5 4 2.5T8 2.5", 8, 5, 0),
    Hatch.FOAM: ("M1.2 3.5a2 2 0 1 0 4 0a2 2 0 1 0-4 0", 7, 7, 0),
    Hatch.OTHER: ("M0 0V6M0 0H6", 6, 6, 45),
    Hatch.BASE: ("M0 0V2.4M0 0H2.4", 2.4, 2.4, 45),
}

PATTERNS_IDENT = "hatch"
"""Prefix of the ids of the patterns where a page does not say otherwise."""


def hatch_of(part: Part) -> Hatch:
    """The hatch of a part by its material, in whatever words; a part with a cell is hatched as one.

    The last word counts that is known: a "steel-backed foam" is foam.
    """
    if part.cell is not None:
        return Hatch.CELL
    words = (part.material or "").lower().replace("-", " ").split()
    return next((_MATERIAL[word] for word in reversed(words) if word in _MATERIAL), Hatch.OTHER)


def pattern_ident(hatch: Hatch, ident: str = PATTERNS_IDENT) -> str:
    return f"{ident}-{hatch}"


def rail_patterns(ident: str = PATTERNS_IDENT) -> str:
    """The patterns of all hatches, once a page and before its rails; decoration that takes no room.

    The theme must not hide it by `display: none`, or nothing is hatched.
    """
    patterns = (
        element(
            "pattern",
            {
                "id": pattern_ident(hatch, ident),
                "width": width,
                "height": height,
                "patternUnits": "userSpaceOnUse",
                "patternTransform": f"rotate({turned})" if turned else None,
            },
            element("path", {"class": "rail-patterns__line", "d": d}),
        )
        for hatch, (d, width, height, turned) in _PATTERNS.items()
    )
    attributes: dict[str, Attribute] = {"xmlns": NAMESPACE, "class": "rail-patterns", "width": 0, "height": 0}
    return element("svg", attributes | {"aria-hidden": "true", "focusable": "false"}, element("defs", {}, *patterns))
