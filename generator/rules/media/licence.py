"""media/licence"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Library
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted


def licence(library: Library) -> Iterator[Finding]:
    """A photo is credited to somebody, and nothing says under which licence it is shown.

    Why: a name alone is no leave to publish; whoever passes the guide on cannot know what is allowed.
    Bad: `credit: Ruth Ovenden` for a photo, with no `licence` there nor in library.yaml.
    Good: `licence: CC BY 4.0` below the credit.
    Silent when: the photo or the library names a licence, or nobody is credited.
    """
    if library.licence is not None:
        return
    for guide in library.guides:
        for step in (*guide.steps, *guide.unused):
            for index, photo in enumerate(step.photos):
                if photo.credit is not None and photo.licence is None:
                    yield Finding(
                        place=step.places.value("photos", index, "credit"),
                        message=f"No licence says that the photo {quoted(photo.file)} by {photo.credit} may be passed on.",
                        mend=Mend("Add `licence` to the photo, or to library.yaml for all."),
                    )
