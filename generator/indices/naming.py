"""Operations, tools and counted steps in words, as workings say them."""

from __future__ import annotations

from generator.indices.counting import CountedStep
from generator.indices.operations import CLEAN, HEAT, UNNAMED, Operation
from generator.orders.guide import Guide
from generator.orders.work import SupplyId, ToolId


def step_words(guide: Guide, step: CountedStep) -> str:
    """What was done in a counted step, with what, and what ended it."""
    done = "; ".join(operation_words(guide, operation) for operation in step.operations)
    tools = sorted(tool_words(guide, tool) for tool in step.tools)
    return f"{done}, {f'with {listed(tools)}' if tools else 'by hand'} ({step.ending})"


def operation_words(guide: Guide, operation: Operation) -> str:
    names = listed([f"the {guide.part(part).name}" for part in (*operation.removes, *operation.sets_aside)])
    joint = operation.undoes or operation.softens
    if operation.kind in (HEAT, CLEAN) and joint is not None:
        return f"{'warm' if operation.kind == HEAT else 'soak'} the {guide.joint(joint).name}"
    if operation.removes:
        return f"take out {names}"
    if operation.sets_aside:
        return f"set aside {names}"
    return f"undo the {guide.joint(joint).name}" if joint is not None else "check"


def tool_words(guide: Guide, tool: str) -> str:
    """The name of a tool or supply; of one that the guide does not name, what it is for."""
    if tool in guide.tools:
        return guide.tools[ToolId(tool)].name
    if tool in guide.supplies:
        return guide.supplies[SupplyId(tool)].name
    return f"a tool for {tool.removeprefix(UNNAMED)}" if tool.startswith(UNNAMED) else tool


def listed(items: list[str]) -> str:
    return f"{', '.join(items[:-1])} and {items[-1]}" if len(items) > 1 else "".join(items)
