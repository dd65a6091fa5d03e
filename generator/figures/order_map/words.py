"""The order map in words: its numbers, its title, and the same told as a table."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from generator.anatomy.device import Anatomy
from generator.languages import later, list_of, say
from generator.orders.chaining import members
from generator.orders.waits import Waits
from generator.orders.work import Step, StepId

ALONE = later("at any time")
"""Caption of the steps that wait for none and that none waits for."""

NONE = later("nothing")


@dataclass(frozen=True, slots=True)
class WaitsRow:
    """What one step waits for, in words: "1, 8 and either 7 or b". waits_for is `NONE` if it waits for nothing."""

    step: StepId
    number: str
    title: str
    waits_for: str


def waits_table(waits: Waits, run: Sequence[Step]) -> tuple[WaitsRow, ...]:
    """The order map told as a table, one row a step in the order of `waits`; numbers as in the map."""
    numbers = numbers_of(waits, run)
    return tuple(
        WaitsRow(step.id, numbers[step.id], step.title, _waits_for(waits, number, numbers))
        for number, step in enumerate(waits.steps)
    )


def numbers_of(waits: Waits, run: Sequence[Step]) -> Mapping[StepId, str]:
    """Steps of the run by their place in it, from 1; the others in `waits` by letters: a to z, aa, ab and so on."""
    numbers = {step.id: str(number) for number, step in enumerate(run, 1)}
    others = [step.id for step in waits.steps if step.id not in numbers]
    return numbers | {step: _letters(place) for place, step in enumerate(others)}


def brief_titles(anatomy: Anatomy, steps: Iterable[Step]) -> Mapping[StepId, str]:
    """Shorter words for the steps that take parts out: the names of the parts; the other steps keep their titles."""
    names = {step.id: ", ".join(anatomy.parts[part].name for part in dict.fromkeys(step.lifted)) for step in steps}
    return {step: f"{name[:1].upper()}{name[1:]}" for step, name in names.items() if name}


def title_of(waits: Waits, numbers: Mapping[StepId, str], targets: Collection[StepId]) -> str:
    reached = [say("step {number}", number=numbers[step.id]) for step in waits.steps if step.id in targets]
    return say("Order map, with the route to {steps}", steps=list_of(reached)) if reached else say("Order map")


def desc_of(
    waits: Waits,
    numbers: Mapping[StepId, str],
    chosen: Collection[StepId],
    targets: Collection[StepId],
    *,
    is_cut: bool,
) -> str:
    """What the map shows, without its links, which say themselves what they are."""
    sentences = [say("What has to come out before what: a line leads from a step to each step that waits for it")]
    route = [numbers[step.id] for step in waits.steps if step.id in chosen or step.id in targets]
    if targets and route:
        sentences.append(
            say(
                "The route goes through {number} of {all} steps: {steps}",
                number=len(route),
                all=len(waits.steps),
                steps=list_of(route),
            )
        )
    sentences += [
        say(
            "Step {number} waits for {steps}",
            number=numbers[waits.steps[either.step].id],
            steps=_either(waits, either.items, numbers),
        )
        for either in waits.eithers
    ]
    others = [numbers[step.id] for step in waits.steps if not numbers[step.id].isdigit()]
    if others:
        sentences.append(say("Outside the order: {steps}", steps=list_of(others)))
    if is_cut:
        sentences.append(say("Some steps wait for each other in a ring, which is drawn without the line that closes it"))
    return ". ".join(sentences) + "."


def _waits_for(waits: Waits, number: int, numbers: Mapping[StepId, str]) -> str:
    single = [numbers[waits.steps[other].id] for other in members(waits.before[number])]
    choices = [_either(waits, either.items, numbers) for either in waits.eithers_of(number)]
    return list_of([*single, *choices]) or say(NONE)


def _either(waits: Waits, items: int, numbers: Mapping[StepId, str]) -> str:
    *others, last = (numbers[waits.steps[member].id] for member in members(items))
    for other in reversed(others):
        last = say("{step} or {others}", step=other, others=last)
    return say("either {steps}", steps=last)


def _letters(place: int) -> str:
    """
    >>> _letters(0), _letters(25), _letters(26)
    ('a', 'z', 'aa')
    """
    head, last = divmod(place, 26)
    return (_letters(head - 1) if head else "") + "abcdefghijklmnopqrstuvwxyz"[last]
