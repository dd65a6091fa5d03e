"""Small devices made up at random, with steps that take them apart well, nearly, or not at all.

Most orders are had by really taking the device apart on a bench and then, often, spoiling something: two steps change
places, an action is lost or added. So a good share can be done and the rest fails for every kind of reason.
`device(seed)` gives the same device for the same seed; the strategies below give the same kinds and can be shrunk.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from hypothesis import strategies as st

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import Cell, Charge, JointId, Part, PartId
from generator.orders.work import Action, Step, StepId, Verb
from generator.source.places import Place, Places
from tests.simulator import Bench, bench_for, exempt_effects

PLACE = Place("device.yaml")
PLACES = Places(PLACE)
CELL = Cell("Li-ion")
CHARGE = Charge(Decimal(325))
FACES = ("back", "front")
BASE = PartId("base")


@dataclass(frozen=True)
class Device:
    """All that decides whether an order can be done; `order` and `alternatives` share their step ids' name space."""

    anatomy: Anatomy
    faces: tuple[str, ...]
    power: str
    order: tuple[Step, ...]
    alternatives: tuple[Step, ...] = ()

    @property
    def steps(self) -> tuple[Step, ...]:
        return self.order + self.alternatives


def untouched(one: Device, is_laid: bool = False) -> Bench:
    """The device on the bench before anything is done; `is_laid` where the faces count."""
    return bench_for(one.anatomy, one.faces if is_laid else (), one.power, one.steps)


def device(seed: int, parts: int | None = None) -> Device:
    """The small device number `seed`: 2 to 7 parts, 1 to 8 joints, up to 7 steps of 1 to 3 actions in its order."""
    return made_up(random.Random(seed), parts)


def route_device(seed: int) -> Device:
    """A device for route search: an order that mostly goes through, and steps beside it that do the same otherwise.

    Every other one is woven so that a part can be had in several ways, with work on both faces.
    """
    chance = random.Random(seed)
    return made_for_routes(chance) if seed % 2 else woven(chance)


def random_fixture(seed: int, parts: int) -> Device:
    """A device of `parts` parts (20 to 80 say) whose order takes it all apart as far as it goes; for timing."""
    chance = random.Random(seed)
    anatomy = big_anatomy(chance, parts)
    sequence = taken_apart(chance, anatomy, FACES, "cell", 12 * parts, carelessness=0.0)
    steps = in_steps(chance, sequence, 12 * parts, "step", doubling=0.0)
    return Device(anatomy, FACES, "cell", steps)


def random_fixtures(count: int = 4) -> tuple[Device, ...]:
    """Devices of 20 to 80 parts, evenly spread."""
    return tuple(random_fixture(seed, 20 + seed * 60 // max(count - 1, 1)) for seed in range(count))


def devices() -> st.SearchStrategy[Device]:
    """Small devices for Hypothesis."""
    return st.randoms(use_true_random=False).map(made_up)


def permutations_of(one: Device) -> st.SearchStrategy[tuple[Step, ...]]:
    """Orders of the device's steps, possible or not."""
    return st.permutations(one.order).map(tuple)


def possible_orders(one: Device) -> st.SearchStrategy[tuple[Step, ...]]:
    """Orders of as many of the device's steps as can be done one after the other, faces left aside."""
    return st.randoms(use_true_random=False).map(lambda chance: possible_order(chance, one))


def possible_order(chance: random.Random, one: Device) -> tuple[Step, ...]:
    """Draw a step that can be done until none is left that can."""
    done: list[Step] = []
    left = list(one.order)
    bench = untouched(one)
    while left:
        chance.shuffle(left)
        for step in left:
            then = bench.after(step)
            if then is not None:
                bench = then
                done.append(step)
                left.remove(step)
                break
        else:
            break
    return tuple(done)


# One device


def made_up(chance: random.Random, parts: int | None = None) -> Device:
    anatomy = small_anatomy(chance, parts or chance.randint(2, 7))
    faces = FACES if chance.random() < 0.6 else FACES[:1]
    power = chance.choice(("cell", "cell", "cell", "none", "mains", "both"))
    way = chance.random()
    if way < 0.12:
        sequence = [any_action(chance, anatomy, faces) for _ in range(chance.randint(2, 12))]
    else:
        sequence = taken_apart(chance, anatomy, faces, power, chance.randint(3, 18))
    order = list(in_steps(chance, sequence, 7, "step"))
    if 0.4 < way < 0.6:
        swap(chance, order)
    elif 0.6 < way < 0.75:
        order = [spoiled(chance, step, anatomy, faces) if chance.random() < 0.35 else step for step in order]
    elif way > 0.92:
        chance.shuffle(order)
    alternatives = other_steps(chance, anatomy, faces, chance.choice((0, 0, 1, 2)))
    return Device(anatomy, faces, power, tuple(order), alternatives)


def made_for_routes(chance: random.Random) -> Device:
    anatomy = small_anatomy(chance, chance.randint(3, 7))
    faces = FACES if chance.random() < 0.7 else FACES[:1]
    power = chance.choice(("cell", "cell", "none", "mains"))
    sequence = taken_apart(chance, anatomy, faces, power, chance.randint(6, 18))
    order = list(in_steps(chance, sequence, 7, "step"))
    if chance.random() < 0.3:
        swap(chance, order)
    again = taken_apart(chance, anatomy, faces, power, chance.randint(3, 12))
    other = list(in_steps(chance, again, 7, "other"))
    chance.shuffle(other)
    other = other[: chance.randint(0, 3)]
    if chance.random() < 0.4:
        other = [spoiled(chance, step, anatomy, faces) for step in other]
    if chance.random() < 0.4:
        order = [replace(step, takes=chance.choice((20, 30, 60, 60, 120, 300))) for step in order]
        other = [replace(step, takes=chance.choice((20, 30, 60, 60, 120, 300))) for step in other]
        if other and chance.random() < 0.1:
            other[0] = replace(other[0], takes=None)
    return Device(anatomy, faces, power, tuple(order), tuple(other))


def woven(chance: random.Random) -> Device:
    """Parts in holders, each hidden by some before it: to clear one away, take it out, fold it, or take its holder.

    One step a part and way (undo what holds it, then move it), and few single steps, so that what is cheapest by actions
    need not be when the turns are counted.
    """
    names = [PartId(f"p{number}") for number in range(1, chance.randint(4, 6))]
    parts = {BASE: part(BASE)}
    joints: dict[JointId, Joint] = {}
    steps: list[Step] = []
    for number, name in enumerate(names):
        earlier = names[:number]
        holder = chance.choice(earlier) if earlier and chance.random() < 0.5 else None
        hiding = tuple(chance.sample(earlier, min(len(earlier), chance.choice((0, 1, 1, 2)))))
        under = tuple(other for other in earlier if chance.random() < 0.2)
        parts[name] = part(name, inside=holder, under=under)
        held = [JointId(f"{name}-{which}") for which in range(chance.choice((0, 1, 1, 2, 3)))]
        is_one_sided = chance.random() < 0.5
        for count, which in enumerate(held):
            kind = chance.choice((JointKind.SCREWS, JointKind.PLUG))
            face = FACES[0] if is_one_sided else FACES[(count + 1) % 2]
            joints[which] = joint(which, kind, name, holder or BASE, behind=hiding, face=face)
        undoing = [action(Verb.UNDO, joint=which) for which in held]
        lift = action(Verb.LIFT, part=name)
        if undoing and chance.random() < 0.4:
            steps += [step(f"undo-{name}", undoing), step(f"lift-{name}", [lift])]
        else:
            steps.append(step(f"take-{name}", [*undoing, lift]))
        if chance.random() < 0.5:
            staying = [one for one in undoing if one.joint and joints[one.joint].kind is not JointKind.PLUG]
            steps.append(step(f"fold-{name}", [*staying, action(Verb.FOLD, part=name)]))
        if undoing and chance.random() < 0.25:
            turned = [action(Verb.TURN, face=chance.choice(FACES)), *undoing]
            steps.append(step(f"turned-{name}", turned))
    if chance.random() < 0.3:
        steps.insert(0, step("turn-over", [action(Verb.TURN, face=FACES[1])]))
    if chance.random() < 0.6:
        chance.shuffle(steps)
    steps = steps[:10]
    if chance.random() < 0.2:
        steps = [replace(one, takes=chance.choice((20, 30, 60, 120))) for one in steps]
    ordered = chance.randint(max(1, len(steps) - 3), len(steps))
    return Device(Anatomy(BASE, parts, joints), FACES, "none", tuple(steps[:ordered]), tuple(steps[ordered:]))


def small_anatomy(chance: random.Random, count: int) -> Anatomy:
    names = [BASE, *(PartId(f"p{number}") for number in range(1, count))]
    parts = {BASE: part(BASE)}
    for number, name in enumerate(names[1:], 1):
        inside = chance.choice(names[:number]) if chance.random() < 0.3 else None
        others = [other for other in names[1:] if other != name]
        under = tuple(chance.sample(others, chance.choice((1, 1, 2)))) if len(others) > 1 and chance.random() < 0.2 else ()
        parts[name] = part(
            name,
            inside=inside,
            under=under,
            cell=CELL if chance.random() < 0.2 else None,
            charge=CHARGE if chance.random() < 0.08 else None,
            material="board" if chance.random() < 0.25 else None,
        )
    kinds = (JointKind.SCREWS, JointKind.PLUG, JointKind.PLUG, JointKind.GLUE, JointKind.CLIPS, JointKind.PRESS)
    joints: dict[JointId, Joint] = {}
    is_supply_hidden = count > 2 and chance.random() < 0.4
    for number in range(chance.randint(1, 3 if is_supply_hidden else 8)):
        kind = chance.choice(kinds if chance.random() < 0.95 else (JointKind.SOLDER,))
        ends = chance.sample(names, min(count, 3 if chance.random() < 0.12 else 2))
        cells = [name for name in names if parts[name].cell]
        if cells and chance.random() < 0.15:
            kind = JointKind.PLUG
            ends = [chance.choice(cells), *(other for other in ends if other not in cells)][:2]
        hiding = tuple(chance.sample(names[1:], 1 if chance.random() < 0.8 else min(2, count - 1)))
        joint_name = JointId(f"j{number}")
        joints[joint_name] = joint(
            joint_name,
            kind,
            *ends,
            behind=hiding if chance.random() < 0.35 else (),
            face=FACES[chance.random() < 0.25],
            softens=chance.choice(("heat", "solvent", None)) if kind is JointKind.GLUE else None,
        )
    if is_supply_hidden:
        with_hidden_supply(chance, names[1:], parts, joints)
    return Anatomy(BASE, parts, joints)


def with_hidden_supply(
    chance: random.Random, names: Sequence[PartId], parts: dict[PartId, Part], joints: dict[JointId, Joint]
) -> None:
    """Put supply plugs behind boards and plugged parts: what the power cannot come before.

    With two covers in one place either gives access, so neither alone is needed.
    """
    for number in range(chance.choice((1, 1, 1, 2))):
        cell, *covers = chance.sample(names, min(len(names), chance.choice((2, 2, 3))))
        parts[cell] = replace(parts[cell], cell=CELL)
        for cover in covers:
            is_in_cover = cover != covers[0] and chance.random() < 0.5
            parts[cover] = replace(
                parts[cover],
                material="board" if chance.random() < 0.6 else parts[cover].material,
                inside=covers[0] if is_in_cover and parts[covers[0]].inside is None else parts[cover].inside,
            )
            if chance.random() < 0.5:
                name = JointId(f"cable{number}-{cover}")
                joints[name] = joint(name, JointKind.PLUG, cover, BASE)
        name = JointId(f"supply{number}")
        joints[name] = joint(name, JointKind.PLUG, cell, BASE, behind=tuple(covers[-1:]))


def big_anatomy(chance: random.Random, count: int) -> Anatomy:
    """Layers on both faces: what is hidden is hidden by parts nearer the outside, so all of it can come apart."""
    names = [BASE, *(PartId(f"p{number}") for number in range(1, count))]
    parts = {BASE: part(BASE)}
    joints = {}
    for number, name in enumerate(names[1:], 1):
        outer = names[max(1, number - 9) : number]
        is_inner = number > 3 and chance.random() < 0.2
        parts[name] = part(
            name,
            inside=chance.choice(names[max(1, number - 6) : number]) if is_inner else None,
            under=(chance.choice(outer),) if outer and not is_inner and chance.random() < 0.1 else (),
            cell=CELL if number == count // 3 else None,
            material="board" if chance.random() < 0.15 else None,
            face=FACES[number % 2],
        )
        for which in range(chance.randint(1, 3)):
            joint_name = JointId(f"j{number}-{which}")
            kind = chance.choice((JointKind.SCREWS, JointKind.PLUG, JointKind.GLUE, JointKind.CLIPS))
            hiding = tuple(
                other for other in chance.sample(outer, min(len(outer), 2)) if other != parts[name].inside
            )
            joints[joint_name] = joint(
                joint_name,
                kind,
                name,
                parts[name].inside or BASE,
                behind=hiding if chance.random() < 0.5 else (),
                face=FACES[number % 2],
                softens="heat" if kind is JointKind.GLUE else None,
            )
        if number == count // 3:
            plug = JointId("supply")
            joints[plug] = joint(plug, JointKind.PLUG, name, BASE, face=FACES[0])
    return Anatomy(BASE, parts, joints)


def part(name: str, **known: object) -> Part:
    return Part(PartId(name), name, str(known.pop("face", FACES[0])), PLACE, PLACES, **known)  # type: ignore[arg-type]


def joint(name: str, kind: JointKind, *ends: str, face: str = FACES[0], **known: object) -> Joint:
    joins = tuple(PartId(end) for end in ends)
    return Joint(JointId(name), kind, name, joins, face, PLACE, PLACES, **known)  # type: ignore[arg-type]


# Its steps


def every_action(anatomy: Anatomy, faces: Sequence[str]) -> list[Action]:
    """Each thing that could be done to the device, once."""
    actions = [action(Verb.CHECK, proves="unplugged")]
    for name, known in anatomy.parts.items():
        if name != anatomy.base:
            actions += [action(Verb.LIFT, part=name), action(Verb.FOLD, part=name)]
        if known.charge:
            actions.append(action(Verb.CHECK, part=name, proves="discharged"))
    for known_joint in anatomy.joints.values():
        actions.append(action(Verb.UNDO, joint=known_joint.id))
        if known_joint.softens:
            softening = Verb.HEAT if known_joint.softens == "heat" else Verb.SOAK
            actions.append(action(softening, joint=known_joint.id))
    return actions + [action(Verb.TURN, face=face) for face in faces[1:]] + [action(Verb.TURN, face=faces[0])]


def any_action(chance: random.Random, anatomy: Anatomy, faces: Sequence[str]) -> Action:
    actions = every_action(anatomy, faces)
    odd = (
        action(Verb.WAIT),
        action(Verb.CHECK, words="look closely"),
        action(Verb.LIFT, part=anatomy.base),
        action(Verb.HEAT, joint=next(iter(anatomy.joints))),
    )
    return chance.choice(odd) if chance.random() < 0.04 else chance.choice(actions)


def taken_apart(
    chance: random.Random, anatomy: Anatomy, faces: Sequence[str], power: str, length: int, carelessness: float = 0.2
) -> list[Action]:
    """Up to `length` actions of which each can be done when its turn comes (in some the power is forgotten).

    Parts are lifted as soon as they may be, rather than folded; the device is turned when nothing else is left.
    """
    left = every_action(anatomy, faces)
    if chance.random() < 0.5:
        left = [one for one in left if one.verb is not Verb.FOLD]
    exempt = exempt_effects(anatomy, power, [step("all", left)])
    bench = Bench(anatomy, faces, power, exempt, is_guarding=chance.random() >= carelessness)
    chance.shuffle(left)
    rank = {Verb.CHECK: 0.3, Verb.LIFT: 0.5, Verb.UNDO: 1.0, Verb.HEAT: 1.2, Verb.SOAK: 1.2, Verb.FOLD: 2.2, Verb.TURN: 2.5}
    done: list[Action] = []
    while len(done) < length:
        left.sort(key=lambda one: rank[one.verb] + chance.random())
        for one in left:
            if one.verb is Verb.TURN and one.face == bench.up:
                continue
            if bench.perform(one) is None:
                done.append(one)
                if one.verb is not Verb.TURN:
                    left.remove(one)
                elif done[-2:-1] and done[-2].verb is Verb.TURN:
                    return done[:-2]
                break
        else:
            break
    return done


def in_steps(
    chance: random.Random, sequence: Sequence[Action], most: int, name: str, doubling: float = 0.04
) -> tuple[Step, ...]:
    """Cut a sequence into at most `most` steps of 1 to 3 actions; now and then an action is said twice."""
    steps: list[Step] = []
    rest = list(sequence)
    while rest and len(steps) < most:
        length = chance.choice((1, 1, 2, 2, 3))
        taken, rest = rest[:length], rest[length:]
        if chance.random() < doubling and len(taken) < 3:
            taken.append(chance.choice(list(sequence)))
        steps.append(step(f"{name}-{len(steps)}", taken))
    return tuple(steps)


def other_steps(chance: random.Random, anatomy: Anatomy, faces: Sequence[str], count: int) -> tuple[Step, ...]:
    return tuple(
        step(f"other-{number}", [any_action(chance, anatomy, faces) for _ in range(chance.randint(1, 3))])
        for number in range(count)
    )


def spoiled(chance: random.Random, one: Step, anatomy: Anatomy, faces: Sequence[str]) -> Step:
    """The same step with one action lost, added, or put first."""
    actions = list(one.actions)
    way = chance.randrange(3)
    if way == 0 and len(actions) > 1:
        actions.pop(chance.randrange(len(actions)))
    elif way == 1:
        actions[chance.randrange(len(actions))] = any_action(chance, anatomy, faces)
    else:
        actions.insert(0, actions.pop())
    return step(one.id, actions)


def swap(chance: random.Random, order: list[Step]) -> None:
    if len(order) > 1:
        one, other = chance.sample(range(len(order)), 2)
        order[one], order[other] = order[other], order[one]


def action(verb: Verb, **known: object) -> Action:
    return Action(StepId(""), 0, verb, PLACE, **known)  # type: ignore[arg-type]


def step(name: str, actions: Sequence[Action]) -> Step:
    """A step of these actions, each told its step, its number and a place of its own."""
    file = f"steps/{name}.md"
    placed = tuple(
        replace(one, step=StepId(name), number=number, place=Place(file, number + 1))
        for number, one in enumerate(actions)
    )
    return Step(StepId(name), name, placed, Place(file), Places(Place(file)))
