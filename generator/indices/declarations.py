"""What device.yaml declares and what it leaves open."""

from __future__ import annotations

from generator.orders.guide import Device


def is_pairing_declared(device: Device) -> bool:
    """Whether device.yaml says which parts are tied to the device by a code, be it none (`paired: []`)."""
    return bool(device.paired) or ("index", "paired") in device.places.values
