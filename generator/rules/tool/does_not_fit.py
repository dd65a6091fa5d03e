"""tool/does-not-fit"""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.joints import Joint, JointKind
from generator.orders.guide import Guide, fits
from generator.orders.work import Tool, Verb
from generator.rules.finding import Finding, Mend
from generator.rules.tools import tools_with_places
from generator.rules.trade.drives import SAID_INSTEAD
from generator.rules.wording import joint_name, listed, quoted, sentence, verb_for


def does_not_fit(guide: Guide) -> Iterator[Finding]:
    """A screw is undone with a driver of another drive or size.

    Why: a driver that does not fit slips and rounds the recess; then the screw has to be drilled out.
    Bad: `undo: shade-screws`, which have `drive: cross-recess PH0`, `with: driver-ph2`.
    Good: `with: driver-ph0`, whose `fits` is `{drive: cross-recess, size: PH0}`.
    Silent when: another tool of the same line fits, the tool is no driver, or the joint names no drive.
    """
    for step in guide.steps:
        for action in step.actions:
            if action.verb is not Verb.UNDO or action.joint is None:
                continue
            joint = guide.joint(action.joint)
            taken = tuple(tools_with_places(guide, action))
            if joint.kind is not JointKind.SCREWS or joint.drive is None or any(fits(tool, joint) for tool, _ in taken):
                continue
            for tool, place in taken:
                if tool.fits:
                    yield Finding(
                        place=place,
                        message=f"The {tool.name} does not fit {joint_name(guide, joint.id)}.",
                        why=(
                            f"{sentence(joint_name(guide, joint.id))} {verb_for(joint.name, 'has', 'have')} the drive "
                            f"{joint.drive}; the tool fits {listed([_said(fit) for fit in tool.fits], 'or')}.",
                        ),
                        mend=_mend(guide, joint, tool),
                    )


def _said(fit: tuple[str, str | None]) -> str:
    shape, size = fit
    return f"{shape} {size}" if size else shape


def _mend(guide: Guide, joint: Joint, taken: Tool) -> Mend:
    drive = joint.drive
    if drive is not None and any(SAID_INSTEAD.get(shape.lower()) == drive.shape for shape, size in taken.fits):
        return Mend(f"Write `drive: {drive.shape}` at {quoted(taken.id)} in tools.yaml: so the standards name it.")
    fitting = [quoted(tool.id) for tool in guide.tools.values() if fits(tool, joint)]
    if fitting:
        return Mend(f"Write {listed(fitting, 'or')}, which {'fits' if len(fitting) == 1 else 'fit'}.")
    return Mend(f"Add a driver for {joint.drive} to tools.yaml and name it here.")
