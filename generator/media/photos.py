"""A photo as it goes on a page: at most 1600 px across, in three formats and three sizes, and nothing in it but pixels."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from typing import Any

from PIL import Image, features

from generator.media.framing import Cut, Window, window_of
from generator.media.opening import open_photo
from generator.media.unusable import Unusable

LARGEST = 1600  # px on the longer side
SMALLER = (480, 960)  # px wide
WORTH_A_SIZE = 0.8
"""A smaller size is made only where it is at most this share of the next larger one."""

KINDS = {".jpg": "JPEG", ".jpeg": "JPEG", ".png": "PNG", ".webp": "WEBP", ".avif": "AVIF"}
SETTINGS: dict[str, dict[str, Any]] = {
    "JPEG": {"quality": 82, "optimize": True, "progressive": True},
    "PNG": {"optimize": True},
    "WEBP": {"quality": 80, "method": 4},
    "AVIF": {"quality": 60, "speed": 8, "max_threads": 1},
}
ENDINGS = {"AVIF": "avif", "WEBP": "webp", "JPEG": "jpg"}
"""The formats of a page, the one that is chosen first at the top; a browser that knows none of the others has the last."""


@dataclass(frozen=True, slots=True)
class PagePhoto:
    """A picture for the page, in the format its name asks for; width and height in px."""

    width: int
    height: int
    data: bytes


@dataclass(frozen=True, slots=True)
class SizedPhoto:
    """One photo, or a stretch of it, in every format and size.

    original: width and height in px of the photo, upright, of which `window` is shown. sizes: from the smallest; the
    largest has `width` and `height`. files: by format and width.
    """

    original: tuple[int, int]
    window: Window
    width: int
    height: int
    sizes: tuple[int, ...]
    files: tuple[tuple[str, int, bytes], ...]


def page_photo(data: bytes, suffix: str = ".jpg") -> PagePhoto | Unusable:
    """The whole photo in one size. Location, serial numbers, comments and profiles do not survive: the pixels are copied.

    suffix: the ending of the file's name, which says how the page's copy is written.
    """
    kind = KINDS.get(suffix.lower())
    if kind is None:
        return Unusable(f"does not end in {', '.join(KINDS)}", "Give it the ending of what it is.")
    opened = open_photo(data)
    if isinstance(opened, Unusable):
        return opened
    opened.thumbnail((LARGEST, LARGEST), Image.Resampling.LANCZOS)
    return PagePhoto(opened.width, opened.height, _written(opened, kind))


def sized_photo(data: bytes, suffix: str = ".jpg", cut: Cut | None = None) -> SizedPhoto | Unusable:
    """The photo, or what `cut` leaves of it, in every format and size. Nothing but its pixels survives."""
    if suffix.lower() not in KINDS:
        return Unusable(f"does not end in {', '.join(KINDS)}", "Give it the ending of what it is.")
    opened = open_photo(data)
    if isinstance(opened, Unusable):
        return opened
    original = opened.size
    window = window_of(*original, cut)
    box = (window.left, window.top, window.left + window.width, window.top + window.height)
    shown = opened.crop(box) if cut is not None else opened
    shown.thumbnail((LARGEST, LARGEST), Image.Resampling.LANCZOS)
    pictures = tuple(_sizes(shown))
    files = tuple((kind, each.width, _written(each, kind)) for kind in ENDINGS for each in pictures)
    widths = tuple(each.width for each in pictures)
    return SizedPhoto(original, window, *shown.size, widths, files)


def made_by() -> str:
    """What the bytes depend on beside the photo: settings, and the versions of the library and its coders."""
    versions = [f"{name} {features.version(name)}" for name in ("pil", "jpg", "libjpeg_turbo", "webp", "avif", "littlecms2")]
    return repr((LARGEST, SMALLER, WORTH_A_SIZE, sorted(SETTINGS.items()), sorted(ENDINGS.items()), versions))


def _sizes(largest: Image.Image) -> Iterator[Image.Image]:
    """The picture in its smaller widths and its own, from the smallest."""
    widths: list[int] = []
    above = largest.width
    for width in reversed(SMALLER):
        if width <= WORTH_A_SIZE * above:
            widths.insert(0, width)
            above = width
    for width in widths:
        height = max(1, round(largest.height * width / largest.width))
        yield largest.resize((width, height), Image.Resampling.LANCZOS)
    yield largest


def _written(picture: Image.Image, kind: str) -> bytes:
    """A fresh picture of the same pixels: nothing that came with the file comes along."""
    fresh = Image.frombytes("RGB", picture.size, picture.convert("RGB").tobytes())
    out = BytesIO()
    fresh.save(out, kind, **SETTINGS[kind])
    return out.getvalue()
