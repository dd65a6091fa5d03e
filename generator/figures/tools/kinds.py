"""Which drawing a tool or supply gets: by the published basic type, by what it fits, else by the words of its name."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from generator.anatomy.joints import Drive
from generator.orders.work import Supply, Tool

PLAIN_TOOL = "tool"
PLAIN_SUPPLY = "supply"

BASIC_TYPES = (
    ("screwdriver", "driver"),
    ("hexagon", "key"),
    ("wrench", "wrench"),
    ("combination pliers", "pliers"),
    ("wire", "strippers"),
    ("half-round", "nose-pliers"),
    ("diagonal", "cutters"),
    ("multigrip", "multigrip"),
    ("locking", "locking-pliers"),
    ("prying", "lever"),
    ("tweezers", "tweezers"),
    ("magnif", "magnifier"),
    ("spudger", "spudger"),
    ("pick", "pick"),
)
"""Words of the sixteen types of Regulation (EU) 2023/1670, Annex I (50), first match counts; three are screwdrivers."""

TYPE_DRIVES = (
    ("slotted", "slotted"),
    ("cross", "cross-recess"),
    ("hexalobular", "hexalobular"),
    ("hexagon", "hexagon-socket"),
)
"""Words of those types that say how the tool drives."""

TOOL_WORDS = (
    ("hot-air", "hot-air"),
    ("air", "hot-air"),
    ("heat-gun", "hot-air"),
    ("suction", "cup"),
    ("cup", "cup"),
    ("pad", "pad"),
    ("mat", "pad"),
    ("plate", "pad"),
    ("heat", "pad"),
    ("iron", "iron"),
    ("solder", "iron"),
    ("card", "card"),
    ("pin", "pin"),
    ("clip", "pin"),
    ("clamp", "clamp"),
    ("meter", "meter"),
    ("multimeter", "meter"),
    ("voltmeter", "meter"),
    ("thermometer", "meter"),
    ("tester", "meter"),
    ("tweezer", "tweezers"),
    ("spudger", "spudger"),
    ("lever", "lever"),
    ("pry", "lever"),
    ("pick", "pick"),
    ("loupe", "magnifier"),
    ("magnif", "magnifier"),
    ("lens", "magnifier"),
    ("cutter", "cutters"),
    ("snip", "cutters"),
    ("nipper", "cutters"),
    ("stripper", "strippers"),
    ("plier", "pliers"),
    ("wrench", "wrench"),
    ("spanner", "wrench"),
    ("allen", "key"),
    ("key", "key"),
    ("knife", "knife"),
    ("scalpel", "knife"),
    ("blade", "knife"),
    ("scraper", "knife"),
    ("brush", "brush"),
    ("driver", "driver"),
    ("screwdriver", "driver"),
)
"""Beginnings of words in an id or name, where the type says nothing."""

SUPPLY_WORDS = (
    ("wire", "wire"),
    ("solder", "wire"),
    ("wipe", "wipe"),
    ("cloth", "wipe"),
    ("swab", "wipe"),
    ("frame", "frame"),
    ("gasket", "frame"),
    ("seal", "frame"),
    ("strip", "strip"),
    ("tape", "tape"),
    ("film", "tape"),
    ("pad", "patch"),
    ("patch", "patch"),
    ("sticker", "patch"),
    ("paste", "tube"),
    ("glue", "tube"),
    ("adhesive", "tube"),
    ("grease", "tube"),
    ("compound", "tube"),
    ("flux", "tube"),
    ("alcohol", "bottle"),
    ("solvent", "bottle"),
    ("isopropyl", "bottle"),
    ("cleaner", "bottle"),
    ("acetone", "bottle"),
    ("oil", "bottle"),
    ("water", "bottle"),
)

LIQUID_HAZARDS = frozenset({"flammable", "vapour"})
"""Hazards that tell of something poured, where the words say nothing."""


def tool_kind(tool: Tool) -> str:
    """The drawing of a tool; PLAIN_TOOL where nothing about it is known.

    By its basic type; else by the words of its id, then of its name, the last word first (a heating pad is a pad); else a
    driver for what fits screws, an iron for what fits solder.
    """
    written = tool.type.lower()
    for words, kind in BASIC_TYPES:
        if words in written:
            return kind
    found = _by_words((tool.id, tool.name), TOOL_WORDS)
    if found is not None:
        return found
    if tool.fits or "screws" in tool.undoes:
        return "driver"
    return "iron" if "solder" in tool.undoes else PLAIN_TOOL


def drive_of(tool: Tool) -> Drive | None:
    """What the tip is drawn as: the first drive it fits, else the one its type names; None where neither says."""
    if tool.fits:
        return Drive(*tool.fits[0])
    written = tool.type.lower()
    shape = next((shape for words, shape in TYPE_DRIVES if words in written), None)
    return Drive(shape, None) if shape else None


def supply_kind(supply: Supply) -> str:
    """The drawing of a supply, by the words of its id, then of its name, the last word first; else by its hazards."""
    found = _by_words((supply.id, supply.name), SUPPLY_WORDS)
    if found is not None:
        return found
    return "bottle" if LIQUID_HAZARDS & set(supply.hazards) else PLAIN_SUPPLY


def _by_words(texts: Sequence[str], known: Sequence[tuple[str, str]]) -> str | None:
    for text in texts:
        for word in _words(text):
            for start, kind in known:
                if word.startswith(start):
                    return kind
    return None


def _words(text: str) -> Iterator[str]:
    """The words before the first comma, last first; of two words also the pair, so that hot air is not any air."""
    words = re.findall(r"[a-z]+", text.lower().partition(",")[0])
    for index in range(len(words) - 1, -1, -1):
        if index:
            yield f"{words[index - 1]}-{words[index]}"
        yield words[index]
