"""The most items of an order that can stay where they are, so that the others, put elsewhere, make it possible.

Two items cannot both stay if the later one is needed for the earlier one. That is a strict partial order, and where every
need is for one certain item nothing else keeps items from staying together: the most that can stay is a largest antichain.
Where either of several items will do, three and more may be unable to stay together though any two could (c, a, b where c
waits for a or b). These smallest sets are found as they come up, and branching on which of their items moves is bounded by
the antichains: exact, unless a node limit is hit, which is then said. NP-hard in general (it holds vertex cover).
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from generator.orders.antichains import Antichain, largest_antichain
from generator.orders.chaining import ItemSet, Needs, item_set, members, saturate
from generator.orders.necessity import gates_of

NODE_LIMIT = 4_000
"""Choices tried before a repair is given with a bound instead of a proof."""

THINNED_EVERY = 50
"""Bounds worked out between two tries to make an order of one; the first is made at the start."""


@dataclass(frozen=True, slots=True)
class Stay:
    """What can stay, a bound on the moves, and conflicts without a common item that prove most of it."""

    kept: ItemSet
    bound: int
    proof: tuple[tuple[int, ...], ...]


@dataclass(frozen=True, slots=True, order=True)
class _Node:
    """What is settled: `pinned` stays, `moved` moves. bound: no fewer moves from here; number breaks ties by age."""

    bound: int
    number: int
    pinned: ItemSet = field(compare=False)
    moved: ItemSet = field(compare=False)


class Staying:
    """The search for the most that can stay; items are numbered as they stand in the author's order.

    pinned: items that have to stay. Everything has to be possible in some order.
    """

    def __init__(self, needs: Needs, pinned: ItemSet) -> None:
        self.needs = needs
        self.count = len(needs)
        self.everything = (1 << self.count) - 1
        self.pinned = pinned
        gates = gates_of(needs, self.everything)
        self.conflicts: list[ItemSet] = [gate & ~((1 << n + 1) - 1) for n, gate in enumerate(gates)]
        """For every item the later ones that it cannot do without: two that can never both stay."""
        self.conflicts_back: list[ItemSet] = [0] * self.count
        for number, later in enumerate(self.conflicts):
            for other in members(later):
                self.conflicts_back[other] |= 1 << number
        self.has_choices = any(not clause & gates[n] for n, clauses in enumerate(needs) for clause in clauses)
        at_sight = dict.fromkeys(self._smallest(items) for items in self._sets_at_sight())
        self.sets: list[ItemSet] = [items for items in at_sight if items.bit_count() > 2]
        """Sets that cannot all stay, beyond pairs; more are found on the way."""

    def _sets_at_sight(self) -> Iterator[ItemSet]:
        """An item and all members of one of its clauses, where all of them come later than it."""
        for number, clauses in enumerate(self.needs):
            for clause in clauses:
                if clause & (clause - 1) and not clause & ((1 << number) - 1) and not clause & self.conflicts[number]:
                    yield clause | 1 << number

    def immovable(self) -> tuple[int, ...] | None:
        """Pinned items that cannot all stay, as few as will not; None if they can."""
        for number in members(self.pinned):
            both = self.conflicts[number] & self.pinned
            if both:
                return (number, next(members(both)))
        if not self._can_stay(self.pinned):
            return tuple(members(self._smallest(self.pinned)))
        return None

    def best(self, node_limit: int) -> Stay:
        """The most that can stay beside what is pinned, unless the limit is hit: then the best found and a bound."""
        start = self._relaxed(self.pinned, 0)
        assert start is not None  # what is pinned can stay
        antichain, bound, proof = start
        if not self.has_choices:
            return Stay(antichain.items, bound, proof)
        kept = self._thinned(antichain.items)
        queue = [_Node(bound, 0, self.pinned, 0)]
        nodes = looked_at = 0
        while queue:
            node = heapq.heappop(queue)
            if node.bound >= self._moves(kept):
                return Stay(kept, self._moves(kept), proof)
            if nodes >= node_limit:
                return Stay(kept, node.bound, proof)
            relaxed = self._relaxed(node.pinned, node.moved)
            if relaxed is None or relaxed[1] >= self._moves(kept):
                continue
            antichain, bound, packed = relaxed
            if not node.number:
                proof = packed
            together = self._cannot_stay(antichain.items)
            if together is None:
                kept = antichain.items
                continue
            looked_at += 1
            if not looked_at % THINNED_EVERY:
                kept = max(kept, self._thinned(antichain.items), key=int.bit_count)
            pinned = node.pinned
            for number in members(together & ~node.pinned):
                nodes += 1
                moved = node.moved | 1 << number
                child = self._relaxed(pinned, moved)
                if child is not None and child[1] < self._moves(kept):
                    heapq.heappush(queue, _Node(max(child[1], bound), nodes, pinned, moved))
                pinned |= 1 << number
        return Stay(kept, self._moves(kept), proof)

    def _moves(self, kept: ItemSet) -> int:
        return self.count - kept.bit_count()

    def _relaxed(self, pinned: ItemSet, moved: ItemSet) -> tuple[Antichain, int, tuple[tuple[int, ...], ...]] | None:
        """The most that could stay by pairs alone, the moves that costs at least, and the conflicts behind that number.

        Conflicts: what the pinned ones drive out, the chains, then sets that touch neither these nor each other. None if
        some set is pinned whole.
        """
        driven: list[tuple[int, ...]] = []
        gone = moved
        is_growing = True
        for number in members(pinned):
            for other in members((self.conflicts[number] | self.conflicts_back[number]) & ~gone):
                driven.append((min(number, other), max(number, other)))
                gone |= 1 << other
        while is_growing:
            is_growing = False
            for items in self.sets:
                if not items & gone:
                    left = items & ~pinned
                    if not left:
                        return None
                    if not left & (left - 1):
                        driven.append(tuple(members(items)))
                        gone |= left
                        is_growing = True
        if gone & pinned:
            return None
        antichain = largest_antichain(self.conflicts, self.everything & ~gone)
        used = gone
        for chain in antichain.chains:
            if len(chain) > 1:
                used |= item_set(chain)
        packed: list[tuple[int, ...]] = []
        for items in sorted(self.sets, key=lambda items: ((items & ~pinned).bit_count(), items)):
            if not items & used:
                packed.append(tuple(members(items)))
                used |= items & ~pinned
        bound = self.count - antichain.items.bit_count() + len(packed)
        return antichain, bound, (*driven, *(chain for chain in antichain.chains if len(chain) > 1), *packed)

    def _cannot_stay(self, items: ItemSet) -> ItemSet | None:
        """A smallest set among `items` that cannot stay together; None if all of them can."""
        for known in self.sets:
            if not known & ~items:
                return known
        if self._can_stay(items):
            return None
        found = self._smallest(items)
        self.sets.append(found)
        return found

    def _can_stay(self, items: ItemSet) -> bool:
        return self._reached(items) == self.everything

    def _reached(self, kept: ItemSet) -> ItemSet:
        """What can be done if the items of `kept` come one after the other as they are numbered."""
        chained: list[Sequence[ItemSet]] = list(self.needs)
        last = None
        for number in members(kept):
            if last is not None:
                chained[number] = (*self.needs[number], 1 << last)
            last = number
        return saturate(chained, self.everything)

    def _smallest(self, items: ItemSet, certain: ItemSet = 0) -> ItemSet:
        """Items that cannot stay together, of which none can be spared: what is stuck, cut down by halves.

        certain: items known to belong to every such set.
        """
        stuck = items & ~self._reached(items)
        if not self._can_stay(stuck | certain):
            items = stuck | certain
        tries = list(members(items & ~certain))
        size = max(len(tries) // 2, 1)
        while True:
            at = 0
            while at < len(tries):
                fewer = tries[:at] + tries[at + size :]
                if self._can_stay(item_set(fewer) | certain):
                    at += size
                else:
                    tries = fewer
            if size == 1:
                return item_set(tries) | certain
            size = max(size // 2, 1)

    def _thinned(self, items: ItemSet) -> ItemSet:
        """Some of `items` that can stay together: of each set that cannot, the item goes that is in most known sets.

        Then all are put back that need not have gone.
        """
        while together := self._cannot_stay(items):
            free = together & ~self.pinned
            items &= ~(1 << max(members(free), key=lambda n: (sum(known >> n & 1 for known in self.sets), n)))
        for number in members(self.everything & ~items):
            is_in_conflict = (self.conflicts[number] | self.conflicts_back[number]) & items
            if not is_in_conflict and self._can_stay(items | 1 << number):
                items |= 1 << number
        return items

    # --- saying why ---

    def why_moved(self, number: int, kept: ItemSet) -> tuple[int, ...]:
        """A smallest set of `number` and items that stay that cannot all stay."""
        later, earlier = self.conflicts[number] & kept, self.conflicts_back[number] & kept
        if later:
            return (number, next(members(later)))
        if earlier:
            return (earlier.bit_length() - 1, number)
        return tuple(members(self._smallest(kept | 1 << number, 1 << number)))
