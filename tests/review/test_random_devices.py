"""A device held against itself, and against the same device in another possible order."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from generator.orders.guide import Device as DeviceRecord
from generator.orders.guide import Guide, Library
from generator.review.devices import device_change
from generator.review.sentences import Section, told_of
from generator.rules import findings_of
from tests.devices import PLACE, PLACES, route_device
from tests.wandering import examples

SEEDS = range(examples(60))


def random_guide(seed: int) -> Guide:
    one = route_device(seed)
    record = DeviceRecord("device", PLACE, PLACES, faces=one.faces, power=one.power)
    places = tuple((step.id, replace(PLACE, line=line)) for line, step in enumerate((*one.order, *one.alternatives), 1))
    return Guide("device", record, one.anatomy, one.order, one.alternatives, order_places=places)


def permuted(guide: Guide, seed: int) -> Guide:
    order = list(guide.order)
    random.Random(seed).shuffle(order)
    return replace(guide, order=tuple(order))


@pytest.mark.parametrize("seed", SEEDS)
def test_nothing_changed_between_a_device_and_itself(seed: int) -> None:
    guide = random_guide(seed)
    found = findings_of(guide, Library("Guides", (guide,)))
    assert not device_change(guide, replace(guide), found, found).is_anything


@pytest.mark.parametrize("seed", SEEDS)
def test_another_order_of_the_same_steps_is_told_as_moves_alone(seed: int) -> None:
    guide = random_guide(seed)
    other = permuted(guide, seed)
    change = device_change(guide, other)
    assert not change.things and not change.screws and not change.told
    for step in change.steps:
        assert step.is_moved or (step.hazards_gone or step.hazards_came)
        assert not (step.title or step.body or step.work_gone or step.work_came or step.is_reordered)
    stays = [step.id for step in other.order if step.id not in {each.step.id for each in change.steps if each.is_moved}]
    assert stays == [step.id for step in guide.order if step.id in stays]
    sections = {each.section for each in told_of(change)}
    assert sections <= {Section.STEPS, Section.SAFETY, Section.WAYS, Section.INDEX}
