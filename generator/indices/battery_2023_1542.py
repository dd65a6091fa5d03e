"""Regulation (EU) 2023/1542: can the end user take the battery out."""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.parts import PartId
from generator.indices.checks import Answer, Check, Found, Sort, answered, softened, tools_met
from generator.indices.declarations import roles_in
from generator.indices.operations import HEAT, NoPath, path_to
from generator.indices.workings import Basis
from generator.orders.guide import Guide

NAME = "battery removable by the end user"

BASIS = Basis(
    "Regulation (EU) 2023/1542", "Article 11, recital 38",
    "tools on public sale will do; no specialised tool unless it comes free with the product, no proprietary tool, no heat, "
    "no solvent; applies from 18 February 2027",
    "public posts quoting the regulation and the Commission's guidance", "secondary",
)  # fmt: skip

NOT_KNOWN = (
    "whether the device is one of those that are exempt",
    "whether instructions and spare batteries are offered",
)


def battery_checks(guide: Guide) -> tuple[Check, ...]:
    """One check for every part that stores energy in a cell; none for a device without."""
    cells = [part.id for part in guide.anatomy.parts.values() if part.cell is not None or "battery" in roles_in(part.role)]
    return tuple(answered(NAME, cell, _found(guide, cell), NOT_KNOWN, BASIS) for cell in cells)


def _found(guide: Guide, cell: PartId) -> Iterator[Found]:
    path = path_to(guide, cell)
    if isinstance(path, NoPath):
        yield Found(Answer.OPEN, f"no way in this guide takes out the {guide.part(cell).name}")
        return
    if path.taken != cell:
        yield Found(Answer.NO, f"it comes out only with the {guide.part(path.taken).name}")
    for operation in softened(path.operations):
        joint = guide.joint(operation.softens).name if operation.softens else "joint"
        what = "heat" if operation.kind == HEAT else "a solvent"
        yield Found(Answer.NO, f"{what} for the {joint}", operation.step)
    for name, sort, step in tools_met(guide, path.operations):
        if sort is Sort.PROPRIETARY:
            yield Found(Answer.NO, f"{name}: {sort}", step)
        elif sort in (Sort.ON_SALE, Sort.WITH_SPARE, Sort.UNNAMED):
            yield Found(Answer.OPEN, f"{name}: {sort}; allowed if it is not a specialised tool", step)
