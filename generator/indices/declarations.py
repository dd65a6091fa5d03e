"""What authors declare for the indices, and what they leave open."""

from __future__ import annotations

import re

from generator.orders.guide import Device

_BETWEEN = re.compile(r"\s*,\s*|\s+and\s+")


def is_pairing_declared(device: Device) -> bool:
    """Whether device.yaml says which parts are tied to the device by a code, be it none (`paired: []`)."""
    return bool(device.paired) or ("index", "paired") in device.places.values


def absent_roles(device: Device) -> frozenset[str]:
    """The roles of which device.yaml says that no part of the device has them."""
    return frozenset(role for written in device.absent for role in roles_in(written))


def roles_in(written: str | None) -> tuple[str, ...]:
    """The roles a part has, in lower case; one part may serve as several.

    >>> roles_in("Main microphone and external charging port")
    ('main microphone', 'external charging port')
    """
    return tuple(" ".join(role.split()) for role in _BETWEEN.split((written or "").lower()) if role.strip())
