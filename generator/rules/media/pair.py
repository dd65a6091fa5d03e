"""media/pair"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted


def pair(guide: Guide) -> Iterator[Finding]:
    """A photo is called one of a pair, and the other does not stand beside it.

    Why: the page sets the two side by side for the eye to compare; one alone compares with nothing.
    Bad: `when: before` for the only photo of the step.
    Good: a photo with `when: after` right below it.
    Silent when: each `before` is followed by an `after`.
    """
    for step in (*guide.steps, *guide.unused):
        whens = [photo.when for photo in step.photos]
        for index, photo in enumerate(step.photos):
            above = whens[index - 1] if index else None
            below = whens[index + 1] if index + 1 < len(whens) else None
            if (photo.when == "before" and below != "after") or (photo.when == "after" and above != "before"):
                other, where = ("after", "below") if photo.when == "before" else ("before", "above")
                yield Finding(
                    place=step.places.value("photos", index, "when"),
                    message=f"The photo {quoted(photo.file)} has nothing to be compared with.",
                    mend=Mend(f"Put the photo with `when: {other}` right {where} it, or take this line out."),
                )
