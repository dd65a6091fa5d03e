"""order/under"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.reasons import Under
from generator.rules.finding import Finding
from generator.rules.waiting import waiting


def under(guide: Guide) -> Iterator[Finding]:
    """A part is lifted or folded while another part lies over it.

    Why: nothing fastens the two together, but the lower one has no way out yet.
    Bad: step 4 does `lift: battery`, which is `under: [ribbon]`; step 5 does `lift: ribbon`.
    Good: step 4 does `fold: ribbon`, step 5 does `lift: battery`. A door that sits in a cover (`inside: cover`) leaves with
    the cover as well: what is `under: door` has two ways out.
    Silent when: the part above has been lifted out or folded aside before, alone or with what it sits in.
    """
    yield from waiting(guide, Under)
