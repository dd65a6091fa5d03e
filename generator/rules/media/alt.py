"""media/alt"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.pictures import pictures_of
from generator.rules.wording import quoted


def alt(guide: Guide) -> Iterator[Finding]:
    """A photo has no words for those who cannot see it.

    Why: a reader who listens to the page, or whose photo did not load, learns nothing of what it shows (WCAG 1.1.1).
    Bad: `- file: shade-off.jpg` alone.
    Good: `alt: The shade lies upside down beside the foot, its three posts unbroken.` below it.
    Silent when: there is an `alt`.
    """
    for picture in pictures_of(guide):
        if picture.alt is None:
            yield Finding(
                place=picture.place,
                message=f"The photo {quoted(picture.path)} says nothing to a reader who cannot see it.",
                mend=Mend("Add `alt`: the part, where it is, and in what state."),
            )
