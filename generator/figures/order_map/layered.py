"""A plain layout of our own, for where the layout program cannot be had: sweeps to the mean, then least squares.

Order in a column: mean place of the neighbours, swept to and fro (Sugiyama, Tagawa and Toda, IEEE Trans. SMC 11(2), 1981,
doi:10.1109/TSMC.1981.4308636). Places: as near to the mean of the neighbours as the gaps allow, by pooling adjacent
violators (Ayer et al., Ann. Math. Stat. 26(4), 1955, doi:10.1214/aoms/1177728423).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from generator.figures.order_map.boxes import Boxes, Positions

SWEEPS = 12
"""Sweeps to and fro; orders of devices settle in about five."""


def layered_layout(boxes: Boxes) -> Positions:
    """Places for all boxes; never fails. Cost: a sort of each column a sweep."""
    columns = _columns(boxes)
    neighbours = _neighbours(boxes)
    place = {box: float(rank) for column in columns for rank, box in enumerate(column)}
    for sweep in range(SWEEPS):
        side = sweep % 2
        for column in columns if side == 0 else reversed(columns):
            column.sort(key=lambda box: (_mean(place, neighbours[side][box], place[box]), place[box]))
            place.update({box: float(rank) for rank, box in enumerate(column)})
    return balanced(boxes, tuple((0.0, place[box]) for box in range(len(boxes.sizes))))


def balanced(boxes: Boxes, places: Positions) -> Positions:
    """The same order in every column, with boxes amid those they are linked to as far as the gaps allow."""
    neighbours = _neighbours(boxes)
    columns = [sorted(column, key=lambda box: (places[box][1], box)) for column in _columns(boxes)]
    rank = {box: number for column in columns for number, box in enumerate(column)}
    across = {box: number * (boxes.across + _highest(boxes)) for box, number in rank.items()}
    for sweep in range(SWEEPS):
        side = sweep % 2
        for column in columns if side == 0 else reversed(columns):
            wanted = [_mean(across, neighbours[side][box], across[box], weighted=True) for box in column]
            across.update(zip(column, _spaced(boxes, column, wanted), strict=True))
    top = min((across[box] - boxes.sizes[box][1] / 2 for box in across), default=0.0)
    along = _middles(boxes, columns)
    return tuple((along[boxes.columns[box]], across[box] - top) for box in range(len(boxes.sizes)))


def _columns(boxes: Boxes) -> list[list[int]]:
    columns: list[list[int]] = [[] for _ in range(max(boxes.columns, default=-1) + 1)]
    for box, column in enumerate(boxes.columns):
        columns[column].append(box)
    return columns


Neighbours = Mapping[int, list[tuple[int, int]]]


def _neighbours(boxes: Boxes) -> tuple[Neighbours, Neighbours]:
    """For every box its (neighbour, weight) on the left, and those on the right."""
    left: dict[int, list[tuple[int, int]]] = {box: [] for box in range(len(boxes.sizes))}
    right: dict[int, list[tuple[int, int]]] = {box: [] for box in range(len(boxes.sizes))}
    for start, end, weight in boxes.links:
        left[end].append((start, weight))
        right[start].append((end, weight))
    return left, right


def _mean(
    place: Mapping[int, float], neighbours: Sequence[tuple[int, int]], own: float, *, weighted: bool = False
) -> float:
    if not neighbours:
        return own
    total = sum(weight if weighted else 1 for _, weight in neighbours)
    return sum(place[box] * (weight if weighted else 1) for box, weight in neighbours) / total


def _highest(boxes: Boxes) -> float:
    return max((across for _, across in boxes.sizes), default=0.0)


def _spaced(boxes: Boxes, column: Sequence[int], wanted: Sequence[float]) -> list[float]:
    """The places nearest to those wanted (least squares) that keep order and gaps."""
    starts = [0.0]
    for one, other in pairwise(column):
        starts.append(starts[-1] + boxes.across + (boxes.sizes[one][1] + boxes.sizes[other][1]) / 2)
    pools: list[tuple[float, int]] = []
    for place, start in zip(wanted, starts, strict=False):
        pools.append((place - start, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (last, last_count), (mean, count) = pools.pop(), pools.pop()
            pools.append(((mean * count + last * last_count) / (count + last_count), count + last_count))
    shifts = [mean for mean, count in pools for _ in range(count)]
    return [start + shift for start, shift in zip(starts, shifts, strict=False)]


def _middles(boxes: Boxes, columns: Sequence[Sequence[int]]) -> list[float]:
    middles = []
    start = 0.0
    for column in columns:
        wide = max((boxes.sizes[box][0] for box in column), default=0.0)
        middles.append(start + wide / 2)
        start += wide + boxes.along
    return middles
