"""ref/unknown-step"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.dangling import HasDangling, dangling
from generator.rules.finding import Finding


def unknown_step(read: HasDangling) -> Iterator[Finding]:
    """The order, the alternatives or the prose name a step that has no file.

    Why: a step would be missing from the guide without anyone seeing it.
    Bad: `- lift-shad` in the order, where the file is `steps/lift-shade.md`.
    Good: `- lift-shade`.
    Silent when: there is a file of that name in the folder `steps`.
    """
    yield from dangling(read, "step", "{device}/steps")
