"""media/missing"""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.pictures import pictures_of
from generator.rules.wording import near_names, quoted


def missing(guide: Guide) -> Iterator[Finding]:
    """A photo is named that is not in the device's folder `media`.

    Why: the page would have a hole where the reader is told to look.
    Bad: `file: shade-of.jpg`, where the folder has `shade-off.jpg`.
    Good: `file: shade-off.jpg`, in the same upper and lower case as the file.
    Silent when: the file is there.
    """
    there = [media.path for media in guide.media]
    for picture in pictures_of(guide):
        if picture.path not in there:
            near = get_close_matches(picture.path, there, n=3, cutoff=0.6)
            yield Finding(
                place=picture.place,
                message=f"There is no photo {quoted(picture.path)} in {guide.id}/media.",
                why=(near_names(near),) if near else (),
                mend=Mend("Correct the name, or put the photo there."),
            )
