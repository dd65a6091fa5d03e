"""Forward chaining against doing it the slow way."""

from __future__ import annotations

import random
from collections.abc import Sequence
from itertools import combinations, permutations

from generator.orders.chaining import (
    SWEEPS,
    ItemSet,
    first_come,
    first_first,
    is_available,
    item_set,
    members,
    saturate,
    support,
)


def random_needs(chance: random.Random, count: int) -> list[list[ItemSet]]:
    return [
        [item_set(set(chance.sample(range(count), chance.randint(1, min(3, count))))) for _ in range(chance.randint(0, 2))]
        for _ in range(count)
    ]


def slowly(needs: Sequence[Sequence[ItemSet]], allowed: ItemSet, done: ItemSet) -> ItemSet:
    while True:
        fresh = next((i for i in members(allowed & ~done) if is_available(needs, i, done)), None)
        if fresh is None:
            return done
        done |= 1 << fresh


def test_members_are_given_smallest_first() -> None:
    assert list(members(0b101001)) == [0, 3, 5]
    assert item_set([5, 0, 3]) == 0b101001


def test_saturation_reaches_what_trying_again_and_again_reaches() -> None:
    chance = random.Random("saturate")
    for _ in range(2_000):
        count = chance.randint(1, 12)
        needs = random_needs(chance, count)
        allowed, done = chance.getrandbits(count), chance.getrandbits(count) & chance.getrandbits(count)
        assert saturate(needs, allowed, done) == slowly(needs, allowed, done)


def test_a_long_chain_numbered_backwards_is_followed_to_its_end() -> None:
    count = 40 * SWEEPS
    needs: list[list[ItemSet]] = [[1 << i + 1] for i in range(count - 1)] + [[]]
    assert saturate(needs, (1 << count) - 1) == (1 << count) - 1


def test_first_first_keeps_the_authors_order_where_it_can() -> None:
    # 0 waits for 1 or 3; 2 waits for nothing. The author wrote 0, 1, 2, 3.
    needs = [[0b1010], [], [], []]
    assert first_first(needs, 0b1111, range(4)) == (1, 0, 2, 3)
    assert first_first(needs, 0b1101, range(4)) == (2, 3, 0)
    assert first_first(needs, 0b0001, range(4)) is None


def test_first_first_is_the_least_possible_order_by_the_authors_positions() -> None:
    chance = random.Random("first first")
    for _ in range(300):
        needs = random_needs(chance, 5)
        possible = [order for order in permutations(range(5)) if can_be_done(needs, order)]
        assert first_first(needs, 0b11111, range(5)) == (min(possible) if possible else None)


def can_be_done(needs: Sequence[Sequence[ItemSet]], order: Sequence[int]) -> bool:
    return all(is_available(needs, item, item_set(order[:place])) for place, item in enumerate(order))


def test_support_can_be_done_alone_and_is_found_whenever_there_is_one() -> None:
    chance = random.Random("support")
    for _ in range(500):
        count = chance.randint(2, 7)
        needs = random_needs(chance, count)
        allowed = chance.getrandbits(count)
        goals = [1 << chance.randrange(count) for _ in range(chance.randint(1, 2))]
        found = support(needs, allowed, goals)
        if found is None:
            assert not any(is_support(needs, item_set(chosen), goals) for chosen in subsets(allowed))
        else:
            assert not found & ~allowed
            assert is_support(needs, found, goals)


def is_support(needs: Sequence[Sequence[ItemSet]], items: ItemSet, goals: Sequence[ItemSet]) -> bool:
    return slowly(needs, items, 0) == items and all(goal & items for goal in goals)


def subsets(items: ItemSet) -> list[tuple[int, ...]]:
    numbers = list(members(items))
    return [chosen for size in range(len(numbers) + 1) for chosen in combinations(numbers, size)]


def test_first_come_gives_a_possible_order_of_all_that_can_be_done() -> None:
    chance = random.Random("first come")
    for _ in range(300):
        needs = random_needs(chance, 8)
        order = first_come(needs, 0b11111111)
        assert can_be_done(needs, order)
        assert item_set(order) == saturate(needs, 0b11111111)
