"""The sixteen basic tools of the acts, and how they are written in tools.yaml."""

from __future__ import annotations

from dataclasses import dataclass

from generator.anatomy.joints import Joint
from generator.indices.workings import Basis
from generator.languages import later

ED = later("Regulation (EU) 2023/1670")
READ = later("English text as consolidated on 20 June 2025")

LIST = Basis(ED, later("Annex I (50)"), later("a basic tool is one of sixteen that are listed; the list is closed"),
    READ, "verified")


@dataclass(frozen=True, slots=True)
class BasicTool:
    """number: its place in the list as kept here; spellings: the `type` that means it, in lower case, without commas."""

    number: int
    name: str
    spellings: frozenset[str]


def _tool(number: int, name: str, *spellings: str) -> BasicTool:
    return BasicTool(number, name, frozenset((_plain(name), *spellings)))


def _plain(words: str) -> str:
    return " ".join(words.lower().replace(",", " ").replace("-", " ").replace("/", " ").split())


BASIC_TOOLS = (
    _tool(1, later("screwdriver for slotted heads"), "screwdriver slotted", "slotted screwdriver"),
    _tool(2, later("screwdriver for cross recess"), "screwdriver cross recess", "cross recess screwdriver"),
    _tool(3, later("screwdriver for hexalobular recess"), "screwdriver hexalobular", "hexalobular screwdriver",
          "screwdriver hexalobular recess"),
    _tool(4, later("hexagon socket key"), "hexagon key", "key hexagon socket"),
    _tool(5, later("combination wrench")),
    _tool(6, later("combination pliers")),
    _tool(7, later("wire stripping and crimping pliers"), "wire strip crimp pliers",
          "combination pliers for stripping and crimping"),
    _tool(8, later("half-round nose pliers")),
    _tool(9, later("diagonal cutters")),
    _tool(10, later("multigrip pliers")),
    _tool(11, later("locking pliers")),
    _tool(12, later("prying lever")),
    _tool(13, later("tweezers")),
    _tool(14, later("magnifying glass"), "magnifier"),
    _tool(15, later("spudger")),
    _tool(16, later("pick")),
)  # fmt: skip
"""Regulation (EU) 2023/1670, Annex I (50), and identical in (EU) 2023/2534, Annex I (38): read. Short names are ours."""

_BY_SPELLING = {spelling: tool for tool in BASIC_TOOLS for spelling in tool.spellings}

_BY_DRIVE = {"slotted": 1, "cross-recess": 2, "hexalobular": 3, "hexagon-socket": 4}


def basic_tool(written: str) -> BasicTool | None:
    """The basic tool that a `type` in tools.yaml means; None for `other` and whatever is not listed."""
    return _BY_SPELLING.get(_plain(written))


def basic_tool_for(joint: Joint) -> BasicTool | None:
    """The basic tool that fits the drive of a joint's screws; None where its shape is not on the list or not told.

    A security pin in a hexalobular recess (size T8H) needs a tool that is not listed.
    """
    if joint.drive is None or (joint.drive.size or "").upper().endswith("H"):
        return None
    number = _BY_DRIVE.get(joint.drive.shape)
    return BASIC_TOOLS[number - 1] if number else None
