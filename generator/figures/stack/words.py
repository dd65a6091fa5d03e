"""The stack in words: what holds a part, titles, and what a reader who does not see the figure is told."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import PartId
from generator.figures.plan.marks import counted
from generator.figures.stack.leaving import Leaving
from generator.figures.trade_words import kind_word
from generator.languages import say

_NAMES_LIMIT = 24


def held_by(leaving: Leaving, part: PartId, slides: bool) -> str:
    """What holds a part, in a few words: "9 screws", "plug, 2 glue runs", "glued", "clip, slides out", "stays"."""
    anatomy = leaving.anatomy
    if part in leaving.taken_by and part not in leaving.own:
        return say("inside the {part}", part=anatomy.parts[leaving.taken_by[part]].name)
    if part not in leaving.own:
        return say("stays")
    said = _joints(leaving.holding.get(part, ()))
    if slides:
        said.append(say("slides out"))
    if part not in leaving.numbers:
        said.append(say("folds aside"))
    return ", ".join(said) or say("lies loose")


def title_of(device: str, leaving: Leaving, now: int | None, back: bool) -> str:
    if now is None:
        if back:
            return say("Exploded view of the {device}: what goes back in, in order", device=device)
        return say("Exploded view of the {device}: what comes out, in order", device=device)
    count = len(leaving.steps)
    number = 2 * count - now if back else now + 1
    return say("Exploded view at step {number}: {title}", number=number, title=leaving.steps[now].title)


def desc_of(leaving: Leaving, now: int | None, back: bool, slides: Iterable[PartId], undrawn: Sequence[PartId]) -> str:
    """What the figure shows, in short sentences; of a whole run every part with its number and what holds it."""
    sentences = []
    if now is None:
        slides = set(slides)
        numbered = [part for part in leaving.numbers if part in leaving.shown]
        sentences.append(say("Isometric view, the parts drawn apart along the way they leave"))
        listed = [
            f"{leaving.numbers[part]} {_name(leaving, part)} ({held_by(leaving, part, part in slides)})" for part in numbered
        ]
        if listed:
            sentences.append(say("In the order of removal: {parts}", parts="; ".join(listed)))
        staying = [part for part in leaving.shown if part not in leaving.goes]
        if staying:
            sentences.append(say("Staying: {parts}", parts=_names(leaving, staying)))
    else:
        hand = leaving.hand(now)
        if hand:
            names = _names(leaving, hand)
            sentences.append(say("Being put back: {parts}", parts=names) if back else say("In hand: {parts}", parts=names))
        elif worked := leaving.worked(now):
            sentences.append(say("Worked on: {parts}", parts=_names(leaving, worked)))
        away = [part for part in leaving.own if leaving.own[part] < now]
        if away:
            names = _names(leaving, away)
            sentences.append(say("Still out: {parts}", parts=names) if back else say("Already out: {parts}", parts=names))
    if undrawn:
        sentences.append(say("Not drawn, because no place is given: {parts}", parts=_names(leaving, undrawn)))
    return ". ".join(sentences) + "." if sentences else ""


def _joints(joints: Iterable[Joint]) -> list[str]:
    """Kinds with their counts, screws first; what there is one of goes without a count."""
    counts = dict.fromkeys(JointKind, 0)
    for joint in joints:
        counts[joint.kind] += max(joint.count, 1)
    return [_counted(kind, count) for kind, count in counts.items() if count]


def _counted(kind: JointKind, count: int) -> str:
    if count > 1 or kind is JointKind.SCREWS:
        return counted(kind, count)
    return say("glued") if kind is JointKind.GLUE else kind_word(kind, 1)


def _name(leaving: Leaving, part: PartId) -> str:
    return leaving.anatomy.parts[part].name


def _names(leaving: Leaving, parts: Sequence[PartId]) -> str:
    more = len(parts) - _NAMES_LIMIT
    shown = ", ".join(_name(leaving, part) for part in parts[:_NAMES_LIMIT])
    return say("{names} and {number} more", names=shown, number=more) if more > 0 else shown
