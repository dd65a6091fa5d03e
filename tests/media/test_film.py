"""Stills out of real films, made here: the pictures picked are those known to be good; damaged films end in a sentence."""

from __future__ import annotations

import struct
from io import BytesIO
from itertools import accumulate

import exifread
import pytest
from PIL import Image

from generator.media.film import Film, can_read_films, open_film, pictures_between, upright
from generator.media.photos import SizedPhoto, sized_photo
from generator.media.stills import clock, description_of, found_in, still, stretches_of
from generator.media.unusable import Unusable
from tests.media.films import RATE, SIZE, blurred, board, film, shifted, sound, with_hand

CUT = 6.0
SHARP = (2.4, 4.0)


def work(time: float) -> Image.Image:
    """Two takes. In the first everything is blurred but two pictures; sharp too are a pan and a hand crossing."""
    if time >= CUT:
        return board(2)
    if 1.0 <= time < 1.4:
        return shifted(board(1), round((time - 1.0) * RATE) * 14)
    if 2.6 <= time < 3.8:
        share = (time - 2.6) / 1.2
        return with_hand(board(1) if 0.2 < share < 0.8 else blurred(board(1), 2.5), share)
    return board(1) if any(abs(time - sharp) < 0.5 / RATE for sharp in SHARP) else blurred(board(1), 2.5)


def at(picture: Image.Image, image: Image.Image) -> float:
    """How far two pictures are apart, in levels."""
    a, b = (each.convert("L").resize((64, 36)) for each in (picture, image))
    return sum(abs(x - y) for x, y in zip(a.tobytes(), b.tobytes(), strict=True)) / (64 * 36)


@pytest.fixture(scope="module")
def bench() -> bytes:
    return film(work, 8)


def picked(data: bytes, start: int, end: int | None = None) -> list[float]:
    with open_film(BytesIO(data)) as opened:
        assert isinstance(opened, Film)
        return [round(each.candidate.time, 2) for each in found_in(opened, stretches_of(start, end))]


def test_the_library_is_there_so_that_these_tests_mean_something() -> None:
    assert can_read_films()


def test_the_sharp_pictures_are_picked_and_neither_the_pan_nor_the_hand(bench: bytes) -> None:
    assert set(picked(bench, 3)[:2]) == set(SHARP)
    assert picked(bench, 1)[0] == 2.4
    assert picked(bench, 4)[0] == 4.0


def test_no_picture_is_taken_from_beyond_a_cut(bench: bytes) -> None:
    before, after = picked(bench, 5), picked(bench, 6)
    assert before[0] == 4.0 and all(time < CUT for time in before)
    assert after and all(time >= CUT for time in after)


def test_of_a_stretch_the_beginning_the_middle_and_the_end_are_looked_at(bench: bytes) -> None:
    times = picked(bench, 0, 7)
    assert len(times) == 3 and all(0 <= time <= 8 for time in times)
    assert any(time >= CUT for time in times) and set(times) & set(SHARP)


@pytest.mark.parametrize(
    ("kind", "codec"),
    [("mp4", "libx264"), ("webm", "libvpx-vp9"), ("matroska", "libx264"), ("mpegts", "mpeg4"), ("avi", "mpeg4")],
)
def test_every_common_container_gives_the_same_picture(kind: str, codec: str) -> None:
    data = film(work, 5, kind=kind, codec=codec)
    assert picked(data, 4)[0] == 4.0
    with open_film(BytesIO(data)) as opened:
        assert isinstance(opened, Film)
        data_of_still = still(opened, 4.0, "open-back")
    assert data_of_still is not None
    assert at(Image.open(BytesIO(data_of_still)), board(1)) < 4


def test_the_same_film_gives_the_same_stills(bench: bytes) -> None:
    def all_of_it() -> object:
        with open_film(BytesIO(bench)) as opened:
            assert isinstance(opened, Film)
            return found_in(opened, stretches_of(3, None)), still(opened, 2.4, "a")

    assert all_of_it() == all_of_it()


def test_a_still_tells_its_time_to_its_author_and_the_page_tells_nobody(bench: bytes) -> None:
    with open_film(BytesIO(bench)) as opened:
        assert isinstance(opened, Film)
        data = still(opened, 2.4, "open-back")
        assert still(opened, 99.0, "open-back") is None
    assert data is not None
    tags = exifread.process_file(BytesIO(data))
    assert str(tags["Image ImageDescription"]) == "0:02.40 of the film, step open-back"
    assert description_of(data) == "0:02.40 of the film, step open-back"
    assert Image.open(BytesIO(data)).size == SIZE
    photo = sized_photo(data)
    assert isinstance(photo, SizedPhoto)
    assert all(b"of the film" not in file and description_of(file) is None for _, _, file in photo.files)
    assert description_of(b"no picture") is None


def test_pictures_of_uneven_times_are_found_by_their_times() -> None:
    gaps = [0.04] * 20 + [1.5] + [0.04, 0.2, 0.02] * 15 + [3.0, 0.04]
    times = [round(time, 2) for time in accumulate(gaps, initial=0.0)]
    sharp = times[40]
    data = film(lambda time: board(1) if time == sharp else blurred(board(1), 2.5), 0, times=times)
    assert abs(picked(data, int(sharp))[0] - sharp) < 0.01
    with open_film(BytesIO(data)) as opened:
        assert isinstance(opened, Film)
        # In the long gap stands one picture; it is found by its own time.
        standing = [time for time, _ in pictures_between(opened, times[-2] - 2.0, times[-2] - 0.5)]
        assert standing == [pytest.approx(times[-3], abs=0.01)]


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_a_film_taken_sideways_stands_upright(turn: int) -> None:
    corner = Image.new("RGB", SIZE, "white")
    corner.paste("red", (0, 0, 80, 80))
    data = film(lambda time: corner, 0.4, rotation=turn)
    with open_film(BytesIO(data)) as opened:
        assert isinstance(opened, Film)
        shown = upright(opened, next(frame for _, frame in pictures_between(opened, 0.1, 0.3)))
    x, y = shown_corner(data)
    assert shown.size == (SIZE if turn % 180 == 0 else SIZE[::-1])
    red, green, _ = shown.getpixel((20 if x == 0 else shown.width - 20, 20 if y == 0 else shown.height - 20))  # type: ignore
    assert red > 200 and green < 80


def shown_corner(data: bytes) -> tuple[int, int]:
    """Where the track header says that the picture's first pixel goes: 0 or 1 across, 0 or 1 down (ISO/IEC 14496-12, 8.3.2).

    (p, q) goes to (a p + c q, b p + d q), and the whole is moved back into view.
    """
    start = data.index(b"tkhd") + 4
    a, b, _, c, d = struct.unpack(">5i", data[start + 40 : start + 60])
    xs, ys = [a * p + c * q for p in (0, 1) for q in (0, 1)], [b * p + d * q for p in (0, 1) for q in (0, 1)]
    return int(min(xs) < 0), int(min(ys) < 0)


def test_pixels_that_are_not_square_are_made_so() -> None:
    data = film(lambda time: board(1), 0.4, shape=2)
    with open_film(BytesIO(data)) as opened:
        assert isinstance(opened, Film)
        shown = upright(opened, next(frame for _, frame in pictures_between(opened, 0.1, 0.3)))
    assert shown.size == (2 * SIZE[0], SIZE[1])


def reason(data: bytes) -> str:
    with open_film(BytesIO(data)) as opened:
        assert isinstance(opened, Unusable), opened
        return opened.reason


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "is empty"),
        (b"words", "is no film that is known here"),
        (b"#EXTM3U\nhttp://127.0.0.1:9/a.ts\n", "is no film that is known here"),
        (b"ffconcat version 1.0\nfile /etc/hostname\n", "is no film that is known here"),
        (b"\0\0\0\x18ftypisom\0\0\0\0isomiso2" + b"\0" * 400, "cannot be opened as a film"),
        (b"\x1a\x45\xdf\xa3" + b"\0" * 400, "cannot be opened as a film"),
    ],
)
def test_what_is_no_film_ends_in_a_sentence(data: bytes, words: str) -> None:
    assert words in reason(data)


def test_sound_alone_and_a_film_cut_off_before_its_index_end_in_a_sentence(bench: bytes) -> None:
    assert reason(sound()) == "holds no moving picture"
    assert "perhaps it is cut off" in reason(bench[: len(bench) // 2])


def test_a_film_that_breaks_off_gives_what_it_has() -> None:
    data = film(lambda time: board(1), 8, kind="matroska")
    half = data[: len(data) // 2]
    assert picked(half, 2) == picked(data, 2)
    assert picked(half, 7) == []


@pytest.mark.parametrize("kind", ["mp4", "matroska"])
def test_a_film_with_damaged_bytes_never_ends_in_a_crash(kind: str) -> None:
    data = bytearray(film(lambda time: board(1), 4, kind=kind))
    for start in range(3000, len(data) - 3000, 9000):
        data[start : start + 400] = bytes(255 - value for value in data[start : start + 400])
    with open_film(BytesIO(bytes(data))) as opened:
        if isinstance(opened, Film):
            found_in(opened, stretches_of(1, None))


def test_times_are_told_to_the_hundredth() -> None:
    assert [clock(each) for each in (0, 59.999, 3599.994)] == ["0:00.00", "1:00.00", "59:59.99"]


def test_where_to_look_never_lies_before_the_film_nor_outside_a_stretch() -> None:
    assert [(s.start, s.end) for s in stretches_of(0, None)] == [(0.0, 1.5)]
    assert [(s.start, s.end, s.moment) for s in stretches_of(3, 5)] == [(3, 6, 4.5)]
    long = stretches_of(10, 60)
    assert long[0].start == 10 and long[-1].end == 61 and len(long) == 3


@pytest.mark.parametrize("size", [(16, 16), (34, 20), (64, 200), (602, 338)])
def test_films_of_any_shape_are_looked_through(size: tuple[int, int]) -> None:
    data = film(lambda time: board(1, size), 1, size=size)
    assert picked(data, 0)
