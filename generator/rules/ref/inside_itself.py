"""ref/inside-itself"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.wording import part_name, sentence

LONGEST = 6
"""Parts of a chain that are named; of a longer one those at both ends."""


def inside_itself(guide: Guide) -> Iterator[Finding]:
    """A part is inside another that is, in the end, inside the first.

    Why: nothing could ever be said of what leaves with what.
    Bad: `shade: {inside: lamp-head}` and `lamp-head: {inside: shade}`.
    Good: only the smaller of the two is `inside` the other.
    Silent when: every chain of `inside` ends at a part that is inside nothing.
    """
    for found in guide.inside_itself:
        links = [part_name(guide, part) for part in found.chain[1:]]
        if len(links) > LONGEST:
            links[LONGEST // 2 : -LONGEST // 2] = [f"{len(links) - LONGEST} others"]
        chain = ", that inside ".join(links)
        yield Finding(
            place=found.place,
            message=f"{sentence(part_name(guide, found.chain[0]))} cannot be inside {chain}.",
            mend=Mend("Take one `inside` out of this chain."),
        )
