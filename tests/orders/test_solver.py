"""The solver's answers against trying every set; with it and without it no bound is above what is possible."""

from __future__ import annotations

import random

import pytest

from generator.anatomy.parts import PartId
from generator.orders import routes, solver
from generator.orders.chaining import item_set, saturate
from generator.orders.routes import Route, best_route
from generator.orders.solver import can_solve, cheapest_by_solver
from tests.bench.orders import device_like, guide_of, windowed
from tests.exhaustive import least_cost
from tests.orders.needs import made_up
from tests.orders.test_routes_exhaustive import asked, cheapest_route

with_solver = pytest.mark.skipif(not can_solve(), reason="the solver is an extra")


@with_solver
def test_no_set_is_cheaper_than_the_one_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """Steps with rings of choices, so that cheap sets turn up that cannot be done."""
    cut_off = []
    plain = solver._Program.cut_off
    monkeypatch.setattr(solver._Program, "cut_off", lambda program, ring: cut_off.append(ring) or plain(program, ring))
    compared = 0
    for seed in range(500):
        chance = random.Random(seed)
        size = chance.randint(5, 10)
        needs = made_up(chance, size, 0.8)
        allowed = saturate(needs, (1 << size) - 1)
        goals = [goal for goal in (chance.getrandbits(size) & allowed for _ in range(chance.choice((1, 1, 2)))) if goal]
        if not goals:
            continue
        costs = [chance.randint(0, 5) for _ in range(size)]
        sets = [s for s in range(1 << size) if saturate(needs, s) == s and not s & ~allowed and all(g & s for g in goals)]
        certain = sets[0]
        for one in sets:
            certain &= one
        found, bound = cheapest_by_solver(needs, costs, allowed, certain, goals)
        least = min(sum(costs[n] for n in range(size) if one >> n & 1) for one in sets)
        assert found is not None and found in sets, seed
        assert sum(costs[n] for n in range(size) if found >> n & 1) == bound == least, seed
        compared += 1
    assert compared > 400 and len(cut_off) > 5


@with_solver
def test_of_a_ring_something_outside_is_done() -> None:
    """1 and 2 may each wait for the other or for 0, which is dear; 3 needs 1."""
    needs = [[], [0b101], [0b011], [0b010]]
    assert cheapest_by_solver(needs, [9, 1, 1, 1], 0b1111, 0b1000, [0b1000]) == (0b1011, 11)


@pytest.mark.parametrize("has_solver", [True, False])
def test_a_search_cut_off_at_once_never_claims_too_much(has_solver: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    if has_solver and not can_solve():
        pytest.skip("the solver is an extra")
    monkeypatch.setattr(routes, "NODE_LIMIT", 0)
    monkeypatch.setattr(routes, "can_solve", lambda: has_solver)
    proved = found = 0
    for seed in range(300):
        one, targets = asked(seed)
        route = cheapest_route(one, targets)
        if isinstance(route, Route):
            least = least_cost(one, targets)
            assert least is not None and route.bound <= least <= route.cost, seed
            found += 1
            proved += route.is_optimal
    assert found > 150 and proved > 0.6 * found


@with_solver
def test_with_it_more_is_proved_and_nothing_gets_worse(monkeypatch: pytest.MonkeyPatch) -> None:
    """Devices and random choices, of which the search alone settles none once it is cut off."""
    cases = [(needs, parts[-1]) for needs, parts in (device_like(random.Random(seed), 400, 0.4) for seed in range(3))]
    cases += [(windowed(random.Random(seed), 60, 0.7), 59) for seed in range(3)]
    more = 0
    for needs, goal in cases:
        answers = {}
        for has_solver in (False, True):
            monkeypatch.setattr(routes, "NODE_LIMIT", 1)
            monkeypatch.setattr(routes, "can_solve", lambda has_solver=has_solver: has_solver)
            answers[has_solver] = best_route(guide_of(needs, [0] * len(needs)), (PartId(f"p{goal}"),), tells_others=False)
        alone, helped = answers[False], answers[True]
        assert isinstance(alone, Route) and isinstance(helped, Route)
        assert alone.bound <= helped.bound <= helped.cost <= alone.cost
        more += helped.is_optimal and not alone.is_optimal
    assert more >= 3


@with_solver
def test_nothing_is_printed_by_it(capfd: pytest.CaptureFixture[str]) -> None:
    assert cheapest_by_solver([[], [1]], [1, 1], 0b11, 0b10, [0b10]) == (0b11, 2)
    captured = capfd.readouterr()
    assert captured.out == captured.err == ""


def test_rings_are_told_with_what_is_outside_them() -> None:
    needs = [[], [0b101], [0b011], [0b010]]
    assert solver._ring(needs, 0b1110, 0, 0b1111) == (item_set([1, 2]), 0b0001)
