"""Depth: the counted steps to one part, each with its reason, and what a code that ties it to the device adds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.indices.counting import CountedStep, Ending, counted_steps, depth_of
from generator.indices.declarations import is_pairing_declared
from generator.indices.naming import step_words
from generator.indices.operations import Operation
from generator.indices.phones_2023_1669.readings import Readings
from generator.indices.phones_2023_1669.tables import (
    ASIDE_RULE,
    AT_ONCE_RULE,
    DEPTH_BANDS,
    DEPTH_REST,
    HEAT_RULE,
    MOST,
    PAIRING_RULE,
    PAIRING_STEPS,
    STEP_RULE,
)
from generator.indices.workings import Basis, Fact, Line
from generator.languages import say
from generator.orders.guide import Guide


@dataclass(frozen=True, slots=True)
class Depth:
    """Points of one part: min(ceiling, facts), from `steps` (one number, or two where pairing is not known)."""

    ceiling: int
    facts: tuple[Fact, ...]
    steps: tuple[int, ...]
    lines: tuple[Line, ...]


def depth_points(steps: int) -> int:
    """
    >>> [depth_points(steps) for steps in (0, 2, 3, 5, 6, 10, 11, 15, 16)]
    [5, 5, 4, 4, 3, 3, 2, 2, 1]
    """
    return next((points for most, points in DEPTH_BANDS if steps <= most), DEPTH_REST)


def part_depth(guide: Guide, part: PartId, operations: Sequence[Operation], readings: Readings) -> Depth:
    """The depth of `part`, taken out by `operations`."""
    counted = counted_steps(operations, readings.counting)
    lines = [_line(guide, step) for step in counted]
    steps = depth_of(counted)
    if readings.refit_cleaning == "counted":
        cleaning = list(_cleaning(guide, operations))
        steps += len(cleaning)
        lines += cleaning
    more = PAIRING_STEPS * (2 if readings.pairing == "twice" else 1)
    if not is_pairing_declared(guide.device):
        lines.append(Line(say("not declared whether the part is tied to the device by its code"), (0, more), PAIRING_RULE))
        points = tuple(sorted({depth_points(steps + more), depth_points(steps)}))
        words = say("whether the {part} is tied to the device by its code", part=guide.part(part).name)
        facts = (Fact(f"paired:{part}", words, points),) if len(points) > 1 else ()
        return Depth(MOST if facts else points[0], facts, (steps, steps + more), tuple(lines))
    if part in guide.device.paired:
        steps += more
        lines.append(Line(say("tied to the device by its code: to be notified or authorised"), (more,), PAIRING_RULE))
    return Depth(depth_points(steps), (), (steps,), tuple(lines))


def _line(guide: Guide, step: CountedStep) -> Line:
    return Line(step_words(guide, step), (step.count,), _basis(step), step=step.operations[-1].step)


def _basis(step: CountedStep) -> Basis:
    if step.ending in (Ending.HEATED, Ending.CLEANED):
        return HEAT_RULE
    if step.count > 1:
        return AT_ONCE_RULE
    return ASIDE_RULE if step.ending is Ending.SET_ASIDE else STEP_RULE


def _cleaning(guide: Guide, operations: Sequence[Operation]) -> Sequence[Line]:
    """One cleaning for every glue joint on the way that is made anew."""
    undone = dict.fromkeys(operation.undoes for operation in operations if operation.undoes is not None)
    glued = [joint for name in undone if (joint := guide.joint(name)).is_renewed and joint.kind == "glue"]
    return [Line(_cleaned(joint.name), (1,), HEAT_RULE) for joint in glued]


def _cleaned(joint: str) -> str:
    return say("clean off the remains of the {joint}, for reassembly", joint=joint)
