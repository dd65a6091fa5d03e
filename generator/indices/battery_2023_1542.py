"""Regulation (EU) 2023/1542: can the end user take the battery out."""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.parts import PartId
from generator.indices.checks import Answer, Check, Found, Sort, answered, softened, tools_met
from generator.indices.declarations import roles_in
from generator.indices.operations import HEAT, NoPath, path_to
from generator.indices.workings import Basis
from generator.languages import later, say
from generator.orders.guide import Guide

NAME = later("battery removable by the end user")

BASIS = Basis(
    later("Regulation (EU) 2023/1542"), later("Article 11, recital 38"),
    later("tools on public sale will do; no specialised tool unless it comes free with the product, no proprietary tool, "
    "no heat, no solvent; applies from 18 February 2027"),
    later("public posts quoting the regulation and the Commission's guidance"), "secondary",
)  # fmt: skip

NOT_KNOWN = (
    later("whether the device is one of those that are exempt"),
    later("whether instructions and spare batteries are offered"),
)


def battery_checks(guide: Guide) -> tuple[Check, ...]:
    """One check for every part that stores energy in a cell; none for a device without."""
    cells = [part.id for part in guide.anatomy.parts.values() if part.cell is not None or "battery" in roles_in(part.role)]
    return tuple(answered(NAME, cell, _found(guide, cell), NOT_KNOWN, BASIS) for cell in cells)


def _found(guide: Guide, cell: PartId) -> Iterator[Found]:
    path = path_to(guide, cell)
    if isinstance(path, NoPath):
        yield Found(Answer.OPEN, say("no way in this guide takes out the {part}", part=guide.part(cell).name))
        return
    if path.taken != cell:
        yield Found(Answer.NO, say("it comes out only with the {part}", part=guide.part(path.taken).name))
    for operation in softened(path.operations):
        joint = guide.joint(operation.softens).name if operation.softens else say("joint")
        is_warmed = operation.kind == HEAT
        words = say("heat for the {joint}", joint=joint) if is_warmed else say("a solvent for the {joint}", joint=joint)
        yield Found(Answer.NO, words, operation.step)
    for name, sort, step in tools_met(guide, path.operations):
        if sort is Sort.PROPRIETARY:
            yield Found(Answer.NO, f"{name}: {say(sort.value)}", step)
        elif sort in (Sort.ON_SALE, Sort.WITH_SPARE, Sort.UNNAMED):
            yield Found(Answer.OPEN, _allowed(name, sort), step)


def _allowed(tool: str, sort: Sort) -> str:
    return say("{tool}: {sort}; allowed if it is not a specialised tool", tool=tool, sort=say(str(sort)))
