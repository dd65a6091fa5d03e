"""Power first: which actions wait until the device is dead, and which lie on the way to its supply and cannot wait."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.anatomy.device import Anatomy, crosses
from generator.anatomy.joints import JointKind
from generator.anatomy.parts import JointId, Part, PartId
from generator.orders.bench import separates_parts
from generator.orders.chaining import ItemSet, item_set, members, saturate
from generator.orders.necessity import gates_of
from generator.orders.reasons import ChargeFirst, Clause, Covered, MainsFirst, PowerFirst
from generator.orders.work import Action, Verb

Effect = tuple[Verb, JointId | PartId]

DISTURBING = (Verb.UNDO, Verb.LIFT, Verb.FOLD, Verb.HEAT, Verb.SOAK)
"""Actions that work on the device; the rest only turns, looks and waits."""


def power_clauses(anatomy: Anatomy, work: Sequence[Action], bench: Sequence[Clause], power: str) -> Iterator[Clause]:
    """The clauses that keep the reader safe: supply plugs, mains, stored charge.

    bench: the clauses of the same work without power. What a supply plug cannot do without is asked with mains and stored
    charge already minded, so that measuring may need a board out before the plug is reached.
    """
    others: list[Clause] = []
    if power in ("mains", "both"):
        others += _mains_first(work)
    for part in anatomy.charged:
        others += _charge_first(anatomy, work, part)
    yield from _supply_first(anatomy, work, [*bench, *others])
    yield from others


def is_guarded(anatomy: Anatomy, action: Action) -> bool:
    """Whether an action waits for the supply: undoing another plug, or lifting what holds a board."""
    if action.verb is Verb.UNDO and action.joint is not None:
        joint = anatomy.joints[action.joint]
        return joint.kind is JointKind.PLUG and joint not in anatomy.supply_plugs
    if action.verb is Verb.LIFT and action.part is not None:
        return any(anatomy.parts[member].is_board for member in anatomy.assembly(action.part))
    return False


def exempt_effects(anatomy: Anatomy, work: Sequence[Action], clauses: Sequence[Clause]) -> frozenset[Effect]:
    """The guarded effects that some supply plug cannot do without.

    An effect is exempt if the plug cannot be reached once every action with that effect is taken away. Where only several
    guarded ways together stand open (either one will do, so neither is indispensable), all the plug depends on are exempt:
    a guide must not be made impossible by its own safety. A plug that cannot be reached at all exempts nothing.
    clauses: those of the work, the supply left out.
    """
    needs = _needs(work, clauses)
    everything = (1 << len(work)) - 1
    guarded: dict[Effect, ItemSet] = {}
    for number, action in enumerate(work):
        if is_guarded(anatomy, action):
            effect = _effect(action)
            guarded[effect] = guarded.get(effect, 0) | 1 << number
    reach = saturate(needs, everything)
    gates: list[ItemSet] = []
    exempt: set[Effect] = set()
    for plug in anatomy.supply_plugs:
        undoing = item_set([n for n, a in enumerate(work) if a.verb is Verb.UNDO and a.joint == plug.id])
        reached = undoing & reach
        if not reached:
            continue
        gates = gates or gates_of(needs, everything)
        shared = everything
        for number in members(reached):
            shared &= gates[number] | 1 << number
        indispensable = {
            effect
            for effect, actions in guarded.items()
            if actions & shared or (actions.bit_count() > 1 and not saturate(needs, everything & ~actions) & undoing)
        }
        others = 0
        for effect, actions in guarded.items():
            if effect not in indispensable:
                others |= actions
        if not saturate(needs, everything & ~others) & undoing:
            leading = _backward(needs, undoing)
            indispensable |= {effect for effect, actions in guarded.items() if actions & leading}
        exempt |= indispensable
    return frozenset(exempt)


def _supply_first(anatomy: Anatomy, work: Sequence[Action], clauses: Sequence[Clause]) -> Iterator[Clause]:
    if not anatomy.supply_plugs:
        return
    exempt = exempt_effects(anatomy, work, clauses)
    undoing = {
        plug.id: frozenset(n for n, a in enumerate(work) if a.verb is Verb.UNDO and a.joint == plug.id)
        for plug in anatomy.supply_plugs
    }
    for number, action in enumerate(work):
        if is_guarded(anatomy, action) and _effect(action) not in exempt:
            for plug, actions in undoing.items():
                yield Clause(number, PowerFirst(plug), actions)


def _mains_first(work: Sequence[Action]) -> Iterator[Clause]:
    checks = frozenset(n for n, a in enumerate(work) if a.verb is Verb.CHECK and a.proves == "unplugged")
    for number, action in enumerate(work):
        if action.verb in DISTURBING:
            yield Clause(number, MainsFirst(), checks)


def covers_of(anatomy: Anatomy, part: Part) -> frozenset[PartId]:
    """What lies in front of a charged part: all that its joints are behind, and all it is under."""
    behind = (cover for joint in anatomy.joints.values() if part.id in joint.ends for cover in joint.behind)
    return frozenset(behind) | frozenset(part.under)


def _charge_first(anatomy: Anatomy, work: Sequence[Action], part: Part) -> Iterator[Clause]:
    covers = covers_of(anatomy, part)
    checks = frozenset(
        n for n, a in enumerate(work) if a.verb is Verb.CHECK and a.proves == "discharged" and a.part == part.id
    )
    for number, action in enumerate(work):
        if number in checks:
            for cover in anatomy.parts:
                if cover in covers:
                    yield Clause(number, Covered(part.id, cover), _uncovering(anatomy, work, cover, part.id))
        elif _is_behind_cover(anatomy, action, part.id, covers):
            yield Clause(number, ChargeFirst(part.id), checks)


def _is_behind_cover(anatomy: Anatomy, action: Action, part: PartId, covers: frozenset[PartId]) -> bool:
    if action.verb is Verb.UNDO and action.joint is not None:
        joint = anatomy.joints[action.joint]
        if any(crosses(joint, anatomy.assembly(cover)) for cover in covers):
            return False
        return part in joint.ends or bool(covers & set(joint.behind))
    if action.verb in (Verb.LIFT, Verb.FOLD) and action.part is not None and action.part not in covers:
        return part in anatomy.assembly(action.part) or bool(covers & set(anatomy.parts[action.part].under))
    return False


def _uncovering(anatomy: Anatomy, work: Sequence[Action], cover: PartId, part: PartId) -> frozenset[int]:
    return frozenset(
        number
        for number, action in enumerate(work)
        if action.verb in (Verb.LIFT, Verb.FOLD)
        and action.part is not None
        and action.part != anatomy.base
        and separates_parts(anatomy, action.part, cover, part)
    )


def _effect(action: Action) -> Effect:
    target = action.joint if action.verb is Verb.UNDO else action.part
    assert target is not None  # guarded actions have one
    return action.verb, target


def _needs(work: Sequence[Action], clauses: Sequence[Clause]) -> list[list[ItemSet]]:
    needs: list[list[ItemSet]] = [[] for _ in work]
    for clause in clauses:
        needs[clause.action].append(item_set(clause.members))
    return needs


def _backward(needs: Sequence[Sequence[ItemSet]], start: ItemSet) -> ItemSet:
    """All items that `start` depends on through any member of any clause, `start` included."""
    found, fresh = start, start
    while fresh:
        reached = 0
        for item in members(fresh):
            for clause in needs[item]:
                reached |= clause
        fresh = reached & ~found
        found |= fresh
    return found



