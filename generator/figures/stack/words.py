"""The stack in words: what holds a part, titles, and what a reader who does not see the figure is told."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import PartId
from generator.figures.plan.marks import counted
from generator.figures.stack.leaving import Leaving

_NAMES_LIMIT = 24


def held_by(leaving: Leaving, part: PartId, slides: bool) -> str:
    """What holds a part, in a few words: "9 screws", "plug, 2 glue runs", "glued", "clip, slides out", "stays"."""
    anatomy = leaving.anatomy
    if part in leaving.taken_by and part not in leaving.own:
        return f"inside the {anatomy.parts[leaving.taken_by[part]].name}"
    if part not in leaving.own:
        return "stays"
    said = _joints(leaving.holding.get(part, ()))
    if slides:
        said.append("slides out")
    if part not in leaving.numbers:
        said.append("folds aside")
    return ", ".join(said) or "lies loose"


def title_of(device: str, leaving: Leaving, now: int | None, back: bool) -> str:
    if now is None:
        return f"Exploded view of the {device}: {'what goes back in' if back else 'what comes out'}, in order"
    count = len(leaving.steps)
    number = 2 * count - now if back else now + 1
    return f"Exploded view at step {number}: {leaving.steps[now].title}"


def desc_of(leaving: Leaving, now: int | None, back: bool, slides: Iterable[PartId], undrawn: Sequence[PartId]) -> str:
    """What the figure shows, in short sentences; of a whole run every part with its number and what holds it."""
    sentences = []
    if now is None:
        slides = set(slides)
        numbered = [part for part in leaving.numbers if part in leaving.shown]
        sentences.append("Isometric view, the parts drawn apart along the way they leave")
        listed = [
            f"{leaving.numbers[part]} {_name(leaving, part)} ({held_by(leaving, part, part in slides)})" for part in numbered
        ]
        if listed:
            sentences.append("In the order of removal: " + "; ".join(listed))
        staying = [part for part in leaving.shown if part not in leaving.goes]
        if staying:
            sentences.append(f"Staying: {_names(leaving, staying)}")
    else:
        hand = leaving.hand(now)
        if hand:
            sentences.append(f"{'Being put back' if back else 'In hand'}: {_names(leaving, hand)}")
        elif worked := leaving.worked(now):
            sentences.append(f"Worked on: {_names(leaving, worked)}")
        away = [part for part in leaving.own if leaving.own[part] < now]
        if away:
            sentences.append(f"{'Still out' if back else 'Already out'}: {_names(leaving, away)}")
    if undrawn:
        sentences.append(f"Not drawn, because no place is given: {_names(leaving, undrawn)}")
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
    return "glued" if kind is JointKind.GLUE else counted(kind, 1).removeprefix("1 ")


def _name(leaving: Leaving, part: PartId) -> str:
    return leaving.anatomy.parts[part].name


def _names(leaving: Leaving, parts: Sequence[PartId]) -> str:
    more = len(parts) - _NAMES_LIMIT
    return ", ".join(_name(leaving, part) for part in parts[:_NAMES_LIMIT]) + (f" and {more} more" if more > 0 else "")
