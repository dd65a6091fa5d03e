"""One number everywhere: a part's number is the step that takes it out, in every figure and table of a run of steps."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.anatomy.parts import PartId
from generator.orders.work import Step


def part_numbers(steps: Sequence[Step]) -> Mapping[PartId, str]:
    """The number of every part that a step of `steps` lifts, steps counted from 1; two parts in step 8 are 8.1 and 8.2.

    Parts that stay, or leave inside another, have none. A part lifted twice keeps its first number.
    """
    numbers: dict[PartId, str] = {}
    for number, step in enumerate(steps, 1):
        fresh = [part for part in dict.fromkeys(step.lifted) if part not in numbers]
        for index, part in enumerate(fresh, 1):
            numbers[part] = f"{number}.{index}" if len(fresh) > 1 else str(number)
    return numbers


def back_number(number: int, count: int) -> int:
    """Out and back run on in one count: of `count` steps out, step `number` comes back as this."""
    return 2 * count + 1 - number
