"""order/loop"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.chaining import members
from generator.orders.guide import Guide
from generator.orders.rings import Ring
from generator.orders.stepwise import StepClause
from generator.rules.finding import Finding, Mend
from generator.rules.sentences import what_holds_it
from generator.rules.wording import listed, sentence, step_name
from generator.source.places import Place


def loop(guide: Guide) -> Iterator[Finding]:
    """Steps wait for each other in a ring, so that none of them can be the first.

    Why: no order of these steps can be performed; moving lines about does not help.
    Bad: the cover is held by a clip that is behind the board, and the board is under the cover.
    Good: a step in between, such as folding the cover aside; or the anatomy put right where it says too much.
    Silent when: one of the steps has another way, such as an alternative step that does the same.
    """
    for ring in guide.rings:
        names = [_name(guide, number) for number in ring.steps]
        if len(names) == 1:
            message = f"{sentence(names[0])} waits for itself: what it needs is done only in its own later lines."
        else:
            message = f"These steps wait for each other, so none of them can come first: {listed(names)}."
        yield Finding(
            place=_place(guide, ring),
            message=message,
            why=tuple(_waits(guide, clause) for clause in ring.clauses),
            mend=Mend("Split one of these steps in two, or correct what anatomy.yaml says about these parts and joints."),
        )


def _waits(guide: Guide, clause: StepClause) -> str:
    waiting = guide.stepwise.steps[clause.step]
    awaited = [_name(guide, number) for number in members(clause.items)]
    fact = what_holds_it(guide, clause.source.reason)
    return f"{sentence(step_name(guide, waiting.id))} waits for {listed(awaited, 'or')}: {fact}."


def _name(guide: Guide, number: int) -> str:
    return step_name(guide, guide.stepwise.steps[number].id)


def _place(guide: Guide, ring: Ring) -> Place:
    step = guide.stepwise.steps[ring.steps[0]]
    return guide.line_in_order(step.id) or step.place
