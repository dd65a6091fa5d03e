"""The fewest moves, against trying every set of names that could stay."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from generator.review.moves import moved


def test_one_step_put_elsewhere_is_one_move() -> None:
    assert moved(["a", "b", "c", "d", "e"], ["a", "c", "d", "e", "b"]) == ("b",)
    assert moved(["a", "b", "c", "d", "e"], ["e", "a", "b", "c", "d"]) == ("e",)
    assert moved(["a", "b"], ["a", "b"]) == ()


def test_what_only_one_order_has_does_not_move() -> None:
    assert moved(["a", "x", "b"], ["a", "b", "y"]) == ()
    assert moved([], ["a"]) == () == moved(["a"], [])


@given(st.permutations(list("abcdef")), st.sets(st.sampled_from("abcdef")), st.sets(st.sampled_from("abcdef")))
def test_no_fewer_moves_would_do(new: list[str], left_out: set[str], not_there: set[str]) -> None:
    old = [name for name in "abcdef" if name not in left_out]
    new = [name for name in new if name not in not_there]
    result = moved(old, new)
    shared = [name for name in new if name in old]
    most = max(
        len(stays)
        for size in range(len(shared) + 1)
        for stays in combinations(shared, size)
        if list(stays) == [name for name in old if name in stays]
    )
    stays = [name for name in shared if name not in result]
    assert len(stays) == most
    assert stays == [name for name in old if name in stays]
    assert list(result) == [name for name in new if name in result]
