"""Which stretch of a photo is shown: all of it, or the page's frame laid round the point that matters."""

from __future__ import annotations

from dataclasses import dataclass

SHAPE = (3, 2)
"""Width to height of the frame."""


@dataclass(frozen=True, slots=True)
class Cut:
    """focus: the point that matters, as shares of the photo's width and height; closer: how many times nearer, from 1."""

    focus: tuple[float, float]
    closer: float = 1.0


@dataclass(frozen=True, slots=True)
class Window:
    """A stretch of a photo in its own pixels, from the top left corner."""

    left: int
    top: int
    width: int
    height: int


def window_of(width: int, height: int, cut: Cut | None) -> Window:
    """The stretch of a photo of that size which is shown.

    The frame is as large as fits, or that size divided by `closer`; the point comes as near to its middle as the photo's
    edges allow.

    >>> window_of(900, 900, Cut((0.5, 0.9)))
    Window(left=0, top=300, width=900, height=600)
    """
    if cut is None:
        return Window(0, 0, width, height)
    scale = min(width / SHAPE[0], height / SHAPE[1]) / max(cut.closer, 1.0)
    wide, high = (max(1, min(side, round(scale * share))) for side, share in zip((width, height), SHAPE, strict=True))
    left = min(max(0, round(cut.focus[0] * width - wide / 2)), width - wide)
    top = min(max(0, round(cut.focus[1] * height - high / 2)), height - high)
    return Window(left, top, wide, high)
