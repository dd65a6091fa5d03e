"""Moves of several steps at once: what to say where no single move makes the order possible."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from generator.orders.guide import Guide
from generator.orders.repair import Conflict, NoOrder, Repair
from generator.orders.work import Step
from generator.rules.finding import Edit, Mend
from generator.rules.wording import counted, listed, quoted

MOST_CHAINS = 3
"""How many of the conflicts behind the number of moves are told."""


def moves_of(guide: Guide, repair: Repair, is_explained: bool) -> Mend:
    """The repair in words, with the edits that put each id of the new order in its place.

    is_explained: whether the words say why fewer moves will not do; the first finding that has this mend does.
    """
    first = guide.line_in_order(guide.order[0].id)
    where = f"{first.file}:{first.line}" if first is not None else guide.device.place.file
    moves = listed([_move(repair.order, step) for step in repair.order if step in repair.moved])
    text = f"Move {_steps(len(repair.moved))} of the order in {where}: {moves}."
    return Mend(f"{text} {_why(repair)}" if is_explained else text, new_order(guide, repair.order))


def not_to_be_moved(guide: Guide, found: NoOrder) -> Mend | None:
    """What to do where filmed steps cannot all stay; None where that is not what stands in the way."""
    if found.filmed is None:
        return None
    names = [quoted(step.id) for step in found.filmed.steps]
    return Mend(
        f"{listed(names)} are filmed and cannot all stay where they are: {_because(found.filmed)}. "
        "Film one of them anew, or take `filmed` out of its file."
    )


def new_order(guide: Guide, order: Sequence[Step]) -> tuple[Edit, ...]:
    """The edits of device.yaml that make its order this one; `order` holds the same steps."""
    edits = []
    for old, new in zip(guide.order, order, strict=True):
        place = guide.line_in_order(old.id)
        if old.id != new.id and place is not None:
            edits.append(Edit(place, new.id))
    return tuple(edits)


def _move(order: Sequence[Step], step: Step) -> str:
    """`"a" after "b"`, by its neighbour in the new order."""
    index = next(number for number, other in enumerate(order) if other.id == step.id)
    if index:
        return f"{quoted(step.id)} after {quoted(order[index - 1].id)}"
    return f"{quoted(step.id)} before {quoted(order[1].id)}"


def _why(repair: Repair) -> str:
    """Why fewer moves will not do, in full sentences."""
    fewest = len(repair.moved)
    told = [f"of {_named(chain)} {_can_stay(chain)}, because {_because(chain)}" for chain in repair.chains[:MOST_CHAINS]]
    others = len(repair.chains) - len(told)
    if others:
        told.append(f"so it is with {counted(others)} more {'group' if others == 1 else 'groups'} of steps")
    reasons = "; ".join(told)
    if not repair.is_optimal:
        needed = f"At least {counted(repair.bound)} are needed"
        return f"{needed}; whether fewer than {counted(fewest)} will do has not been settled."
    if repair.proved_by_chains == fewest:
        return f"Fewer will not do: {reasons}."
    return f"Fewer will not do, as trying every choice shows{': ' if reasons else ''}{reasons}."


def _named(conflict: Conflict) -> str:
    return listed([quoted(step.id) for step in conflict.steps])


def _can_stay(conflict: Conflict) -> str:
    if conflict.stay == 1:
        return "only one can stay where it is"
    return f"only {counted(conflict.stay)} can stay where they are"


def _because(conflict: Conflict) -> str:
    """`"c" is needed for "b" and "b" for "a"`."""
    if conflict.stay > 1:
        return f"{quoted(conflict.steps[0].id)} and what else comes too early would wait for what comes after"
    if not conflict.links:
        return f"{quoted(conflict.steps[-1].id)} is needed for {quoted(conflict.steps[0].id)}, whichever way is taken"
    way = [conflict.steps[0], *(step for link in conflict.links for step in link[1:])]
    needs = [(needed, needing) for needing, needed in pairwise(way)][::-1]
    (needed, needing), *rest = needs
    said = [f"{quoted(needed.id)} is needed for {quoted(needing.id)}"]
    return listed(said + [f"{quoted(one.id)} for {quoted(other.id)}" for one, other in rest])


def _steps(number: int) -> str:
    return f"{counted(number)} step{'s' if number != 1 else ''}"
