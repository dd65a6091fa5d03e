"""The safety page: what holds for every guide of the library."""

from __future__ import annotations

from dataclasses import dataclass

from generator.languages import say
from generator.orders.guide import Library
from generator.pages.addresses import SAFETY
from generator.pages.cautions import MEANINGS, Panel, example_panel, signal_word
from generator.pages.frame import Crumb, FrameView, frame_of


@dataclass(frozen=True, slots=True)
class SafetyPage:
    frame: FrameView
    signals: tuple[Panel, ...]
    cell: tuple[Panel, ...]
    mains: tuple[Panel, ...]
    others: tuple[Panel, ...]


def safety_page(library: Library) -> SafetyPage:
    return SafetyPage(
        frame=frame_of(
            library,
            path=SAFETY,
            title=f"{say('Safety')} – {library.title}",
            description=say("What holds for every guide: cells, mains, stored charge, and what the signal words mean."),
            crumbs=(Crumb(library.title, "index.html"), Crumb(say("Safety"), "")),
            skip=("#halt", say("Skip to when to stop")),
        ),
        signals=tuple(
            Panel(level, signal_word(level), say(meaning), has_triangle=level != "notice")
            for level, meaning in MEANINGS.items()
        ),
        cell=(example_panel("cell"), example_panel("cell near heat")),
        mains=(example_panel("mains"), example_panel("stored charge")),
        others=tuple(
            example_panel(kind)
            for kind in ("glass", "flammable", "laser", "hot surface", "fume", "sharp", "spring", "dust", "esd")
        ),
    )
