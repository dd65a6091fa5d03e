"""ref/no-page"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.accounts import pages_of
from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend


def no_page(guide: Guide) -> Iterator[Finding]:
    """No part of a device has a page of its own, so no reader can come for one thing.

    Why: the way to one part is what a reader looks for; the guide would have the whole take-apart and nothing else.
    Bad: a device with `pages: []`, or one where no part has `replaceable: true`.
    Good: `replaceable: true` at each part that somebody may want to change, or their names in `pages`.
    Silent when: at least one part has a page, or no step takes a part out.
    """
    lifted = [part for step in guide.steps for part in step.lifted if part != guide.anatomy.base]
    if not lifted or pages_of(guide):
        return
    device = guide.device
    yield Finding(
        place=device.places.value("pages") if device.pages is not None else device.place,
        message=f"No part of the {device.name} has a page of its own: a reader who came for one part finds no way to it.",
        mend=Mend(
            f"Set `replaceable: true` at each part worth changing in {guide.id}/anatomy.yaml, or name them in `pages`."
        ),
    )
