"""Places where the act can be read in more than one way, as named switches; the first option of each is recommended."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from difflib import get_close_matches

from generator.indices.counting import Counting
from generator.indices.workings import Chosen, Option, Question
from generator.languages import later


@dataclass(frozen=True, slots=True)
class Readings:
    """The options taken, one a question; names and values are those of QUESTIONS."""

    set_aside: str = "ends-step"
    pairing: str = "once"
    path: str = "since-last-part"
    basic_supplied: str = "basic"
    refit_cleaning: str = "left-out"
    rounding: str = "exact"
    bare_hand: str = "no-tool"
    tools_at_once: str = "each"
    unnamed_part: str = "unknown"
    beyond_need: str = "left-out"

    @property
    def counting(self) -> Counting:
        return Counting(self.set_aside == "ends-step", self.bare_hand == "tool", self.tools_at_once == "each")


RECOMMENDED = Readings()

QUESTIONS = (
    Question(
        "set-aside",
        later("Does setting a part aside on its cable end a step?"),
        (Option("ends-step", later("yes, as (EU) 2023/2534 says")), Option("no-step", later("no"))),
    ),
    Question(
        "pairing",
        later(
            "Does a part tied to the device by its code take 5 steps more once, or for notification and authorisation each?"
        ),
        (Option("once", later("5 steps a part")), Option("twice", later("10 steps a part"))),
    ),
    Question(
        "path",
        later("Which fasteners and tools count for a part?"),
        (
            Option("since-last-part", later("those met after the priority part taken out before it")),
            Option("whole-path", later("all from the complete device on")),
        ),
    ),
    Question(
        "basic-supplied",
        later("What is a tool that is both basic and supplied?"),
        (Option("basic", later("basic, the better class")), Option("supplied", later("supplied"))),
    ),
    Question(
        "refit-cleaning",
        later("Do remains of glue that are cleaned off for reassembly count as steps?"),
        (Option("left-out", later("no, the part is out by then")), Option("counted",
        later("yes, one a glue joint made anew"))),
    ),
    Question(
        "rounding",
        later("Is the sum rounded to two decimals before it is put in a class?"),
        (
            Option("exact", later("no, the exact sum is")),
            Option("half-up", later("yes, a half upwards")),
            Option("half-even", later("yes, a half to the even digit")),
        ),
    ),
    Question(
        "bare-hand",
        later("Are bare hands a tool?"),
        (Option("no-tool", later("no")), Option("tool", later("yes, so that putting a tool down ends a step"))),
    ),
    Question(
        "tools-at-once",
        later("What do several tools used at the same time count?"),
        (Option("each", later("one step each")), Option("one", later("one step together"))),
    ),
    Question(
        "unnamed-part",
        later("What is a priority part that no part of the guide names as its role?"),
        (
            Option("unknown", later("not known, any points")),
            Option("absent", later("not in the device, 5 points (never battery, display, back cover or folding mechanism)")),
        ),
    ),
    Question(
        "beyond-need",
        later("Does what a step of the guide does besides what the part needs count?"),
        (Option("left-out", later("no, only what must come before the part")), Option("counted",
        later("yes, steps count whole"))),
    ),
)


def chosen(readings: Readings) -> tuple[Chosen, ...]:
    """Every question with the option taken."""
    return tuple(
        Chosen(question, next(option for option in question.options if option.value == value))
        for question, value in zip(QUESTIONS, _values(readings), strict=True)
    )


def others(readings: Readings) -> Iterator[tuple[Question, Option, Readings]]:
    """Every other option of every question, with the readings it makes when all else stays."""
    for question, value in zip(QUESTIONS, _values(readings), strict=True):
        for option in question.options:
            if option.value != value:
                yield question, option, replace(readings, **{_field(question.name): option.value})


def with_reading(readings: Readings, written: str) -> Readings | str:
    """`readings` with NAME=VALUE taken; where there is no such name or value, a sentence that says what there is.

    >>> with_reading(RECOMMENDED, "rounding=half-up").rounding
    'half-up'
    """
    name, _, value = (piece.strip() for piece in written.partition("="))
    question = next((question for question in QUESTIONS if question.name == name), None)
    if question is None:
        names = [question.name for question in QUESTIONS]
        return f'There is no reading "{name}". {_meant(name, names)}'
    values = [option.value for option in question.options]
    if value not in values:
        return f'The reading "{name}" cannot be "{value}". It is one of: {", ".join(values)}.'
    return replace(readings, **{_field(name): value})


def _meant(name: str, names: list[str]) -> str:
    near = get_close_matches(name, names, n=3, cutoff=0.5)
    return f"Did you mean {' or '.join(near)}?" if near else f"There are: {', '.join(names)}."


def _field(name: str) -> str:
    return name.replace("-", "_")


def _values(readings: Readings) -> tuple[str, ...]:
    return tuple(getattr(readings, field.name) for field in fields(readings))
