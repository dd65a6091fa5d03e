"""How long stills take to find, by seeking and by decoding all: `python -m tests.bench.stills [FILM]`.

Without a film one is made: ten minutes of 1920 × 1080, 25 pictures a second, H.264 with a full picture every two seconds.
Forty moments, evenly spread. Not part of the tests: what is picked is tested elsewhere, this only tells seconds.
"""

from __future__ import annotations

import sys
import tempfile
import time
from fractions import Fraction
from pathlib import Path

import av
import numpy as np

from generator.media.film import Film, open_film
from generator.media.stills import found_in, still, stretches_of
from tests.media.films import board

MINUTES, RATE, STEPS = 10, 25, 40
SIZE = (1920, 1080)


def made(path: Path) -> None:
    """A board that shakes a little; another one every twenty seconds."""
    with av.open(str(path), "w") as container:
        stream = container.add_stream("libx264", rate=RATE, options={"g": str(2 * RATE), "preset": "ultrafast", "crf": "26"})
        stream.width, stream.height, stream.pix_fmt = *SIZE, "yuv420p"
        for index in range(MINUTES * 60 * RATE):
            picture = np.asarray(board(index // (20 * RATE), SIZE))
            frame = av.VideoFrame.from_ndarray(np.roll(picture, index % 7, axis=1), format="rgb24")
            frame.pts, frame.time_base = index, Fraction(1, RATE)
            container.mux(stream.encode(frame))
        container.mux(stream.encode())


def measured(path: Path) -> None:
    with path.open("rb") as file, open_film(file) as film:
        assert isinstance(film, Film), film
        seconds = film.length or 0.0
        moments = [int(seconds * (number + 0.5) / STEPS) for number in range(STEPS)]
        start = time.perf_counter()
        offers = [found_in(film, stretches_of(moment, None)) for moment in moments]
        found = time.perf_counter()
        for each in offers:
            still(film, each[0].candidate.time, "bench")
        written = time.perf_counter()
    print(f"{STEPS} moments, {sum(map(len, offers))} candidates: {found - start:.1f} s by seeking")
    print(f"{STEPS} stills in full size: {written - found:.1f} s")
    start = time.perf_counter()
    with av.open(str(path)) as container:
        container.streams.video[0].thread_type = "AUTO"
        count = sum(1 for _ in container.decode(video=0))
    print(f"{count} pictures, all decoded and not looked at: {time.perf_counter() - start:.1f} s")


if __name__ == "__main__":
    if len(sys.argv) > 1:
        measured(Path(sys.argv[1]))
    else:
        with tempfile.TemporaryDirectory() as folder:
            film = Path(folder) / "film.mp4"
            made(film)
            print(f"{film.stat().st_size / 1e6:.0f} MB")
            measured(film)
