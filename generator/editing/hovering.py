"""What is told of a name when it is pointed at: what it is, what it holds or is held by, and a figure of it."""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.joints import Joint
from generator.anatomy.parts import JointId, Part, PartId
from generator.editing.mentions import Kind, Mention
from generator.figures.moving.frames import frame_figure, frames_of
from generator.figures.stack.arrangement import arrange
from generator.orders.guide import Guide, Library
from generator.orders.work import StepId, SupplyId, Tool, ToolId
from generator.pages.moving import frame_style
from generator.pages.theme import Theme
from generator.review.sentences import action_words
from generator.rules.wording import joint_name, listed, number, part_name


def told(library: Library, guide: Guide | None, one: Mention) -> tuple[str, ...]:
    """Lines about the thing that `one` names, its name first; empty where there is no such thing."""
    match one.kind:
        case Kind.TOOL:
            tool = library.tools.get(ToolId(one.id))
            return _of_tool(tool) if tool is not None else ()
        case Kind.SUPPLY:
            supply = library.supplies.get(SupplyId(one.id))
            return tuple(line for line in (supply.name, supply.note) if line) if supply is not None else ()
        case Kind.PART:
            part = guide.anatomy.parts.get(PartId(one.id)) if guide is not None else None
            return tuple(_of_part(guide, part)) if guide is not None and part is not None else ()
        case Kind.JOINT:
            joint = guide.anatomy.joints.get(JointId(one.id)) if guide is not None else None
            return tuple(_of_joint(guide, joint)) if guide is not None and joint is not None else ()
        case _:
            step = guide.step_by_id.get(StepId(one.id)) if guide is not None else None
            if guide is None or step is None:
                return ()
            place = f"step {guide.number_of[step.id]}" if step.id in guide.number_of else "outside the order"
            return (f"{step.title} ({place})", *(action_words(guide, action) for action in step.actions))


def figure(guide: Guide, one: Mention, theme: Theme) -> str:
    """An SVG that stands alone: the device at the step that is named, or that first takes up the part or joint."""
    step = _step_of(guide, one)
    number = guide.number_of.get(step) if step is not None else None
    arranged = arrange(guide, guide.order) if number is not None else None
    if arranged is None or number is None:
        return ""
    frame = list(frames_of(arranged, guide.device.name))[number - 1]
    return frame_figure(frame, "pointed-at", frame_style(theme))


def _step_of(guide: Guide, one: Mention) -> StepId | None:
    if one.kind is Kind.STEP:
        return StepId(one.id)
    return next(
        (
            step.id
            for step in guide.order
            for action in step.actions
            if (one.kind is Kind.PART and one.id in (action.part, *step.lifted))
            or (one.kind is Kind.JOINT and action.joint == one.id)
        ),
        None,
    )


def _of_tool(tool: Tool) -> tuple[str, ...]:
    fits = listed([" ".join(piece for piece in fit if piece) for fit in tool.fits])
    lines = (tool.name, f"fits {fits}" if fits else "", f"undoes {listed(tool.undoes)}" if tool.undoes else "", tool.note)
    return tuple(line for line in lines if line)


def _of_part(guide: Guide, part: Part) -> Iterator[str]:
    yield f"{part.name} ({part.material or 'material not told'})"
    held = [joint.name for joint in guide.anatomy.joints.values() if part.id in joint.joins]
    if held:
        yield f"held by {listed(held)}"
    if part.under:
        yield f"under {listed([part_name(guide, over) for over in part.under])}"
    before = [joint_name(guide, joint.id) for joint in guide.anatomy.joints.values() if part.id in joint.behind]
    if before:
        yield f"in front of {listed(before)}"


def _of_joint(guide: Guide, joint: Joint) -> Iterator[str]:
    yield f"{joint.name} ({joint.kind.value}{f', {joint.count}' if joint.count > 1 else ''})"
    yield f"joins {listed([part_name(guide, part) for part in joint.joins])}"
    if joint.behind:
        yield f"behind {listed([part_name(guide, part) for part in joint.behind])}"
    screw = [
        str(joint.drive) if joint.drive else "",
        joint.thread or "",
        listed([f"{number(length)} mm" for length in dict.fromkeys(joint.lengths)]),
    ]
    if any(screw):
        yield ", ".join(piece for piece in screw if piece)
