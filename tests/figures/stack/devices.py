"""Devices with boxes made up at random, for the stack: layers of parts on two faces, taken apart from the outside in."""

from __future__ import annotations

import random
from collections.abc import Sequence

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import Box, Feature, JointId, Part, PartId, Point
from generator.orders.guide import Device, Guide
from generator.orders.work import Action, Step, StepId, Verb
from generator.source.places import Place, Places

PLACE = Place("device.yaml")
PLACES = Places(PLACE)
FACES = ("back", "front")
BASE = PartId("frame")

_NAMES = (
    "board",
    "upper cover",
    "sub-board with microphone and a spring contact for the housing",
    "Donaudampfschifffahrtsgesellschaftskapitänskajütenschlüssel",
    "<script>alert('x')</script> & \"quotes\"",
    "W" * 90,
    "",
    "左スピーカー用の金属カバーと防水パッキン",
    "nul \x00 and bell \x07",
    "lid",
)


def part(name: str, box: Sequence[float] | None = None, face: str = FACES[0], **known: object) -> Part:
    spoken = str(known.pop("called", name.replace("-", " ")))
    return Part(PartId(name), spoken, face, PLACE, PLACES, box=Box(*box) if box else None, **known)  # type: ignore[arg-type]


def joint(name: str, kind: str, ends: Sequence[str], **known: object) -> Joint:
    joins = tuple(PartId(end) for end in ends)
    return Joint(JointId(name), JointKind(kind), name, joins, FACES[0], PLACE, PLACES, **known)  # type: ignore[arg-type]


def step(name: str, *work: tuple[str, str]) -> Step:
    """A step of (verb, what): a joint for undo, a part for lift and fold, a face for turn."""
    keys = {"undo": "joint", "heat": "joint", "lift": "part", "fold": "part", "turn": "face", "check": "part"}
    actions = tuple(
        Action(StepId(name), number, Verb(verb), PLACE, **{keys[verb]: what})  # type: ignore[arg-type]
        for number, (verb, what) in enumerate(work)
    )
    return Step(StepId(name), name.replace("-", " "), actions, PLACE, PLACES)


def guide(
    parts: Sequence[Part],
    joints: Sequence[Joint],
    order: Sequence[Step],
    size: Point | None = None,
    alternatives: Sequence[Step] = (),
    base: str = BASE,
) -> Guide:
    anatomy = Anatomy(PartId(base), {one.id: one for one in parts}, {one.id: one for one in joints})
    device = Device("Odd Thing", PLACE, PLACES, faces=FACES, size=size)
    return Guide("odd", device, anatomy, tuple(order), tuple(alternatives))


def random_guide(seed: int, count: int) -> Guide:
    """A device of `count` parts; boxes, depths, outlines and names of all kinds, some of them missing or absurd."""
    chance = random.Random(seed)
    width, height = chance.choice(((74.0, 158.0), (40.0, 40.0), (340.0, 230.0), (20.0, 300.0)))
    is_deep = chance.random() < 0.7
    parts = [part(BASE, (0, 0, width, height), thickness=8.0, depth=1.0 if is_deep else None, corner=width / 12)]
    joints: list[Joint] = []
    steps: list[Step] = []
    for number in range(1, count):
        name = f"p{number}"
        one = _random_part(chance, name, number, count, width, height, is_deep, parts)
        parts.append(one)
        holder = one.inside or BASE
        work: list[tuple[str, str]] = []
        for which in range(chance.choice((0, 1, 1, 2))):
            made = _random_joint(chance, f"j{number}-{which}", one, holder, number)
            joints.append(made)
            work.append(("undo", made.id))
        if chance.random() < 0.92:
            work.append(("fold" if chance.random() < 0.05 else "lift", name))
        if work and (not steps or chance.random() < 0.8):
            steps.append(step(f"take-{name}", *work))
        elif work:
            merged = [(a.verb.value, a.joint or a.part or "") for a in steps[-1].actions]
            steps[-1] = step(steps[-1].id, *merged, *work)
    return guide(parts, joints, steps, (width, height) if chance.random() < 0.8 else None)


def _random_part(
    chance: random.Random, name: str, number: int, count: int, width: float, height: float, is_deep: bool, parts: list[Part]
) -> Part:
    w, h = width * chance.choice((0.05, 0.2, 0.5, 0.95)), height * chance.choice((0.04, 0.15, 0.4, 0.95))
    x, y = chance.uniform(0, width - w), chance.uniform(0, height - h)
    outline: tuple[Point, ...] = ()
    shape = chance.random()
    if shape < 0.15:
        outline = ((x, y), (x + w, y), (x + w, y + h / 2), (x + w / 2, y + h / 2), (x + w / 2, y + h), (x, y + h))
    elif shape < 0.2:
        outline = tuple((chance.uniform(x, x + w), chance.uniform(y, y + h)) for _ in range(chance.randint(1, 7)))
    others = [other.id for other in parts[1:]]
    return part(
        name,
        (x, y, w, h) if chance.random() < 0.95 else None,
        FACES[chance.random() < 0.15],
        called=chance.choice(_NAMES),
        thickness=chance.choice((None, 0.1, 0.8, 3.0, 12.0)),
        depth=round(number / count * 8, 2) if is_deep and chance.random() < 0.9 else None,
        corner=chance.choice((0.0, 2.0, 60.0)),
        outline=outline,
        holes=(Box(x + w / 4, y + h / 4, w / 3, h / 3),) if chance.random() < 0.15 else (),
        features=(Feature("coil", (x + w / 2, y + h / 2), min(w, h)),) if chance.random() < 0.3 else (),
        inside=PartId(chance.choice(others)) if others and chance.random() < 0.1 else None,
        under=(PartId(chance.choice(others)),) if others and chance.random() < 0.3 else (),
    )


def _random_joint(chance: random.Random, name: str, one: Part, holder: str, number: int) -> Joint:
    kind = chance.choice(list(JointKind))
    positions: tuple[Point, ...] = ()
    if one.box is not None and chance.random() < 0.8:
        box = one.box
        positions = tuple(
            (chance.uniform(box.x, box.right), chance.uniform(box.y, box.bottom)) for _ in range(chance.randint(0, 5))
        )
    behind = (PartId(f"p{chance.randint(1, number - 1)}"),) if number > 1 and chance.random() < 0.5 else ()
    return joint(
        name,
        kind,
        (one.id, holder),
        behind=behind,
        positions=positions,
        count=max(1, len(positions)),
        thread=chance.choice((None, "M1.4", "S0.8", "odd")),
        lengths=(3.0,) * len(positions),
    )
