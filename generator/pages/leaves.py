"""Paging through the steps: each step is a leaf that says where the reader is and links to the one before and after.

Every leaf can be had alone, by an address of its own, without a script: the style sheet leaves out the others.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.orders.work import Step
from generator.pages.addresses import anchor
from generator.pages.steps import Numbering
from generator.pages.typography import NO_BREAK


@dataclass(frozen=True, slots=True)
class LeafLink:
    """href leads to the neighbour in the whole page, only_href to it alone."""

    label: str
    href: str
    only_href: str


@dataclass(frozen=True, slots=True)
class Leaf:
    """id: of the leaf, when it is shown alone; href: of what is on it; place: where the reader is, in words."""

    id: str
    href: str
    place: str
    previous: LeafLink | None
    next: LeafLink | None


Leaves = Mapping[str, Leaf]
"""By the id of what is on the leaf."""


def leaves_of(steps: Sequence[Step], numbers: Numbering, part: str, *, has_hand: bool) -> Leaves:
    """The leaves of a page in reading order: out, the part in hand, back, the check at the end.

    part: the name of what was come for, empty for the whole device; has_hand: there is a section where it is out.
    """
    count = len(steps)
    stops = [
        (anchor("step", step.id), f"step{NO_BREAK}{number}", place_out(number, count, part))
        for step, number in ((step, numbers.out[step.id]) for step in steps)
    ]
    if has_hand:
        stops.append(("hand", "in hand", f"{count} of {2 * count}, half way"))
    if numbers.back:
        stops += [
            (anchor("back", step.id), f"step{NO_BREAK}{number}", place_back(number, count))
            for step, number in ((step, numbers.back[step.id]) for step in reversed(steps))
        ]
        if stops:
            stops.append(("leftover", "the check", "all steps done"))
    return _chained(stops)


def place_out(number: int, count: int, part: str) -> str:
    """Where step `number` of `count` out stands.

    >>> place_out(3, 7, "battery").replace(NO_BREAK, " "), place_out(7, 7, "battery").replace(NO_BREAK, " ")
    ('step 3 of 7, 4 to the battery', 'step 7 of 7, the battery')
    """
    here = f"step{NO_BREAK}{number} of{NO_BREAK}{count}"
    if part:
        return f"{here}, {count - number} to the {part}" if number < count else f"{here}, the {part}"
    return f"{here} out"


def place_back(number: int, count: int) -> str:
    """Where step `number` stands on the way back of `count` steps.

    >>> place_back(9, 7).replace(NO_BREAK, " "), place_back(14, 7).replace(NO_BREAK, " ")
    ('step 9 of 14, 5 to the end', 'step 14 of 14, the last')
    """
    here = f"step{NO_BREAK}{number} of{NO_BREAK}{2 * count}"
    left = 2 * count - number
    return f"{here}, {left} to the end" if left else f"{here}, the last"


def _chained(stops: Sequence[tuple[str, str, str]]) -> dict[str, Leaf]:
    def link(index: int) -> LeafLink | None:
        if not 0 <= index < len(stops):
            return None
        name, label, _ = stops[index]
        return LeafLink(label, f"#{name}", f"#{only(name)}")

    return {
        name: Leaf(only(name), f"#{name}", place, link(index - 1), link(index + 1))
        for index, (name, _, place) in enumerate(stops)
    }


def only(name: str) -> str:
    """The id of the leaf that shows `name` alone."""
    return anchor("only", name)
