"""ref/unknown-face"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.dangling import HasDangling, dangling
from generator.rules.finding import Finding


def unknown_face(read: HasDangling) -> Iterator[Finding]:
    """A part, a joint or a `turn` names a side that the device does not have.

    Why: nobody can tell which way up the device has to lie.
    Bad: `turn: backside`, where device.yaml has `faces: [top, bottom]`.
    Good: `turn: bottom`.
    Silent when: the name is one of the device's `faces`.
    """
    yield from dangling(read, "face", "`faces` of {device}/device.yaml")
