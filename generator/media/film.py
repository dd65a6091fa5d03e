"""A film opened for stills: its pictures between two times, upright, found by seeking. Needs the extra `video`."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction
from importlib.util import find_spec
from typing import TYPE_CHECKING, Any, BinaryIO, cast

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from generator.media.unusable import Unusable

if TYPE_CHECKING:
    from av.container import InputContainer
    from av.video.frame import VideoFrame
    from av.video.stream import VideoStream

MISSING = "The library that reads films is not installed: pip install 'partway[video]'. Photos made by hand need none."
PIXEL_LIMIT = 40_000_000
"""Of one picture of a film: four times what the largest cameras at hand record."""

RUN_UP = 0.5
"""Seconds before a stretch from which every picture is decoded; before that, those that no other needs are passed over."""

MOST_BAD = 400
"""Packets in a row that cannot be decoded before the rest of a stretch is given up."""

BACK = (0.0, 12.0, 60.0, 1e9)
"""Seconds that a seek goes further back, one after the other, until it lands before the stretch."""

LATE = 0.25
"""Seconds after the beginning of a stretch at which its first picture may stand."""

_CONTAINERS = (
    (slice(4, 8), (b"ftyp", b"moov", b"mdat", b"wide", b"free", b"skip"), "mov"),
    (slice(0, 4), (b"\x1a\x45\xdf\xa3",), "matroska"),
    (slice(8, 12), (b"AVI ",), "avi"),
    (slice(188, 189), (b"\x47",), "mpegts"),
)
"""Where the beginning of a file tells its container. It is named to the library, which otherwise also tries play lists, and
those open other files and addresses."""


@dataclass(frozen=True)
class Film:
    """An open film. length in seconds, None where the file does not say; width and height in px, upright."""

    container: InputContainer
    stream: VideoStream
    length: float | None
    start: float

    @property
    def seconds_per_tick(self) -> Fraction:
        assert self.stream.time_base is not None
        return self.stream.time_base


def can_read_films() -> bool:
    """Whether the extra `video` is installed."""
    return find_spec("av") is not None


@contextmanager
def open_film(file: BinaryIO) -> Iterator[Film | Unusable]:
    """The film in an open file, or why there is none. Only the file is read: nothing it names is followed."""
    import av
    from av.error import FFmpegError

    head = file.read(512)
    file.seek(0)
    kind = next((name for where, signs, name in _CONTAINERS if head[where] in signs), None)
    if not head or kind is None:
        yield Unusable("is empty" if not head else "is no film that is known here", "Give a film in MP4, MOV, MKV or WebM.")
        return
    try:
        container = av.open(file, "r", format=kind)
    except (FFmpegError, OSError, ValueError):
        yield Unusable("cannot be opened as a film, perhaps it is cut off", "Export or copy it anew.")
        return
    with container:
        try:
            yield _film(container)
        except FFmpegError as error:
            raise BrokenFilm(str(error)) from error


class BrokenFilm(Exception):
    """The film cannot be read on; what was found so far may be used."""


def _film(container: InputContainer) -> Film | Unusable:
    stream = next((each for each in container.streams.video if not _is_cover(each)), None)
    if stream is None:
        return Unusable("holds no moving picture", "Give the film itself, not its sound.")
    context = stream.codec_context
    if context is None:
        return Unusable("is written in a way that the library cannot read", "Export it as H.264 in MP4.")
    if context.width * context.height > PIXEL_LIMIT:
        return Unusable(f"has pictures of {context.width} × {context.height} pixels", "Export it smaller.")
    stream.thread_type = "AUTO"
    base = stream.time_base or Fraction(1, 90_000)
    start = float(stream.start_time * base) if stream.start_time is not None else 0.0
    length = None
    if stream.duration:
        length = float(stream.duration * base)
    elif container.duration:
        length = container.duration / 1_000_000
    return Film(container, stream, length, start)


def _is_cover(stream: Any) -> bool:
    """Whether it is the one picture on the cover of a sound file."""
    return "attached_pic" in str(getattr(stream.disposition, "name", "") or "")


def pictures_between(film: Film, start: float, end: float) -> Iterator[tuple[float, VideoFrame]]:
    """The pictures that stand at times from `start` to `end`, with their times, in seconds from the film's beginning.

    Seeks to the last full picture before and decodes from there; where a container has no index and the seek comes out too
    late, further back. Pictures that are damaged are left out. Ends early where the film does. Where no picture begins in
    the stretch, it is the one that stands there, with its own time.
    """
    found = False
    for back in BACK:
        is_late = True
        for time, frame in _decoded(film, start, start - back, end):
            if is_late and time > start + min(LATE, (end - start) / 2) and start > back:
                break
            is_late = False
            if start <= time <= end:
                found = True
                yield time, frame
        if not is_late:
            break
    if not found:
        yield from _standing(film, start, end)


def _standing(film: Film, start: float, end: float) -> Iterator[tuple[float, VideoFrame]]:
    """The picture that came before `start` and still stands at `end`, as in films that repeat nothing; none at their end."""
    before = None
    for time, frame in _decoded(film, -1e9, start - BACK[1], end):
        if time > end:
            if before is not None:
                yield before
            return
        before = (time, frame)


def _decoded(film: Film, start: float, seek: float, end: float) -> Iterator[tuple[float, VideoFrame]]:
    """What is decoded from the last full picture before `seek` until after `end`, with times."""
    from av.error import FFmpegError

    base = film.seconds_per_tick
    context = film.stream.codec_context
    bad = 0
    is_whole = False  # a seek without an index may land between full pictures: what comes before the first is no picture
    context.skip_frame = "NONREF"
    try:
        film.container.seek(int((max(0.0, seek) + film.start) / base), stream=film.stream)
        for packet in film.container.demux(film.stream):
            is_whole = is_whole or packet.is_keyframe
            if not is_whole:
                continue
            if packet.pts is not None and float(packet.pts * base) - film.start >= start - RUN_UP:
                context.skip_frame = "DEFAULT"
            try:
                frames = packet.decode()
            except FFmpegError:
                bad += 1
                if bad > MOST_BAD:
                    return
                continue
            bad = 0
            for frame in frames:
                if frame.pts is not None and not frame.is_corrupt:
                    time = float(frame.pts * base) - film.start
                    yield time, frame
                    if time > end:
                        return
    except FFmpegError:  # no way to seek, or the file ends in the middle of something
        return
    finally:
        context.skip_frame = "DEFAULT"


def shrunk(frame: VideoFrame, longest: int) -> VideoFrame:
    """A copy in eight bits, at most `longest` px on its longer side; its turn is lost: note `frame.rotation` before."""
    scale = min(1.0, longest / max(frame.width, frame.height))
    width, height = (max(2, round(side * scale)) for side in (frame.width, frame.height))
    return frame.reformat(width=width, height=height, format="yuv420p", interpolation="AREA")


def brightness(frame: VideoFrame) -> NDArray[np.uint8]:
    """The brightness of a picture that `shrunk` gave, rows first: 16 is black, 235 white (ITU-R BT.709, 5.3)."""
    plane = frame.planes[0]
    rows = np.frombuffer(cast(Any, plane), np.uint8).reshape(plane.height, plane.line_size)
    return rows[:, : plane.width]


def upright(film: Film, frame: VideoFrame, turn: int | None = None) -> Image.Image:
    """The picture as a viewer sees it: turned as the file says (or by `turn` degrees), its pixels made square."""
    turn = frame.rotation if turn is None else turn
    image: Image.Image = cast(Any, frame).to_image()
    shape = film.stream.sample_aspect_ratio
    if shape and shape > 0 and shape != 1:
        image = image.resize((max(1, round(image.width * float(shape))), image.height), Image.Resampling.LANCZOS)
    return image.rotate(turn, expand=True) if turn % 360 else image
