"""What to do about an unmet need: move a step, turn the device over, add what is missing.

A move is tried on the whole order before it is offered.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

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
    StillJoined,
    TheBase,
    Under,
)
from generator.orders.repair import Repair
from generator.orders.walk import Unmet, walk
from generator.orders.work import Action, Step, StepId
from generator.rules.finding import Edit, Mend
from generator.rules.moves import moves_of, new_order, not_to_be_moved
from generator.rules.wording import joint_name, listed, part_name, quoted, step_name
from generator.source.places import Place

MOST_TRIES = 24
"""Orders walked through in search of a move; each costs about as much as checking the guide once."""

_ITEM_START = re.compile(r"\s*- ")

Key = tuple[StepId, int, object]


def mend_of(guide: Guide, entry: Unmet) -> Mend | None:
    """What would put `entry` right; None where no single change is known to."""
    if isinstance(entry.reason, LyingWrong):
        return _turn_over(guide, entry.action, entry.reason.face)
    if isinstance(entry.reason, TheBase):
        base = guide.part(entry.reason.part).places.value("base")
        return Mend(f"Take this line out, or name another base in {base.file}:{base.line}.")
    late = tuple(action for action in entry.late if action.step != entry.action.step)
    if len(late) < len(entry.late):
        return _move_line(guide, entry)
    if late:
        return _move_step(guide, entry)
    if entry.elsewhere:
        return _take_alternative(guide, entry)
    return _add(guide, entry)


def kept_edits(mend: Mend | None, texts: Mapping[str, Sequence[str]]) -> Mend | None:
    """The mend without its edits unless each can be made by replacing characters alone.

    An id is replaced only where nothing but it stands on the line (a comment would stay with the wrong id); a line is put
    in only where a list item starts.
    """
    if mend is None or all(_is_clean(edit, texts.get(edit.place.file, ())) for edit in mend.edits):
        return mend
    return Mend(mend.text)


def _is_clean(edit: Edit, lines: Sequence[str]) -> bool:
    place = edit.place
    if not 1 <= place.line <= len(lines) or place.line != place.end_line:
        return False
    line = lines[place.line - 1]
    before, after = line[: place.column - 1], line[place.end_column - 1 :]
    if "\n" in edit.text:
        return _ITEM_START.fullmatch(before) is not None
    return "#" not in after and "#" not in before


# --- moving steps ---------------------------------------------------------------------------------------------------


def _move_step(guide: Guide, entry: Unmet) -> Mend | None:
    """The first single move that meets the need and leaves nothing else unmet that was met before.

    Where other moves are needed besides, the fewest that put the whole order right, if more than one of them does.
    """
    before = _faults(guide, guide.order)
    single = _single_move(guide, entry, before)
    left = before if single is None else _faults(guide, single)
    if isinstance(guide.repair, Repair):
        if left and len(guide.repair.moved) > 1 and len(_faults(guide, guide.repair.order)) < len(left):
            first = next(each for each in guide.causes if _waits_for_later_steps(each))
            return moves_of(guide, guide.repair, is_explained=entry == first)
    elif single is None:
        return not_to_be_moved(guide, guide.repair)
    return _said(guide, single) if single is not None else None


def _waits_for_later_steps(entry: Unmet) -> bool:
    """Whether moving steps is what would help: all that is waited for comes in later steps."""
    is_inside = any(action.step == entry.action.step for action in entry.late)
    return bool(entry.late) and not is_inside and not isinstance(entry.reason, LyingWrong | TheBase)


def _single_move(guide: Guide, entry: Unmet, before: set[Key]) -> tuple[Step, ...] | None:
    """The order after the best single move; None if no move meets the need without another becoming unmet."""
    wanted = {_key(each) for each in (entry, *entry.also)}
    second: tuple[Step, ...] | None = None
    for tries, order in enumerate(_moves(guide, entry)):
        if tries == MOST_TRIES:
            break
        after = _faults(guide, order)
        if after <= before - wanted:
            return order
        if second is None and after <= before - {_key(entry)}:
            second = order
    return second


def _moves(guide: Guide, entry: Unmet) -> Iterator[tuple[Step, ...]]:
    """Orders with one step moved: the waiting step to later places, then the awaited step to earlier ones.

    What is filmed stays where it is.
    """
    here = guide.number_of[entry.action.step] - 1
    there = guide.number_of[entry.late[0].step] - 1
    if not guide.order[here].is_filmed:
        for position in range(there, len(guide.order)):
            yield _with_moved(guide.order, here, position)
    if not guide.order[there].is_filmed:
        for position in range(here, -1, -1):
            yield _with_moved(guide.order, there, position)


def _with_moved(order: tuple[Step, ...], start: int, end: int) -> tuple[Step, ...]:
    rest = [*order[:start], *order[start + 1 :]]
    return (*rest[:end], order[start], *rest[end:])


def _faults(guide: Guide, order: Sequence[Step]) -> set[Key]:
    """What is wrong with an order of the guide's steps: needs that are not met, and work done again."""
    left = {step.id for step in order}
    others = [step for step in guide.steps if step.id not in left]
    walked = walk(guide.anatomy, guide.device.faces, guide.device.power, order, others)
    repeats = {(repeat.action.step, repeat.action.number, repeat.kind) for repeat in walked.repeats}
    return {_key(entry) for entry in walked.unmet} | repeats


def _key(entry: Unmet) -> Key:
    return entry.action.step, entry.action.number, entry.reason


def _said(guide: Guide, order: tuple[Step, ...]) -> Mend:
    """The move in words, with the edits that put each id of the new order in its place."""
    old = [step.id for step in guide.order]
    new = [step.id for step in order]
    changed = [index for index in range(len(old)) if old[index] != new[index]]
    first, last = changed[0], changed[-1]
    if new[last] == old[first] and not guide.order[first].is_filmed:
        moved, where = old[first], f"after {quoted(new[last - 1])}"
    else:
        moved, where = old[last], f"before {quoted(new[first + 1])}"
    place = guide.line_in_order(moved)
    assert place is not None  # every step of the order has its line
    return Mend(f"Move {quoted(moved)} {where} in {place.file}:{place.line}.", new_order(guide, order))


def _line(guide: Guide, step: StepId) -> Place:
    place = guide.line_in_order(step)
    assert place is not None
    return place


def _take_alternative(guide: Guide, entry: Unmet) -> Mend | None:
    step = guide.step_by_id[entry.elsewhere[0].step]
    here = guide.number_of[entry.action.step] - 1
    order = (*guide.order[:here], step, *guide.order[here:])
    if _faults(guide, order) <= _faults(guide, guide.order) - {_key(entry)}:
        place = _line(guide, entry.action.step)
        return Mend(
            f"Put {quoted(step.id)} into the order before {quoted(entry.action.step)} in {place.file}:{place.line}, "
            "and take it out of the alternatives."
        )
    return None


# --- other changes ----------------------------------------------------------------------------------------------------


def _turn_over(guide: Guide, action: Action, face: str) -> Mend:
    item = guide.step_by_id[action.step].places.value("work", action.number)
    start = Place(item.file, item.line, item.column, item.line, item.column)
    return Mend(
        f"Put `- turn: {face}` before this line in {item.file}:{item.line}.",
        (Edit(start, f"turn: {face}\n{' ' * (item.column - 3)}- "),),
    )


def _move_line(guide: Guide, entry: Unmet) -> Mend | None:
    """The awaited action moved up within its step, if that is all it takes."""
    late = next(action for action in entry.late if action.step == entry.action.step)
    step = guide.step_by_id[entry.action.step]
    rest = [action for action in step.actions if action != late]
    here = rest.index(entry.action)
    moved = replace(step, actions=(*rest[:here], late, *rest[here:]))
    order = [moved if each.id == step.id else each for each in guide.order]
    if _faults(guide, order) <= _faults(guide, guide.order) - {_key(entry)}:
        line = f"`{late.verb}: {late.joint or late.part or late.words}` (line {late.place.line})"
        return Mend(f"Move {line} up, before line {entry.action.place.line}, in {late.place.file}.")
    return None


def _add(guide: Guide, entry: Unmet) -> Mend:
    where = f"before {step_name(guide, entry.action.step)}"
    match entry.reason:
        case Behind(joint, part):
            place = guide.joint(joint).places.value("joints", joint, "behind")
            return Mend(
                f"Add a step that takes {part_name(guide, part)} out of the way {where}, "
                f"or correct `behind` in {place.file}:{place.line}."
            )
        case OnTheBench(_, _, carriers):
            return Mend(f"Add a step that lifts {listed([part_name(guide, c) for c in carriers], 'or')} out {where}.")
        case StillJoined(_, joint):
            return Mend(f"Add a step that undoes {joint_name(guide, joint)} {where}.")
        case Under(part, over):
            place = guide.part(part).places.value("parts", part, "under")
            return Mend(
                f"Add a step that takes {part_name(guide, over)} out of the way {where}, "
                f"or correct `under` in {place.file}:{place.line}."
            )
        case NotSoftened(joint):
            verb = "soak" if guide.joint(joint).softens == "solvent" else "heat"
            line = entry.action.place.line
            return Mend(f"Put `- {verb}: {joint}` before this line in {entry.action.place.file}:{line}.")
        case PowerFirst(plug):
            return Mend(f"Add a step that undoes {joint_name(guide, plug)} {where}.")
        case MainsFirst():
            return Mend(f"Put a check that the device is unplugged, with `proves: unplugged`, {where}.")
        case ChargeFirst(part):
            check = f"a check of the voltage at {part_name(guide, part)}, with `proves: discharged` and `of: {part}`"
            return Mend(f"Put {check}, {where}.")
        case Covered(_, cover):
            return Mend(f"Add a step that takes {part_name(guide, cover)} out of the way {where}.")
    raise TypeError(f"nothing to add for the reason {type(entry.reason).__name__}")
