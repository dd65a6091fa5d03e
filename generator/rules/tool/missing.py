"""tool/missing"""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.joints import Joint, JointKind
from generator.orders.guide import Guide, fits
from generator.orders.work import Action, Tool, Verb
from generator.rules.finding import Finding, Mend
from generator.rules.wording import joint_name, listed, quoted, sentence


def missing(guide: Guide) -> Iterator[Finding]:
    """Screws or solder are undone, and no tool that is taken up or listed can do it.

    Why: nobody undoes a screw by hand; the reader finds out halfway that a tool is not there.
    Bad: `undo: foot-screws` with `drive: hexalobular T6`, and no tool in tools.yaml that fits.
    Good: a tool with `fits: {drive: hexalobular, size: T6}` in tools.yaml.
    Silent when: a listed tool fits, the joint names no drive while the step names a tool, or a tool taken up is a driver of
    the wrong size (`tool/does-not-fit` speaks of that).
    """
    if any(name.kind == "tool" for name in guide.dangling):
        return  # what is named and not known may be the very tool
    seen = set()
    for step in guide.steps:
        for action in step.actions:
            if action.verb is Verb.UNDO and action.joint is not None and action.joint not in seen:
                joint = guide.joint(action.joint)
                tools = [guide.tools[tool] for tool in guide.tools_of(action) if tool in guide.tools]
                if joint.needs_tool and not any(_may_do(tool, joint) for tool in tools):
                    seen.add(action.joint)
                    yield _finding(guide, action, joint, tools)


def _may_do(tool: Tool, joint: Joint) -> bool:
    if fits(tool, joint):
        return True
    if joint.kind is JointKind.SCREWS:
        return bool(tool.fits) or joint.drive is None
    return not tool.fits and not tool.undoes  # says nothing of what it is for


def _finding(guide: Guide, action: Action, joint: Joint, tools: list[Tool]) -> Finding:
    what = f"{joint_name(guide, joint.id)}"
    need = f"the drive {joint.drive}" if joint.drive is not None else f"joints of the kind {joint.kind.value}"
    fitting = [quoted(tool.id) for tool in guide.tools.values() if fits(tool, joint)]
    if tools:
        message = f"{sentence(what)} cannot be undone with the {listed([tool.name for tool in tools])} alone."
    else:
        message = f"{sentence(what)} cannot be undone by hand, and no tool in tools.yaml fits."
    return Finding(
        place=action.place,
        message=message,
        mend=Mend(
            f"Name {listed(fitting, 'or')} in `with`." if fitting else f"Add a tool with `fits` for {need} to tools.yaml."
        ),
    )
