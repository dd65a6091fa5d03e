"""media/alt-twice"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.pictures import pictures_of
from generator.rules.wording import quoted


def alt_twice(guide: Guide) -> Iterator[Finding]:
    """Two different photos of a device carry the same words.

    Why: a listener cannot tell them apart, and one of the two descriptions is most likely left over from a copy.
    Bad: `alt: The open lamp.` for both `shade-off.jpg` and `plug-off.jpg`.
    Good: each says what only it shows.
    Silent when: it is the same photo shown twice.
    """
    first: dict[str, str] = {}
    for picture in pictures_of(guide):
        if picture.alt is not None:
            words = " ".join(picture.alt.lower().split())
            other = first.setdefault(words, picture.path)
            if other != picture.path:
                yield Finding(
                    place=picture.alt_place,
                    message=f"The photos {quoted(other)} and {quoted(picture.path)} cannot be told apart by their words.",
                    mend=Mend("Say in each what only it shows."),
                )
