"""Work in words: each action as an instruction on the way out, and its inverse on the way back."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import JointId, PartId
from generator.languages import later, say
from generator.orders.guide import Guide
from generator.orders.work import Action, Step, Verb
from generator.pages.joints import joint_extent, torque_words
from generator.pages.survey import ADDED
from generator.pages.typography import capital, duration, held, listed, quantity, sentence

UNDOING = {
    JointKind.SCREWS: later("Undo the {joint}"),
    JointKind.PLUG: later("Disconnect the {joint}"),
    JointKind.GLUE: later("Separate the {joint}"),
    JointKind.CLIPS: later("Release the {joint}"),
    JointKind.SOLDER: later("Unsolder the {joint}"),
    JointKind.PRESS: later("Ease apart the {joint}"),
}
REMAKING = {
    JointKind.SCREWS: later("Drive in the {joint}"),
    JointKind.PLUG: later("Connect the {joint}"),
    JointKind.GLUE: later("Press down the {joint}"),
    JointKind.CLIPS: later("Press home the {joint}"),
    JointKind.SOLDER: later("Solder the {joint}"),
    JointKind.PRESS: later("Press together the {joint}"),
}
REMAKING_MORE = {
    JointKind.SCREWS: later("Drive in the {joint} and what belongs to it"),
    JointKind.PLUG: later("Connect the {joint} and what belongs to it"),
    JointKind.GLUE: later("Press down the {joint} and what belongs to it"),
    JointKind.CLIPS: later("Press home the {joint} and what belongs to it"),
    JointKind.SOLDER: later("Solder the {joint} and what belongs to it"),
    JointKind.PRESS: later("Press together the {joint} and what belongs to it"),
}
REMAKING_NEW = {
    JointKind.SCREWS: later("Drive in the {joint}, with new ones"),
    JointKind.PLUG: later("Connect the {joint}, with new ones"),
    JointKind.CLIPS: later("Press home the {joint}, with new ones"),
    JointKind.PRESS: later("Press together the {joint}, with new ones"),
}
TURNING = {
    "phone": later("Turn the phone over: {face} up"),
    "tablet": later("Turn the tablet over: {face} up"),
    "device": later("Turn the device over: {face} up"),
}
TURNING_BACK = {
    "phone": later("Turn the phone~over"),
    "tablet": later("Turn the tablet~over"),
    "device": later("Turn the device~over"),
}


@dataclass(frozen=True, slots=True)
class ActionLine:
    """One thing to do. extent: how many and what size; aid: what it is done with; note: what goes with it."""

    words: str
    extent: str = ""
    aid: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class About:
    """target: the joint or part, or the face that a turn leaves."""

    verb: Verb
    target: str
    number: int


@dataclass(frozen=True, slots=True)
class Inverses:
    """The way back of one step: what the step undid, made again, in the order in which it is done.

    about: for each line what it brings back, and the number of the action it undoes (-1 for what is laid before any).
    """

    lines: tuple[ActionLine, ...]
    about: tuple[About, ...]
    parts: tuple[PartId, ...]
    joints: tuple[JointId, ...]
    folded: tuple[PartId, ...]
    faces: tuple[str, ...]


def device_kind(guide: Guide) -> Literal["phone", "tablet", "device"]:
    """What a sentence calls the device: there is one text for each."""
    match guide.device.kind:
        case "phone" | "foldable phone":
            return "phone"
        case "tablet":
            return "tablet"
    return "device"


# --- out --------------------------------------------------------------------------------------------------------


def out_lines(guide: Guide, step: Step, gone: frozenset[PartId]) -> tuple[ActionLine, ...]:
    """The actions of a step in words. gone: the parts that are out of the device when it begins."""
    lines = []
    for action in step.actions:
        lines.append(_out_line(guide, action, gone))
        if action.verb is Verb.LIFT and action.part is not None:
            gone |= guide.anatomy.assembly(action.part)
    return tuple(lines)


def _out_line(guide: Guide, action: Action, gone: frozenset[PartId]) -> ActionLine:
    joint = guide.joint(action.joint) if action.joint is not None else None
    part = guide.part(action.part).name if action.part is not None else ""
    aid = _aid(guide, action)
    lasting = duration(action.seconds) if action.seconds else ""
    match action.verb:
        case Verb.UNDO if joint is not None:
            return ActionLine(capital(say(UNDOING[joint.kind], joint=joint.name)), joint_extent(joint), aid)
        case Verb.LIFT:
            return ActionLine(capital(say("Lift out the {part}", part=part)), "", aid, _leaves_with(guide, action, gone))
        case Verb.FOLD:
            return ActionLine(capital(say("Fold the {part} aside", part=part)), "", aid)
        case Verb.TURN:
            added = say("Not a step of the whole guide: this way needs it.") if action.number == ADDED else ""
            return ActionLine(_turning(guide, action.face), "", aid, added)
        case Verb.HEAT if joint is not None:
            return ActionLine(capital(_warming(joint.name, action.temperature, lasting)), "", aid)
        case Verb.SOAK if joint is not None:
            soaking = say("Soak the {joint} for {time}", joint=joint.name, time=lasting)
            return ActionLine(capital(soaking if lasting else say("Soak the {joint}", joint=joint.name)), "", aid)
        case Verb.WAIT:
            waiting = say("Wait {time}", time=lasting) if lasting else say("Wait")
            return ActionLine(waiting, "", aid, held(sentence(action.words)) if action.words else "")
    return ActionLine(say("Check"), "", aid, held(sentence(action.words)) if action.words else "")


def _turning(guide: Guide, face: str | None) -> str:
    return say(TURNING[device_kind(guide)], face=guide.word(face or ""))


def _warming(joint: str, temperature: float | None, lasting: str) -> str:
    degrees = quantity(temperature, "°C") if temperature is not None else ""
    if degrees and lasting:
        return say("Warm the {joint} to {degrees} for {time}", joint=joint, degrees=degrees, time=lasting)
    if degrees:
        return say("Warm the {joint} to {degrees}", joint=joint, degrees=degrees)
    if lasting:
        return say("Warm the {joint} for {time}", joint=joint, time=lasting)
    return say("Warm the {joint}", joint=joint)


def _aid(guide: Guide, action: Action) -> str:
    """Tools in the hand, then what is used up."""
    tools = [guide.tools[tool].name for tool in guide.tools_of(action)]
    supplies = [guide.supplies[supply].name for supply in action.supplies]
    return held("; ".join((*tools, *supplies)))


def _leaves_with(guide: Guide, action: Action, gone: frozenset[PartId]) -> str:
    assert action.part is not None
    inner = guide.anatomy.assembly(action.part) - {action.part} - gone
    names = [part.name for part in guide.anatomy.parts.values() if part.id in inner]
    return say("With it comes the {parts}.", parts=listed(names)) if names else ""


# --- back -------------------------------------------------------------------------------------------------------


def inverses_of(
    guide: Guide,
    step: Step,
    *,
    remade: Iterable[JointId],
    returned: Iterable[PartId],
    faces: Sequence[str],
    aside: frozenset[PartId] = frozenset(),
    fresh: PartId | None = None,
) -> Inverses:
    """The inverse of a step: new adhesive first, then its actions from the last to the first.

    remade, returned: the joints and parts that this step is the one to bring back (a joint undone twice is made once);
    faces: for each turn of the step the face that lay up before it; aside: parts folded aside by earlier steps; fresh: the
    part that goes in new.
    """
    joints, parts = frozenset(remade), frozenset(returned)
    lines: list[ActionLine] = []
    folded: list[PartId] = []
    before = list(faces)
    laid = [
        guide.joint(joint)
        for joint in dict.fromkeys(step.undone)
        if joint in joints and guide.joint(joint).is_renewed and guide.joint(joint).kind is JointKind.GLUE
    ]
    lines += [_lay(guide, joint) for joint in laid]
    about = [About(Verb.UNDO, joint.id, -1) for joint in laid]
    turned: list[str] = []
    done: set[str] = set()
    unfolded: set[PartId] = set()
    for index, action in reversed(tuple(enumerate(step.actions))):
        match action.verb:
            case Verb.LIFT if action.part in parts and action.part not in done:
                assert action.part is not None
                done.add(action.part)
                is_aside = action.part in aside or _folds(step.actions[:index], action.part)
                about.append(About(Verb.LIFT, action.part, index))
                lines.append(ActionLine(_returning(guide, action.part, action.part == fresh, is_aside)))
            case Verb.FOLD if action.part is not None and action.part not in unfolded | aside:
                unfolded.add(action.part)
                folded.append(action.part)
                name = guide.part(action.part).name
                about.append(About(Verb.FOLD, action.part, index))
                folding = (
                    say("Fold the new {part} into place", part=name)
                    if action.part == fresh
                    else say("Fold the {part} into place", part=name)
                )
                lines.append(ActionLine(capital(folding)))
            case Verb.TURN:
                face = before.pop()
                if face != action.face:
                    turned.append(face)
                    about.append(About(Verb.TURN, action.face or "", index))
                    lines.append(ActionLine(_turning(guide, face)))
            case Verb.UNDO if action.joint in joints and action.joint not in done:
                assert action.joint is not None
                done.add(action.joint)
                about.append(About(Verb.UNDO, action.joint, index))
                lines.append(_remake(guide, guide.joint(action.joint)))
    return Inverses(
        tuple(lines),
        tuple(about),
        tuple(part for part in dict.fromkeys(step.lifted) if part in parts),
        tuple(joint for joint in dict.fromkeys(step.undone) if joint in joints),
        tuple(folded),
        tuple(turned),
    )


def _folds(actions: Sequence[Action], part: PartId) -> bool:
    return any(action.verb is Verb.FOLD and action.part == part for action in actions)


def _returning(guide: Guide, part: PartId, is_new: bool, is_aside: bool) -> str:
    name = guide.part(part).name
    if is_aside and is_new:
        return capital(say("Bring the new {part}, still to one side", part=name))
    if is_aside:
        return capital(say("Bring the {part}, still to one side", part=name))
    return capital(say("Put in the new {part}", part=name) if is_new else say("Put back the {part}", part=name))


def _lay(guide: Guide, joint: Joint) -> ActionLine:
    supplies = held("; ".join(supply.name for supply in guide.supplies_for(joint.id)))
    words = say("Clean both sides and lay new adhesive for the {joint}", joint=joint.name)
    return ActionLine(capital(words), joint_extent(joint), supplies)


def _remake(guide: Guide, joint: Joint) -> ActionLine:
    extent = joint_extent(joint)
    torque = torque_words(joint)
    note = say("Tighten to {torque}.", torque=torque) if torque else ""
    if not joint.is_renewed:
        return ActionLine(capital(say(REMAKING[joint.kind], joint=joint.name)), extent, "", note)
    if joint.kind is JointKind.GLUE:
        return ActionLine(capital(say("Press down along the {joint}", joint=joint.name)))
    supplies = held("; ".join(supply.name for supply in guide.supplies_for(joint.id)))
    if joint.kind is JointKind.SOLDER:
        return ActionLine(capital(say("Solder the {joint} anew", joint=joint.name)), extent, supplies, note)
    return ActionLine(capital(say(REMAKING_NEW[joint.kind], joint=joint.name)), extent, supplies, note)


def back_title(guide: Guide, found: Inverses, fresh: PartId | None) -> str:
    """What a step of the way back is called, from what it brings back."""
    old = [guide.part(part).name for part in found.parts if part != fresh]
    new = [guide.part(part).name for part in found.parts if part == fresh]
    if new or old:
        pieces = [say("put in the new {part}", part=name) for name in new]
        pieces += [say("put back the {parts}", parts=listed(old))] if old else []
        return capital(listed(pieces))
    if found.folded:
        names = [guide.part(part).name for part in found.folded]
        return capital(say("Fold the {parts} into place", parts=listed(names)))
    if found.joints:
        first, *rest = (guide.joint(joint) for joint in found.joints)
        return capital(say((REMAKING_MORE if rest else REMAKING)[first.kind], joint=first.name))
    if found.faces:
        return say(TURNING_BACK[device_kind(guide)])
    return say("Nothing to put back")
