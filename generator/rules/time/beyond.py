"""time/beyond"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.source.values import clock


def beyond(guide: Guide) -> Iterator[Finding]:
    """A step is said to be filmed after the film has ended.

    Why: the link opens the film at its end, or at its start, and shows something else.
    Bad: `video: "15:00-15:40"`, where device.yaml gives the film a `length` of 14:20.
    Good: a stretch that lies inside the film.
    Silent when: device.yaml gives no `length`.
    """
    length = guide.device.film_length
    for step in (*guide.steps, *guide.unused):
        if step.film is not None and length is not None:
            start, end = step.film
            if start >= length or (end or 0) > length:
                last = end if start < length and end is not None else start
                yield Finding(
                    place=step.places.value("video"),
                    message=f"The film ends at {clock(length)}, before {clock(last)}.",
                    mend=Mend(f"Correct the time, or the `length` in {guide.device.place.file}."),
                )
