"""order/face"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.reasons import LyingWrong
from generator.rules.finding import Finding
from generator.rules.waiting import waiting


def face(guide: Guide) -> Iterator[Finding]:
    """A joint is undone while the device lies with another side up.

    Why: the reader looks at the wrong side; which side is up also decides how every drawing of the step is turned.
    Bad: `undo: foot-screws`, reached from the bottom, while the device still lies with its front up.
    Good: `turn: bottom` and then `undo: foot-screws`.
    Silent when: the device was turned to that side before, or the joint has left the base and is worked on at the bench.
    """
    yield from waiting(guide, LyingWrong)
