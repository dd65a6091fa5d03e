"""The bench: tools that stand ready and supplies that lie beside them, with the steps that need them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.anatomy.joints import JointKind
from generator.figures.tools.drawing import supply_drawing, tool_drawing
from generator.figures.trade_words import drive_words, kind_word
from generator.languages import say
from generator.orders.accounts import Accounts
from generator.orders.work import Step, StepId, Supply, Tool
from generator.pages.addresses import anchor
from generator.pages.typography import capital, counted, duration, held, listed, steps_words

MANY = 2
"""A number of things when they are spoken of in general."""


@dataclass(frozen=True, slots=True)
class StandView:
    """One tool or supply of the bench."""

    id: str
    href: str
    name: str
    drawing: Markup
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
            drawing=Markup(tool_drawing(use.tool)),
            note=held(use.tool.note or ""),
            steps=capital(steps_words(_numbers(use.steps, use.back, number_of, back_of))),
        )
        for use in accounts.tools
    )
    supplies = tuple(
        StandView(
            id=anchor("supply", use.supply.id),
            href=f"{tools_page}#{anchor('supply', use.supply.id)}",
            name=held(capital(use.supply.name)),
            drawing=Markup(supply_drawing(use.supply)),
            note=held(use.supply.note or ""),
            steps=capital(steps_words(_numbers(use.out, use.back, number_of, back_of))),
        )
        for use in accounts.supplies
    )
    return BenchView(tools, supplies, "" if tools else say("Bare hands are enough."))


def _numbers(
    out: Sequence[Step], back: Sequence[Step], number_of: Mapping[StepId, int], back_of: Mapping[StepId, int]
) -> list[int]:
    return [*(number_of[step.id] for step in out), *(back_of[step.id] for step in back if step.id in back_of)]


def fit_words(tool: Tool) -> str:
    """What a tool is made for: drives with their sizes, kinds of joint."""
    drives = [drive_words(f"{shape} {size or ''}".strip()) for shape, size in tool.fits]
    kinds = [kind_word(JointKind(kind), MANY) for kind in tool.undoes]
    return listed([*drives, *kinds])


def dwell_words(supply: Supply) -> str:
    return say("acts for {time}", time=duration(supply.dwell)) if supply.dwell else ""


def use_words(count: int) -> str:
    return counted(count, "step", "steps")
