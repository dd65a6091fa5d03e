"""What a search for routes knows of a guide, as plain lists: so that a reader's page can search without the program.

The clauses between steps, what each step lifts, costs, takes up and turns: nothing in words. `best_route` and whoever
solves a problem have to give the same steps in the same order with the same added turns.
"""

from __future__ import annotations

from typing import TypedDict

from generator.anatomy.parts import PartId
from generator.orders.chaining import members
from generator.orders.guide import Guide
from generator.orders.work import Action, Step, Verb


class ActionFacts(TypedDict, total=False):
    """What an action means for tools and sides; keys that do not apply are left out.

    tools: numbers, one for each set of tools that is taken up; turn: the face turned up; face: the face a joint is undone
    from; carriers: parts that take that joint to the bench when they are lifted; lift: the part lifted out.
    """

    tools: int
    turn: str
    face: str
    carriers: list[str]
    lift: str


class StepFacts(TypedDict):
    """cost: seconds where every step has them, else actions. needs: clauses, each the numbers of steps one of which is to
    be done before. turnsOnly: nothing but turning and waiting; onlyTurn: the face, if the step is one turn and no more."""

    id: str
    cost: int
    seconds: int | None
    needs: list[list[int]]
    lifts: list[str]
    turnsOnly: bool
    onlyTurn: str | None
    isInOrder: bool
    actions: list[ActionFacts]


class Problem(TypedDict):
    firstFace: str
    hasMinutes: bool
    steps: list[StepFacts]


def problem_of(guide: Guide) -> Problem:
    """The route problem of a guide; steps are numbered from 0, the order first, then the alternatives."""
    stepwise = guide.stepwise
    has_minutes = all(step.takes is not None for step in stepwise.steps)
    sets: dict[frozenset[str], int] = {}
    carriers = _Carriers(guide)
    return {
        "firstFace": guide.device.faces[0],
        "hasMinutes": has_minutes,
        "steps": [
            {
                "id": step.id,
                "cost": max(step.takes, 1) if has_minutes and step.takes is not None else len(step.actions),
                "seconds": step.takes,
                "needs": [list(members(clause)) for clause in stepwise.needs[number]],
                "lifts": list(dict.fromkeys(step.lifted)),
                "turnsOnly": all(action.verb in (Verb.TURN, Verb.WAIT) for action in step.actions),
                "onlyTurn": step.actions[0].face if _is_one_turn(step) else None,
                "isInOrder": number < len(guide.order),
                "actions": [_facts(guide, action, sets, carriers) for action in step.actions],
            }
            for number, step in enumerate(stepwise.steps)
        ],
    }


class _Carriers:
    """The parts that take a joint to the bench, in the author's order; only parts that some step lifts matter."""

    def __init__(self, guide: Guide) -> None:
        self.guide = guide
        lifted = {part for step in guide.steps for part in step.lifted}
        self.parts = [part for part in guide.anatomy.parts if part in lifted and part != guide.anatomy.base]

    def of(self, ends: frozenset[PartId]) -> list[str]:
        return [part for part in self.parts if ends <= self.guide.anatomy.assembly(part)]


def _is_one_turn(step: Step) -> bool:
    return len(step.actions) == 1 and step.actions[0].verb is Verb.TURN


def _facts(guide: Guide, action: Action, sets: dict[frozenset[str], int], carriers: _Carriers) -> ActionFacts:
    facts: ActionFacts = {}
    tools = frozenset[str](guide.tools_of(action))
    if tools:
        facts["tools"] = sets.setdefault(tools, len(sets) + 1)
    if action.verb is Verb.TURN and action.face is not None:
        facts["turn"] = action.face
    elif action.verb is Verb.UNDO and action.joint is not None:
        joint = guide.joint(action.joint)
        facts["face"] = joint.face
        facts["carriers"] = carriers.of(joint.ends)
    elif action.verb is Verb.LIFT and action.part is not None:
        facts["lift"] = action.part
    return facts
