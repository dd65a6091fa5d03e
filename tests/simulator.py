"""A bench with a device on it: parts are really moved, and every question is put to what then lies there.

The program works with clauses ("some earlier action of this kind"). This is the other way to know the same: nothing
here looks back at what was done. It asks what is still joined, what still lies together, what is still in front, which
face is up and what has been shown dead. It is slow, plain, and what the program is held to.
"""

from __future__ import annotations

import copy
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import JointId, PartId
from generator.orders.work import Action, Step, Verb

Effect = tuple[Verb, str]
"""What an action does to the device, whichever step it stands in: the verb and the joint or part."""

MOVES = (Verb.LIFT, Verb.FOLD)
MAINS_WORK = (Verb.UNDO, Verb.LIFT, Verb.FOLD, Verb.HEAT, Verb.SOAK)


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why the hands stop: `kind` names what is in the way, `what` the joint, part or face it is."""

    kind: str
    what: str


@dataclass(frozen=True, slots=True)
class Move:
    """A part that is not where it was: `taken` went with it, `whole` is all that belongs to it."""

    verb: Verb
    part: PartId
    taken: frozenset[PartId]
    whole: frozenset[PartId]

    def parts_them(self, one: PartId, other: PartId) -> bool:
        return (one in self.taken) != (other in self.taken)

    def clears(self, part: PartId, joint: Joint) -> bool:
        """Whether `part` no longer hides `joint` once this has moved."""
        ends = frozenset(joint.joins)
        carried = ends & self.taken
        if part not in self.taken:
            return carried == ends
        return not carried or (self.verb is Verb.FOLD and carried != ends)


class Bench:
    """The device as it lies on the bench, untouched at first.

    faces: the sides it can lie on, first the one that is up; without any, the device lies right for every joint.
    exempt: effects that may come before the supply plugs (see `exempt_effects`).
    is_guarding: whether the power comes first; off only to find out what cannot come after it.
    """

    def __init__(
        self,
        anatomy: Anatomy,
        faces: Sequence[str] = (),
        power: str = "none",
        exempt: frozenset[Effect] = frozenset(),
        is_guarding: bool = True,
    ) -> None:
        self.anatomy = anatomy
        self.power = power
        self.exempt = exempt
        self.is_guarding = is_guarding
        self.up: str | None = faces[0] if faces else None
        self.joined: set[JointId] = set(anatomy.joints)
        self.soft: set[JointId] = set()
        self.moves: list[Move] = []
        self.loose: set[PartId] = set()  # parts taken out of what they sat in: they no longer leave with it
        self.is_unplugged = False
        self.charged: set[PartId] = {part.id for part in anatomy.parts.values() if part.charge}
        self.did: list[Action] = []  # what changed something, for the way back
        self._wholes = {part: self._belonging(part) for part in anatomy.parts}
        self._supplies = [
            joint.id
            for joint in anatomy.joints.values()
            if joint.kind is JointKind.PLUG and any(anatomy.parts[end].cell for end in joint.joins)
        ]

    # What is done

    def perform(self, action: Action) -> Refusal | None:
        """Do `action`, or leave everything as it is and say what is in the way."""
        for refusal in self.in_the_way(action):
            return refusal
        if self._change(action):
            self.did.append(action)
        return None

    def perform_all(self, steps: Iterable[Step]) -> tuple[Action, Refusal] | None:
        """Do whole steps until an action is refused: that action and why, or None when all were done."""
        for step in steps:
            for action in step.actions:
                refusal = self.perform(action)
                if refusal:
                    return action, refusal
        return None

    def after(self, step: Step) -> Bench | None:
        """The bench once the whole `step` is done, or None where it cannot be done; this one stays as it is."""
        trial = copy.copy(self)
        trial.joined, trial.soft, trial.loose = set(self.joined), set(self.soft), set(self.loose)
        trial.moves, trial.did, trial.charged = list(self.moves), list(self.did), set(self.charged)
        return trial if trial.perform_all([step]) is None else None

    def take_back(self, action: Action) -> Refusal | None:
        """The inverse of an undo, lift or fold that is in force: fasten the joint, put the part back.

        The hands must get there as they had to on the way out, so the same things may not be in the way.
        """
        for refusal in self._between(action):
            return refusal
        if action.verb is Verb.UNDO and action.joint is not None:
            joint = self.anatomy.joints[action.joint]
            for move in self.moves:
                carried = move.taken & frozenset(joint.joins)
                is_split = bool(carried) and carried != frozenset(joint.joins)
                if is_split and not (joint.kind is JointKind.PLUG and move.verb is Verb.FOLD):
                    return Refusal("away", move.part)
            if action.joint in self.joined:
                return Refusal("fastened", action.joint)
            self.joined.add(action.joint)
        elif action.verb in MOVES and action.part is not None:
            if not self._is_moved(action.verb, action.part):
                return Refusal("in place", action.part)
            self.moves = [m for m in self.moves if (m.verb, m.part) != (action.verb, action.part)]
            if action.verb is Verb.LIFT:
                self.loose.discard(action.part)
        return None

    @property
    def is_assembled(self) -> bool:
        """Whether every joint holds and every part is in its place."""
        return self.joined == set(self.anatomy.joints) and not self.moves and not self.loose

    @property
    def lie(self) -> object:
        """How everything lies, whatever led to it: two benches with the same lie can be told apart by nothing.

        What once was in front of an undone joint, or between what has come apart, makes no difference any more.
        """
        hidden = frozenset(
            (joint.id, part)
            for joint in self.anatomy.joints.values()
            if joint.id in self.joined
            for part in joint.behind
            if self._is_in_front(part, joint)
        )
        together = frozenset(
            (one, other) for one in self.anatomy.parts for other in self.anatomy.parts if not self._are_apart(one, other)
        )
        states = (self.joined, self.soft, self.loose, self.charged)
        return (*(frozenset(state) for state in states), hidden, together, self.is_unplugged)

    # What is in the way

    def in_the_way(self, action: Action) -> Iterator[Refusal]:
        """Everything that keeps `action` from being done now."""
        yield from self._between(action)
        if action.verb is Verb.UNDO and action.joint is not None:
            joint = self.anatomy.joints[action.joint]
            if joint.softens and joint.kind is JointKind.GLUE and joint.id not in self.soft:
                yield Refusal("hard", joint.id)
            if self.up is not None and self.up != joint.face and not self._has_left_base(joint):
                yield Refusal("face", joint.face)
        if action.verb is Verb.CHECK and action.proves == "discharged" and action.part in self.charged:
            for cover in sorted(self._covers(action.part)):
                if not self._are_apart(cover, action.part):
                    yield Refusal("covered", cover)
        if action.verb in MAINS_WORK and self.power in ("mains", "both") and not self.is_unplugged:
            yield Refusal("mains", "check")
        for part in sorted(self.charged):
            if self._is_near_charge(action, part):
                yield Refusal("charge", part)

    def _between(self, action: Action) -> Iterator[Refusal]:
        """What stands between the hands and the joint or part, on the way out as on the way back."""
        if action.verb is Verb.UNDO and action.joint is not None:
            joint = self.anatomy.joints[action.joint]
            for part in joint.behind:
                if self._is_in_front(part, joint):
                    yield Refusal("behind", part)
        elif action.verb in MOVES and action.part is not None:
            if action.part == self.anatomy.base:
                yield Refusal("base", action.part)
                return
            for joint in self._holding(action.part):
                if not (action.verb is Verb.FOLD and joint.kind is JointKind.PLUG):
                    yield Refusal("held", joint.id)
            for part in self.anatomy.parts[action.part].under:
                if not self._is_off(part, action.part):
                    yield Refusal("under", part)
        if self.is_guarding and self.is_guarded(action) and effect(action) not in self.exempt:
            for supply in self._supplies:
                if supply in self.joined:
                    yield Refusal("power", supply)

    def is_guarded(self, action: Action) -> bool:
        """Whether this is work that a live device can be harmed by: another plug, a board on its way out."""
        if action.verb is Verb.UNDO and action.joint is not None:
            return self.anatomy.joints[action.joint].kind is JointKind.PLUG and action.joint not in self._supplies
        if action.verb is Verb.LIFT and action.part is not None:
            return any(self.anatomy.parts[inner].is_board for inner in self._wholes[action.part])
        return False

    @property
    def supplies(self) -> tuple[JointId, ...]:
        return tuple(self._supplies)

    # How things lie

    def _belonging(self, part: PartId) -> frozenset[PartId]:
        """`part` with all that sits in it, and in that, and so on; the base is the whole device."""
        if part == self.anatomy.base:
            return frozenset(self.anatomy.parts)
        inner = [other for other in self.anatomy.parts if self.anatomy.parts[other].inside == part]
        return frozenset({part}).union(*(self._belonging(other) for other in inner))

    def _leaving_with(self, part: PartId) -> frozenset[PartId]:
        """What is in the hands when `part` is: what sits in it and has not been taken out before."""
        inner = [other for other in self.anatomy.parts if self.anatomy.parts[other].inside == part]
        still = [other for other in inner if other not in self.loose]
        return frozenset({part}).union(*(self._leaving_with(other) for other in still))

    def _holding(self, part: PartId) -> Iterator[Joint]:
        taken = self._leaving_with(part)
        for joint in self.anatomy.joints.values():
            if joint.id in self.joined:
                carried = taken & frozenset(joint.joins)
                if carried and carried != frozenset(joint.joins):
                    yield joint

    def _is_in_front(self, part: PartId, joint: Joint) -> bool:
        return not any(move.clears(part, joint) for move in self.moves)

    def _is_off(self, cover: PartId, part: PartId) -> bool:
        """Whether `cover` no longer lies over `part`; pulling at `part` itself takes nothing off it."""
        return any(move.part != part and move.parts_them(cover, part) for move in self.moves)

    def _are_apart(self, one: PartId, other: PartId) -> bool:
        return any(move.parts_them(one, other) for move in self.moves)

    def _is_moved(self, verb: Verb, part: PartId) -> bool:
        return any((move.verb, move.part) == (verb, part) for move in self.moves)

    def _has_left_base(self, joint: Joint) -> bool:
        return any(move.verb is Verb.LIFT and frozenset(joint.joins) <= move.whole for move in self.moves)

    def _covers(self, charged: PartId) -> frozenset[PartId]:
        """What has to be away before a meter gets at `charged`: what hides its joints, what lies over it."""
        hiding = {
            part for joint in self.anatomy.joints.values() if charged in joint.joins for part in joint.behind
        }
        return frozenset(hiding) | frozenset(self.anatomy.parts[charged].under)

    def _is_near_charge(self, action: Action, charged: PartId) -> bool:
        """Whether the hands would be behind the cover of `charged`; taking the cover itself off is in front of it."""
        covers = self._covers(charged)
        if action.verb is Verb.UNDO and action.joint is not None:
            joint = self.anatomy.joints[action.joint]
            for cover in covers:
                carried = self._wholes[cover] & frozenset(joint.joins)
                if carried and carried != frozenset(joint.joins):
                    return False
            return charged in joint.joins or bool(covers & frozenset(joint.behind))
        if action.verb in MOVES and action.part is not None and action.part not in covers:
            under = frozenset(self.anatomy.parts[action.part].under)
            return charged in self._wholes[action.part] or bool(covers & under)
        return False

    # What changes

    def _change(self, action: Action) -> bool:
        """Carry `action` out; False when all is as it was before."""
        if action.verb is Verb.UNDO and action.joint in self.joined:
            self.joined.remove(action.joint)
            return True
        if action.verb in MOVES and action.part is not None:
            if self._is_moved(Verb.LIFT, action.part) or self._is_moved(action.verb, action.part):
                return False
            taken = self._leaving_with(action.part)
            self.moves.append(Move(action.verb, action.part, taken, self._wholes[action.part]))
            if action.verb is Verb.LIFT:
                self.loose.add(action.part)
            return True
        if action.verb in (Verb.HEAT, Verb.SOAK) and action.joint is not None:
            self.soft.add(action.joint)
        elif action.verb is Verb.TURN and self.up is not None:
            self.up = action.face
        elif action.verb is Verb.CHECK:
            self.is_unplugged = self.is_unplugged or action.proves == "unplugged"
            if action.proves == "discharged" and action.part is not None:
                self.charged.discard(action.part)
        return False

    def force(self, action: Action) -> None:
        """Let the effect of `action` be there although it could not be done: with it goes all that belongs to it."""
        if action.verb in MOVES and action.part is not None:
            whole = self._wholes[action.part]
            self.moves.append(Move(action.verb, action.part, whole, whole))
        else:
            self._change(action)


def effect(action: Action) -> Effect:
    if action.verb is Verb.CHECK:
        return action.verb, f"{action.proves or ''} {action.part or ''}".strip()
    return action.verb, str(action.joint or action.part or action.face or "")


def bench_for(anatomy: Anatomy, faces: Sequence[str], power: str, steps: Iterable[Step]) -> Bench:
    """A bench for the work in `steps` (all steps of the guide: the order and the alternatives)."""
    return Bench(anatomy, faces, power, exempt_effects(anatomy, power, steps))


def exempt_effects(anatomy: Anatomy, power: str, steps: Iterable[Step]) -> frozenset[Effect]:
    """The guarded effects that some supply plug cannot be reached without, found by trying.

    A supply plug that no step can reach whatever is done exempts nothing: no work is a way to it.
    """
    actions = [action for step in steps for action in step.actions]
    blank = Bench(anatomy, power=power, is_guarding=False)
    guarded = {effect(action) for action in actions if blank.is_guarded(action)}
    everything = reached(anatomy, power, actions)
    exempt: set[Effect] = set()
    for supply in blank.supplies:
        goal = (Verb.UNDO, str(supply))
        if goal not in everything:
            continue
        needed = {one for one in guarded if goal not in reached(anatomy, power, actions, frozenset({one}))}
        if goal not in reached(anatomy, power, actions, frozenset(guarded - needed)):
            needed |= guarded & leading_to(anatomy, power, actions, goal)
        exempt |= needed
    return frozenset(exempt)


def reached(
    anatomy: Anatomy, power: str, actions: Iterable[Action], without: frozenset[Effect] = frozenset()
) -> frozenset[Effect]:
    """All effects that come about when everything possible is done until nothing more is, power and faces aside."""
    bench = Bench(anatomy, power=power, is_guarding=False)
    waiting = [action for action in actions if effect(action) not in without]
    done: set[Effect] = set()
    while True:
        left = [action for action in waiting if bench.perform(action) is not None]
        done |= {effect(action) for action in waiting if action not in left}
        if len(left) == len(waiting):
            return frozenset(done)
        waiting = left


def leading_to(anatomy: Anatomy, power: str, actions: Sequence[Action], goal: Effect) -> frozenset[Effect]:
    """Every effect that clears something out of the way of `goal`, or of what clears that, and so on."""
    by_effect = {effect(action): action for action in actions}
    found: set[Effect] = set()
    open_ends = [goal]
    while open_ends:
        blocked = by_effect[open_ends.pop()]
        before = set(Bench(anatomy, power=power, is_guarding=False).in_the_way(blocked))
        for one, action in by_effect.items():
            if one in found:
                continue
            bench = Bench(anatomy, power=power, is_guarding=False)
            bench.force(action)
            if before - set(bench.in_the_way(blocked)):
                found.add(one)
                open_ends.append(one)
    return frozenset(found)
