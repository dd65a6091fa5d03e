"""power/mains"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.reasons import MainsFirst
from generator.rules.finding import Finding
from generator.rules.waiting import waiting


def mains(guide: Guide) -> Iterator[Finding]:
    """Work on a mains device begins before it is seen that the device is unplugged.

    Why: the mains can kill; a switch that is off does not make a device dead.
    Bad: `power: mains` in device.yaml, and a first step that does `undo: foot-screws`.
    Good: the first step does `check: The mains lead lies in sight, out of its socket.` with `proves: unplugged`.
    Silent when: the device has no mains supply, or such a check comes before all other work.
    """
    yield from waiting(guide, MainsFirst)
