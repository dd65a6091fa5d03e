"""One photo as it goes on a page: upright, in sRGB, at most 1600 px across, and nothing in the file but pixels."""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from io import BytesIO
from typing import Any

from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError

FORMATS = ("JPEG", "PNG", "WEBP", "AVIF")
PIXEL_LIMIT = 60_000_000
LARGEST = 1600  # px on the longer side
KINDS = {".jpg": "JPEG", ".jpeg": "JPEG", ".png": "PNG", ".webp": "WEBP", ".avif": "AVIF"}
SETTINGS: dict[str, dict[str, Any]] = {
    "JPEG": {"quality": 82, "optimize": True, "progressive": True},
    "PNG": {"optimize": True},
    "WEBP": {"quality": 80, "method": 4},
    "AVIF": {"quality": 60, "speed": 8},
}


@dataclass(frozen=True, slots=True)
class PagePhoto:
    """A picture for the page, in the format its name asks for; width and height in px."""

    width: int
    height: int
    data: bytes


@dataclass(frozen=True, slots=True)
class Unusable:
    """Why a file cannot be shown, as a clause that follows its name."""

    reason: str


def page_photo(data: bytes, suffix: str = ".jpg") -> PagePhoto | Unusable:
    """Make a photo fit for a page. Location, serial numbers, comments and profiles do not survive: the pixels are copied.

    suffix: the ending of the file's name, which says how the page's copy is written. Only JPEG, PNG, WebP and AVIF are
    looked at, and none above 60 million pixels, whatever the file says it is.
    """
    kind = KINDS.get(suffix.lower())
    if kind is None:
        return Unusable(f"does not end in {', '.join(KINDS)}")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(BytesIO(data), formats=FORMATS) as image:
                if image.width * image.height > PIXEL_LIMIT:
                    return Unusable(f"has {image.width} × {image.height} pixels; the limit is {PIXEL_LIMIT:,}")
                upright = ImageOps.exif_transpose(image)
                plain = _on_white(_in_srgb(upright))
    except UnidentifiedImageError:
        return Unusable("is no JPEG, PNG, WebP or AVIF picture")
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        return Unusable(f"has more pixels than can be opened safely; the limit is {PIXEL_LIMIT:,}")
    except (OSError, ValueError, SyntaxError, EOFError, MemoryError) as error:
        return Unusable(f"cannot be opened, perhaps it is cut off ({error})")
    plain.thumbnail((LARGEST, LARGEST), Image.Resampling.LANCZOS)
    fresh = Image.frombytes(plain.mode, plain.size, plain.tobytes())
    out = BytesIO()
    fresh.save(out, kind, **SETTINGS[kind])
    return PagePhoto(fresh.width, fresh.height, out.getvalue())


def _in_srgb(image: Image.Image) -> Image.Image:
    profile = image.info.get("icc_profile")
    if not profile or image.mode not in ("RGB", "RGBA", "CMYK", "L"):
        return image
    try:
        source = ImageCms.ImageCmsProfile(BytesIO(profile))
        mode = "RGBA" if image.mode == "RGBA" else "RGB"
        return ImageCms.profileToProfile(image, source, ImageCms.createProfile("sRGB"), outputMode=mode) or image
    except ImageCms.PyCMSError:  # a damaged profile: the pixels are still there
        return image


def _on_white(image: Image.Image) -> Image.Image:
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        ground = Image.new("RGBA", image.size, "white")
        ground.alpha_composite(image.convert("RGBA"))
        return ground.convert("RGB")
    return image.convert("RGB")
