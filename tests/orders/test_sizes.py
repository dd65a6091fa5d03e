"""Devices far larger than any there is are answered, and the cut-off answers are what they say."""

from __future__ import annotations

import random

import pytest

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import JointKind
from generator.anatomy.parts import PartId
from generator.orders import no_way
from generator.orders.chaining import first_first, item_set, members, saturate
from generator.orders.guide import Device, Guide
from generator.orders.necessity import Gates, gates_of, in_order
from generator.orders.routes import NoRoute, best_route
from generator.orders.work import Verb
from tests import devices
from tests.devices import BASE, PLACE, PLACES
from tests.orders.needs import made_up

THING = PartId("thing")


def covered(covers: int) -> Guide:
    """A thing whose clip is behind so many covers, none of which any step lifts."""
    names = [PartId(f"cover-{number}") for number in range(covers)]
    plain = [BASE, THING, *names]
    joints = [devices.joint("clip", JointKind.CLIPS, "thing", "base", behind=tuple(names))]
    anatomy = Anatomy(BASE, {name: devices.part(name) for name in plain}, {joint.id: joint for joint in joints})
    steps = (devices.step("take", [devices.action(Verb.UNDO, joint="clip"), devices.action(Verb.LIFT, part="thing")]),)
    return Guide("box", Device("box", PLACE, PLACES), anatomy, steps)


def test_a_clip_behind_three_thousand_covers_is_answered_with_all_of_them() -> None:
    found = best_route(covered(3000), (THING,))
    assert isinstance(found, NoRoute) and len(found.blocked[0].in_the_way) == 3000


def ring(size: int) -> Guide:
    """Parts in a circle, each joined behind the next."""
    names = [PartId(f"part-{number}") for number in range(size)]
    joints = [
        devices.joint(f"clip-{n}", JointKind.CLIPS, name, "base", behind=(names[(n + 1) % size],))
        for n, name in enumerate(names)
    ]
    anatomy = Anatomy(BASE, {name: devices.part(name) for name in (BASE, *names)}, {joint.id: joint for joint in joints})
    steps = tuple(
        devices.step(f"step-{n}", [devices.action(Verb.UNDO, joint=f"clip-{n}"), devices.action(Verb.LIFT, part=name)])
        for n, name in enumerate(names)
    )
    return Guide("ring", Device("ring", PLACE, PLACES, faces=("back",)), anatomy, steps)


def test_two_thousand_steps_in_a_ring_are_one_ring() -> None:
    guide = ring(2000)
    (found,) = guide.rings
    assert found.is_simple and len(found.steps) == 2000
    assert not guide.causes, "the ring explains them all"


@pytest.mark.parametrize("seed", range(60))
def test_what_stands_in_the_way_needs_every_one_of_it_though_the_search_is_cut_off(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With no tries at all the set told is one of which none can be spared; with all of them it is a smallest."""
    chance = random.Random(seed)
    size = chance.randint(3, 8)
    needs = [[clause or 0 for clause in each] for each in made_up(chance, size, 0.7)]
    missing = {number: chance.randint(1, 3) for number in range(size) if chance.random() < 0.6}
    extra = sum(missing.values())
    granted = iter(range(size, size + extra))
    full = [list(each) for each in needs] + [[] for _ in range(extra)]
    for number, count in missing.items():
        for _ in range(count):
            full[number].append(1 << next(granted) | (1 << chance.randrange(size) if chance.random() < 0.5 else 0))
    waivers = no_way._Waivers.__new__(no_way._Waivers)
    waivers.effects = [(number,) for number in range(extra)]
    waivers.count, waivers.allowed, waivers.needs = size, (1 << size) - 1, full
    goal = 1 << chance.randrange(size)
    best = waivers.fewest(goal)
    monkeypatch.setattr(no_way, "TRIES", 0)
    cut_off = waivers.fewest(goal)
    assert (best is None) == (cut_off is None)
    if best is None or cut_off is None:
        return
    assert len(best) <= len(cut_off)
    for told in (best, cut_off):
        numbers = [size + each for (each,) in told]  # type: ignore[misc]
        assert goal & waivers._reached(numbers)
        assert not any(goal & waivers._reached([n for n in numbers if n != spared]) for spared in numbers)


@pytest.mark.parametrize("seed", range(80))
def test_gates_of_any_selection_are_those_of_leaving_each_item_out(seed: int) -> None:
    chance = random.Random(seed)
    size = chance.randint(1, 9)
    needs = made_up(chance, size, 0.6)
    everything = (1 << size) - 1
    gates = Gates(needs, in_order(needs, everything))
    for _ in range(6):
        items = saturate(needs, chance.getrandbits(size))
        found = gates.among(items)
        for item in members(items):
            rest = list(members(items & ~(1 << item)))
            wanted = {other for other in rest if not saturate(needs, items & ~(1 << other)) >> item & 1}
            assert found[item] == item_set(wanted)
        assert found == gates_of(needs, items)


@pytest.mark.parametrize("seed", range(80))
def test_what_stands_first_and_can_be_done_is_done_first(seed: int) -> None:
    chance = random.Random(seed)
    size = chance.randint(1, 40)
    needs = made_up(chance, size, 0.5)
    items = chance.getrandbits(size)
    priority = chance.sample(range(size), size)
    found = first_first(needs, items, priority)
    done, order = 0, []
    while True:
        ready = [n for n in priority if items >> n & 1 and not done >> n & 1 and all(clause & done for clause in needs[n])]
        if not ready:
            break
        order.append(ready[0])
        done |= 1 << ready[0]
    assert found == (tuple(order) if done == items else None)


@pytest.mark.parametrize("bits", [1, 7, 8, 9, 64, 300])
def test_members_of_sets_of_any_size(bits: int) -> None:
    chance = random.Random(bits)
    for share in (0, 0.02, 0.5, 1):
        numbers = [number for number in range(bits) if chance.random() < share]
        assert list(members(item_set(numbers))) == numbers
