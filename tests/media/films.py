"""Films made for tests: a bench with a board on it, sharp at known times, blurred around, with hands, cuts and movement."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import lru_cache
from io import BytesIO
from random import Random

import av
import numpy as np
from PIL import Image, ImageDraw, ImageFilter

SIZE = (640, 360)
RATE = 25

Paint = Callable[[float], Image.Image]
"""The picture that stands at a time in seconds."""


@lru_cache(maxsize=16)
def board(seed: int, size: tuple[int, int] = SIZE) -> Image.Image:
    """A board with many small parts on a bench; another seed is another take."""
    pick = Random(seed)
    ground = tuple(pick.randrange(70, 190) for _ in range(3))
    image = Image.new("RGB", size, ground)
    draw = ImageDraw.Draw(image)
    for _ in range(260):
        x, y = pick.randrange(size[0]), pick.randrange(size[1])
        wide, high = pick.randrange(4, 40), pick.randrange(3, 30)
        fill = tuple(pick.randrange(20, 240) for _ in range(3))
        draw.rectangle((x, y, x + wide, y + high), fill=fill, outline=(15, 15, 15))
    return image


def blurred(image: Image.Image, radius: float) -> Image.Image:
    return image.filter(ImageFilter.GaussianBlur(radius)) if radius else image


def with_hand(image: Image.Image, share: float) -> Image.Image:
    """A hand-like blob with sharp edges and lines on it, `share` of the way across the picture."""
    covered = image.copy()
    draw = ImageDraw.Draw(covered)
    width, height = image.size
    x = share * (width + 300) - 150
    draw.ellipse((x - 130, height * 0.2, x + 130, height * 0.95), fill=(205, 160, 135), outline=(80, 50, 40), width=3)
    for finger in range(5):
        draw.line((x - 90 + finger * 40, height * 0.3, x - 70 + finger * 40, height * 0.8), fill=(120, 80, 65), width=2)
    return covered


def shifted(image: Image.Image, by: int) -> Image.Image:
    return Image.fromarray(np.roll(np.asarray(image), by, axis=1))


def film(
    paint: Paint,
    seconds: float,
    *,
    rate: int = RATE,
    size: tuple[int, int] = SIZE,
    kind: str = "mp4",
    codec: str = "mpeg4",
    times: Sequence[float] | None = None,
    group: int = 50,
    rotation: int = 0,
    shape: int = 1,
) -> bytes:
    """A film of what is painted.

    times: of its pictures where they are not evenly spread; group: pictures to a full one; shape: of a pixel, to its height.
    """
    out = BytesIO()
    with av.open(out, "w", format=kind) as container:
        stream = container.add_stream(codec, rate=rate, options={"g": str(group)})
        stream.width, stream.height, stream.pix_fmt = *size, "yuv420p"
        stream.bit_rate = 8_000_000
        base = Fraction(1, rate * 40)
        stream.codec_context.time_base = base if times is not None else Fraction(1, rate)
        if rotation:
            stream.set_display_rotation(rotation)
        if shape != 1:
            stream.codec_context.sample_aspect_ratio = Fraction(shape)
        for index, time in enumerate(times if times is not None else [n / rate for n in range(round(seconds * rate))]):
            frame = av.VideoFrame.from_image(paint(time))
            frame.pts = round(time / base) if times is not None else index
            frame.time_base = stream.codec_context.time_base
            container.mux(stream.encode(frame))
        container.mux(stream.encode())
    return out.getvalue()


def sound() -> bytes:
    """A film without a picture: a second of silence."""
    out = BytesIO()
    with av.open(out, "w", format="mp4") as container:
        stream = container.add_stream("aac", rate=44_100)
        for _ in range(43):
            frame = av.AudioFrame.from_ndarray(np.zeros((1, 1024), np.float32), format="fltp", layout="mono")
            frame.sample_rate = 44_100
            container.mux(stream.encode(frame))
        container.mux(stream.encode())
    return out.getvalue()
