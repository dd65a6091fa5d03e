"""media/unused"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.pictures import pictures_of
from generator.rules.wording import quoted
from generator.source.places import Place

PHOTOS = (".jpg", ".jpeg", ".png", ".webp", ".avif")


def unused(guide: Guide) -> Iterator[Finding]:
    """A photo lies in the device's folder `media`, and no step shows it.

    Why: it is most often a step that lost its picture; and it is carried along for nothing.
    Bad: `media/shade-off.jpg`, which no step names.
    Good: a step with `- file: shade-off.jpg`.
    Silent when: the file is a clip or captions, or a step or a note shows it.
    """
    shown = {picture.path for picture in pictures_of(guide)}
    for media in guide.media:
        if media.path not in shown and media.path.lower().endswith(PHOTOS):
            yield Finding(
                place=Place(f"{guide.id}/media/{media.path}"),
                message=f"No step shows the photo {quoted(media.path)}.",
                mend=Mend("Name it in a step, or take it out of the folder."),
            )
