"""ref/unknown-joint"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.dangling import HasDangling, dangling
from generator.rules.finding import Finding


def unknown_joint(read: HasDangling) -> Iterator[Finding]:
    """A step, the prose or a supply names a joint that the device does not have.

    Why: the reader would look for a screw that is not there, and the order cannot be judged.
    Bad: `undo: shade-screw`, where anatomy.yaml has `shade-screws`.
    Good: `undo: shade-screws`.
    Silent when: the name is one of anatomy.yaml's joints.
    """
    yield from dangling(read, "joint", "{device}/anatomy.yaml")
