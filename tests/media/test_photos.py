"""Photos for pages: upright, bounded, in true colours, nothing in the files but pixels; damaged ones end in a sentence."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO

import exifread
import pytest
from PIL import Image, ImageCms, PngImagePlugin

from generator.media.framing import Cut
from generator.media.opening import PIXEL_LIMIT
from generator.media.photos import ENDINGS, LARGEST, PagePhoto, SizedPhoto, made_by, page_photo, sized_photo
from generator.media.profiles import ADOBE_GAMMA, ADOBE_RGB, matrix_profile
from generator.media.unusable import Unusable

MAKE, ORIENTATION, SERIAL, GPS, MAKER_NOTE, EXIF, INTEROP = 0x010F, 0x0112, 0xA431, 0x8825, 0x927C, 0x8769, 0xA005
DISPLAY_P3 = ((0.51512, 0.24120, -0.00105), (0.29198, 0.69225, 0.04189), (0.15710, 0.06657, 0.78407))
SECRETS = (b"SECRET", b"xmpmeta", b"Photoshop", b"Exif", b"exif", b"ICC_PROFILE", b"ICCP", b"iCCP", b"XMP ", b"tEXt")


def bytes_of(image: Image.Image, kind: str = "JPEG", **known: object) -> bytes:
    out = BytesIO()
    image.save(out, kind, **known)
    return out.getvalue()


def marked(width: int = 40, height: int = 20) -> Image.Image:
    """White with a red left half."""
    image = Image.new("RGB", (width, height), "white")
    image.paste("red", (0, 0, width // 2, height))
    return image


def usable(data: bytes, suffix: str = ".jpg") -> PagePhoto:
    photo = page_photo(data, suffix)
    assert isinstance(photo, PagePhoto), photo
    return photo


def sized(data: bytes, suffix: str = ".jpg", cut: Cut | None = None) -> SizedPhoto:
    photo = sized_photo(data, suffix, cut)
    assert isinstance(photo, SizedPhoto), photo
    return photo


def reason(data: bytes, suffix: str = ".jpg") -> str:
    photo = sized_photo(data, suffix)
    assert isinstance(photo, Unusable) and photo.mend.endswith(".")
    assert page_photo(data, suffix) == photo
    return photo.reason


# --- nothing but pixels -----------------------------------------------------------------------------------------------


def told_by_a_camera() -> Image.Exif:
    exif = Image.Exif()
    exif[MAKE] = "SECRET camera works"
    gps = exif.get_ifd(GPS)
    gps[1], gps[2] = "N", (54.0, 12.0, 33.0)
    exif.get_ifd(EXIF)[SERIAL] = "SECRET-4711"
    exif.get_ifd(EXIF)[MAKER_NOTE] = b"SECRET note of the maker"
    return exif


def with_segments(jpeg: bytes) -> bytes:
    """With IPTC in an APP13 segment, XMP in an APP1, a comment, and a picture behind the end of the file."""
    told = b""
    for marker, data in (
        (0xED, b"Photoshop 3.0\0" + b"8BIM\x04\x04\0\0\0\0\0\x12\x1c\x02\x5a\0\x0dSECRET street"),
        (0xE1, b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta>SECRET</x:xmpmeta>"),
        (0xFE, b"SECRET home address"),
    ):
        told += struct.pack(">BBH", 0xFF, marker, len(data) + 2) + data
    return jpeg[:2] + told + jpeg[2:] + b"SECRET thumbnail"


def told(kind: str) -> bytes:
    """A picture of that kind with all that its kind can carry along."""
    profile = matrix_profile(DISPLAY_P3, 2.2)
    exif, xmp = told_by_a_camera(), b"<x:xmpmeta>SECRET</x:xmpmeta>"
    image = marked(80, 60)
    if kind == "JPEG":
        return with_segments(bytes_of(image, kind, exif=exif, icc_profile=profile, comment=b"SECRET"))
    if kind == "PNG":
        texts = PngImagePlugin.PngInfo()
        texts.add_text("Author", "SECRET name")
        texts.add_text("Place", "SECRET place", zip=True)
        texts.add_itxt("XML:com.adobe.xmp", xmp.decode())
        return bytes_of(image, kind, exif=exif, icc_profile=profile, pnginfo=texts)
    return bytes_of(image, kind, exif=exif, icc_profile=profile, xmp=xmp)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "AVIF"])
def test_nothing_that_a_camera_or_program_wrote_survives(kind: str) -> None:
    data = told(kind)
    if kind != "WEBP":  # the reader looks for it elsewhere in that container
        assert exifread.process_file(BytesIO(data)), "the reader sees what went in"
    assert b"SECRET" in data
    photo = sized(data)
    whole = [usable(data, suffix).data for suffix in (".jpg", ".png", ".webp", ".avif")]
    for out in (*(file for _, _, file in photo.files), *whole):
        assert not [secret for secret in SECRETS if secret in out]
        assert not seen_by_exifread(out)
        with Image.open(BytesIO(out)) as image:
            image.load()
            assert not dict(image.getexif())
            assert not {"exif", "icc_profile", "xmp", "comment", "photoshop", "XML:com.adobe.xmp"} & set(image.info)


def seen_by_exifread(data: bytes) -> dict[str, object]:
    """What an independent reader finds, apart from what a JPEG's own head says of its size."""
    return {name: value for name, value in exifread.process_file(BytesIO(data)).items() if not name.startswith("JFIF ")}


def test_of_the_segments_of_a_jpeg_only_its_own_head_is_left() -> None:
    for kind, _, out in sized(told("JPEG")).files:
        if kind == "JPEG":
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


# --- upright, and in true colours ---------------------------------------------------------------------------------------


def arrow() -> Image.Image:
    """Four corners of four colours, each 20 px of 40 × 60."""
    image = Image.new("RGB", (40, 60), "white")
    for colour, corner in (("red", (0, 0)), ("lime", (20, 0)), ("blue", (0, 30)), ("black", (20, 30))):
        image.paste(colour, (*corner, corner[0] + 20, corner[1] + 30))
    return image


UNDONE = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}
"""What a camera did to the picture for each value of the tag (Exif 2.32, 4.6.4 A, tag 0x0112)."""


@pytest.mark.parametrize("orientation", UNDONE)
def test_however_the_camera_was_held_the_photo_stands_upright(orientation: int) -> None:
    turned = arrow() if UNDONE[orientation] is None else arrow().transpose(UNDONE[orientation])
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    photo = usable(bytes_of(turned, "PNG", exif=exif), ".png")
    shown = Image.open(BytesIO(photo.data))
    assert shown.size == (40, 60)
    assert [shown.getpixel(at) for at in ((5, 5), (35, 5), (5, 55), (35, 55))] == [
        (255, 0, 0), (0, 255, 0), (0, 0, 255), (0, 0, 0),
    ]  # fmt: skip


def middle(data: bytes, suffix: str = ".png") -> tuple[int, ...]:
    image = Image.open(BytesIO(usable(data, suffix).data))
    assert image.mode == "RGB"
    pixel = image.getpixel((image.width // 2, image.height // 2))
    assert isinstance(pixel, tuple)
    return pixel


def near(found: tuple[int, ...], wanted: tuple[int, ...], by: int = 3) -> bool:
    return all(abs(a - b) <= by for a, b in zip(found, wanted, strict=True))


def test_a_wide_gamut_is_brought_to_srgb() -> None:
    # sRGB's green written in Display-P3 is (117, 251, 76) (computed with the primaries of both, CSS Color 4, chapter 10).
    profile = matrix_profile(DISPLAY_P3, 2.2)
    found = middle(bytes_of(Image.new("RGB", (8, 8), (117, 251, 76)), "PNG", icc_profile=profile))
    assert near(found, (0, 255, 0), 12) and found != (117, 251, 76)


def test_adobe_rgb_is_brought_to_srgb_by_its_profile_and_by_its_name_alone() -> None:
    # A grey is a grey in both; a saturated red-orange of Adobe RGB lies further out in sRGB.
    image = Image.new("RGB", (8, 8), (200, 100, 60))
    profile = matrix_profile(ADOBE_RGB, ADOBE_GAMMA)
    with_profile = middle(bytes_of(image, "PNG", icc_profile=profile))
    exif = Image.Exif()
    exif.get_ifd(EXIF)[INTEROP] = {1: "R03"}
    by_name = middle(bytes_of(image, "JPEG", exif=exif, quality=98, subsampling=0))
    # Linear by the exponent 563/256, through D50 with the matrix of the encoding, back with that of IEC 61966-2-1.
    assert near(with_profile, (227, 100, 55), 1) and near(by_name, (227, 100, 55), 4)
    assert near(middle(bytes_of(Image.new("RGB", (8, 8), (120, 120, 120)), "PNG", icc_profile=profile)), (120, 120, 120), 2)


def test_a_profile_that_is_damaged_or_of_another_kind_leaves_the_pixels() -> None:
    assert middle(bytes_of(Image.new("RGB", (8, 8), (9, 99, 199)), "PNG", icc_profile=b"no profile")) == (9, 99, 199)
    grey = Image.new("L", (8, 8), 90)
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    assert near(middle(bytes_of(grey, "PNG", icc_profile=srgb)), (90, 90, 90))


def test_a_palette_keeps_its_colours_under_a_profile_and_its_clear_parts_are_white() -> None:
    palette = Image.new("RGB", (8, 8), (117, 251, 76)).convert("P", palette=Image.Palette.ADAPTIVE)
    assert near(middle(bytes_of(palette, "PNG", icc_profile=matrix_profile(DISPLAY_P3, 2.2))), (0, 255, 0), 14)
    clear = Image.new("P", (8, 8), 0)
    clear.putpalette([10, 20, 30])
    assert middle(bytes_of(clear, "PNG", transparency=0)) == (255, 255, 255)
    half = Image.new("RGBA", (8, 8), (0, 0, 0, 0))
    assert middle(bytes_of(half, "PNG", icc_profile=matrix_profile(DISPLAY_P3, 2.2))) == (255, 255, 255)


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGBA", "I;16"])
def test_every_mode_comes_out_in_colour(mode: str) -> None:
    assert len(middle(bytes_of(Image.new(mode, (8, 8)), "PNG"))) == 3


def test_sixteen_bits_a_pixel_are_made_eight_without_losing_the_light_half() -> None:
    deep = Image.new("I;16", (256, 4))
    deep.putdata([level * 257 for level in range(256)] * 4)
    data = bytes_of(deep, "PNG")
    with Image.open(BytesIO(data)) as read:
        assert read.mode == "I;16"
    shown = Image.open(BytesIO(usable(data, ".png").data))
    levels = (0, 1, 64, 128, 200, 255)
    assert [shown.getpixel((level, 2)) for level in levels] == [(level,) * 3 for level in levels]


def test_sixteen_bits_a_colour_are_shown_and_turned_too() -> None:
    exif = Image.Exif()
    exif[ORIENTATION] = 6
    deep = Image.new("I;16", (20, 10), 65535)
    assert usable(bytes_of(deep, "PNG", exif=exif), ".png").width == 10
    rgb = b"".join(b"\0" + struct.pack(">3H", 65535, 32768, 0) * 4 for _ in range(4))
    assert near(middle(png(4, 4, 16, 2, rgb)), (255, 128, 0), 1)


def test_print_colours_are_shown_as_colours() -> None:
    found = middle(bytes_of(Image.new("CMYK", (16, 16), (0, 255, 255, 0)), "JPEG"), ".png")
    assert found[0] > 200 and max(found[1:]) < 60


@pytest.mark.parametrize("kind", ["PNG", "WEBP", "AVIF"])
def test_of_a_moving_picture_the_first_frame_is_shown(kind: str) -> None:
    frames = [Image.new("RGB", (16, 16), colour) for colour in ("red", "blue", "lime")]
    data = bytes_of(frames[0], kind, save_all=True, append_images=frames[1:], duration=100)
    with Image.open(BytesIO(data)) as read:
        assert getattr(read, "n_frames", 1) == 3
    assert near(middle(data), (255, 0, 0), 6)


# --- sizes and formats ------------------------------------------------------------------------------------------------


def test_large_photos_are_made_smaller_and_small_ones_left() -> None:
    assert (usable(bytes_of(Image.new("RGB", (3200, 800)))).width) == LARGEST
    assert (usable(bytes_of(Image.new("RGB", (320, 80)))).width) == 320


@pytest.mark.parametrize(
    ("size", "widths"),
    [((3200, 2400), (480, 960, 1600)), ((2400, 3200), (480, 960, 1200)), ((1000, 500), (480, 1000)), ((300, 200), (300,))],
)
def test_a_photo_comes_in_sizes_that_are_worth_having(size: tuple[int, int], widths: tuple[int, ...]) -> None:
    photo = sized(bytes_of(Image.new("RGB", size, "grey")))
    assert photo.sizes == widths and photo.original == size
    assert [(kind, width) for kind, width, _ in photo.files] == [(kind, width) for kind in ENDINGS for width in widths]
    for kind, width, data in photo.files:
        with Image.open(BytesIO(data)) as image:
            assert (image.format, image.width) == (kind, width)
            assert abs(image.width / image.height - size[0] / size[1]) < 0.01


def test_a_photo_is_cut_round_the_point_that_matters() -> None:
    image = Image.new("RGB", (1200, 900), "white")
    image.paste("red", (880, 80, 920, 120))
    photo = sized(bytes_of(image), cut=Cut((0.75, 1 / 9), 4))
    assert (photo.width, photo.height, photo.window.left, photo.window.top) == (300, 200, 750, 0)
    largest = Image.open(BytesIO(next(data for kind, width, data in photo.files if (kind, width) == ("JPEG", 300))))
    pixel = largest.convert("RGB").getpixel((150, 100))
    assert isinstance(pixel, tuple) and near(pixel, (255, 0, 0), 20)


def test_the_same_photo_gives_the_same_bytes_and_what_they_depend_on_is_named() -> None:
    data = bytes_of(marked(300, 200))
    assert usable(data) == usable(data)
    assert sized(data, cut=Cut((0.2, 0.2), 2)) == sized(data, cut=Cut((0.2, 0.2), 2))
    assert made_by() == made_by() and "webp" in made_by()


# --- damage -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "is empty"),
        (b"not a picture", "is no JPEG, PNG, WebP or AVIF picture"),
        (b"\xff\xd8\xff\xe0" + b"\0" * 40, "no JPEG"),
        (b"GIF89a" + b"\0" * 40, "is a GIF"),
        (b'<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"/>', "is a drawing (SVG)"),
        (b'  <svg onload="alert(1)"/>', "is a drawing (SVG)"),
        (b"\0\0\0\x18ftypheic\0\0\0\0mif1heic", "is a HEIC photo, which browsers do not show"),
        (b"\0\0\0\x18ftypisom\0\0\0\0isomiso2", "is a film"),
        (b"II*\0\x08\0\0\0", "a camera's raw file"),
        (b"%PDF-1.7", "is a PDF document"),
        (b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n", "is no JPEG"),
    ],
)
def test_what_is_no_picture_ends_in_a_sentence(data: bytes, words: str) -> None:
    assert words in reason(data, ".png")


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "AVIF"])
@pytest.mark.parametrize("share", [0.05, 0.5, 0.95])
def test_a_photo_cut_off_ends_in_a_sentence(kind: str, share: float) -> None:
    data = bytes_of(Image.effect_noise((200, 200), 80).convert("RGB"), kind)
    assert reason(data[: int(len(data) * share)])


@pytest.mark.parametrize("suffix", [".heic", ".gif", ".svg", ".txt", ""])
def test_a_name_that_no_page_can_show_is_told(suffix: str) -> None:
    assert "does not end in .jpg" in reason(bytes_of(marked()), suffix)


def test_a_photo_under_the_ending_of_another_kind_is_shown_as_the_name_says() -> None:
    with Image.open(BytesIO(usable(bytes_of(marked(), "PNG"), ".jpg").data)) as image:
        assert image.format == "JPEG"


@pytest.mark.parametrize(("width", "height"), [(10_000, 10_000), (8_000, 8_000), (40_000, 40_000), (60_000, 2)])
def test_a_picture_bomb_is_not_opened(width: int, height: int) -> None:
    """One of 100 million pixels, and a tiny file that claims to be huge: told by the head alone."""
    assert width * height > PIXEL_LIMIT or width > 30_000
    assert "pixels" in reason(png(width, height, 8, 2, b"\0" * 100))


def test_a_bomb_among_the_texts_of_a_picture_is_not_unpacked_into_the_page() -> None:
    texts = PngImagePlugin.PngInfo()
    texts.add_text("a", "0" * 5_000_000, zip=True)
    found = sized_photo(bytes_of(marked(), "PNG", pnginfo=texts), ".png")
    assert isinstance(found, Unusable) or all(len(data) < 10_000 for _, _, data in found.files)


def png(width: int, height: int, bits: int, colours: int, rows: bytes) -> bytes:
    """A PNG by hand (ISO/IEC 15948): what it claims to be need not be in it."""
    pieces = [PngImagePlugin._MAGIC]
    for name, data in (
        (b"IHDR", struct.pack(">IIBBBBB", width, height, bits, colours, 0, 0, 0)),
        (b"IDAT", zlib.compress(rows)),
        (b"IEND", b""),
    ):
        pieces += [struct.pack(">I", len(data)), name + data, struct.pack(">I", zlib.crc32(name + data))]
    return b"".join(pieces)
