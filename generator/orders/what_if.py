"""What one change of the design would do: the guide of the changed device, made from the guide as it is.

Nothing is written anywhere. The steps follow the design: what has vanished from the device is no longer worked on, and a
joint of another kind is undone with what fits it. Routes, depths and indices of the changed guide can then be compared.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Drive, Joint, JointKind
from generator.anatomy.parts import BOARD, JointId, Part, PartId
from generator.orders.guide import Guide
from generator.orders.work import Action, Photo, Step, Verb


@dataclass(frozen=True, slots=True)
class Uncover:
    """`joint` is no longer behind `part`; part None: behind nothing."""

    joint: JointId
    part: PartId | None = None


@dataclass(frozen=True, slots=True)
class Unstack:
    """`part` no longer lies under `over`; over None: under nothing."""

    part: PartId
    over: PartId | None = None


@dataclass(frozen=True, slots=True)
class ChangeKind:
    """`joint` is of another kind; drive only for screws. What went with the old kind goes: size, torque, glue to renew."""

    joint: JointId
    kind: JointKind
    drive: Drive | None = None


@dataclass(frozen=True, slots=True)
class Remove:
    """There is no `joint` any more: what it held lies loose, or is held by the others."""

    joint: JointId


@dataclass(frozen=True, slots=True)
class Merge:
    """`part` becomes one with `into`: what held the two together is gone, and they come out together.

    `into` is replaceable if either was, and has the roles of both: to replace the one, the other goes too.
    """

    part: PartId
    into: PartId


Change = Uncover | Unstack | ChangeKind | Remove | Merge

FORMS = (
    "JOINT is not behind PART",
    "JOINT is behind nothing",
    "PART is not under PART",
    "PART is under nothing",
    "JOINT becomes KIND",
    "JOINT is gone",
    "PART joins PART",
)
"""The phrases understood; KIND is screws with a drive (`screws cross-recess PH0`), plug, glue, clips, solder or press."""


def changed(guide: Guide, words: str) -> Guide | str:
    """The guide with the change that `words` tell of, or a sentence that says why they cannot be followed.

    Several changes are parted by semicolons and made one after the other.

    "battery-plug is behind nothing; charging-port joins frame" merges the port with the frame once the plug lies open.
    """
    for phrase in words.split(";"):
        change = read_change(guide, phrase)
        if isinstance(change, str):
            return change
        guide = what_if(guide, change)
    return guide


def read_change(guide: Guide, words: str) -> Change | str:
    """What a phrase of one of the FORMS asks for, or why it cannot be followed. Names are ids; `the` may stand before."""
    said = [word for word in words.replace('"', " ").split() if word.lower() != "the"]
    match said:
        case [joint, "is" | "are", "not", "behind", part]:
            return _both(guide, joint, part)
        case [joint, "is" | "are", "behind", "nothing"]:
            return _wrong(guide.anatomy.joints, joint, "joint") or Uncover(JointId(joint))
        case [part, "is" | "are", "not", "under", over]:
            return _under(guide, part, over)
        case [part, "is" | "are", "under", "nothing"]:
            return _wrong(guide.anatomy.parts, part, "part") or Unstack(PartId(part))
        case [joint, "is" | "are", "gone"]:
            return _wrong(guide.anatomy.joints, joint, "joint") or Remove(JointId(joint))
        case [joint, "becomes" | "become", kind, *drive]:
            return _wrong(guide.anatomy.joints, joint, "joint") or _kind(JointId(joint), kind, drive)
        case [part, "joins" | "join", into]:
            return _merge(guide, part, into)
    told = f'"{" ".join(said)}" is no change known here.' if said else "No change is told."
    return f"{told} Known are: {'; '.join(FORMS)}."


def what_if(guide: Guide, change: Change) -> Guide:
    """The guide of the device with `change` made. KeyError for a part or joint that the device lacks."""
    match change:
        case Uncover(joint, part):
            old = guide.joint(joint)
            behind = tuple(other for other in old.behind if part is not None and other != part)
            return _with_joint(guide, replace(old, behind=behind))
        case Unstack(part_id, over):
            known = guide.part(part_id)
            under = tuple(other for other in known.under if over is not None and other != over)
            parts = {**guide.anatomy.parts, part_id: replace(known, under=under)}
            return replace(guide, anatomy=Anatomy(guide.anatomy.base, parts, guide.anatomy.joints))
        case ChangeKind(joint, kind, drive):
            return _with_kind(guide, joint, kind, drive)
        case Remove(joint):
            return _without_joints(guide, {guide.joint(joint).id})
        case Merge(part_id, into):
            return _merged(guide, guide.part(part_id), guide.part(into))


# --- reading ------------------------------------------------------------------------------------------------------


def _wrong(known: Iterable[str], name: str, noun: str) -> str | None:
    among = list(known)
    if name in among:
        return None
    near = get_close_matches(name, among, n=3, cutoff=0.5)
    meant = f"Did you mean {' or '.join(near)}?" if near else f"There are: {', '.join(among)}."
    return f'There is no {noun} "{name}". {meant}'


def _both(guide: Guide, joint: str, part: str) -> Change | str:
    wrong = _wrong(guide.anatomy.joints, joint, "joint") or _wrong(guide.anatomy.parts, part, "part")
    if wrong:
        return wrong
    behind = guide.joint(JointId(joint)).behind
    if part not in behind:
        return f"{joint} is not behind {part} as it is: it is behind {', '.join(behind) or 'nothing'}."
    return Uncover(JointId(joint), PartId(part))


def _under(guide: Guide, part: str, over: str) -> Change | str:
    wrong = _wrong(guide.anatomy.parts, part, "part") or _wrong(guide.anatomy.parts, over, "part")
    if wrong:
        return wrong
    under = guide.part(PartId(part)).under
    if over not in under:
        return f"{part} is not under {over} as it is: it is under {', '.join(under) or 'nothing'}."
    return Unstack(PartId(part), PartId(over))


def _kind(joint: JointId, kind: str, drive: list[str]) -> Change | str:
    if kind not in [known.value for known in JointKind]:
        return f'"{kind}" is no kind of joint. The kinds: {", ".join(known.value for known in JointKind)}.'
    if kind == JointKind.SCREWS and not 1 <= len(drive) <= 2:
        return "Screws need a drive, such as: screws cross-recess PH0."
    if kind != JointKind.SCREWS and drive:
        return f"A drive goes with screws only, not with {kind}."
    return ChangeKind(joint, JointKind(kind), Drive(drive[0], drive[1] if len(drive) > 1 else None) if drive else None)


def _merge(guide: Guide, part: str, into: str) -> Change | str:
    wrong = _wrong(guide.anatomy.parts, part, "part") or _wrong(guide.anatomy.parts, into, "part")
    if wrong:
        return wrong
    if part == into:
        return f"{part} is one with itself already."
    if part == guide.anatomy.base:
        return f"{part} is the base, on which everything is mounted. Say it the other way round: {into} joins {part}."
    return Merge(PartId(part), PartId(into))


# --- making the change ------------------------------------------------------------------------------------------------


def _with_joint(guide: Guide, joint: Joint) -> Guide:
    joints = {**guide.anatomy.joints, joint.id: joint}
    return replace(guide, anatomy=Anatomy(guide.anatomy.base, guide.anatomy.parts, joints))


def _with_kind(guide: Guide, joint_id: JointId, kind: JointKind, drive: Drive | None) -> Guide:
    """The tools an author wrote for undoing the old kind are dropped, so that what fits the new one is taken."""
    old = guide.joint(joint_id)
    plain = Joint(
        id=old.id, kind=kind, name=old.name, joins=old.joins, face=old.face, place=old.place, places=old.places,
        behind=old.behind, drive=drive, count=old.count, positions=old.positions, note=old.note,
    )  # fmt: skip

    def followed(action: Action) -> Action | None:
        if action.joint != joint_id:
            return action
        return replace(action, tools=(), supplies=()) if action.verb is Verb.UNDO else None

    return _with_steps(_with_joint(guide, plain), followed)


def _without_joints(guide: Guide, gone: set[JointId]) -> Guide:
    joints = {name: joint for name, joint in guide.anatomy.joints.items() if name not in gone}
    without = replace(guide, anatomy=Anatomy(guide.anatomy.base, guide.anatomy.parts, joints))
    return _with_steps(without, lambda action: None if action.joint in gone else action)


def _merged(guide: Guide, part: Part, into: Part) -> Guide:
    """Whatever named `part` names `into`. A joint that then joins nothing but `into` is gone; none is behind its own end."""
    anatomy = guide.anatomy

    def named(other: PartId) -> PartId:
        return into.id if other == part.id else other

    def others(names: Iterable[PartId], *but: PartId) -> tuple[PartId, ...]:
        return tuple(dict.fromkeys(named(name) for name in names if named(name) not in but))

    is_held_by_part = into.id in anatomy.assembly(part.id)
    parts: dict[PartId, Part] = {}
    for name, known in anatomy.parts.items():
        if name == part.id:
            continue
        inside = named(known.inside) if known.inside is not None else None
        parts[name] = replace(known, inside=inside, under=others(known.under))
    parts[into.id] = replace(
        parts[into.id],
        inside=part.inside if is_held_by_part else parts[into.id].inside,
        under=others((*into.under, *part.under), into.id),
        replaceable=into.replaceable or part.replaceable,
        role=_both_roles(into.role, part.role),
        cell=into.cell or part.cell,
        charge=into.charge or part.charge,
        material=BOARD if part.is_board else into.material,
        licensed=into.licensed or part.licensed,
        hazards=tuple(dict.fromkeys((*into.hazards, *part.hazards))),
    )
    joints = {name: replace(joint, joins=others(joint.joins)) for name, joint in anatomy.joints.items()}
    for joint_id, joint in joints.items():
        is_new_end = part.id in (*anatomy.joints[joint_id].joins, *joint.behind) and into.id in joint.joins
        joints[joint_id] = replace(joint, behind=others(joint.behind, *([into.id] if is_new_end else [])))
    gone = {name for name, joint in joints.items() if len(joint.joins) < 2}
    device = replace(
        guide.device,
        pages=others(guide.device.pages) if guide.device.pages is not None else None,
        paired=others(guide.device.paired),
    )
    notes = tuple(note for note in guide.notes if note.part != part.id)
    changed_guide = replace(guide, device=device, notes=notes, anatomy=Anatomy(anatomy.base, parts, joints))

    def followed(action: Action) -> Action | None:
        if action.part != part.id:
            return action
        return replace(action, part=into.id) if action.verb is Verb.CHECK else None

    return _without_joints(_with_steps(changed_guide, followed, {part.id: into.id}), gone)


def _both_roles(one: str | None, other: str | None) -> str | None:
    """Roles as an author writes them; one part may serve as several.

    >>> _both_roles("speaker", "main microphone"), _both_roles(None, "speaker"), _both_roles("Speaker", "speaker")
    ('speaker, main microphone', 'speaker', 'Speaker')
    """
    if one is None or other is None or one.casefold() == other.casefold():
        return one or other
    return f"{one}, {other}"


def _with_steps(
    guide: Guide, followed: Callable[[Action], Action | None], merged: Mapping[PartId, PartId] | None = None
) -> Guide:
    """The guide with every action followed through the change; a step of which nothing is left is gone."""

    def steps(known: Iterable[Step]) -> tuple[Step, ...]:
        return tuple(step for step in (_followed(step, followed, guide, merged or {}) for step in known) if step is not None)

    return replace(guide, order=steps(guide.order), alternatives=steps(guide.alternatives), unused=steps(guide.unused))


def _followed(
    step: Step, followed: Callable[[Action], Action | None], guide: Guide, merged: Mapping[PartId, PartId]
) -> Step | None:
    actions = [action for action in map(followed, step.actions) if action is not None]
    if step.actions and not actions:
        return None
    numbered = tuple(replace(action, number=number) for number, action in enumerate(actions))
    return replace(step, actions=numbered, photos=tuple(_shown(photo, guide, merged) for photo in step.photos))


def _shown(photo: Photo, guide: Guide, merged: Mapping[PartId, PartId]) -> Photo:
    """The photo without marks on what is gone; a mark on a merged part marks what it has become one with."""
    marks = (replace(mark, part=merged.get(mark.part, mark.part)) if mark.part else mark for mark in photo.marks)
    return replace(photo, marks=tuple(m for m in marks if m.joint is None or m.joint in guide.anatomy.joints))
