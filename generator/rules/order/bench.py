"""order/bench"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.reasons import OnTheBench
from generator.rules.finding import Finding
from generator.rules.waiting import waiting


def bench(guide: Guide) -> Iterator[Finding]:
    """A joint is undone in the device although it is reached only once what carries it is out on the bench.

    Why: the joint faces something that never leaves, such as the base; the reader has no way in from that side.
    Bad: step 3 does `undo: sensor-clips`, which are `behind: [frame]`; step 4 lifts the board that carries them.
    Good: step 3 lifts the board, step 4 undoes the clips on the bench.
    Silent when: what carries the joint has been lifted out before.
    """
    yield from waiting(guide, OnTheBench)
