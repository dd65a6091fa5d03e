"""order/soften"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.reasons import NotSoftened
from generator.rules.finding import Finding
from generator.rules.waiting import waiting


def soften(guide: Guide) -> Iterator[Finding]:
    """Glue that lets go only when warm or soaked is undone without that.

    Why: cold or dry glue holds; the reader would pry harder and break glass, or bend what is glued.
    Bad: `undo: back-glue`, where the joint has `softens: heat`, with no `heat: back-glue` before it.
    Good: `heat: back-glue` and then `undo: back-glue`, in one step.
    Silent when: the joint has no `softens`, or a `heat` or `soak` of the same joint comes before.
    """
    yield from waiting(guide, NotSoftened)
