"""The bench: tools that stand ready and supplies that lie beside them, with the steps that need them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.anatomy.joints import JointKind
from generator.orders.accounts import Accounts, SupplyUse
from generator.orders.work import StepId, Supply, Tool
from generator.pages.addresses import anchor
from generator.pages.joints import KIND_WORDS
from generator.pages.typography import capital, counted, duration, held, listed, steps_words

TOOL_SHAPES = {
    "pick": "pick",
    "spudger": "lever",
    "prying lever": "lever",
    "tweezers": "tweezers",
    "magnifier": "lens",
    "magnifying glass": "lens",
    "hexagon key": "key",
    "combination wrench": "wrench",
    "combination pliers": "pliers",
    "wire-strip/crimp pliers": "pliers",
    "half-round nose pliers": "pliers",
    "diagonal cutters": "pliers",
    "multigrip pliers": "pliers",
    "locking pliers": "pliers",
}
"""Drawings by published basic type; every screwdriver is a driver."""

TOOL_WORDS = (
    ("suction", "cup"),
    ("pad", "pad"),
    ("heat", "pad"),
    ("card", "card"),
    ("iron", "iron"),
    ("pin", "pin"),
    ("clamp", "clamp"),
    ("driver", "driver"),
    ("lever", "lever"),
    ("pick", "pick"),
    ("tweezers", "tweezers"),
    ("pliers", "pliers"),
    ("wrench", "wrench"),
    ("meter", "meter"),
    ("lamp", "lens"),
)
"""Drawings by a word of the tool's id, where the type is `other`; the drawing is decoration beside the name."""

SUPPLY_WORDS = (
    ("wipe", "wipe"),
    ("wire", "coil"),
    ("solder", "coil"),
    ("frame", "frame"),
    ("tape", "frame"),
    ("strip", "strip"),
    ("pad", "strip"),
    ("glue", "tube"),
    ("paste", "tube"),
    ("grease", "tube"),
)


@dataclass(frozen=True, slots=True)
class StandView:
    """One tool or supply of the bench. shape names its drawing."""

    id: str
    href: str
    name: str
    shape: str
    note: str
    steps: str


@dataclass(frozen=True, slots=True)
class BenchView:
    tools: tuple[StandView, ...]
    supplies: tuple[StandView, ...]
    hands_only: str


def bench_of(
    accounts: Accounts, number_of: Mapping[StepId, int], back_of: Mapping[StepId, int], tools_page: str
) -> BenchView:
    """What to lay out. number_of, back_of: the numbers of the steps on this page, out and back."""
    tools = tuple(
        StandView(
            id=anchor("tool", use.tool.id),
            href=f"{tools_page}#{anchor('tool', use.tool.id)}",
            name=held(capital(use.tool.name)),
            shape=tool_shape(use.tool),
            note=held(use.tool.note or ""),
            steps=capital(steps_words(number_of[step.id] for step in use.steps)),
        )
        for use in accounts.tools
    )
    supplies = tuple(
        StandView(
            id=anchor("supply", use.supply.id),
            href=f"{tools_page}#{anchor('supply', use.supply.id)}",
            name=held(capital(use.supply.name)),
            shape=supply_shape(use.supply),
            note=held(use.supply.note or ""),
            steps=capital(steps_words(_numbers(use, number_of, back_of))),
        )
        for use in accounts.supplies
    )
    return BenchView(tools, supplies, "" if tools else "Bare hands are enough.")


def _numbers(use: SupplyUse, number_of: Mapping[StepId, int], back_of: Mapping[StepId, int]) -> list[int]:
    return [*(number_of[step.id] for step in use.out), *(back_of[step.id] for step in use.back if step.id in back_of)]


def tool_shape(tool: Tool) -> str:
    if tool.type.startswith("screwdriver"):
        return "driver"
    return TOOL_SHAPES.get(tool.type) or _by_word(tool.id, TOOL_WORDS) or "tool"


def supply_shape(supply: Supply) -> str:
    is_liquid = {"flammable", "vapour", "irritant"} & set(supply.hazards)
    return _by_word(supply.id, SUPPLY_WORDS) or ("bottle" if is_liquid else "box")


def _by_word(name: str, words: tuple[tuple[str, str], ...]) -> str | None:
    """By the words of an id, the last of them first: in `heating-pad` it is the pad that is drawn."""
    for piece in reversed(name.split("-")):
        for word, shape in words:
            if piece.startswith(word):
                return shape
    return None


def fit_words(tool: Tool) -> str:
    """What a tool is made for: drives with their sizes, kinds of joint."""
    drives = [" ".join(part for part in (shape.replace("-", " "), size or "") if part) for shape, size in tool.fits]
    kinds = [KIND_WORDS[JointKind(kind)][1] for kind in tool.undoes]
    return listed([*drives, *kinds])


def dwell_words(supply: Supply) -> str:
    return f"acts for {duration(supply.dwell)}" if supply.dwell else ""


def use_words(count: int) -> str:
    return counted(count, "step", "steps")
