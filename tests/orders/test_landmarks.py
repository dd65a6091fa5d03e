"""Bounds on what is still to be paid, against trying every set."""

from __future__ import annotations

import random

from generator.orders.chaining import members, saturate
from generator.orders.landmarks import still_to_pay
from tests.orders.needs import made_up


def cheapest(needs: list[list[int]], costs: list[int], paid: int, goal: int) -> int | None:
    """By trying every set of items that holds `paid`, can be done, and has one of `goal`."""
    size = len(needs)
    sets = (items for items in range(1 << size) if not paid & ~items and items & goal and saturate(needs, items) == items)
    return min((sum(costs[item] for item in members(items & ~paid)) for items in sets), default=None)


def test_never_more_than_the_cheapest_way_costs_and_often_as_much() -> None:
    exact = count = 0
    for seed in range(250):
        chance = random.Random(f"landmarks {seed}")
        size = chance.randint(3, 8)
        needs = made_up(chance, size, 0.8)
        costs = [chance.randint(0, 5) for _ in range(size)]
        everything = (1 << size) - 1
        goal = chance.randrange(1, 1 << size)
        paid = chance.randrange(1 << size) & chance.randrange(1 << size)
        if saturate(needs, everything) != everything:
            continue
        least = cheapest(needs, costs, paid, goal)
        assert least is not None
        bound = still_to_pay(needs, costs, everything, paid, [goal])
        assert 0 <= bound <= least, f"case {seed}"
        exact += bound == least
        count += 1
    assert count > 150 and exact > 0.85 * count


def test_what_is_needed_is_paid_whole() -> None:
    """3 needs 2 needs either 0 or 1; the cheaper of these is paid with the rest."""
    needs = [[], [], [0b11], [0b100]]
    assert still_to_pay(needs, [4, 7, 2, 1], 0b1111, 0, [0b1000]) == 7
    assert still_to_pay(needs, [4, 7, 2, 1], 0b1110, 0, [0b1000]) == 10
    assert still_to_pay(needs, [4, 7, 2, 1], 0b1111, 0b0101, [0b1000]) == 1
