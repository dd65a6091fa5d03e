"""media/credit"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Library
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted


def credit(library: Library) -> Iterator[Finding]:
    """The library asks for a credit for every photo, and one has none.

    Why: who made a photo has a right to be named with it, and readers who pass it on have to know whom to name.
    Bad: `- file: shade-off.jpg` alone, where library.yaml says `credits: required`.
    Good: `credit: Ruth Ovenden` below it.
    Silent when: library.yaml does not ask, or the photo has a `credit`.
    """
    if not library.asks_for_credits:
        return
    for guide in library.guides:
        for step in (*guide.steps, *guide.unused):
            for index, photo in enumerate(step.photos):
                if photo.credit is None:
                    yield Finding(
                        place=step.places.value("photos", index, "file"),
                        message=f"Nobody is named for the photo {quoted(photo.file)}.",
                        why=("library.yaml asks for a credit for every photo.",),
                        mend=Mend("Add `credit` with the name of whoever made it."),
                    )
