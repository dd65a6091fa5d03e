"""Which picture of a stretch of film shows a step best: sharp, steady, nothing in front, of the same take as its moment.

Works on numbers measured from small grey copies of the pictures; knows nothing of files.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

CELLS = (48, 27)
"""Width and height of the coarse copy in which movement is seen; a smaller picture is seen in fewer cells."""

APART = 0.4
"""Seconds between two pictures that are offered side by side."""

# A cut: nearly all cells change at once, or the change is several times that of the pictures around it.
_CUT_SHARE, _CUT_LEVELS = 0.55, 24
_CUT_TIMES, _CUT_LEAST, _AROUND = 5.0, 6.0, 6
# Another take altogether, however softly it came: the large shapes go with those of the moment's picture no longer.
_OTHER_LIKENESS, _OTHER_LEVELS, _BLOCK = 0.4, 8.0, 3
# What halves a picture's worth: half the sharpness, so many levels of movement, such a share of cells covered.
_MOVED, _COVERED, _COVER_LEVELS, _LIGHT = 2.5, 0.12, 16, 14.0
_DARKEST, _BRIGHTEST, _UNLIT = 34.0, 220.0, 4.0


@dataclass(frozen=True, slots=True)
class Seen:
    """One picture as measured. time in seconds; cells: brightness of its coarse copy, 0 to 255, rows first."""

    time: float
    sharpness: float
    cells: NDArray[np.float32]

    @property
    def light(self) -> float:
        return float(self.cells.mean())


@dataclass(frozen=True, slots=True)
class Candidate:
    """A picture that may stand for a step. worth: the higher the better, halvings below a perfect one; the rest tells why.

    moved in levels of grey between neighbours, covered as a share of the picture, light from 0 to 255.
    """

    time: float
    worth: float
    sharpness: float
    moved: float
    covered: float
    light: float


def seen(time: float, grey: NDArray[np.uint8]) -> Seen:
    """Measure a small grey copy, rows first, black 16 and white 235; all of one film have the same size.

    Sharpness is the variance of the Laplacian (Pech-Pacheco et al., "Diatom autofocusing in brightfield microscopy", ICPR
    2000), taken in 48 tiles and averaged as its root, so that one hard edge does not speak for the whole picture.
    """
    image = grey.astype(np.float32)
    cells = _averaged(image, min(CELLS[1], image.shape[0]), min(CELLS[0], image.shape[1]))
    return Seen(time, _sharpness(image) if min(image.shape) > 2 else 0.0, cells)


def _sharpness(image: NDArray[np.float32]) -> float:
    laplacian = image[:-2, 1:-1] + image[2:, 1:-1] + image[1:-1, :-2] + image[1:-1, 2:] - 4 * image[1:-1, 1:-1]
    rows, columns = min(6, laplacian.shape[0]), min(8, laplacian.shape[1])
    high, wide = laplacian.shape[0] // rows, laplacian.shape[1] // columns
    tiles = laplacian[: high * rows, : wide * columns].reshape(rows, high, columns, wide)
    return float(tiles.std(axis=(1, 3)).mean())


def candidates(pictures: Sequence[Seen], moment: float, count: int = 3) -> tuple[Candidate, ...]:
    """The best pictures of the take that stands at `moment`, best first, some time apart; fewer where there are not so many.

    pictures: neighbours in a film, in the order of their times. Ties go to the earlier picture.
    """
    take = same_take(pictures, moment)
    ranked = sorted(_judged(take), key=lambda each: (-each.worth, each.time))
    chosen: list[Candidate] = []
    for each in ranked:
        if len(chosen) < count and all(abs(each.time - other.time) >= APART for other in chosen):
            chosen.append(each)
    return tuple(chosen)


def same_take(pictures: Sequence[Seen], moment: float) -> tuple[Seen, ...]:
    """The pictures without a cut between them and the one that stands at `moment`."""
    if not pictures:
        return ()
    at = max((i for i, each in enumerate(pictures) if each.time <= moment + 1e-6), default=0)
    cuts = cuts_in(pictures)
    first = max((i for i in cuts if i <= at), default=0)
    last = min((i for i in cuts if i > at), default=len(pictures))
    here = pictures[at].cells
    return tuple(each for each in pictures[first:last] if not _is_other(each.cells, here))


def cuts_in(pictures: Sequence[Seen]) -> tuple[int, ...]:
    """The numbers of the pictures that begin a new take, the first of the stretch not counted.

    A flash counts as one too: what is kept out for it is no loss.
    """
    pairs = list(pairwise(pictures))
    changes = [float(np.abs(b.cells - a.cells).mean()) for a, b in pairs]
    shares = [_share(b.cells, a.cells, _CUT_LEVELS) for a, b in pairs]
    found = []
    for index, change in enumerate(changes):
        near = changes[max(0, index - _AROUND) : index] + changes[index + 1 : index + 1 + _AROUND]
        usual = float(np.median(near)) if near else 0.0
        is_jump = change >= _CUT_LEAST and change > _CUT_TIMES * max(usual, 0.4)
        if shares[index] >= _CUT_SHARE or is_jump:
            found.append(index + 1)
    return tuple(found)


def _is_other(cells: NDArray[np.float32], here: NDArray[np.float32]) -> bool:
    """Whether two pictures have their light and dark in other places (correlation of blocks of cells)."""
    if float(np.abs(cells - here).mean()) < _OTHER_LEVELS:
        return False
    a, b = (_blocks(each) for each in (cells, here))
    spread = float(a.std() * b.std())
    likeness = float(((a - a.mean()) * (b - b.mean())).mean()) / spread if spread > 1e-6 else 0.0
    return likeness < _OTHER_LIKENESS


def _blocks(cells: NDArray[np.float32]) -> NDArray[np.float32]:
    return _averaged(cells, max(1, cells.shape[0] // _BLOCK), max(1, cells.shape[1] // _BLOCK))


def _averaged(image: NDArray[np.float32], rows: int, columns: int) -> NDArray[np.float32]:
    """The mean of each of so many equal fields; what does not go into them at the right and below is left out."""
    high, wide = image.shape[0] // rows, image.shape[1] // columns
    fields: NDArray[np.float32] = image[: high * rows, : wide * columns].reshape(rows, high, columns, wide).mean(axis=(1, 3))
    return fields


def _share(a: NDArray[np.float32], b: NDArray[np.float32], levels: float) -> float:
    return float((np.abs(a - b) > levels).mean())


def _judged(take: Sequence[Seen]) -> list[Candidate]:
    if not take:
        return []
    usual = np.median(np.stack([each.cells for each in take]), axis=0).astype(np.float32)
    light = float(np.median([each.light for each in take]))
    steps = [float(np.abs(b.cells - a.cells).mean()) for a, b in pairwise(take)]
    judged = []
    for index, each in enumerate(take):
        moved = max(steps[max(0, index - 1) : index + 1], default=0.0)
        covered = _share(each.cells, usual, _COVER_LEVELS)
        unlit = _UNLIT if not _DARKEST <= each.light <= _BRIGHTEST else 0.0
        worth = (
            math.log2(max(each.sharpness, 1e-6))
            - moved / _MOVED
            - covered / _COVERED
            - abs(each.light - light) / _LIGHT
            - unlit
        )
        judged.append(Candidate(each.time, worth, each.sharpness, moved, covered, each.light))
    return judged
