"""Stills of a film for the steps of a guide: where to look, what was found there, and the picture itself as a file."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING

from PIL import ExifTags, Image

from generator.media.film import Film, brightness, pictures_between, shrunk, upright
from generator.media.still_choice import APART, Candidate, Seen, candidates, seen

if TYPE_CHECKING:
    from av.video.frame import VideoFrame

AROUND = 1.5
"""Seconds before and after a moment in which is looked."""

SECOND = 0.9
"""A time names a whole second, and what the author saw then stands at the end of it at the latest: a cut may lie within."""

COUNT = 3
THUMB = 480
"""Pixels on the longer side of the copies in which is looked, and of those on the contact sheet."""

QUALITY = 92
TOLERANCE = 1e-3


@dataclass(frozen=True, slots=True)
class Stretch:
    """Where to look: between two times, in the take that stands at `moment`; all in seconds."""

    start: float
    end: float
    moment: float


@dataclass(frozen=True, slots=True)
class Offered:
    """A candidate with a small copy of its picture (JPEG, nothing in it but pixels)."""

    candidate: Candidate
    picture: bytes
    width: int
    height: int


def stretches_of(start: int, end: int | None, around: float = AROUND) -> tuple[Stretch, ...]:
    """Where to look for a step that is filmed from `start` to `end` (None: a moment), in whole seconds.

    Round a moment; of a longer stretch at its beginning, in its middle and at its end, never outside it.

    >>> [round(s.moment, 1) for s in stretches_of(10, 40)]
    [11.5, 25.5, 39.5]
    """
    if end is None:
        return (Stretch(max(0.0, start - around), start + around, start + SECOND),)
    last = end + 1.0  # the second it ends in belongs to it
    if last - start <= 4 * around:
        return (Stretch(start, last, (start + last) / 2),)
    moments = (start + around, (start + last) / 2, last - around)
    return tuple(Stretch(moment - around, moment + around, moment) for moment in moments)


def found_in(film: Film, stretches: Sequence[Stretch], count: int = COUNT) -> tuple[Offered, ...]:
    """The best pictures, best first: of one stretch the best few; of several the best of each, then the next best."""
    first: list[Offered] = []
    rest: list[Offered] = []
    for stretch in stretches:
        measured: list[Seen] = []
        small: dict[float, tuple[VideoFrame, int]] = {}
        for time, frame in pictures_between(film, stretch.start, stretch.end):
            copy = shrunk(frame, THUMB)
            measured.append(seen(time, brightness(copy)))
            small[time] = copy, frame.rotation
        best = [_offered(each, upright(film, *small[each.time])) for each in candidates(measured, stretch.moment, count)]
        first += best[:1]
        rest += best[1:]
    chosen = sorted(first, key=_order)
    for each in sorted(rest, key=_order):
        if len(chosen) < count and all(abs(each.candidate.time - other.candidate.time) >= APART for other in chosen):
            chosen.append(each)
    return tuple(chosen[:count])


def still(film: Film, time: float, step: str) -> bytes | None:
    """The picture at `time` in full size, as a JPEG whose description tells its time and step; None if it is not there."""
    for _, frame in pictures_between(film, time - TOLERANCE, time + TOLERANCE):
        exif = Image.Exif()
        exif[ExifTags.Base.ImageDescription] = f"{clock(time)} of the film, step {step}"
        return _jpeg(upright(film, frame), QUALITY, exif)
    return None


def description_of(data: bytes) -> str | None:
    """The time and step that `still` wrote into a file; None where it did not."""
    try:
        with Image.open(BytesIO(data), formats=("JPEG",)) as image:
            told = image.getexif().get(ExifTags.Base.ImageDescription)
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError):
        return None
    return told if isinstance(told, str) and " of the film, step " in told else None


def clock(seconds: float) -> str:
    """A time in a film to the hundredth.

    >>> clock(42.36), clock(3725.004)
    ('0:42.36', '1:02:05.00')
    """
    hundredths = round(seconds * 100)
    minutes, rest = divmod(hundredths, 6000)
    hours, minutes = divmod(minutes, 60)
    start = f"{hours}:{minutes:02}" if hours else str(minutes)
    return f"{start}:{rest // 100:02}.{rest % 100:02}"


def _offered(candidate: Candidate, image: Image.Image) -> Offered:
    return Offered(candidate, _jpeg(image, 82), image.width, image.height)


def _order(each: Offered) -> tuple[float, float]:
    return -each.candidate.worth, each.candidate.time


def _jpeg(image: Image.Image, quality: int, exif: Image.Exif | None = None) -> bytes:
    out = BytesIO()
    fresh = Image.frombytes("RGB", image.size, image.convert("RGB").tobytes())
    fresh.save(out, "JPEG", quality=quality, optimize=True, **({"exif": exif} if exif is not None else {}))
    return out.getvalue()
