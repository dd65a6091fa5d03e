"""The tools of an action, with the place where they are named."""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.work import Action, Tool
from generator.source.places import Place


def tools_with_places(guide: Guide, action: Action) -> Iterator[tuple[Tool, Place]]:
    """Every tool taken up for the action, with its `with`; where the author wrote none here, with the action's own place."""
    written = guide.step_by_id[action.step].places.value("work", action.number, "with")
    for tool_id in guide.tools_of(action):
        if tool_id in guide.tools:
            yield guide.tools[tool_id], written if tool_id in action.tools else action.place
