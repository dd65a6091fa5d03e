"""How deep the parts of a device sit, what gates them, and the longest run of steps that wait for each other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from generator.figures.depth.drawing import depth_figure
from generator.figures.depth.geometry import Deep, depth_plot
from generator.languages import say, say_many
from generator.orders.critical import critical_chain
from generator.orders.dominators import Gate, gating_parts
from generator.orders.guide import Guide
from generator.orders.routes import Route
from generator.pages.addresses import WHOLE, anchor
from generator.pages.survey import Survey

GATES_LIMIT = 3
"""Parts of which it is told what they gate: those that gate the most."""


@dataclass(frozen=True, slots=True)
class LinkView:
    """A step of the longest chain: its number in the guide, its title, where it stands."""

    number: str
    title: str
    href: str


@dataclass(frozen=True, slots=True)
class DepthView:
    plot: Markup
    left_out: str
    gates: tuple[str, ...]
    chain: str
    links: tuple[LinkView, ...]


def depths_of(survey: Survey) -> DepthView | None:
    """None where no step of the guide leads to any part."""
    guide = survey.guide
    found = [(guide.part(part), way) for part, way in survey.ways.items() if isinstance(way, Route)]
    if not found:
        return None
    plot = depth_plot([Deep(part.name, len(way.steps), part.replaceable) for part, way in found])
    chain = critical_chain(guide.stepwise, guide.order)
    return DepthView(
        plot=Markup(depth_figure(plot, "depth")),
        left_out=say_many(
            "{n}~part nearer the outside not drawn.", "{n}~parts nearer the outside not drawn.", plot.left_out
        )
        if plot.left_out
        else "",
        gates=tuple(_gates(guide)),
        chain=_chain(len(chain), len(guide.order)),
        links=tuple(
            LinkView(str(guide.number_of[step.id]), step.title, f"{WHOLE}#{anchor('step', step.id)}") for step in chain
        )
        if len(chain) > 1
        else (),
    )


def _gates(guide: Guide) -> Iterator[str]:
    """What gates the most replaceable parts, a sentence each."""
    gates = gating_parts(guide)
    for gate in gates[:GATES_LIMIT]:
        yield _gate(guide, gate)
    if not gates and sum(part.replaceable for part in guide.anatomy.parts.values()) > 1:
        yield say("No part gates a replaceable one: each can be had with the others left in.")


def _gate(guide: Guide, gate: Gate) -> str:
    assert gate.part is not None
    part = guide.part(gate.part)
    told = {"part": part.name, "gated": len(gate.gated)}
    if part.replaceable:
        return say_many(
            "The {part} gates {gated} of {n} other replaceable part.",
            "The {part} gates {gated} of {n} other replaceable parts.",
            len(gate.among),
            **told,
        )
    return say_many(
        "The {part} gates {gated} of {n} replaceable part.",
        "The {part} gates {gated} of {n} replaceable parts.",
        len(gate.among),
        **told,
    )


def _chain(length: int, steps: int) -> str:
    if length < 2:
        return say("No step has to wait for another.") if steps > 1 else ""
    return say_many(
        "The longest chain is {length} of {n}~step: each of them waits for the one before it, however many hands help.",
        "The longest chain is {length} of {n}~steps: each of them waits for the one before it, however many hands help.",
        steps,
        length=length,
    )
