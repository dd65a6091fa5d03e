"""The page of all tools and supplies of a library."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.figures.tools.drawing import supply_drawing, tool_drawing
from generator.languages import later, say
from generator.orders.accounts import Accounts, accounts_of
from generator.orders.guide import Guide, Library
from generator.orders.work import Supply, Tool
from generator.pages.addresses import TOOLS, anchor
from generator.pages.bench import dwell_words, fit_words, use_words
from generator.pages.cautions import hazard_word
from generator.pages.frame import Crumb, FrameView, frame_of
from generator.pages.typography import capital, held, listed

Used = tuple[tuple[Guide, Accounts], ...]
"""The guides, each with the accounts of its order."""

SUPPLIED = {"spare": later("Comes with the spare part"), "product": later("Comes with the device")}


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
            title=f"{say('Tools and supplies')} – {library.title}",
            description=say("Every tool the guides take up and everything they use up."),
            crumbs=(Crumb(library.title, "index.html"), Crumb(say("Tools and supplies"), "")),
            skip=("#tools", say("Skip to the tools")),
        ),
        tools=tuple(_tool(library, tool, used) for tool in library.tools.values()),
        supplies=tuple(_supply(library, supply, used) for supply in library.supplies.values()),
    )


def _tool(library: Library, tool: Tool, used: Used) -> ThingView:
    fits = fit_words(tool)
    facts = (
        capital(library.word(tool.type)) if tool.type != "other" else "",
        say("For {joints}", joints=fits) if fits else "",
        say("Material: {material}", material=library.word(tool.material)) if tool.material else "",
        say(SUPPLIED[tool.supplied]) if tool.supplied in SUPPLIED else "",
        say("Sold to the trade only") if tool.sale == "proprietary" else "",
        _beware(library, tool.hazards),
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


def _beware(library: Library, hazards: Sequence[str]) -> str:
    named = [hazard_word(hazard) or library.word(hazard) for hazard in hazards]
    return say("Beware: {hazards}", hazards=listed(named)) if named else ""


def _supply(library: Library, supply: Supply, used: Used) -> ThingView:
    joints = [
        guide.anatomy.joints[joint].name for guide, _ in used for joint in supply.joints if joint in guide.anatomy.joints
    ]
    facts = (
        say("For the {joints}", joints=listed(list(dict.fromkeys(joints)))) if joints else "",
        capital(dwell_words(supply)),
        _beware(library, supply.hazards),
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
