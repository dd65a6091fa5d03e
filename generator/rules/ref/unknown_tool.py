"""ref/unknown-tool"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.dangling import HasDangling, dangling
from generator.rules.finding import Finding


def unknown_tool(read: HasDangling) -> Iterator[Finding]:
    """A step, a joint or the prose names a tool that tools.yaml does not have.

    Why: the reader cannot get ready a tool that is nowhere described.
    Bad: `with: driver-ph`, where tools.yaml has `driver-ph0`.
    Good: `with: driver-ph0`.
    Silent when: the name is one of tools.yaml.
    """
    yield from dangling(read, "tool", "tools.yaml")
