"""media/unusable"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.pictures import pictures_of
from generator.rules.wording import quoted
from generator.source.pictures import ENDINGS, FILE_LIMIT, PIXEL_LIMIT, SIDE_LIMIT, Refusal, Why


def unusable(guide: Guide) -> Iterator[Finding]:
    """A photo is shown that no page can show: it is another kind of file, empty, damaged or far too large.

    Why: the page would have a hole where the reader is told to look.
    Bad: `file: shade-off.jpg`, which is a film that somebody named so.
    Good: a JPEG, PNG, WebP or AVIF picture under a name that ends so.
    Silent when: the head of the file speaks for it; whether all of it is there shows when a page is built.
    """
    refused = {media.path: media.refusal for media in guide.media if media.refusal is not None}
    for picture in pictures_of(guide):
        refusal = refused.get(picture.path)
        if refusal is not None:
            yield Finding(
                place=picture.place,
                message=f"The photo {quoted(picture.path)} {_reason(refusal)}.",
                mend=Mend(_mend(refusal)),
            )


def _reason(refusal: Refusal) -> str:
    match refusal.why:
        case Why.ENDING:
            return f"does not end in {', '.join(ENDINGS)}"
        case Why.EMPTY:
            return "is empty"
        case Why.HEAVY:
            return f"is larger than {FILE_LIMIT // 1024 // 1024} MB"
        case Why.LARGE:
            limits = f"the limit is {PIXEL_LIMIT:,} and {SIDE_LIMIT:,} a side"
            size = f"{refusal.width} × {refusal.height} pixels" if refusal.width else "more pixels than can be opened safely"
            return f"has {size}; {limits}"
        case Why.FOREIGN:
            return "is no JPEG, PNG, WebP or AVIF picture, whatever its name says"
        case _:
            return "cannot be opened; its head is damaged or cut off"


def _mend(refusal: Refusal) -> str:
    match refusal.why:
        case Why.HEAVY | Why.LARGE:
            return "Make it smaller."
        case Why.ENDING | Why.FOREIGN:
            return "Save it as JPEG or PNG, under a name that ends so."
        case _:
            return "Copy it anew from where it was taken."
