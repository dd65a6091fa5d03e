"""Routes against trying every set of steps: none is dearer than it has to be, all can be done, and done backwards."""

from __future__ import annotations

import os
import random
from dataclasses import replace
from functools import cache

import pytest

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import JointKind
from generator.anatomy.parts import PartId
from generator.orders.guide import Device as DeviceRecord
from generator.orders.guide import Guide
from generator.orders.routes import Blocked, NoRoute, Route, Without, best_route
from generator.orders.work import Action, Step, ToolId, Verb
from tests import devices
from tests.devices import BASE, CELL, PLACE, PLACES, Device, route_device, untouched
from tests.exhaustive import cost_of, inserted_turns, least_cost, performable_sets, worth_choosing
from tests.simulator import Bench, effect

DEVICES = max(500, int(os.environ.get("PARTWAY_DEVICES", "0")) // 4)
SHARES = 8


def cheapest_route(one: Device, targets: tuple[PartId, ...]) -> Route | NoRoute:
    """The program's answer: all this file knows of how it is asked."""
    record = DeviceRecord("device", PLACE, PLACES, faces=one.faces, power=one.power)
    return best_route(Guide("device", record, one.anatomy, one.order, one.alternatives), targets)


def asked(seed: int) -> tuple[Device, tuple[PartId, ...]]:
    """A device and one or two of its parts; mostly parts that some step takes out."""
    one = route_device(seed)
    chance = random.Random(f"targets {seed}")
    lifted = list(dict.fromkeys(lifted for known in one.steps for lifted in known.lifted if lifted != one.anatomy.base))
    other = [part for part in one.anatomy.parts if part != one.anatomy.base]
    pool = lifted if lifted and chance.random() < 0.9 else other
    return one, tuple(chance.sample(pool, min(len(pool), chance.choice((1, 1, 2)))))


@cache
def answered(seed: int) -> tuple[Device, tuple[PartId, ...], Route | NoRoute]:
    one, targets = asked(seed)
    return one, targets, cheapest_route(one, targets)


def routes() -> list[tuple[int, Device, tuple[PartId, ...], Route]]:
    found = ((seed, *answered(seed)) for seed in range(DEVICES))
    return [(seed, one, targets, route) for seed, one, targets, route in found if isinstance(route, Route)]


@pytest.mark.parametrize("share", range(SHARES))
def test_no_set_of_steps_is_cheaper(share: int) -> None:
    for seed in range(share, DEVICES, SHARES):
        one, targets, route = answered(seed)
        least = least_cost(one, targets)
        if isinstance(route, NoRoute):
            assert least is None, f"device {seed}: {targets} can be had for {least}"
            assert route.blocked
        else:
            assert route.cost == least, f"device {seed}: {targets} by {[step.id for step in route.steps]}"
            assert route.is_optimal and route.bound == route.cost


def asked_without(seed: int) -> tuple[Device, Guide, tuple[PartId, ...], Without]:
    """The same devices and parts, with tools in some hands, and a joint or a tool or both to be left out."""
    one, targets = asked(seed)
    chance = random.Random(f"without {seed}")
    tools = (ToolId("driver"), ToolId("lever"))
    one = replace(one, order=tuple(
        replace(step, actions=tuple(replace(a, tools=(chance.choice(tools),)) if chance.random() < 0.3 else a
                                    for a in step.actions))
        for step in one.order
    ))  # fmt: skip
    joints = tuple(chance.sample(list(one.anatomy.joints), min(len(one.anatomy.joints), chance.choice((0, 1, 1, 2)))))
    without = Without(joints, chance.choice(((), (), tools[:1])) if joints else tools[:1])
    record = DeviceRecord("device", PLACE, PLACES, faces=one.faces, power=one.power)
    return one, Guide("device", record, one.anatomy, one.order, one.alternatives), targets, without


def uses(step: Step, without: Without) -> bool:
    return any(action.verb is Verb.UNDO and action.joint in without.joints for action in step.actions) or any(
        tool in without.tools for action in step.actions for tool in action.tools
    )


@pytest.mark.parametrize("share", range(2))
def test_no_set_of_steps_without_a_joint_or_tool_is_cheaper(share: int) -> None:
    found = proved = 0
    for seed in range(share, DEVICES // 2, 2):
        one, guide, targets, without = asked_without(seed)
        ways = [
            chosen
            for chosen in performable_sets(one)
            if {*targets} <= {part for step in one.steps if step.id in chosen for part in step.lifted}
        ]
        spared = [w for w in ways if not any(uses(step, without) for step in one.steps if step.id in w)]
        route = best_route(guide, targets, without)
        if isinstance(route, Route):
            assert not any(uses(step, without) for step in route.steps), f"device {seed}"
            assert route.cost == min(cost_of(one, way) for way in spared), f"device {seed}"
            found += len(spared) < len(ways)
        else:
            assert not spared, f"device {seed}"
            for blocked in route.blocked:
                assert_needed(one, blocked, without, seed)
                proved += bool(blocked.without.joints or blocked.without.tools)
    assert found > 10 and proved > 10


def assert_needed(one: Device, blocked: Blocked, without: Without, seed: int) -> None:
    """Every way to the part uses some of what is said, and with any of it allowed again there is a way."""
    said = blocked.without
    assert {*said.joints} <= {*without.joints} and {*said.tools} <= {*without.tools}
    ways = [
        [step for step in one.steps if step.id in chosen]
        for chosen in performable_sets(one)
        if any(blocked.part in step.lifted for step in one.steps if step.id in chosen)
    ]
    assert bool(ways) == bool(said.joints or said.tools), f"device {seed}"
    assert all(any(uses(step, said) for step in way) for way in ways), f"device {seed}"
    for smaller in said.each_left_out():
        assert any(not any(uses(step, smaller) for step in way) for way in ways), f"device {seed}"


def test_fewer_actions_lose_where_the_device_has_to_be_turned() -> None:
    """The slide alone comes out in three actions, but on both faces; its tray, with it, in four on one."""
    tray, cell = devices.part("tray"), devices.part("cell", cell=CELL)
    parts = (devices.part(BASE), tray, devices.part("slide", inside=tray.id), cell)
    joints = (
        devices.joint("slide-front", JointKind.SCREWS, "slide", "tray", face="front"),
        devices.joint("slide-back", JointKind.SCREWS, "slide", "tray"),
        *(devices.joint(f"tray-{number}", JointKind.SCREWS, "tray", "base") for number in range(3)),
        devices.joint("cell-glue", JointKind.GLUE, "cell", "base", behind=(PartId("slide"),)),
    )
    screws = [devices.action(Verb.UNDO, joint=f"tray-{number}") for number in range(3)]
    slide = [devices.action(Verb.UNDO, joint=f"slide-{face}") for face in ("front", "back")]
    steps = (
        devices.step("take-slide", [*slide, devices.action(Verb.LIFT, part="slide")]),
        devices.step("take-tray", [*screws, devices.action(Verb.LIFT, part="tray")]),
        devices.step(
            "take-cell", [devices.action(Verb.UNDO, joint="cell-glue"), devices.action(Verb.LIFT, part="cell")]
        ),
    )
    anatomy = Anatomy(BASE, {known.id: known for known in parts}, {known.id: known for known in joints})
    one = Device(anatomy, ("back", "front"), "none", steps)
    route = cheapest_route(one, (cell.id,))
    assert isinstance(route, Route)
    assert [other.id for other in route.steps] == ["take-tray", "take-cell"]
    assert route.cost == least_cost(one, (cell.id,)) == 6


def test_a_step_that_nothing_waits_for_pays_where_it_saves_two_turns() -> None:
    """The slide is held on both faces. With its tray lifted out first, which takes one action, no side matters any more."""
    parts = (devices.part(BASE), devices.part("tray"), devices.part("slide", inside="tray"))
    joints = tuple(
        devices.joint(f"slide-{face}", JointKind.SCREWS, "slide", "tray", face=face) for face in ("front", "back")
    )
    screws = [devices.action(Verb.UNDO, joint=joint.id) for joint in joints]
    steps = (
        devices.step("take-tray", [devices.action(Verb.LIFT, part="tray")]),
        devices.step("take-slide", [*screws, devices.action(Verb.LIFT, part="slide")]),
    )
    anatomy = Anatomy(BASE, {known.id: known for known in parts}, {known.id: known for known in joints})
    one = Device(anatomy, ("back", "front"), "none", steps)
    route = cheapest_route(one, (PartId("slide"),))
    assert isinstance(route, Route)
    assert [other.id for other in route.steps] == ["take-tray", "take-slide"]
    assert route.cost == least_cost(one, (PartId("slide"),)) == 4
    assert route.safety == ()


def test_big_devices_with_many_choices_are_settled() -> None:
    """104 and 119 steps, half of them with choices, are proved within the limit."""
    for seed, parts, target, cost in ((1, 40, "p39", 137), (2, 60, "p56", None)):
        route = cheapest_route(devices.random_fixture(seed, parts), (PartId(target),))
        assert isinstance(route, Route)
        assert route.is_optimal and cost in (None, route.cost)


def test_devices_have_routes_and_dead_ends() -> None:
    found = routes()
    assert 0.35 * DEVICES < len(found) < 0.9 * DEVICES
    assert sum(len(targets) == 2 for _, _, targets, _ in found) > 0.1 * DEVICES
    assert sum(any(step in one.alternatives for step in route.steps) for _, one, _, route in found) > 0.05 * DEVICES
    assert sum(bool(route.added_turns) for *_, route in found) > 0.05 * DEVICES
    assert sum(all(step.takes is not None for step in one.steps) for _, one, _, _ in found) > 0.1 * DEVICES


def test_routes_can_be_done_and_end_with_the_parts_in_the_hand() -> None:
    for seed, one, targets, route in routes():
        bench = untouched(one)
        assert bench.perform_all(route.steps) is None, f"device {seed}"
        assert set(targets) <= bench.loose, f"device {seed}"


def test_routes_with_their_turns_can_be_done_as_the_device_lies() -> None:
    """Turned over where the route says so, the device lies right for every joint."""
    for seed, one, _, route in routes():
        bench = untouched(one, is_laid=True)
        turns = {(turn.step, turn.number): turn.face for turn in route.added_turns}
        for step in route.steps:
            for action in step.actions:
                bench.up = turns.pop((step.id, action.number), bench.up)
                assert bench.perform(action) is None, f"device {seed}"
        assert not turns, f"device {seed}"


def test_what_a_route_says_of_itself_adds_up() -> None:
    for seed, one, _, route in routes():
        assert route.actions == sum(len(step.actions) for step in route.steps) + len(route.added_turns), f"device {seed}"
        assert len(route.added_turns) == inserted_turns(one, route.steps), f"device {seed}"
        if all(step.takes is not None for step in one.steps):
            assert route.cost == cost_of(one, {step.id for step in route.steps if step in worth_choosing(one)})
        else:
            assert route.cost == route.actions, f"device {seed}"


def test_nothing_is_left_in_a_route_that_could_be_spared() -> None:
    """No single step can be left out: without it the rest cannot be done or a part stays in."""
    for seed, one, targets, route in routes():
        steps = [step for step in route.steps if step in worth_choosing(one)]
        for step in steps:
            rest = [other for other in steps if other is not step]
            bench = untouched(one)
            is_done = bench.perform_all(rest) is None and set(targets) <= bench.loose
            assert not is_done or cost_of(one, {s.id for s in rest}) >= route.cost, f"device {seed}: {step.id}"


def test_nothing_live_is_worked_on() -> None:
    """In every route a board comes out and a plug is undone only once all supply plugs are, but for what leads to them."""
    count = 0
    for seed, one, _, route in routes():
        bench = untouched(one)
        supplies = set(bench.supplies)
        for action in (action for step in route.steps for action in step.actions):
            if bench.is_guarded(action) and effect(action) not in bench.exempt:
                assert not supplies & bench.joined, f"device {seed}: {action.verb} {action.joint or action.part}"
                count += bool(supplies)
            assert bench.perform(action) is None
    assert count > 0.05 * DEVICES


def test_mains_and_stored_charge_are_checked_before_anything_else_is_touched() -> None:
    count = 0
    for seed, one, _, route in routes():
        actions = [action for step in route.steps for action in step.actions]
        if one.power in ("mains", "both"):
            first = next(number for number, action in enumerate(actions) if action.proves == "unplugged")
            assert all(action.verb in (Verb.TURN, Verb.WAIT, Verb.CHECK) for action in actions[:first]), f"device {seed}"
            count += 1
    assert count > 0.02 * DEVICES


def test_the_way_back_ends_assembled() -> None:
    """The steps of `back`, each with its inverse actions last first, put every part back and make every joint again."""
    for seed, one, _, route in routes():
        bench = untouched(one)
        assert bench.perform_all(route.steps) is None
        assert not bench.is_assembled
        for action in inverses(bench, route):
            assert bench.take_back(action) is None, f"device {seed}: {action.verb} {action.joint or action.part}"
        assert bench.is_assembled, f"device {seed}"


def inverses(bench: Bench, route: Route) -> list[Action]:
    """What is taken back, in the order of the way back; an action that had changed nothing has nothing to take back."""
    return [action for step in route.back for action in reversed(step.actions) if action in bench.did]


def test_necessary_steps_are_in_every_way_there_is() -> None:
    for seed in range(0, DEVICES, 5):
        one, targets, route = answered(seed)
        if isinstance(route, Route):
            ways = [
                chosen
                for chosen in performable_sets(one)
                if set(targets) <= {part for step in one.steps if step.id in chosen for part in step.lifted}
            ]
            shared = frozenset.intersection(*ways)
            assert {step.id for step in route.necessary} == shared, f"device {seed}"


def test_alternatives_can_be_done_and_cost_no_less() -> None:
    for seed, one, targets, route in routes():
        for other in route.alternatives:
            bench = untouched(one)
            assert bench.perform_all(other.steps) is None, f"device {seed}"
            assert set(targets) <= bench.loose, f"device {seed}"
            assert other.cost >= route.cost, f"device {seed}"
