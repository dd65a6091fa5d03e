"""What gates what: the parts and joints that every way to a replaceable part has in common."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.anatomy.parts import JointId, PartId
from generator.orders.chaining import ItemSet, item_set, saturate
from generator.orders.guide import Guide
from generator.orders.work import Verb


@dataclass(frozen=True, slots=True)
class Gate:
    """Every way to each of `gated` lifts `part` out (or undoes `joint`; one of the two is given).

    among: the replaceable parts that have a way at all, the gate itself left out; gated is some of them, both in the
    author's order. So the main board gates len(gated) of len(among) replaceable parts.
    """

    part: PartId | None
    joint: JointId | None
    gated: tuple[PartId, ...]
    among: tuple[PartId, ...]


def gating_parts(guide: Guide) -> tuple[Gate, ...]:
    """For every part that is lifted out the replaceable parts it gates; the most gating first, then the author's order.

    A part counts as lifted by whatever step lifts it: with all of these steps taken away, what can no longer be had is
    gated. Folding a part aside is no lifting. Parts that gate nothing are left out.
    """
    ways = _Ways(guide, _replaceable(guide))
    return _most_first([ways.gate(part, None) for part in guide.anatomy.parts if part != guide.anatomy.base])


def gating_joints(guide: Guide) -> tuple[Gate, ...]:
    """The same for every joint that is undone."""
    ways = _Ways(guide, _replaceable(guide))
    return _most_first([ways.gate(None, joint) for joint in guide.anatomy.joints])


def gates_before(guide: Guide, part: PartId) -> tuple[PartId, ...]:
    """The other parts that every way to `part` lifts out, in the author's order; empty where there is no way."""
    ways = _Ways(guide, [part])
    others = [other for other in guide.anatomy.parts if other not in (part, guide.anatomy.base)]
    return tuple(other for other in others if ways.gate(other, None).gated)


class _Ways:
    """Which of some parts can be had, with all the steps of the guide and with some of them taken away."""

    def __init__(self, guide: Guide, targets: Sequence[PartId]) -> None:
        self.steps = guide.steps
        self.needs = guide.stepwise.needs
        self.everything: ItemSet = (1 << len(self.steps)) - 1
        goals = {target: self._doing(Verb.LIFT, target) for target in targets}
        reach = saturate(self.needs, self.everything)
        self.goals = {target: goal for target, goal in goals.items() if goal & reach}

    def gate(self, part: PartId | None, joint: JointId | None) -> Gate:
        doing = self._doing(Verb.LIFT, part) if part is not None else self._doing(Verb.UNDO, joint)
        left = saturate(self.needs, self.everything & ~doing) if doing else self.everything
        among = tuple(target for target in self.goals if target != part)
        return Gate(part, joint, tuple(target for target in among if not self.goals[target] & left), among)

    def _doing(self, verb: Verb, target: str | None) -> ItemSet:
        return item_set([
            number
            for number, step in enumerate(self.steps)
            if any(action.verb is verb and target in (action.part, action.joint) for action in step.actions)
        ])


def _replaceable(guide: Guide) -> list[PartId]:
    return [part.id for part in guide.anatomy.parts.values() if part.replaceable]


def _most_first(gates: Sequence[Gate]) -> tuple[Gate, ...]:
    return tuple(sorted((gate for gate in gates if gate.gated), key=lambda gate: -len(gate.gated)))
