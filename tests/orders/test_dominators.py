"""What gates what, against every set of steps that can be done; and the critical chain."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import networkx
import pytest

from generator.anatomy.parts import PartId
from generator.orders.critical import critical_chain
from generator.orders.dominators import gates_before, gating_joints, gating_parts
from generator.orders.guide import Device as DeviceRecord
from generator.orders.guide import Guide
from generator.orders.stepwise import Stepwise
from generator.orders.work import Step
from tests.devices import PLACE, PLACES, route_device
from tests.exhaustive import performable_sets
from tests.orders.needs import made_up, numbers_of, stepwise_of
from tests.orders.test_published_graphs import GRAPHS, device_of, waits_of
from tests.orders.test_routes import ANATOMY, DEVICE, box, ids

DEVICES = 80


@pytest.mark.parametrize("share", range(4))
def test_gates_are_in_every_way_there_is(share: int) -> None:
    for seed in range(share, DEVICES, 4):
        one = route_device(seed)
        parts = {name: replace(known, replaceable=True) for name, known in one.anatomy.parts.items()}
        anatomy = replace(one.anatomy, parts=parts)
        record = DeviceRecord("device", PLACE, PLACES, faces=one.faces, power=one.power)
        guide = Guide("device", record, anatomy, one.order, one.alternatives)
        steps = {step.id: step for step in one.steps}
        ways = [[steps[name] for name in chosen] for chosen in performable_sets(one)]
        by_part = {gate.part: gate for gate in gating_parts(guide)}
        by_joint = {gate.joint: gate for gate in gating_joints(guide)}
        for target in parts:
            leading = [way for way in ways if any(target in step.lifted for step in way)]
            for part in parts:
                is_gate = bool(leading) and all(any(part in step.lifted for step in way) for way in leading)
                gate = by_part.get(part)
                assert (gate is not None and target in gate.gated) == (is_gate and part != target), f"device {seed}"
                assert (part in gates_before(guide, target)) == (is_gate and part != target), f"device {seed}"
                if gate is not None:
                    assert (target in gate.among) == (bool(leading) and part != target)
            for joint in anatomy.joints:
                is_gate = bool(leading) and all(any(joint in step.undone for step in way) for way in leading)
                assert (joint in by_joint and target in by_joint[joint].gated) == is_gate, f"device {seed}"


def test_the_lid_gates_what_lies_below(tmp_path: Path) -> None:
    anatomy = ANATOMY.replace("fan: {under: board}", "fan: {under: board, replaceable: true}")
    lid, board, *rest = gating_parts(box(tmp_path, anatomy=anatomy.replace("board: {", "board: {replaceable: true, ")))
    assert (lid.part, lid.gated, lid.among) == ("lid", ("cell", "board", "fan"), ("cell", "board", "fan"))
    assert (board.part, board.gated, board.among) == ("board", ("fan",), ("lid", "cell", "fan"))
    assert rest == []


def test_another_way_is_no_gate(tmp_path: Path) -> None:
    guide = box(
        tmp_path,
        DEVICE + "    alternatives: [fold-lid]\n",
        fold_lid="work: [{undo: lid-screws}, {fold: lid}]",
    )
    assert "lid" not in {gate.part for gate in gating_parts(guide)}
    assert "cell" in next(gate for gate in gating_joints(guide) if gate.joint == "lid-screws").gated


# --- the critical chain ---


def depths(stepwise: Stepwise) -> dict[int, int]:
    """The round of each step with any number of hands, by doing round after round."""
    done, rounds, number = 0, {}, 0
    while True:
        number += 1
        ready = [n for n, each in enumerate(stepwise.needs) if n not in rounds and all(clause & done for clause in each)]
        if not ready:
            return rounds
        for item in ready:
            rounds[item] = number
            done |= 1 << item


def test_the_chain_is_as_long_as_the_rounds_and_each_waits_for_the_one_before() -> None:
    for seed in range(150):
        chance = random.Random(f"chain {seed}")
        one = stepwise_of(made_up(chance, chance.randint(1, 9), (0.0, 0.5, 0.9)[seed % 3]))
        rounds = depths(one)
        chain = numbers_of(critical_chain(one))
        assert [rounds[number] for number in chain] == list(range(1, max(rounds.values(), default=0) + 1)), f"case {seed}"
        for before, after in pairwise(chain):
            assert any(clause >> before & 1 for clause in one.needs[after])


@pytest.mark.parametrize("name", GRAPHS)
def test_the_chain_is_the_longest_path_of_a_published_graph(name: str) -> None:
    anatomy, steps = device_of(GRAPHS[name])
    guide = Guide("graph", DeviceRecord("graph", PLACE, PLACES), anatomy, steps)
    graph: networkx.DiGraph[int] = networkx.DiGraph((m, n) for n, each in enumerate(waits_of(GRAPHS[name])) for (m,) in each)
    assert len(critical_chain(guide.stepwise)) == networkx.dag_longest_path_length(graph) + 1


def test_the_chain_of_some_of_the_steps(tmp_path: Path) -> None:
    guide = box(tmp_path)
    assert ids(critical_chain(guide.stepwise)) == ["open-lid", "unplug-cell", "take-board", "take-fan"]
    run: list[Step] = [step for step in guide.order if step.id != "unplug-cell"]
    assert ids(critical_chain(guide.stepwise, run)) == ["open-lid", "take-board", "take-fan"]
    assert critical_chain(guide.stepwise, []) == ()


def test_gates_before_a_part_without_a_way(tmp_path: Path) -> None:
    assert gates_before(box(tmp_path), PartId("door")) == ()
    assert gates_before(box(tmp_path), PartId("fan")) == ("lid", "board")
