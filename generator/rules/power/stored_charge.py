"""power/stored-charge"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.reasons import ChargeFirst, Covered
from generator.rules.finding import Finding
from generator.rules.waiting import waiting


def stored_charge(guide: Guide) -> Iterator[Finding]:
    """Work behind the cover of a part that stores charge begins before its voltage is measured.

    Why: a capacitor can strike long after the plug is out, and the resistor that should drain it can fail.
    Bad: a part with `charge: {volts: 320}`; the step that undoes its wires comes before any measurement.
    Good: `check: The meter shows less than 5 V across both pins.` with `proves: discharged` and `of: capacitor`.
    Silent when: the part has no `charge`, or the check comes first and what covers the part has been taken off before it.
    """
    yield from waiting(guide, ChargeFirst, Covered)
