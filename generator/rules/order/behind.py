"""order/behind"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.reasons import Behind
from generator.rules.finding import Finding
from generator.rules.waiting import waiting


def behind(guide: Guide) -> Iterator[Finding]:
    """A joint is undone while a part in front of it is still in place.

    Why: the reader cannot see or reach the screw, plug or clip that the step speaks of.
    Bad: step 2 does `undo: lamp-plug`, which is `behind: [shade]`; step 3 does `lift: shade`.
    Good: the same two steps the other way round.
    Silent when: the part has been lifted out or folded aside before, or the joint itself left with another part.
    """
    yield from waiting(guide, Behind)
