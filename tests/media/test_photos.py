"""Photos for pages: upright, bounded, and nothing in the file but pixels; damaged ones end in a sentence."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO

import pytest
from PIL import Image, ImageCms, PngImagePlugin

from generator.media.photos import LARGEST, PIXEL_LIMIT, PagePhoto, Unusable, page_photo

MAKE, ORIENTATION, SERIAL, GPS = 0x010F, 0x0112, 0xA431, 0x8825


def bytes_of(image: Image.Image, kind: str = "JPEG", **known: object) -> bytes:
    out = BytesIO()
    image.save(out, kind, **known)
    return out.getvalue()


def marked(width: int = 40, height: int = 20) -> Image.Image:
    """White with a red left half."""
    image = Image.new("RGB", (width, height), "white")
    image.paste("red", (0, 0, width // 2, height))
    return image


def usable(data: bytes) -> PagePhoto:
    photo = page_photo(data)
    assert isinstance(photo, PagePhoto), photo
    return photo


def test_location_serials_comments_and_profiles_do_not_survive() -> None:
    exif = Image.Exif()
    exif[MAKE] = "Secret Camera Works"
    exif.get_ifd(GPS)[1] = "N"
    exif.get_ifd(0x8769)[SERIAL] = "SERIAL-4711"
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    data = bytes_of(marked(), exif=exif, comment=b"home address", icc_profile=profile)
    assert b"SERIAL-4711" in data and b"home address" in data
    out = usable(data).data
    for secret in (b"Secret", b"SERIAL", b"home", b"Exif", b"ICC_PROFILE", b"http"):
        assert secret not in out
    # An independent look: of the JPEG's segments only JFIF (APP0) may carry application data.
    assert application_segments(out) <= {0xE0}


def application_segments(data: bytes) -> set[int]:
    """The application and comment markers of a JPEG before its image data (ITU-T T.81, annex B)."""
    found, at = set(), 2
    while data[at] == 0xFF and data[at + 1] != 0xDA:
        marker, length = data[at + 1], struct.unpack(">H", data[at + 2 : at + 4])[0]
        if 0xE0 <= marker <= 0xEF or marker == 0xFE:
            found.add(marker)
        at += 2 + length
    return found


def test_a_photo_taken_sideways_stands_upright() -> None:
    exif = Image.Exif()
    exif[ORIENTATION] = 6  # the camera was turned: rotate 90 degrees clockwise to show
    photo = usable(bytes_of(marked(), exif=exif))
    assert (photo.width, photo.height) == (20, 40)
    upright = Image.open(BytesIO(photo.data)).convert("RGB")
    top, bottom = upright.getpixel((10, 5)), upright.getpixel((10, 35))
    assert top[1] < 90 < bottom[1]  # type: ignore[index]


def test_large_photos_are_made_smaller_and_small_ones_left() -> None:
    assert (usable(bytes_of(Image.new("RGB", (3200, 800)))).width) == LARGEST
    assert (usable(bytes_of(Image.new("RGB", (320, 80)))).width) == 320


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGBA", "I;16"])
def test_every_mode_comes_out_in_colour_on_white(mode: str) -> None:
    kind = "PNG"
    image = Image.new(mode, (8, 8)) if mode != "RGBA" else Image.new("RGBA", (8, 8), (0, 0, 0, 0))
    photo = usable(bytes_of(image, kind))
    assert Image.open(BytesIO(photo.data)).mode == "RGB"
    if mode == "RGBA":
        assert Image.open(BytesIO(photo.data)).getpixel((4, 4)) == (255, 255, 255)


def test_cmyk_is_shown_too() -> None:
    assert usable(bytes_of(Image.new("CMYK", (8, 8)))).width == 8


def test_the_same_photo_gives_the_same_bytes() -> None:
    data = bytes_of(marked(300, 200))
    assert usable(data) == usable(data)


@pytest.mark.parametrize("data", [b"", b"not a picture", b"\xff\xd8\xff\xe0" + b"\0" * 40, b"GIF89a" + b"\0" * 40])
def test_what_is_no_picture_ends_in_a_sentence(data: bytes) -> None:
    photo = page_photo(data)
    assert isinstance(photo, Unusable) and photo.reason


def test_a_photo_cut_off_ends_in_a_sentence() -> None:
    data = bytes_of(Image.effect_noise((200, 200), 80).convert("RGB"))
    photo = page_photo(data[: len(data) // 2])
    assert isinstance(photo, Unusable) and "cut off" in photo.reason


@pytest.mark.parametrize("side", [8_000, 12_000, 40_000])
def test_a_picture_bomb_is_not_opened(side: int) -> None:
    assert side * side > PIXEL_LIMIT
    photo = page_photo(png_header(side))
    assert isinstance(photo, Unusable) and "pixels" in photo.reason


def png_header(side: int) -> bytes:
    """A tiny PNG that claims to be `side` pixels across and down."""
    chunk = b"IHDR" + struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0)
    data = b"IDAT" + zlib.compress(b"\0" * 100)
    return b"".join(
        [
            PngImagePlugin._MAGIC,
            struct.pack(">I", len(chunk) - 4) + chunk + struct.pack(">I", zlib.crc32(chunk)),
            struct.pack(">I", len(data) - 4) + data + struct.pack(">I", zlib.crc32(data)),
        ]
    )
