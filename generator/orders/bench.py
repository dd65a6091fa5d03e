"""What the device itself asks: every action's clauses from what holds, hides and covers, power left out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import JointId, PartId
from generator.orders.reasons import Behind, Clause, NotSoftened, OnTheBench, Reason, StillJoined, TheBase, Under
from generator.orders.work import Action, Verb


def bench_clauses(anatomy: Anatomy, work: Sequence[Action]) -> Iterator[Clause]:
    """The clauses of every action of `work`, in its order; cost: actions times the parts that one sits in."""
    effects = _Effects(anatomy, work)
    for number, action in enumerate(work):
        for reason, members in effects.needs(action):
            yield Clause(number, reason, members)


def separates_from_joint(anatomy: Anatomy, mover: PartId, verb: Verb, part: PartId, joint: Joint) -> bool:
    """Whether lifting (or folding) `mover` takes `part` and `joint` apart, so that the joint can be reached."""
    moved = anatomy.assembly(mover)
    ends = sum(end in moved for end in joint.ends)
    if part in moved:
        return ends == 0 or (verb is Verb.FOLD and ends < len(joint.ends))
    return ends == len(joint.ends)


def separates_parts(anatomy: Anatomy, mover: PartId, one: PartId, other: PartId) -> bool:
    """Whether moving `mover` takes exactly one of the two parts away."""
    moved = anatomy.assembly(mover)
    return (one in moved) != (other in moved)


class _Effects:
    """The work indexed by its effects, once, and the needs of an action looked up in that."""

    def __init__(self, anatomy: Anatomy, work: Sequence[Action]) -> None:
        self.anatomy = anatomy
        self.undoing: dict[JointId, set[int]] = defaultdict(set)
        self.softening: dict[JointId, set[int]] = defaultdict(set)
        self.moving: dict[tuple[PartId, Verb], set[int]] = defaultdict(set)
        for number, action in enumerate(work):
            if action.verb is Verb.UNDO and action.joint is not None:
                self.undoing[action.joint].add(number)
            elif action.verb in (Verb.HEAT, Verb.SOAK) and action.joint is not None:
                self.softening[action.joint].add(number)
            elif action.verb in (Verb.LIFT, Verb.FOLD) and action.part not in (None, anatomy.base):
                self.moving[action.part, action.verb].add(number)
        self.rank = {key: number for number, key in enumerate(self.moving)}
        self.reaching = lru_cache(maxsize=None)(self._reaching)
        self.uncovering = lru_cache(maxsize=None)(self._uncovering)

    def needs(self, action: Action) -> Iterator[tuple[Reason, frozenset[int]]]:
        match action.verb:
            case Verb.UNDO if action.joint is not None:
                yield from self._needs_of_undo(self.anatomy.joints[action.joint])
            case Verb.LIFT if action.part is not None:
                yield from self._needs_of_move(action.part, lambda joint: False)
            case Verb.FOLD if action.part is not None:
                yield from self._needs_of_move(action.part, lambda joint: joint.may_stay_when_folded)

    def _needs_of_undo(self, joint: Joint) -> Iterator[tuple[Reason, frozenset[int]]]:
        for part in joint.behind:
            yield self.reaching(joint.id, part)
        if joint.kind is JointKind.GLUE and joint.softens is not None:
            yield NotSoftened(joint.id), frozenset(self.softening[joint.id])

    def _needs_of_move(self, part: PartId, may_stay: Callable[[Joint], bool]) -> Iterator[tuple[Reason, frozenset[int]]]:
        if part == self.anatomy.base:
            yield TheBase(part), frozenset()
            return
        for joint in self.anatomy.crossing(part):
            if not may_stay(joint):
                yield StillJoined(part, joint.id), frozenset(self.undoing[joint.id])
        for over in self.anatomy.parts[part].under:
            yield Under(part, over), self.uncovering(part, over)

    def _reaching(self, joint_id: JointId, part: PartId) -> tuple[Reason, frozenset[int]]:
        """The reason and the members for reaching `joint` past `part`."""
        joint = self.anatomy.joints[joint_id]
        members: set[int] = set()
        carriers: list[PartId] = []
        clears = False
        for mover, verb, numbers in self._moving_any_of(part, joint.joins[0]):
            if separates_from_joint(self.anatomy, mover, verb, part, joint):
                members |= numbers
                if part in self.anatomy.assembly(mover):
                    clears = True
                else:
                    carriers.append(mover)
        if carriers and not clears:
            return OnTheBench(joint_id, part, tuple(dict.fromkeys(carriers))), frozenset(members)
        return Behind(joint_id, part), frozenset(members)

    def _uncovering(self, part: PartId, over: PartId) -> frozenset[int]:
        return frozenset(
            number
            for mover, _, numbers in self._moving_any_of(part, over)
            if mover != part and separates_parts(self.anatomy, mover, over, part)
            for number in numbers
        )

    def _moving_any_of(self, *parts: PartId) -> Iterator[tuple[PartId, Verb, set[int]]]:
        """What moves one of the parts, alone or with what it sits in, in the order of the work; nothing else parts them."""
        movers = {above for part in parts for above in self.anatomy.chain(part)}
        keys = [(mover, verb) for mover in movers for verb in (Verb.LIFT, Verb.FOLD)]
        for mover, verb in sorted((key for key in keys if key in self.rank), key=self.rank.__getitem__):
            yield mover, verb, self.moving[mover, verb]
