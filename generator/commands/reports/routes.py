"""A route as text for people and as one JSON document for programs."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from generator.orders.accounts import ScrewSize, accounts_of
from generator.orders.guide import Guide, minutes
from generator.orders.numbering import back_number
from generator.orders.routes import Blocked, NoRoute, Route, Turn
from generator.orders.work import Step
from generator.pages.survey import Stop, up_to_stop
from generator.pages.typography import sentence
from generator.rules.sentences import reason_sentence

VERSION = 1


def route_as_json(guide: Guide, way: Route | NoRoute) -> str:
    """The document described in DEVELOPERS.md under "JSON"; minutes is a number to the tenth, or null if unknown."""
    return json.dumps(_document(guide, way), ensure_ascii=False, indent=2) + "\n"


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
    return {"step": stop.step.id, "part": stop.part, "reason": stop.reason} if stop else None


def _alternative(route: Route) -> dict[str, Any]:
    return {"steps": [step.id for step in route.steps], "actions": route.actions}


def _blocked(guide: Guide, blocked: Blocked) -> dict[str, Any]:
    return {"part": blocked.part, "why": list(why_blocked(guide, blocked))}


def why_blocked(guide: Guide, blocked: Blocked) -> tuple[str, ...]:
    """One sentence for each thing that stands in the way."""
    if not blocked.in_the_way:
        return (f"No step lifts out the {guide.part(blocked.part).name}.",)
    return tuple(reason_sentence(guide, reason) for reason in blocked.in_the_way)


def route_as_text(guide: Guide, way: Route | NoRoute) -> str:
    if isinstance(way, NoRoute):
        return "".join(f"{line}\n" for line in _no_way(guide, way))
    return "".join(f"{line}\n" for line in _way(guide, way))


def _no_way(guide: Guide, way: NoRoute) -> list[str]:
    lines: list[str] = []
    for blocked in way.blocked:
        lines.append(f"There is no way to the {guide.part(blocked.part).name} of the {guide.device.name}.")
        lines += [f"  {sentence}" for sentence in why_blocked(guide, blocked)]
    return lines


def _way(guide: Guide, way: Route) -> list[str]:
    names = " and ".join(f"the {guide.part(part).name}" for part in way.parts)
    shown, stop = up_to_stop(guide, way.steps)
    accounts = accounts_of(guide, shown)
    time = f", {minutes(way.seconds)} min" if way.seconds is not None else ""
    lines = [
        f"{guide.device.name}: to {names}",
        f"{_count(len(way.steps), 'step')}, {_count(way.actions, 'action')}{time}, "
        f"{_count(way.tool_changes, 'tool change')}, {_count(way.turns, 'turn')}",
        "",
        "Out",
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
        sentence(stop.reason),
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
