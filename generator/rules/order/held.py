"""order/held"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.reasons import StillJoined
from generator.rules.finding import Finding
from generator.rules.waiting import waiting


def held(guide: Guide) -> Iterator[Finding]:
    """A part is lifted or folded aside while a joint still holds it.

    Why: the reader would pull against a screw, plug or clip that is still in place.
    Bad: step 2 does `lift: shade`, step 3 does `undo: shade-screws`.
    Good: the same two steps the other way round.
    Silent when: the part is only folded and what still holds it is a plug on its cable.
    """
    yield from waiting(guide, StillJoined)
