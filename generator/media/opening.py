"""Opening a photo: only what is safe to open, upright, in sRGB, on white; its first frame where it moves."""

from __future__ import annotations

import warnings
from io import BytesIO

from PIL import ExifTags, Image, ImageCms, ImageOps, UnidentifiedImageError

from generator.media.profiles import ADOBE_GAMMA, ADOBE_RGB, matrix_profile
from generator.media.unusable import Unusable
from generator.source.pictures import FORMATS, PIXEL_LIMIT, SIDE_LIMIT

_DEEP = ("I;16", "I;16L", "I;16B", "I")
_FOREIGN = (
    ((b"<svg", b"<?xml", b"<!DOCTYPE svg", b"\xef\xbb\xbf<svg", b"\xef\xbb\xbf<?xml"), "a drawing (SVG)"),
    ((b"GIF8",), "a GIF"),
    ((b"%PDF",), "a PDF document"),
    ((b"II*\0", b"MM\0*"), "a TIFF or a camera's raw file"),
    ((b"BM",), "a BMP"),
)
_HEIC = (b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1")
_FILMS = (b"isom", b"iso2", b"mp41", b"mp42", b"qt  ", b"M4V ", b"avc1")


def open_photo(data: bytes) -> Image.Image | Unusable:
    """The photo as one RGB picture of its first frame, turned as it was taken and in sRGB; why not where it cannot be.

    Only JPEG, PNG, WebP and AVIF are looked at. The size is read from the head of the file before any pixel is.
    """
    if not data:
        return Unusable("is empty")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)  # the limit below is the lower one
            with Image.open(BytesIO(data), formats=FORMATS) as image:
                width, height = image.size
                if width * height > PIXEL_LIMIT or max(width, height) > SIDE_LIMIT:
                    return Unusable(_too_large(width, height), "Make it smaller.")
                return _on_white(_in_srgb(ImageOps.exif_transpose(_shallow(image))))
    except UnidentifiedImageError:
        return _not_a_photo(data)
    except Image.DecompressionBombError:
        return Unusable(f"has more pixels than can be opened safely; the limit is {PIXEL_LIMIT:,}", "Make it smaller.")
    except (OSError, ValueError, SyntaxError, EOFError, MemoryError, KeyError, IndexError, OverflowError) as error:
        return Unusable(f"cannot be opened, perhaps it is cut off ({error})", "Copy it anew from where it was taken.")


def _too_large(width: int, height: int) -> str:
    return f"has {width} × {height} pixels; the limit is {PIXEL_LIMIT:,} and {SIDE_LIMIT:,} a side"


def _not_a_photo(data: bytes) -> Unusable:
    """What a file is that is no photo for a page, by how it begins: its name says otherwise."""
    head = data[:512].lstrip()
    if data[4:8] == b"ftyp" and data[8:12] in _HEIC:
        return Unusable("is a HEIC photo, which browsers do not show", "Save it as JPEG.")
    if data[4:8] == b"ftyp" and data[8:12] in _FILMS:
        return Unusable("is a film", "Take stills from it with `partway stills`.")
    for beginnings, name in _FOREIGN:
        if head.startswith(beginnings):
            reason = f"is {name}, whatever its name says; no JPEG, PNG, WebP or AVIF picture"
            return Unusable(reason, "Save it as JPEG or PNG.")
    return Unusable("is no JPEG, PNG, WebP or AVIF picture")


def _shallow(image: Image.Image) -> Image.Image:
    """16 bits a pixel made 8: a plain conversion would make all but the darkest 256 levels white."""
    if image.mode not in _DEEP:
        return image
    exif, profile = image.getexif(), image.info.get("icc_profile")
    plain = image.convert("I").point(lambda level: level * (1 / 257) + 0.5).convert("L")
    plain.info.update({"exif": exif.tobytes(), **({"icc_profile": profile} if profile else {})})
    return plain


def _in_srgb(image: Image.Image) -> Image.Image:
    """The same colours in sRGB, by the profile in the file; as they are where there is none or it makes no sense."""
    profile = image.info.get("icc_profile") or _named_profile(image)
    if not profile:
        return image
    try:
        source = ImageCms.ImageCmsProfile(BytesIO(profile))
        space = str(source.profile.xcolor_space).strip()
        alpha = image.convert("RGBA").getchannel("A") if _is_clear(image) else None
        bare = image.convert({"RGB": "RGB", "GRAY": "L", "CMYK": "CMYK"}[space])
        target = ImageCms.createProfile("sRGB")
        changed = ImageCms.profileToProfile(bare, source, target, outputMode="RGB") or bare
    except (ImageCms.PyCMSError, OSError, ValueError, KeyError):  # a damaged profile: the pixels are still there
        return image
    if alpha is not None:
        changed.putalpha(alpha)
    changed.info.pop("transparency", None)
    return changed


def _named_profile(image: Image.Image) -> bytes | None:
    """Cameras that are set to Adobe RGB write no profile but the word R03 (DCF 2.0, JEITA CP-3461A)."""
    if image.mode != "RGB":
        return None
    named = image.getexif().get_ifd(ExifTags.IFD.Interop).get(ExifTags.Interop.InteropIndex)
    return matrix_profile(ADOBE_RGB, ADOBE_GAMMA) if named == "R03" else None


def _is_clear(image: Image.Image) -> bool:
    return image.mode in ("RGBA", "LA", "PA", "La", "RGBa") or "transparency" in image.info


def _on_white(image: Image.Image) -> Image.Image:
    if _is_clear(image):
        ground = Image.new("RGBA", image.size, "white")
        ground.alpha_composite(image.convert("RGBA"))
        return ground.convert("RGB")
    return image.convert("RGB")
