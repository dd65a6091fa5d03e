"""Operations, tools and counted steps in words, as workings say them."""

from __future__ import annotations

from generator.anatomy.joints import Joint, JointKind
from generator.indices.counting import CountedStep
from generator.indices.operations import CLEAN, HEAT, UNNAMED, Operation
from generator.indices.workings import Cell
from generator.languages import later, list_of, say
from generator.orders.guide import Guide
from generator.orders.work import SupplyId, ToolId


def step_words(guide: Guide, step: CountedStep) -> str:
    """What was done in a counted step, with what, and what ended it."""
    done = "; ".join(operation_words(guide, operation) for operation in step.operations)
    tools = sorted(tool_words(guide, tool) for tool in step.tools)
    told = {"done": done, "ending": say(str(step.ending))}
    if tools:
        return say("{done}, with {tools} ({ending})", tools=list_of(tools), **told)
    return say("{done}, by hand ({ending})", **told)


def operation_words(guide: Guide, operation: Operation) -> str:
    names = list_of([say("the {part}", part=guide.part(part).name) for part in (*operation.removes, *operation.sets_aside)])
    joint = operation.undoes or operation.softens
    if operation.kind in (HEAT, CLEAN) and joint is not None:
        name = guide.joint(joint).name
        return say("warm the {joint}", joint=name) if operation.kind == HEAT else say("soak the {joint}", joint=name)
    if operation.removes:
        return say("take out {parts}", parts=names)
    if operation.sets_aside:
        return say("set aside {parts}", parts=names)
    return say("undo the {joint}", joint=guide.joint(joint).name) if joint is not None else say("check")


def tool_words(guide: Guide, tool: str) -> str:
    """The name of a tool or supply; of one that the guide does not name, what it is for."""
    if tool in guide.tools:
        return guide.tools[ToolId(tool)].name
    if tool in guide.supplies:
        return guide.supplies[SupplyId(tool)].name
    return say("a tool for {drive}", drive=fit_words(tool.removeprefix(UNNAMED))) if tool.startswith(UNNAMED) else tool


def fit_words(written: str) -> str:
    """What a tool has to fit, written as shape and size (`cross-recess PH00`), as it is read: `cross recess PH00`."""
    shape, blank, size = written.partition(" ")
    return f"{say(shape.replace('-', ' '))}{blank}{size}"


def same_words(joint: Joint) -> str:
    """That the joint is made again with what was in it."""
    return say(_SAME[joint.kind])


_SAME = {
    JointKind.SCREWS: later("reusable (screws, the same goes back)"),
    JointKind.PLUG: later("reusable (plug, the same goes back)"),
    JointKind.GLUE: later("reusable (glue, the same goes back)"),
    JointKind.CLIPS: later("reusable (clips, the same goes back)"),
    JointKind.SOLDER: later("reusable (solder, the same goes back)"),
    JointKind.PRESS: later("reusable (press, the same goes back)"),
}


def unknown_words(cell: Cell) -> str:
    """What is not known of a part where nothing of it is known in that criterion."""
    return say(_UNKNOWN[cell.criterion], part=say(cell.name))


_UNKNOWN = {
    "SDD": later("the disassembly depth of the {part}"),
    "SF": later("the fasteners of the {part}"),
    "ST": later("the tools of the {part}"),
}
