"""Yes or no checks of published acts that can be counted from a guide, each with what a guide does not tell."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from generator.anatomy.parts import PartId
from generator.indices.basic_tools import basic_tool, basic_tool_for
from generator.indices.naming import tool_words
from generator.indices.operations import CLEAN, HEAT, Operation
from generator.indices.workings import Basis
from generator.languages import later
from generator.orders.guide import Guide
from generator.orders.work import StepId, ToolId


class Answer(StrEnum):
    YES = "yes"
    NO = "no"
    OPEN = "not settled"


@dataclass(frozen=True, slots=True)
class Found:
    """One thing on the way that speaks against (NO) or leaves the answer open (OPEN), with the step it is met in."""

    answer: Answer
    words: str
    step: StepId | None = None


@dataclass(frozen=True)
class Check:
    """An answer as far as a guide can give one. YES holds only beside `not_known`; found is what was met on the way."""

    name: str
    part: PartId
    answer: Answer
    found: tuple[Found, ...]
    not_known: tuple[str, ...]
    basis: Basis


class Sort(StrEnum):
    """What a tool is to the acts."""

    BASIC = later("basic")
    WITH_SPARE = later("supplied with the spare part")
    WITH_PRODUCT = later("supplied with the product")
    ON_SALE = later("on public sale, not basic")
    PROPRIETARY = later("proprietary")
    APPLIED = later("applied, used up")
    UNNAMED = later("not named in the guide")


def answered(name: str, part: PartId, found: Iterable[Found], not_known: Sequence[str], basis: Basis) -> Check:
    """NO if anything speaks against it, else OPEN if anything is left open, else YES."""
    entries = tuple(found)
    answers = {entry.answer for entry in entries}
    answer = Answer.NO if Answer.NO in answers else Answer.OPEN if Answer.OPEN in answers else Answer.YES
    return Check(name, part, answer, entries, tuple(not_known), basis)


def tools_met(guide: Guide, operations: Iterable[Operation]) -> Iterator[tuple[str, Sort, StepId | None]]:
    """Every tool of the way once: its name, what it is to the acts, and the step it is first taken up in."""
    seen: set[str] = set()
    for operation in operations:
        for held in sorted(operation.tools - seen):
            seen.add(held)
            yield tool_words(guide, held), _sort(guide, held, operation), operation.step


def softened(operations: Iterable[Operation]) -> Iterator[Operation]:
    """The operations that need heat or a solvent."""
    return (operation for operation in operations if operation.kind in (HEAT, CLEAN))


def _sort(guide: Guide, held: str, operation: Operation) -> Sort:
    if held in guide.supplies:
        return Sort.APPLIED
    if held not in guide.tools:
        is_basic = operation.undoes is not None and basic_tool_for(guide.joint(operation.undoes)) is not None
        return Sort.BASIC if is_basic else Sort.UNNAMED
    tool = guide.tools[ToolId(held)]
    if basic_tool(tool.type) is not None:
        return Sort.BASIC
    if tool.supplied != "neither":
        return Sort.WITH_SPARE if tool.supplied == "spare" else Sort.WITH_PRODUCT
    return Sort.PROPRIETARY if tool.sale == "proprietary" else Sort.ON_SALE
