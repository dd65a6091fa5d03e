"""Paging through the steps: each step is a leaf that says where the reader is and links to the one before and after.

Every leaf can be had alone, by an address of its own, without a script: the style sheet leaves out the others.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.languages import say
from generator.orders.work import Step
from generator.pages.addresses import anchor
from generator.pages.steps import Numbering


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
        (anchor("step", step.id), say("step~{number}", number=number), place_out(number, count, part))
        for step, number in ((step, numbers.out[step.id]) for step in steps)
    ]
    if has_hand:
        stops.append(("hand", say("in hand"), say("{number} of {all}, half way", number=count, all=2 * count)))
    if numbers.back:
        stops += [
            (anchor("back", step.id), say("step~{number}", number=number), place_back(number, count))
            for step, number in ((step, numbers.back[step.id]) for step in reversed(steps))
        ]
        if stops:
            stops.append(("leftover", say("the check"), say("all steps done")))
    return _chained(stops)


def place_out(number: int, count: int, part: str) -> str:
    """Where step `number` of `count` out stands.

    >>> place_out(3, 7, "battery").replace(chr(160), " "), place_out(7, 7, "battery").replace(chr(160), " ")
    ('step 3 of 7, 4 to the battery', 'step 7 of 7, the battery')
    """
    told = {"number": number, "all": count}
    if not part:
        return say("step~{number} of~{all} out", **told)
    if number < count:
        return say("step~{number} of~{all}, {left} to the {part}", **told, left=count - number, part=part)
    return say("step~{number} of~{all}, the {part}", **told, part=part)


def place_back(number: int, count: int) -> str:
    """Where step `number` stands on the way back of `count` steps.

    >>> place_back(9, 7).replace(chr(160), " "), place_back(14, 7).replace(chr(160), " ")
    ('step 9 of 14, 5 to the end', 'step 14 of 14, the last')
    """
    left = 2 * count - number
    if not left:
        return say("step~{number} of~{all}, the last", number=number, all=2 * count)
    return say("step~{number} of~{all}, {left} to the end", number=number, all=2 * count, left=left)


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
