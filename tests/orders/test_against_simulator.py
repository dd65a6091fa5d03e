"""What the program accepts is exactly what hands can do: its clauses against parts moved on a bench.

PARTWAY_DEVICES sets how many random devices are tried (2000 if it is not set).
"""

from __future__ import annotations

import os
import random
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from itertools import permutations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import JointKind
from generator.anatomy.parts import PartId
from generator.orders.clauses import clauses_of, work_of
from generator.orders.reasons import LyingWrong
from generator.orders.walk import walk
from generator.orders.work import Step, Verb
from tests.devices import (
    BASE,
    CELL,
    CHARGE,
    Device,
    action,
    device,
    devices,
    joint,
    part,
    permutations_of,
    possible_order,
    possible_orders,
    random_fixtures,
    step,
    untouched,
)
from tests.exhaustive import canonical_order, performable_orders, performable_sets
from tests.wandering import examples

DEVICES = int(os.environ.get("PARTWAY_DEVICES", "2000"))
SHARES = 8

Stop = tuple[str, int] | None
"""The step and the number of the first action that cannot be done; None when all can."""


def stop_by_program(one: Device, order: Sequence[Step]) -> Stop:
    left_out = tuple(other for other in one.order if other not in order)
    unmet = walk(one.anatomy, one.faces, one.power, order, (*left_out, *one.alternatives)).unmet
    return (unmet[0].action.step, unmet[0].action.number) if unmet else None


def stop_by_hand(one: Device, order: Sequence[Step]) -> Stop:
    stopped = untouched(one, is_laid=True).perform_all(order)
    return (stopped[0].step, stopped[0].number) if stopped else None


def told(one: Device, order: Sequence[Step]) -> str:
    """The device and the order as text, to read in a failure."""
    lines = [f"faces {one.faces}, power {one.power}"]
    for known in one.anatomy.parts.values():
        facts = {"inside": known.inside, "under": known.under, "cell": known.cell, "charge": known.charge}
        stated = {key: value for key, value in facts.items() if value}
        lines.append(f"part {known.id} {known.material or ''} {stated}")
    for held in one.anatomy.joints.values():
        lines.append(f"joint {held.id} {held.kind} {held.joins} behind {held.behind} {held.face} {held.softens or ''}")
    beside = [other for other in one.steps if other not in order]
    for name, steps in (("step", order), ("beside", beside)):
        for done in steps:
            acts = [f"{a.verb} {a.joint or a.part or a.face or ''} {a.proves or ''}".strip() for a in done.actions]
            lines.append(f"{name} {done.id}: {'; '.join(acts)}")
    bench = untouched(one, is_laid=True)
    lines.append(f"by hand: {bench.perform_all(order)}; exempt {sorted(bench.exempt)}")
    lines.append(f"by program: {walk(one.anatomy, one.faces, one.power, one.order, one.alternatives).unmet}")
    return "\n".join(lines)


@pytest.mark.parametrize("share", range(SHARES))
def test_program_stops_where_hands_stop(share: int) -> None:
    for seed in range(share, DEVICES, SHARES):
        one = device(seed)
        chance = random.Random(seed)
        orders = [one.order, tuple(chance.sample(one.order, len(one.order))), possible_order(chance, one)]
        for order in orders:
            assert stop_by_program(one, order) == stop_by_hand(one, order), f"device {seed}\n{told(one, order)}"


@settings(max_examples=examples(150), suppress_health_check=list(HealthCheck))
@given(st.data())
def test_program_stops_where_hands_stop_in_any_order(data: st.DataObject) -> None:
    one = data.draw(devices())
    order = data.draw(permutations_of(one))
    assert stop_by_program(one, order) == stop_by_hand(one, order), told(one, order)


@settings(max_examples=examples(60), suppress_health_check=list(HealthCheck))
@given(st.data())
def test_program_finds_nothing_but_faces_in_what_can_be_done(data: st.DataObject) -> None:
    one = data.draw(devices())
    order = data.draw(possible_orders(one))
    left_out = tuple(other for other in one.order if other not in order)
    unmet = walk(one.anatomy, one.faces, one.power, order, (*left_out, *one.alternatives)).unmet
    assert all(isinstance(entry.reason, LyingWrong) for entry in unmet), told(one, order)


def test_measuring_before_the_supply_plug_may_need_a_board_out() -> None:
    """The supply plug waits for the check, the check for the board over it: so the board cannot wait for the plug."""
    parts = (
        part(BASE),
        part("battery", cell=CELL),
        part("flash", charge=CHARGE, under=(PartId("board"),)),
        part("board", material="board"),
    )
    supply = joint("supply", JointKind.PLUG, "battery", "flash")
    steps = (
        step("lift-board", [action(Verb.LIFT, part="board")]),
        step("measure", [action(Verb.CHECK, part="flash", proves="discharged")]),
        step("unplug", [action(Verb.UNDO, joint="supply")]),
    )
    one = Device(Anatomy(BASE, {known.id: known for known in parts}, {supply.id: supply}), ("back",), "cell", steps)
    assert stop_by_hand(one, steps) is None
    assert stop_by_program(one, steps) is None, told(one, steps)
    assert list(performable_orders(one)) == [steps]


def test_a_supply_plug_that_is_never_undone_exempts_nothing() -> None:
    parts = (part(BASE), part("battery", cell=CELL), part("board", material="board"))
    supply = joint("supply", JointKind.PLUG, "battery", "base", behind=(PartId("board"),))
    steps = (step("lift-board", [action(Verb.LIFT, part="board")]),)
    one = Device(Anatomy(BASE, {known.id: known for known in parts}, {supply.id: supply}), ("back",), "cell", steps)
    assert stop_by_hand(one, steps) == stop_by_program(one, steps) == ("lift-board", 0)
    unplug = step("unplug", [action(Verb.UNDO, joint="supply")])
    other = replace(one, order=(*steps, unplug))
    assert stop_by_hand(other, other.order) is None
    assert stop_by_program(other, other.order) is None


def test_program_accepts_exactly_the_orders_that_can_be_done() -> None:
    """All orders of small sets of steps, none left out."""
    for seed in range(400):
        one = device(seed)
        if len(one.order) <= 4:
            accepted = {order for order in permutations(one.order) if stop_by_program(one, order) is None}
            assert accepted == set(performable_orders(one)), f"device {seed}\n{told(one, one.order)}"


def test_program_stops_where_hands_stop_in_large_devices() -> None:
    for one in random_fixtures():
        chance = random.Random(len(one.order))
        for order in (one.order, tuple(chance.sample(one.order, len(one.order)))):
            assert stop_by_program(one, order) == stop_by_hand(one, order)


def test_clauses_do_not_depend_on_the_order_of_the_steps() -> None:
    """What an action waits for is the same however the steps are arranged."""
    for seed in range(300):
        one = device(seed)
        shuffled = random.Random(seed).sample(one.steps, len(one.steps))
        assert waits(one, one.steps) == waits(one, shuffled)


def waits(one: Device, steps: Sequence[Step]) -> Counter[object]:
    work = work_of(steps)
    return Counter(
        (work[clause.action].place, repr(clause.reason), frozenset(work[member].place for member in clause.members))
        for clause in clauses_of(one.anatomy, steps, one.power)
    )


# What the bench and the devices have to be like for the above to mean something


def test_devices_fail_for_every_reason_and_often_not_at_all() -> None:
    kinds: Counter[str] = Counter()
    exempt = 0
    for seed in range(1000):
        one = device(seed)
        bench = untouched(one, is_laid=True)
        exempt += bool(bench.exempt)
        stopped = bench.perform_all(one.order)
        kinds[stopped[1].kind if stopped else "done"] += 1
    assert 300 < kinds["done"] < 800
    assert exempt > 20
    for kind in ("held", "behind", "under", "face", "power", "mains", "hard"):
        assert kinds[kind] >= 8, kinds
    assert kinds["charge"] + kinds["covered"] >= 8, kinds
    assert kinds["base"] >= 1, kinds


def test_order_leaves_no_trace() -> None:
    """Without faces the same steps leave the same bench in whatever order they were done."""
    for seed in range(120):
        one = device(seed)
        for chosen, bench in performable_sets(one).items():
            order = canonical_order(one, chosen)
            assert order is not None
            again = untouched(one)
            assert again.perform_all(order) is None
            assert again.lie == bench.lie


def test_every_possible_order_can_be_taken_back() -> None:
    """What was done, undone last first, leaves the device assembled."""
    for seed in range(400):
        one = device(seed)
        bench = untouched(one)
        for following in one.order:
            bench = bench.after(following) or bench
        for done in reversed(bench.did):
            assert bench.take_back(done) is None
        assert bench.is_assembled
