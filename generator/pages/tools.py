"""The page of all tools and supplies of a library."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from markupsafe import Markup

from generator.figures.tools.drawing import supply_drawing, tool_drawing
from generator.orders.accounts import Accounts, accounts_of
from generator.orders.guide import Guide, Library
from generator.orders.work import Supply, Tool
from generator.pages.addresses import TOOLS, anchor
from generator.pages.bench import dwell_words, fit_words, use_words
from generator.pages.frame import Crumb, FrameView, frame_of
from generator.pages.typography import capital, held, listed

Used = tuple[tuple[Guide, Accounts], ...]
"""The guides, each with the accounts of its order."""

SUPPLIED = {"spare": "comes with the spare part", "product": "comes with the device"}


@dataclass(frozen=True, slots=True)
class UseView:
    """A device that needs it, and in how many steps."""

    device: str
    href: str
    steps: str


@dataclass(frozen=True, slots=True)
class ThingView:
    """A tool or a supply, with what is told about it."""

    id: str
    name: str
    drawing: Markup
    facts: tuple[str, ...]
    note: str
    uses: tuple[UseView, ...]


@dataclass(frozen=True, slots=True)
class ToolsPage:
    frame: FrameView
    tools: tuple[ThingView, ...]
    supplies: tuple[ThingView, ...]


def tools_page(library: Library) -> ToolsPage:
    used = tuple((guide, accounts_of(guide, guide.order)) for guide in library.guides)
    return ToolsPage(
        frame=frame_of(
            library,
            path=TOOLS,
            title=f"Tools and supplies – {library.title}",
            description="Every tool the guides take up and everything they use up.",
            crumbs=(Crumb(library.title, "index.html"), Crumb("Tools and supplies", "")),
            skip=("#tools", "Skip to the tools"),
        ),
        tools=tuple(_tool(tool, used) for tool in library.tools.values()),
        supplies=tuple(_supply(supply, used) for supply in library.supplies.values()),
    )


def _tool(tool: Tool, used: Used) -> ThingView:
    fits = fit_words(tool)
    facts = (
        capital(tool.type) if tool.type != "other" else "",
        f"For {fits}" if fits else "",
        f"Material: {tool.material}" if tool.material else "",
        capital(SUPPLIED.get(tool.supplied, "")),
        "Sold to the trade only" if tool.sale == "proprietary" else "",
        f"Beware: {listed(tool.hazards)}" if tool.hazards else "",
    )
    return ThingView(
        id=anchor("tool", tool.id),
        name=held(capital(tool.name)),
        drawing=Markup(tool_drawing(tool)),
        facts=tuple(fact for fact in facts if fact),
        note=held(tool.note or ""),
        uses=_uses(
            used,
            lambda accounts: next((len({*u.steps, *u.back}) for u in accounts.tools if u.tool.id == tool.id), 0),
        ),
    )


def _supply(supply: Supply, used: Used) -> ThingView:
    joints = [
        guide.anatomy.joints[joint].name for guide, _ in used for joint in supply.joints if joint in guide.anatomy.joints
    ]
    facts = (
        f"For the {listed(list(dict.fromkeys(joints)))}" if joints else "",
        capital(dwell_words(supply)),
        f"Beware: {listed(supply.hazards)}" if supply.hazards else "",
    )
    return ThingView(
        id=anchor("supply", supply.id),
        name=held(capital(supply.name)),
        drawing=Markup(supply_drawing(supply)),
        facts=tuple(fact for fact in facts if fact),
        note=held(supply.note or ""),
        uses=_uses(
            used,
            lambda accounts: next((len({*u.out, *u.back}) for u in accounts.supplies if u.supply.id == supply.id), 0),
        ),
    )


def _uses(used: Used, steps_in: Callable[[Accounts], int]) -> tuple[UseView, ...]:
    found = []
    for guide, accounts in used:
        count = steps_in(accounts)
        if count:
            found.append(UseView(guide.device.name, f"{guide.id}/index.html", use_words(count)))
    return tuple(found)
