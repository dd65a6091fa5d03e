"""What must precede a part, on random devices: it can be done, nothing in it is spare, and every score of it holds."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.anatomy.parts import PartId
from generator.indices.counting import counted_steps, depth_of, fewest_steps
from generator.indices.operations import CLEAN, HEAT, NoPath, Path, path_to
from generator.indices.phones_2023_1669.index import phone_index
from generator.indices.phones_2023_1669.tables import PARTS
from generator.indices.scores import scores_of
from generator.orders.guide import Device, Guide
from generator.orders.routes import Route, best_route
from tests.devices import PLACE, PLACES, device, route_device

SEEDS = range(150)


def guide_of_seed(seed: int) -> Guide:
    """A random device as a phone whose parts have the roles of priority parts, some of them twice."""
    made = route_device(seed) if seed % 2 else device(seed)
    names = list(made.anatomy.parts)
    parts = {
        name: replace(made.anatomy.parts[name], role=PARTS[(seed + place) % (len(PARTS) - 1)].name)
        for place, name in enumerate(names)
    }
    anatomy = replace(made.anatomy, parts=parts)
    known = Device("Phone", PLACE, PLACES, kind="phone", faces=made.faces, power=made.power)
    return Guide("phone", known, anatomy, made.order, made.alternatives)


def paths(guide: Guide) -> list[Path]:
    return [path for part in guide.anatomy.parts if isinstance(path := path_to(guide, part), Path)]


@pytest.mark.parametrize("seed", SEEDS)
def test_what_precedes_a_part_can_be_done_and_holds_nothing_spare(seed: int) -> None:
    for path in paths(guide_of_seed(seed)):
        run, needs = path.operations, path.needs
        assert path.taken in run[-1].removes and len(needs) == len(run)
        for number, choices in enumerate(needs):
            assert all(choice & ((1 << number) - 1) for choice in choices), "met by what comes before"
        for number, operation in enumerate(run[:-1]):
            is_missed = any(not choice & ~(1 << number) for choices in needs for choice in choices)
            assert is_missed or operation.kind in (HEAT, CLEAN)
        assert set(run) <= set(path.whole)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_fewest_steps_are_never_more_than_those_of_the_order(seed: int) -> None:
    for path in paths(guide_of_seed(seed)):
        fewest = fewest_steps(path.operations, path.needs)
        assert fewest is None or 0 < fewest <= depth_of(counted_steps(path.operations))


@pytest.mark.parametrize("seed", SEEDS)
def test_there_is_a_path_exactly_where_there_is_a_route(seed: int) -> None:
    guide = guide_of_seed(seed)
    for part in guide.anatomy.parts:
        path, route = path_to(guide, part), best_route(guide, (part,))
        if isinstance(path, NoPath) or path.taken == part:
            assert isinstance(path, Path) == isinstance(route, Route)


@pytest.mark.parametrize("seed", SEEDS)
def test_every_device_has_an_index(seed: int) -> None:
    guide = guide_of_seed(seed)
    index = phone_index(guide)
    assert index.low is not None and index.high is not None
    assert 1 <= index.low <= index.high <= 5
    assert index.classes == tuple(sorted(set(index.classes)))
    assert len(index.cells) == 30
    assert len(scores_of(guide).efforts) == len(guide.anatomy.parts)


def test_more_known_never_widens_the_range() -> None:
    for seed in range(40):
        guide = guide_of_seed(seed)
        told = replace(guide, device=replace(guide.device, update_years=6, paired=(PartId(guide.anatomy.base),)))
        index, narrower = phone_index(guide), phone_index(told)
        assert index.low is not None and index.high is not None
        assert narrower.low is not None and narrower.high is not None
        assert index.low <= narrower.low <= narrower.high <= index.high
