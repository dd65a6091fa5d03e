"""power/cell-metal"""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.joints import JointKind
from generator.orders.guide import Guide
from generator.orders.work import Verb
from generator.rules.finding import Finding, Mend
from generator.rules.tools import tools_with_places
from generator.rules.trade.materials import is_metal
from generator.rules.wording import joint_name, part_name, sentence

NOT_PRIED = (JointKind.PLUG, JointKind.SCREWS)


def cell_metal(guide: Guide) -> Iterator[Finding]:
    """A joint at a cell is pried with a metal tool.

    Why: a metal edge goes through the foil of a cell; the cell then shorts, vents or burns.
    Bad: `undo: battery-glue` with a tool whose `material` is `steel`.
    Good: a tool of plastic, a card, or a solvent and patience.
    Silent when: the joint is a plug or screws, or the tool says nothing about its material.
    """
    for step in guide.steps:
        for action in step.actions:
            if action.verb is not Verb.UNDO or action.joint is None or guide.joint(action.joint).kind in NOT_PRIED:
                continue
            cells = [part for part in guide.joint(action.joint).joins if guide.part(part).cell is not None]
            for tool, place in tools_with_places(guide, action):
                if cells and is_metal(tool.material):
                    yield Finding(
                        place=place,
                        message=(
                            f"{sentence(joint_name(guide, action.joint))} must not be pried with the {tool.name}: "
                            f"{tool.material} can pierce {part_name(guide, cells[0])}."
                        ),
                        mend=Mend("Name a tool of plastic or card."),
                    )
