"""ref/inside-itself"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.wording import part_name, sentence


def inside_itself(guide: Guide) -> Iterator[Finding]:
    """A part is inside another that is, in the end, inside the first.

    Why: nothing could ever be said of what leaves with what.
    Bad: `shade: {inside: lamp-head}` and `lamp-head: {inside: shade}`.
    Good: only the smaller of the two is `inside` the other.
    Silent when: every chain of `inside` ends at a part that is inside nothing.
    """
    for found in guide.inside_itself:
        chain = ", that inside ".join(part_name(guide, part) for part in found.chain[1:])
        yield Finding(
            place=found.place,
            message=f"{sentence(part_name(guide, found.chain[0]))} cannot be inside {chain}.",
            mend=Mend("Take one `inside` out of this chain."),
        )
