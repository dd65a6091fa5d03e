"""How often a route has to add a turn, at least, before it is settled which steps are on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint
from generator.anatomy.parts import PartId
from generator.orders.chaining import ItemSet, Needs, members
from generator.orders.work import Step, Verb


@dataclass(frozen=True, slots=True)
class _Side:
    """The device has to lie with `face` up, unless a step of `carriers` has put on the bench what is worked on; or, if
    is_turn, the step turns it so itself."""

    face: str
    carriers: ItemSet
    is_turn: bool


class TurnBounds:
    """The sides each step is done on. Steps are numbered in the author's order, in which a route does what it can."""

    def __init__(self, anatomy: Anatomy, first_face: str, steps: Sequence[Step], needs: Needs) -> None:
        self.first_face = first_face
        self.needs = needs
        lifting: dict[PartId, ItemSet] = {}
        for number, step in enumerate(steps):
            for part in step.lifted:
                lifting[part] = lifting.get(part, 0) | 1 << number
        self.sides = [_sides(anatomy, lifting, number, step) for number, step in enumerate(steps)]
        self.written = [sum(side.is_turn for side in sides) for sides in self.sides]
        """How many turns each step makes itself."""
        self.carriers = [_united(side.carriers for side in sides) for sides in self.sides]
        """For each step those that would put some of its work on the bench, where no side matters."""

    def at_least(self, certain: ItemSet, allowed: ItemSet) -> int:
        """The turns to be added to any route that holds `certain` and is part of `allowed`.

        Taken off already: one for each turn that a step beyond `certain` makes itself. Steps that may have to wait for later
        ones can come anywhere, so they are left aside, as is work that may be on the bench by then.
        """
        late = self._late(certain, allowed)
        punctual = certain & ~late
        uncertain = (allowed & ~certain) | late
        lying, count = self.first_face, 0
        for number in members(punctual):
            earlier = (1 << number) - 1
            for side in self.sides[number]:
                if side.is_turn:
                    lying = side.face
                elif side.face != lying and not side.carriers & earlier & (punctual | uncertain):
                    count += 1
                    lying = side.face
        return max(0, count - sum(self.written[number] for number in members(certain & late)))

    def _late(self, certain: ItemSet, allowed: ItemSet) -> ItemSet:
        """Steps that may not be possible yet when all that stand before them are done."""
        late = 0
        for number in members(allowed):
            earlier = (1 << number) - 1
            for clause in self.needs[number]:
                if not clause & certain & earlier & ~late and clause & allowed & (late | ~earlier):
                    late |= 1 << number
                    break
        return late


def _united(sets: Iterable[ItemSet]) -> ItemSet:
    result = 0
    for each in sets:
        result |= each
    return result


def _sides(anatomy: Anatomy, lifting: Mapping[PartId, ItemSet], number: int, step: Step) -> tuple[_Side, ...]:
    """The sides of the step with this number. lifting: the steps that lift each part."""
    found: list[_Side] = []
    gone: list[PartId] = []
    for action in step.actions:
        if action.verb is Verb.TURN and action.face is not None:
            found.append(_Side(action.face, 0, True))
        elif action.verb is Verb.LIFT and action.part is not None and action.part != anatomy.base:
            gone.append(action.part)
        elif action.verb is Verb.UNDO and action.joint is not None:
            joint = anatomy.joints[action.joint]
            if not any(joint.ends <= anatomy.assembly(part) for part in gone):
                carriers = 0
                for part in _carrying(anatomy, joint):
                    carriers |= lifting.get(part, 0)
                found.append(_Side(joint.face, carriers & ~(1 << number), False))
    return tuple(found)


def _carrying(anatomy: Anatomy, joint: Joint) -> Iterator[PartId]:
    """The parts that take all ends of a joint along when they are lifted: what its first end sits in, so far as it holds."""
    for part in anatomy.chain(joint.joins[0]):
        if part != anatomy.base and joint.ends <= anatomy.assembly(part):
            yield part
