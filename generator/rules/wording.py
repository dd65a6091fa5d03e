"""Words for things of a guide: names with their article, steps by number and title, counts, lists."""

from __future__ import annotations

import re
from collections.abc import Sequence

from generator.anatomy.parts import JointId, PartId
from generator.orders.guide import Guide
from generator.orders.work import Action, StepId, Verb

NUMBER_WORDS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip

_AFTER_HEAD = re.compile(r",| (?:of|for|in|on|at|under|over|behind|beside|below|above|between|from|to|with|that|near)\b")
_SINGULAR_ENDINGS = ("ss", "us", "is", "lens", "gas", "canvas", "atlas", "bias")


def part_name(guide: Guide, part: PartId) -> str:
    """The part as a sentence says it: `the plug cover`."""
    return f"the {guide.part(part).name}"


def joint_name(guide: Guide, joint: JointId) -> str:
    """The joint as a sentence says it: `the shade screws`."""
    return f"the {guide.joint(joint).name}"


def object_name(guide: Guide, action: Action) -> str:
    """What an action is done to: a joint, a part or, for a turn, wait or check, the device."""
    if action.joint is not None:
        return joint_name(guide, action.joint)
    if action.part is not None:
        return part_name(guide, action.part)
    return "the device"


def step_name(guide: Guide, step: StepId) -> str:
    """`step 6 "Lift the plug cover"`; a step outside the order has no number."""
    title = guide.step_by_id[step].title
    number = guide.number_of.get(step)
    if number is not None:
        return f'step {number} "{title}"'
    kind = "the alternative step" if any(step == other.id for other in guide.alternatives) else "the unused step"
    return f'{kind} "{title}"'


def is_plural(name: str) -> bool:
    """Whether a name is spoken of as several things, told from the ending of its chief word.

    >>> [is_plural(name) for name in ("screws of the cover", "glass back", "lens", "side keys", "battery plug")]
    [True, False, False, True, False]
    """
    words = _AFTER_HEAD.split(name, maxsplit=1)[0].split()
    head = words[-1].lower() if words else ""
    return head.endswith("s") and not head.endswith(_SINGULAR_ENDINGS)


def it_is(name: str) -> str:
    return "they are" if is_plural(name) else "it is"


def verb_for(name: str, singular: str, plural: str) -> str:
    """The form of a verb that goes with the name: `comes off` or `come off`."""
    return plural if is_plural(name) else singular


def sentence(text: str) -> str:
    """The text with a capital first letter."""
    return text[:1].upper() + text[1:]


def counted(number: int) -> str:
    """A whole number in words up to twenty, then in digits."""
    return NUMBER_WORDS[number] if 0 <= number < len(NUMBER_WORDS) else str(number)


def steps_later(number: int) -> str:
    """`one step later`, `three steps later`."""
    return f"{counted(number)} step{'s' if number != 1 else ''} later"


def listed(items: Sequence[str], last: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`."""
    return f"{', '.join(items[:-1])} {last} {items[-1]}" if len(items) > 1 else "".join(items)


def quoted(name: str) -> str:
    return f'"{name}"'


def near_names(near: Sequence[str]) -> str:
    """`Perhaps "a", "b" or "c" is meant.`; empty where no known name is near."""
    return f"Perhaps {listed([quoted(name) for name in near], 'or')} is meant." if near else ""


def number(value: float) -> str:
    """A measure as text: no trailing zeros, at most four decimals, no exponent.

    >>> number(0.06), number(3.0), number(0.0195)
    ('0.06', '3', '0.0195')
    """
    return f"{value:.4f}".rstrip("0").rstrip(".")


DONE = {
    Verb.UNDO: "undone",
    Verb.LIFT: "lifted out",
    Verb.FOLD: "folded aside",
    Verb.TURN: "turned over",
    Verb.HEAT: "warmed",
    Verb.SOAK: "soaked",
    Verb.WAIT: "left to wait",
    Verb.CHECK: "checked",
}
"""What has been done to a thing after each verb: `the shade is lifted out`."""
