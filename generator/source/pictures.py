"""What the head of a picture file says: whether pages can show it. The pixels are left alone."""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path, PurePosixPath

FORMATS = ("JPEG", "PNG", "WEBP", "AVIF")
ENDINGS = (".jpg", ".jpeg", ".png", ".webp", ".avif")
PIXEL_LIMIT = 60_000_000
SIDE_LIMIT = 30_000  # px
FILE_LIMIT = 40 * 1024 * 1024  # bytes


class Why(StrEnum):
    """Why a picture cannot be shown."""

    ENDING = "ending"
    EMPTY = "empty"
    HEAVY = "heavy"
    LARGE = "large"
    FOREIGN = "foreign"
    DAMAGED = "damaged"


@dataclass(frozen=True, slots=True)
class Refusal:
    """width and height in px where it is too large, else 0."""

    why: Why
    width: int = 0
    height: int = 0


def refusal_of(file: Path, size: int) -> Refusal | None:
    """Why pages cannot show the picture, by its name, its size in bytes and its head; None where nothing speaks against it.

    A file that is cut off after its head is found out only when it is opened for a page.
    """
    if PurePosixPath(file).suffix.lower() not in ENDINGS:
        return Refusal(Why.ENDING)
    if not size:
        return Refusal(Why.EMPTY)
    if size > FILE_LIMIT:
        return Refusal(Why.HEAVY)
    # Loaded only where there is a picture.
    from PIL import Image, UnidentifiedImageError

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # the limit below is the lower one
            with Image.open(file, formats=FORMATS) as image:
                width, height = image.size
    except UnidentifiedImageError:
        return Refusal(Why.FOREIGN)
    except Image.DecompressionBombError:
        return Refusal(Why.LARGE)
    except Exception:  # whatever a stranger's file makes of the reader, it is a file that cannot be shown
        return Refusal(Why.DAMAGED)
    if width * height > PIXEL_LIMIT or max(width, height) > SIDE_LIMIT:
        return Refusal(Why.LARGE, width, height)
    return None
