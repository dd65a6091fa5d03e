"""The fewest things to move between two orders of the same things."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T", bound=str)


def moved(old: Sequence[T], new: Sequence[T]) -> tuple[T, ...]:
    """The fewest names to take out and put in elsewhere to make `new` of `old`, in the order of `new`.

    Names that only one of the two has are passed over; each name stands once in each. What stays is a longest increasing
    run of old positions (patience sorting; Fredman, On computing the length of longest increasing subsequences, 1975).
    """
    shared = set(new)
    position = {name: number for number, name in enumerate(name for name in old if name in shared)}
    run = [name for name in new if name in position]
    tops: list[int] = []
    at_top: list[int] = []
    before: list[int] = []
    for number, name in enumerate(run):
        pile = bisect_left(tops, position[name])
        before.append(at_top[pile - 1] if pile else -1)
        if pile == len(tops):
            tops.append(position[name])
            at_top.append(number)
        else:
            tops[pile], at_top[pile] = position[name], number
    stays: set[int] = set()
    number = at_top[-1] if at_top else -1
    while number >= 0:
        stays.add(number)
        number = before[number]
    return tuple(name for number, name in enumerate(run) if number not in stays)
