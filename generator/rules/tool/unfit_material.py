"""tool/unfit-material"""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.joints import JointKind
from generator.orders.guide import Guide
from generator.orders.work import Verb
from generator.rules.finding import Finding, Mend
from generator.rules.tools import tools_with_places
from generator.rules.trade.materials import is_glass, is_metal
from generator.rules.wording import joint_name, part_name, sentence

PRIED = (JointKind.GLUE, JointKind.CLIPS, JointKind.PRESS)


def unfit_material(guide: Guide) -> Iterator[Finding]:
    """Glass or a circuit board is pried with a metal tool.

    Why: metal chips the edge of glass, and scrapes tracks and small parts off a board.
    Bad: `undo: window-glue` of a glass window with a tool whose `material` is `steel`.
    Good: a pick or lever of plastic.
    Silent when: the joint is undone by turning or pulling (screws, plug, solder), the tool says nothing about its material,
    a cell is joined (`power/cell-metal` speaks of that), or it is clips that hold to a board: shields are lifted with thin
    levers of metal as a matter of course.
    """
    for step in guide.steps:
        for action in step.actions:
            if action.verb is not Verb.UNDO or action.joint is None or guide.joint(action.joint).kind not in PRIED:
                continue
            has_clips = guide.joint(action.joint).kind is JointKind.CLIPS
            parts = [guide.part(part) for part in guide.joint(action.joint).joins]
            tender = [part for part in parts if is_glass(part.material) or (part.is_board and not has_clips)]
            if not tender or any(part.cell is not None for part in parts):
                continue
            for tool, place in tools_with_places(guide, action):
                if is_metal(tool.material):
                    harm = "scrape" if tender[0].is_board else "chip"
                    yield Finding(
                        place=place,
                        message=(
                            f"{sentence(joint_name(guide, action.joint))} should not be pried with the {tool.name}: "
                            f"{tool.material} can {harm} {part_name(guide, tender[0].id)}."
                        ),
                        mend=Mend("Name a tool of plastic, or one that only pulls."),
                    )
