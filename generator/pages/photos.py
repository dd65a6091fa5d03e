"""Photos as a page shows them; sizing and checking them is done elsewhere."""

from __future__ import annotations

from dataclasses import dataclass


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
