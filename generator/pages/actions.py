"""Work in words: each action as an instruction on the way out, and its inverse on the way back."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import JointId, PartId
from generator.orders.guide import Guide
from generator.orders.work import Action, Step, Verb
from generator.pages.joints import joint_extent, torque_words
from generator.pages.survey import ADDED
from generator.pages.typography import NO_BREAK, capital, duration, held, listed, quantity, sentence

UNDOING = {
    JointKind.SCREWS: "Undo",
    JointKind.PLUG: "Disconnect",
    JointKind.GLUE: "Separate",
    JointKind.CLIPS: "Release",
    JointKind.SOLDER: "Unsolder",
    JointKind.PRESS: "Ease apart",
}
REMAKING = {
    JointKind.SCREWS: "Drive in",
    JointKind.PLUG: "Connect",
    JointKind.GLUE: "Press down",
    JointKind.CLIPS: "Press home",
    JointKind.SOLDER: "Solder",
    JointKind.PRESS: "Press together",
}
DEVICE_WORDS = {"phone": "phone", "foldable phone": "phone", "tablet": "tablet"}


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


def device_word(guide: Guide) -> str:
    return DEVICE_WORDS.get(guide.device.kind, "device")


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
    lasting = f" for {duration(action.seconds)}" if action.seconds else ""
    match action.verb:
        case Verb.UNDO if joint is not None:
            return ActionLine(f"{UNDOING[joint.kind]} the {joint.name}", joint_extent(joint), aid)
        case Verb.LIFT:
            return ActionLine(f"Lift out the {part}", "", aid, _leaves_with(guide, action, gone))
        case Verb.FOLD:
            return ActionLine(f"Fold the {part} aside", "", aid)
        case Verb.TURN:
            added = "Not a step of the whole guide: this way needs it." if action.number == ADDED else ""
            return ActionLine(f"Turn the {device_word(guide)} over: {action.face} up", "", aid, added)
        case Verb.HEAT if joint is not None:
            degrees = f" to {quantity(action.temperature, '°C')}" if action.temperature is not None else ""
            return ActionLine(f"Warm the {joint.name}{degrees}{lasting}", "", aid)
        case Verb.SOAK if joint is not None:
            return ActionLine(f"Soak the {joint.name}{lasting}", "", aid)
        case Verb.WAIT:
            for_what = f" {duration(action.seconds)}" if action.seconds else ""
            return ActionLine(f"Wait{for_what}", "", aid, held(sentence(action.words)) if action.words else "")
    return ActionLine("Check", "", aid, held(sentence(action.words)) if action.words else "")


def _aid(guide: Guide, action: Action) -> str:
    """Tools in the hand, then what is used up."""
    tools = [guide.tools[tool].name for tool in guide.tools_of(action)]
    supplies = [guide.supplies[supply].name for supply in action.supplies]
    return held("; ".join((*tools, *supplies)))


def _leaves_with(guide: Guide, action: Action, gone: frozenset[PartId]) -> str:
    assert action.part is not None
    inner = guide.anatomy.assembly(action.part) - {action.part} - gone
    names = [part.name for part in guide.anatomy.parts.values() if part.id in inner]
    return f"With it comes the {listed(names)}." if names else ""


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
                name = f"new {guide.part(action.part).name}" if action.part == fresh else guide.part(action.part).name
                verb = "Put in the" if action.part == fresh else "Put back the"
                is_aside = action.part in aside or _folds(step.actions[:index], action.part)
                about.append(About(Verb.LIFT, action.part, index))
                lines.append(ActionLine(f"Bring the {name}, still to one side" if is_aside else f"{verb} {name}"))
            case Verb.FOLD if action.part is not None and action.part not in unfolded | aside:
                unfolded.add(action.part)
                folded.append(action.part)
                name = f"new {guide.part(action.part).name}" if action.part == fresh else guide.part(action.part).name
                about.append(About(Verb.FOLD, action.part, index))
                lines.append(ActionLine(f"Fold the {name} into place"))
            case Verb.TURN:
                face = before.pop()
                if face != action.face:
                    turned.append(face)
                    about.append(About(Verb.TURN, action.face or "", index))
                    lines.append(ActionLine(f"Turn the {device_word(guide)} over: {face} up"))
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


def _lay(guide: Guide, joint: Joint) -> ActionLine:
    supplies = held("; ".join(supply.name for supply in guide.supplies_for(joint.id)))
    return ActionLine(f"Clean both sides and lay new adhesive for the {joint.name}", joint_extent(joint), supplies)


def _remake(guide: Guide, joint: Joint) -> ActionLine:
    extent = joint_extent(joint)
    torque = torque_words(joint)
    verb = REMAKING[joint.kind]
    if not joint.is_renewed:
        return ActionLine(f"{verb} the {joint.name}", extent, "", f"Tighten to {torque}." if torque else "")
    if joint.kind is JointKind.GLUE:
        return ActionLine(f"Press down along the {joint.name}")
    supplies = held("; ".join(supply.name for supply in guide.supplies_for(joint.id)))
    note = f"Tighten to {torque}." if torque else ""
    if joint.kind is JointKind.SOLDER:
        return ActionLine(f"Solder the {joint.name} anew", extent, supplies, note)
    return ActionLine(f"{verb} the {joint.name}, with new ones", extent, supplies, note)


def back_title(guide: Guide, found: Inverses, fresh: PartId | None) -> str:
    """What a step of the way back is called, from what it brings back."""
    old = [guide.part(part).name for part in found.parts if part != fresh]
    new = [guide.part(part).name for part in found.parts if part == fresh]
    if new or old:
        pieces = [f"put in the new {name}" for name in new]
        pieces += [f"put back the {listed(old)}"] if old else []
        return capital(listed(pieces))
    if found.folded:
        return f"Fold the {listed([guide.part(part).name for part in found.folded])} into place"
    if found.joints:
        first, *rest = (guide.joint(joint) for joint in found.joints)
        named = f"{REMAKING[first.kind]} the {first.name}"
        return f"{named} and what belongs to it" if rest else named
    if found.faces:
        return f"Turn the {device_word(guide)}{NO_BREAK}over"
    return "Nothing to put back"
