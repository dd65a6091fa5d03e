"""Reasons as sentences for people: what is wrong at the bench, when it is put right, what stands in the way."""

from __future__ import annotations

from generator.anatomy.parts import JointId, PartId
from generator.orders.guide import Guide
from generator.orders.reasons import (
    Behind,
    ChargeFirst,
    Covered,
    LyingWrong,
    MainsFirst,
    NotSoftened,
    OnTheBench,
    PowerFirst,
    Reason,
    StillJoined,
    TheBase,
    Under,
)
from generator.orders.walk import Unmet
from generator.orders.work import Action, Verb
from generator.rules.wording import (
    DONE,
    is_plural,
    it_is,
    joint_name,
    listed,
    object_name,
    part_name,
    sentence,
    step_name,
    steps_later,
    verb_for,
)


def what_is_wrong(guide: Guide, entry: Unmet) -> str:
    """One sentence for the person at the bench: what cannot be done, and what keeps it from being done.

    Says "yet" only where a later or alternative step would put it right.
    """
    yet = " yet" if entry.late or entry.elsewhere else ""
    subject = object_name(guide, entry.action)
    done = DONE[entry.action.verb]
    match entry.reason:
        case Behind(joint, part):
            name = guide.joint(joint).name
            return f"The {name} cannot be reached{yet}: {it_is(name)} behind {part_name(guide, part)}."
        case OnTheBench(joint, part, carriers):
            with_what = listed([part_name(guide, carrier) for carrier in carriers], "or")
            return (
                f"{sentence(joint_name(guide, joint))} cannot be reached{yet}: {part_name(guide, part)} "
                f"{_is(guide, part)} in front until {with_what} {_is(guide, carriers[-1])} out on the bench."
            )
        case StillJoined(part, joint):
            name = guide.part(part).name
            return f"The {name} cannot be {done}{yet}: {it_is(name)} still held by {joint_name(guide, joint)}."
        case Under(part, over):
            name = guide.part(part).name
            return f"The {name} cannot be {done}{yet}: {it_is(name)} under {part_name(guide, over)}."
        case NotSoftened(joint):
            name = guide.joint(joint).name
            softened = _softened(guide.joint(joint).softens)
            return f"The {name} cannot be undone{yet}: {verb_for(name, 'it has', 'they have')} not been {softened}."
        case PowerFirst(plug):
            fed = guide.joint(plug).name
            return (
                f"{sentence(subject)} must not be {done}{yet}: the {fed} still {verb_for(fed, 'feeds', 'feed')} the device."
            )
        case MainsFirst():
            return f"{sentence(subject)} must not be {done}{yet}: nothing shows that the device is unplugged from the mains."
        case ChargeFirst(part):
            charge = guide.part(part).charge
            volts = f"{charge.volts} V" if charge is not None else "a charge"
            return (
                f"{sentence(subject)} must not be {done}{yet}: "
                f"{part_name(guide, part)} can hold {volts} and has not been measured."
            )
        case Covered(part, cover):
            return (
                f"{sentence(part_name(guide, part))} cannot be measured{yet}: "
                f"{part_name(guide, cover)} {_is(guide, cover)} still in front."
            )
        case TheBase(part):
            return f"{sentence(part_name(guide, part))} cannot be {done}: everything is mounted on {_pronoun(guide, part)}."
        case LyingWrong(lying, face):
            return f"{sentence(subject)} cannot be reached: the device lies with the {lying} up, not the {face}."
    raise TypeError(f"no sentence for the reason {type(entry.reason).__name__}")


def when_it_happens(guide: Guide, entry: Unmet) -> str:
    """When the thing waited for is done: later, in an alternative step, or never. Empty where nothing could ever help."""
    if entry.late:
        late = entry.late[0]
        if late.step == entry.action.step:
            return _done_in(guide, late, f"line {late.place.line}", "further down in this step")
        later = guide.number_of[late.step] - guide.number_of[entry.action.step]
        return _done_in(guide, late, step_name(guide, late.step), steps_later(later))
    if entry.elsewhere:
        other = entry.elsewhere[0]
        return _done_in(guide, other, step_name(guide, other.step), "which is not in the order")
    match entry.reason:
        case LyingWrong(lying, _):
            return _how_it_came_to_lie(guide, entry.action, lying)
        case TheBase():
            return ""
    return f"No step {_what_is_missing(guide, entry.reason)}."


def reason_sentence(guide: Guide, reason: Reason) -> str:
    """Why something stands in the way for good: what no step does, and what for."""
    match reason:
        case Behind(joint, part):
            hidden = f"{joint_name(guide, joint)} {_is_joint(guide, joint)} behind {_pronoun(guide, part)}"
            return f"No step {_what_is_missing(guide, reason)}, and {hidden}."
        case OnTheBench(joint, part, _):
            return (
                f"No step {_what_is_missing(guide, reason)}, and {part_name(guide, part)} "
                f"{_is(guide, part)} in front of {joint_name(guide, joint)} until then."
            )
        case StillJoined(part, _):
            return f"No step {_what_is_missing(guide, reason)}, and that still holds {part_name(guide, part)}."
        case Under(part, over):
            below = f"{part_name(guide, part)} {_is(guide, part)} under {_pronoun(guide, over)}"
            return f"No step {_what_is_missing(guide, reason)}, and {below}."
        case NotSoftened(joint):
            return f"No step {_what_is_missing(guide, reason)}, and cold or dry glue does not let go."
        case PowerFirst(plug):
            name = guide.joint(plug).name
            fed = f"the {name} still {verb_for(name, 'feeds', 'feed')} the device"
            return f"No step {_what_is_missing(guide, reason)}, so {fed}."
        case MainsFirst():
            return f"No step {_what_is_missing(guide, reason)}."
        case ChargeFirst(part):
            return f"No step {_what_is_missing(guide, reason)}, and {part_name(guide, part)} can hold a charge."
        case Covered(part, _):
            return f"No step {_what_is_missing(guide, reason)}, and {part_name(guide, part)} cannot be measured until then."
        case TheBase(part):
            name = sentence(part_name(guide, part))
            return f"{name} {_is(guide, part)} the base: everything is mounted on {_pronoun(guide, part)}."
        case LyingWrong(_, face):
            return f"No step turns the device so that the {face} is up."
    raise TypeError(f"no sentence for the reason {type(reason).__name__}")


def what_holds_it(guide: Guide, reason: Reason) -> str:
    """The bare fact behind a reason, without a full stop: `the battery plug is behind the plug cover`."""
    match reason:
        case Behind(joint, part) | OnTheBench(joint, part):
            return f"{joint_name(guide, joint)} {_is_joint(guide, joint)} behind {part_name(guide, part)}"
        case StillJoined(part, joint):
            return f"{part_name(guide, part)} {_is(guide, part)} held by {joint_name(guide, joint)}"
        case Under(part, over):
            return f"{part_name(guide, part)} {_is(guide, part)} under {part_name(guide, over)}"
        case NotSoftened(joint):
            softened = _softened(guide.joint(joint).softens)
            return f"{joint_name(guide, joint)} {verb_for(guide.joint(joint).name, 'has', 'have')} to be {softened} first"
        case PowerFirst(plug):
            name = guide.joint(plug).name
            return f"the {name} {verb_for(name, 'feeds', 'feed')} the device"
        case MainsFirst():
            return "the device has to be unplugged from the mains first"
        case ChargeFirst(part):
            return f"the charge of {part_name(guide, part)} has to be measured first"
        case Covered(part, cover):
            return f"{part_name(guide, cover)} {_is(guide, cover)} in front of {part_name(guide, part)}"
        case TheBase(part):
            return f"everything is mounted on {part_name(guide, part)}"
    raise TypeError(f"no words for the reason {type(reason).__name__}")


def _done_in(guide: Guide, action: Action, where: str, when: str) -> str:
    name = object_name(guide, action)
    match action.verb:
        case Verb.LIFT:
            return f"{sentence(name)} {verb_for(name, 'comes', 'come')} off in {where}, {when}."
        case Verb.FOLD:
            return f"{sentence(name)} {verb_for(name, 'is', 'are')} folded aside in {where}, {when}."
        case Verb.UNDO:
            return f"{sentence(where)} undoes {name}, {when}."
        case Verb.HEAT | Verb.SOAK:
            return f"{sentence(where)} {'warms' if action.verb is Verb.HEAT else 'soaks'} {name}, {when}."
    return f"{sentence(where)} has that check, {when}."


def _how_it_came_to_lie(guide: Guide, action: Action, lying: str) -> str:
    """Which turn put the device as it lies; a missing turn found before counts as made."""
    turns = []
    for each in (each for step in guide.order for each in step.actions):
        if each == action:
            break
        if each.verb is Verb.TURN:
            turns.append(each)
    if turns and turns[-1].face == lying:
        return f"{sentence(step_name(guide, turns[-1].step))} turns it that way."
    if not turns and guide.device.faces[0] == lying:
        return "It lies that way from the start."
    return f"Work on the {lying} comes before, and no step turns the device back."


def _what_is_missing(guide: Guide, reason: Reason) -> str:
    """What no step does, to follow `No step`."""
    match reason:
        case Behind(_, part) | Under(_, part) | Covered(_, part):
            return f"lifts {part_name(guide, part)} out or folds {_pronoun(guide, part)} aside"
        case OnTheBench(_, _, carriers):
            return f"lifts {listed([part_name(guide, carrier) for carrier in carriers], 'or')} out"
        case StillJoined(_, joint):
            return f"undoes {joint_name(guide, joint)}"
        case NotSoftened(joint):
            return f"{'soaks' if guide.joint(joint).softens == 'solvent' else 'warms'} {joint_name(guide, joint)}"
        case PowerFirst(plug):
            return f"undoes {joint_name(guide, plug)}"
        case MainsFirst():
            return "has a check with `proves: unplugged`"
        case ChargeFirst(part):
            return f"has a check with `proves: discharged` and `of: {part}`"
    raise TypeError(f"nothing is missing for the reason {type(reason).__name__}")


def _softened(softens: str | None) -> str:
    return "soaked" if softens == "solvent" else "warmed"


def _is(guide: Guide, part: PartId) -> str:
    return "are" if is_plural(guide.part(part).name) else "is"


def _is_joint(guide: Guide, joint: JointId) -> str:
    return "are" if is_plural(guide.joint(joint).name) else "is"


def _pronoun(guide: Guide, part: PartId) -> str:
    return "them" if is_plural(guide.part(part).name) else "it"
