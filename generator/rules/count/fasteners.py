"""count/fasteners"""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.joints import Joint
from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.wording import joint_name, listed, sentence, verb_for


def fasteners(guide: Guide) -> Iterator[Finding]:
    """The count, the lengths and the positions of a joint say different numbers.

    Why: the reader counts what lies in the tray; a screw too many or too few is looked for, or put where it does harm.
    Bad: `count: 4` beside `lengths: [3.0, 3.0, 4.5]`.
    Good: `lengths: [3.0, 3.0, 4.5]` alone, or a single length and a count.
    Silent when: only one of them is given, or a single length stands for all.
    """
    for joint in guide.anatomy.joints.values():
        numbers = _numbers(joint)
        if len({number for _, number in numbers}) > 1:
            name = joint.name
            said = listed([f"`{key}` {'says' if key == 'count' else 'has'} {number}" for key, number in numbers])
            yield Finding(
                place=joint.places.value("joints", joint.id, _odd_one(numbers)),
                message=f"{sentence(joint_name(guide, joint.id))} {verb_for(name, 'does', 'do')} not add up: {said}.",
                mend=Mend("Count them on the device and correct the odd one."),
            )


def _numbers(joint: Joint) -> list[tuple[str, int]]:
    numbers = []
    if joint.count_written is not None:
        numbers.append(("count", joint.count_written))
    if len(joint.lengths_written) > 1:
        numbers.append(("lengths", len(joint.lengths_written)))
    if joint.positions:
        numbers.append(("at", len(joint.positions)))
    return numbers


def _odd_one(numbers: list[tuple[str, int]]) -> str:
    """The key that stands alone against two others, else the last."""
    said = [number for _, number in numbers]
    return next((key for key, number in numbers if len(said) > 2 and said.count(number) == 1), numbers[-1][0])
