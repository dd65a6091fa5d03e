"""A possible order that keeps certain items as they come and puts the others where they belong."""

from __future__ import annotations

import heapq
from collections.abc import Sequence

from generator.orders.chaining import ItemSet, Needs, first_first, item_set, members, support


def order_keeping(needs: Needs, kept: ItemSet) -> tuple[int, ...]:
    """A possible order in which the items of `kept` come as they are numbered; the others go where they are first possible.

    An item that stood before the next kept one is done as soon as it can be; one that stood after it is only brought
    forward if the next kept one needs it. ValueError if the kept ones cannot come in that order.
    """
    work = _Work(needs, kept)
    for item in members(kept):
        work.do_possible_before(item)
        awaited = [clause for clause in needs[item] if not clause & work.done]
        if awaited:
            for brought in work.brought_forward(awaited):
                work.do(brought)
            work.do_possible_before(item)
        work.do(item)
    work.do_possible_before(len(needs))
    return tuple(work.order)


class _Work:
    """Work as it goes on: what has been done, and which of the items that may go anywhere can be done now."""

    def __init__(self, needs: Needs, kept: ItemSet) -> None:
        self.needs = needs
        self.order: list[int] = []
        self.done: ItemSet = 0
        self.waiting = ((1 << len(needs)) - 1) & ~kept
        self.open = {item: len(needs[item]) for item in members(self.waiting)}
        self.awaiting: dict[int, list[tuple[int, ItemSet]]] = {}
        for item in members(self.waiting):
            for clause in needs[item]:
                for member in members(clause):
                    self.awaiting.setdefault(member, []).append((item, clause))
        self.possible = [item for item, count in self.open.items() if not count]

    def do(self, item: int) -> None:
        for other, clause in self.awaiting.get(item, ()):
            if not clause & self.done:
                self.open[other] -= 1
                if not self.open[other]:
                    heapq.heappush(self.possible, other)
        self.order.append(item)
        self.done |= 1 << item
        self.waiting &= ~(1 << item)

    def do_possible_before(self, limit: int) -> None:
        """Do what can be done of the items below `limit`, each time the smallest."""
        while self.possible and self.possible[0] < limit:
            item = heapq.heappop(self.possible)
            if self.waiting >> item & 1:
                self.do(item)

    def brought_forward(self, awaited: Sequence[ItemSet]) -> tuple[int, ...]:
        """Waiting items, in an order in which they can be done, that meet every clause of `awaited`."""
        leading, fresh, is_certain = 0, list(awaited), True
        while fresh:
            clause = fresh.pop() & self.waiting
            is_certain &= not clause & (clause - 1)
            for item in members(clause & ~leading):
                leading |= 1 << item
                fresh += [each for each in self.needs[item] if not each & self.done]
        numbers = list(members(leading))
        place = {item: index for index, item in enumerate(numbers)}

        def placed(clause: ItemSet) -> ItemSet:
            return item_set([place[member] for member in members(clause & leading)])

        open_needs = [tuple(placed(c) for c in self.needs[item] if not c & self.done) for item in numbers]
        everything = (1 << len(numbers)) - 1
        chosen = everything if is_certain else support(open_needs, everything, [placed(clause) for clause in awaited])
        order = first_first(open_needs, chosen, range(len(numbers))) if chosen is not None else None
        if order is None or (is_certain and any(not placed(clause) for clause in awaited)):
            raise ValueError("the kept items cannot come in the order of their numbers")
        return tuple(numbers[index] for index in order)
