"""order/base"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.reasons import TheBase
from generator.rules.finding import Finding
from generator.rules.waiting import waiting


def base(guide: Guide) -> Iterator[Finding]:
    """The base is lifted or folded.

    Why: the base is what everything is mounted on; a device is taken away from it, never the other way round.
    Bad: `base: housing` in anatomy.yaml, and a step that does `lift: housing`.
    Good: lift what is mounted on the housing, or name as the base the part that really stays on the bench.
    Silent when: the part is not the base.
    """
    yield from waiting(guide, TheBase)
