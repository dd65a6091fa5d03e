"""power/plug-first"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.reasons import PowerFirst
from generator.rules.finding import Finding
from generator.rules.waiting import waiting


def plug_first(guide: Guide) -> Iterator[Finding]:
    """A plug is undone or a board lifted while the cell still feeds the device.

    Why: parting a live plug can burn out what hangs on it, and a tool that slips on a live board makes a short.
    Bad: step 3 does `undo: display-plug`, step 5 does `undo: battery-plug`.
    Good: the plug of the cell comes off first, then every other plug.
    Silent when: the plug of the cell cannot be reached without that very action, or the device has no cell on a plug.
    """
    yield from waiting(guide, PowerFirst)
