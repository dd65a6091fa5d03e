"""Photos as a page shows them; sizing and checking them is done elsewhere."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.figures.plan.marks import marks_of
from generator.orders.guide import Guide
from generator.orders.work import PhotoMark, Step


@dataclass(frozen=True, slots=True)
class PhotoMarkView:
    """A numbered mark; x and y in pixels of the photo as shown, as text ready to be set."""

    number: str
    x: str
    y: str
    words: str


@dataclass(frozen=True, slots=True)
class PhotoView:
    """src relative to the page; width and height in pixels; radius of its marks in the same pixels."""

    src: str
    width: int
    height: int
    alt: str
    credit: str = ""
    marks: tuple[PhotoMarkView, ...] = ()
    mark_radius: str = "0"


MARK_SHARE = 0.022
"""Radius of a mark as a share of the photo's longer side: large enough to read on a phone, small enough to see past."""


def photo_views(guide: Guide, step: Step, sizes: Mapping[str, tuple[int, int]]) -> tuple[PhotoView, ...]:
    """The photos of a step that are at hand; sizes: width and height in px by the path the step names a photo with.

    A mark on a joint carries the joint's number in the plan; any other goes on counting from there in letters.
    """
    return tuple(
        PhotoView(
            src=f"media/{photo.file}",
            width=sizes[photo.file][0],
            height=sizes[photo.file][1],
            alt=photo.alt or "",
            credit=", ".join(word for word in (photo.credit, photo.licence) if word),
            marks=_marks(guide, step, photo.marks, *sizes[photo.file]),
            mark_radius=str(round(MARK_SHARE * max(sizes[photo.file]))),
        )
        for photo in step.photos
        if photo.file in sizes
    )


def _marks(guide: Guide, step: Step, marks: tuple[PhotoMark, ...], width: int, height: int) -> tuple[PhotoMarkView, ...]:
    numbers = {mark.joint: mark.label for mark in reversed(marks_of(guide.anatomy, step))}
    letters = iter("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    return tuple(
        PhotoMarkView(
            number=numbers[mark.joint] if mark.joint in numbers else next(letters, ""),
            x=str(round(mark.x * width)),
            y=str(round(mark.y * height)),
            words=_words(guide, mark),
        )
        for mark in marks
    )


def _words(guide: Guide, mark: PhotoMark) -> str:
    if mark.text:
        return mark.text
    if mark.joint is not None:
        return guide.joint(mark.joint).name
    return guide.part(mark.part).name if mark.part is not None else ""
