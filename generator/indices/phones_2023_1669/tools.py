"""What class of the act a tool of the guide is in, and the points of the tools needed on the way to a part."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.indices.basic_tools import basic_tool, basic_tool_for
from generator.indices.naming import fit_words
from generator.indices.operations import UNNAMED, Operation
from generator.indices.phones_2023_1669.tables import (
    BASIC,
    BASIC_LIST,
    MOST,
    NO_TOOL,
    ON_SALE,
    ON_SALE_MEANS,
    PROPRIETARY_MEANS,
    TOOL_TABLE,
    WITH_PRODUCT,
    WITH_SPARE,
)
from generator.indices.workings import Line
from generator.indices.worst import Classed, Met, Worst, worst_of
from generator.languages import say
from generator.orders.guide import Guide
from generator.orders.work import SupplyId, Tool, ToolId

NOT_KNOWN = (ON_SALE, WITH_PRODUCT, WITH_SPARE, BASIC)


def tool_class(tool: Tool, basic_supplied: str) -> Classed:
    """The class of a tool of the library; no points for a proprietary one."""
    basic = basic_tool(tool.type)
    if basic is not None and (basic_supplied == "basic" or tool.supplied == "neither"):
        return Classed((BASIC,), say("basic: {tool}", tool=say(basic.name)), BASIC_LIST)
    if tool.supplied == "spare":
        return Classed((WITH_SPARE,), say("supplied with the spare part"), TOOL_TABLE)
    if tool.supplied == "product":
        return Classed((WITH_PRODUCT,), say("supplied with the product"), TOOL_TABLE)
    if tool.sale == "proprietary":
        return Classed((), say("proprietary: outside the scale"), PROPRIETARY_MEANS)
    return Classed((ON_SALE,), say("not on the list of basic tools, on public sale"), ON_SALE_MEANS)


def held_class(guide: Guide, held: str, operation: Operation, basic_supplied: str) -> tuple[str, Classed]:
    """Name and class of what an operation holds: a tool, a supply that is applied, or a tool the guide does not name."""
    if held in guide.tools:
        tool = guide.tools[ToolId(held)]
        return tool.name, tool_class(tool, basic_supplied)
    if held in guide.supplies:
        words = say("applied; not on the list of basic tools, on public sale")
        return guide.supplies[SupplyId(held)].name, Classed((ON_SALE,), words, ON_SALE_MEANS)
    return _unnamed_class(guide, operation)


def worst_tool(guide: Guide, operations: Sequence[Operation], first: int, basic_supplied: str) -> Worst:
    """The worst class among the tools taken up from operation `first` on and not used before it; others listed only."""
    nothing = Line(say("no tool that was not used before"), (NO_TOOL,), TOOL_TABLE)
    return worst_of(_met(guide, operations, first, basic_supplied), MOST, ON_SALE, nothing)


def _met(guide: Guide, operations: Sequence[Operation], first: int, basic_supplied: str) -> Iterator[Met]:
    seen: set[str] = set()
    for number, operation in enumerate(operations):
        for held in sorted(operation.tools - seen):
            seen.add(held)
            name, classed = held_class(guide, held, operation, basic_supplied)
            yield Met(f"tool:{held}", name, classed, operation.step, number >= first)


def _unnamed_class(guide: Guide, operation: Operation) -> tuple[str, Classed]:
    """What the drive of the joint asks for, where tools.yaml has nothing that fits."""
    if operation.undoes is None:
        return UNNAMED, Classed(NOT_KNOWN, say("not named"), TOOL_TABLE)
    joint = guide.joint(operation.undoes)
    name = say("tool for the {joint}", joint=joint.name)
    basic = basic_tool_for(joint)
    if basic is not None:
        return name, Classed((BASIC,), say("basic: {tool}", tool=say(basic.name)), BASIC_LIST)
    if joint.drive is not None:
        words = say("for {drive}, not on the list of basic tools", drive=fit_words(str(joint.drive)))
        return name, Classed((ON_SALE,), words, ON_SALE_MEANS)
    return name, Classed(NOT_KNOWN, say("not named in the guide"), TOOL_TABLE)
