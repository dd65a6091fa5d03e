"""A route as text for people and as one JSON document for programs."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from generator.orders.accounts import ScrewSize, accounts_of
from generator.orders.faces import missing_turns
from generator.orders.guide import Guide, minutes
from generator.orders.numbering import back_number
from generator.orders.routes import EVERYTHING_MAY_BE_USED, Blocked, NoRoute, Route, Turn, Without, tool_changes
from generator.orders.setups import Setups
from generator.orders.work import Step, Verb
from generator.pages.survey import Stop, up_to_stop
from generator.pages.typography import sentence
from generator.rules.sentences import reason_sentence
from generator.rules.wording import joint_name, listed

VERSION = 1

STORED_CHARGE = "It stores a charge that can strike"
"""Why licensed practice begins where the author gave no reason."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked for beside the parts: what to leave out, by the names given, and the order with the fewest changes.

    regrouped: of the steps before licensed practice begins, as only these are told one by one.
    """

    names: tuple[str, ...] = ()
    without: Without = EVERYTHING_MAY_BE_USED
    regrouped: Setups | None = None


NOTHING_MORE = Asked()


def route_as_json(guide: Guide, way: Route | NoRoute, asked: Asked = NOTHING_MORE) -> str:
    """The document described in DEVELOPERS.md under "JSON"; minutes is a number to the tenth, or null if unknown.

    `without` and `regrouped` are there only if they were asked for.
    """
    document = _document(guide, way)
    if asked.names:
        document["without"] = list(asked.names)
    if asked.regrouped is not None:
        document["regrouped"] = _regrouped_document(asked.regrouped)
    return json.dumps(document, ensure_ascii=False, indent=2) + "\n"


def _regrouped_document(setups: Setups) -> dict[str, Any]:
    changes, turns = setups.bound
    return {
        "steps": [step.id for step in setups.order],
        "tool_changes": setups.changes,
        "turns": setups.turns,
        "optimal": setups.is_optimal,
        "bound": {"tool_changes": changes, "turns": turns},
    }


def _document(guide: Guide, way: Route | NoRoute) -> dict[str, Any]:
    found = isinstance(way, Route)
    steps = way.steps if isinstance(way, Route) else ()
    document: dict[str, Any] = {
        "version": VERSION,
        "device": guide.id,
        "parts": list(way.parts),
        "possible": found,
        "optimal": way.is_optimal if isinstance(way, Route) else None,
        "steps": [step.id for step in steps],
        "back": [step.id for step in reversed(steps)],
        "actions": way.actions if isinstance(way, Route) else None,
        "minutes": float(minutes(way.seconds)) if isinstance(way, Route) and way.seconds is not None else None,
        "tool_changes": way.tool_changes if isinstance(way, Route) else None,
        "turns": way.turns if isinstance(way, Route) else None,
        "safety": [step.id for step in way.safety] if isinstance(way, Route) else [],
        "licensed": _licensed(guide, steps),
        "necessary": [step.id for step in way.necessary] if isinstance(way, Route) else [],
        "alternatives": [_alternative(other) for other in way.alternatives] if isinstance(way, Route) else [],
        "blocked": [] if isinstance(way, Route) else [_blocked(guide, entry) for entry in way.blocked],
    }
    return document


def _licensed(guide: Guide, steps: Sequence[Step]) -> dict[str, Any] | None:
    """Where licensed practice begins on the way; None where it does not."""
    stop = up_to_stop(guide, steps)[1]
    return {"step": stop.step.id, "part": stop.part, "reason": stop.reason or STORED_CHARGE} if stop else None


def _alternative(route: Route) -> dict[str, Any]:
    return {"steps": [step.id for step in route.steps], "actions": route.actions}


def _blocked(guide: Guide, blocked: Blocked) -> dict[str, Any]:
    return {"part": blocked.part, "why": list(why_blocked(guide, blocked))}


def why_blocked(guide: Guide, blocked: Blocked) -> tuple[str, ...]:
    """One sentence for each thing that stands in the way; the first says what cannot be left out, if that is what does."""
    needed = what_is_needed(guide, blocked.without)
    name = guide.part(blocked.part).name
    if not needed:
        if not blocked.in_the_way:
            return (f"No step lifts out the {name}.",)
        return tuple(reason_sentence(guide, reason) for reason in blocked.in_the_way)
    reasons = [reason_sentence(guide, reason) for reason in blocked.in_the_way] or [f"No step lifts out the {name}."]
    others = tuple(reason.replace("No step ", "No other step ", 1) for reason in reasons)
    return (f"Every way to the {name} {needed}.", *others)


def what_is_needed(guide: Guide, without: Without) -> str:
    """`undoes the lid screws or uses the driver PH0`; empty where nothing is left out."""
    undone = listed([joint_name(guide, joint) for joint in without.joints], "or")
    used = listed([f"the {guide.tools[tool].name}" for tool in without.tools], "or")
    return " or ".join([*([f"undoes {undone}"] if undone else []), *([f"uses {used}"] if used else [])])


def route_as_text(guide: Guide, way: Route | NoRoute, asked: Asked = NOTHING_MORE) -> str:
    if isinstance(way, NoRoute):
        return "".join(f"{line}\n" for line in _no_way(guide, way))
    lines = _way(guide, way, asked.without)
    if asked.regrouped is not None:
        lines += ["", *_regrouped(guide, up_to_stop(guide, way.steps)[0], asked.regrouped)]
    return "".join(f"{line}\n" for line in lines)


def _no_way(guide: Guide, way: NoRoute) -> list[str]:
    lines: list[str] = []
    for blocked in way.blocked:
        first, *rest = why_blocked(guide, blocked)
        if what_is_needed(guide, blocked.without):
            lines.append(f"{first.removesuffix('.')}:")
        else:
            lines.append(f"There is no way to the {guide.part(blocked.part).name} of the {guide.device.name}.")
            rest = [first, *rest]
        lines += [f"  {sentence}" for sentence in rest]
    return lines


def _regrouped(guide: Guide, steps: Sequence[Step], setups: Setups) -> list[str]:
    """The order with the fewest changes beside that of the route, and how far it is proved."""
    written = sum(action.verb is Verb.TURN for step in steps for action in step.actions)
    all_turns = written + sum(1 for _ in missing_turns(guide.anatomy, guide.device.faces, steps))
    ours, theirs = (setups.changes, setups.turns), (tool_changes(guide, steps), all_turns)
    changes, turns = setups.bound
    proof = f"No order of these steps has fewer than {_count(changes, 'tool change')}"
    if changes == setups.changes and turns:
        proof += f" or, with that many, fewer than {_count(turns, 'turn')}"
    if ours >= theirs:
        return [f"In the author's order there is nothing to save. {proof}."]
    lines = [
        f"In another order: {_count(setups.changes, 'tool change')} instead of {theirs[0]}, "
        f"{_count(setups.turns, 'turn')} instead of {theirs[1]}",
    ]
    width = len(str(len(setups.order)))
    for number, step in enumerate(setups.order, 1):
        lines += [f"  {'':{width}}  turn it {turn.face} up" for turn in setups.added_turns if turn.step == step.id]
        lines.append(f"  {number:{width}}  {step.title}")
    return [*lines, f"  {proof}."]


def _way(guide: Guide, way: Route, without: Without) -> list[str]:
    names = " and ".join(f"the {guide.part(part).name}" for part in way.parts)
    left_out = [joint_name(guide, joint) for joint in without.joints] + [f"the {guide.tools[t].name}" for t in without.tools]
    if left_out:
        names += f", without {listed(left_out)}"
    shown, stop = up_to_stop(guide, way.steps)
    accounts = accounts_of(guide, shown)
    time = f", {minutes(way.seconds)} min" if way.seconds is not None else ""
    whole = (
        f"{_count(len(way.steps), 'step')}, {_count(way.actions, 'action')}{time}, "
        f"{_count(way.tool_changes, 'tool change')}, {_count(way.turns, 'turn')}"
    )
    lines = [
        f"{guide.device.name}: to {names}",
        whole if stop is None else f"{len(shown)} of {_count(len(way.steps), 'step')}, then it stops",
        *(["", "Out"] if shown else []),
    ]
    count = len(shown)
    width = len(str(2 * count))
    for number, step in enumerate(shown, 1):
        lines += [f"  {'':{width}}  turn it {turn.face} up" for turn in _turns_before(way, step)]
        mark = "  (kept for safety)" if step in way.safety else ""
        lines.append(f"  {number:{width}}  {step.title}{mark}")
    if stop is not None:
        lines += ["", *_stop_lines(guide, stop)]
    lines += ["", "Back"] if shown else []
    for number, step in reversed(list(enumerate(shown, 1))):
        lines.append(f"  {back_number(number, count):{width}}  step {number} the other way round: {step.title}")
    if accounts.tools:
        lines += ["", "Tools", *(f"  {use.tool.name}" for use in accounts.tools)]
    if accounts.supplies:
        lines += ["", "Supplies", *(f"  {use.supply.name}" for use in accounts.supplies)]
    if accounts.screws:
        lines += ["", f"Screws: {accounts.screw_count} out, {accounts.screw_count} back"]
        lines += [f"  {line.count} × {size_words(line.size)}" for line in accounts.screws]
    for other in way.alternatives:
        lines += ["", _other(way, other)]
    if not way.is_optimal:
        lines += ["", f"Cost {way.cost}; no route can cost less than {way.bound}."]
    return lines


def _stop_lines(guide: Guide, stop: Stop) -> list[str]:
    """What a page says where it hands over to licensed practice."""
    return [
        f'Stop. The next step, "{stop.step.title}", is for licensed practice only: {guide.part(stop.part).name}.',
        sentence(stop.reason or STORED_CHARGE),
        "Hand the device to licensed practice; local codes come before this guide.",
    ]


def _turns_before(way: Route, step: Step) -> list[Turn]:
    return [turn for turn in way.added_turns if turn.step == step.id]


def _other(way: Route, other: Route) -> str:
    mine, theirs = {step.id for step in way.steps}, {step.id for step in other.steps}
    instead = ", ".join(f'"{step.title}"' for step in other.steps if step.id not in mine)
    of = ", ".join(f'"{step.title}"' for step in way.steps if step.id not in theirs)
    return f"Another way: {instead} instead of {of} ({_count(other.actions, 'action')})."


def size_words(size: ScrewSize) -> str:
    """A screw size as people write it: M1.4 × 3.5, cross-recess PH000."""
    thread = size.thread or "screw"
    length = f" × {size.length:g}" if size.length is not None else ""
    rest = "".join(f", {word}" for word in (size.drive, size.head) if word)
    return f"{thread}{length}{rest}"


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
