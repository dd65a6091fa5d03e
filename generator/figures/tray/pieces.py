"""What is laid into the cells: outlines with rings, grids of rings, small parts. mm, corner at (0, 0)."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from generator.anatomy.parts import Box, Part, Point
from generator.figures.fasteners.heads import from_above, head_of
from generator.figures.fasteners.threads import thread_of
from generator.figures.tray.lettering import SMALL_LEADING, mono_lines, mono_width
from generator.figures.tray.loose import Holding, LooseScrew, mirrored, mirrored_box
from generator.figures.tray.moving import moved
from generator.figures.tray.shapes import Line, Outline, Piece, Ring, RingKind
from generator.languages import later, say
from generator.orders.accounts import ScrewSize

RING = 3.0
"""Radius of a ring; one for a head that would cover it is larger."""

MOST_RING = 9.0
"""Radius no ring goes beyond, however large the head."""

LEAST_RING = 1.4
"""Radius below which rings no longer keep screws apart; then they stand in a grid."""

GRID_WIDTH = 134.0
GRID_HEIGHT = 50.0
"""mm; more rings make more grids."""

IN_ORDER = later("in undoing order, not in place")

_APART = 0.3  # ground between rings drawn smaller
_RIM = 0.5  # ground between a head and its ring
_LABEL_HALF = 1.2  # half the height of a ring's number


def outline_of(part: Part, is_mirrored: bool) -> Outline | None:
    """The part at 1:1 where it lies in the device; None if it has no size."""
    box = part.box
    if box is None or min(box.width, box.height) <= 0:
        return None
    flip = (lambda point: mirrored(point, box)) if is_mirrored else (lambda point: point)
    flip_box = (lambda inner: mirrored_box(inner, box)) if is_mirrored else (lambda inner: inner)
    return Outline(
        box=box,
        corner=max(0.0, min(part.corner, box.width / 2, box.height / 2)),
        points=tuple(map(flip, part.outline)) if len(part.outline) > 2 and all(_is_on(p, box) for p in part.outline) else (),
        holes=tuple(flip_box(hole) for hole in part.holes if _is_inside(hole, box)),
        features=tuple(
            replace(feature, centre=flip(feature.centre), box=flip_box(feature.box) if feature.box else None)
            for feature in part.features
            if _is_inside(feature.box or _around(feature.centre, feature.across / 2), box)
        ),
    )


def part_piece(outline: Outline, caption: str) -> Piece:
    """A small part alone; the caption is its number and name, or empty."""
    return _captioned(_at_corner(Piece(_extent([outline], []), outlines=(outline,))), caption)


def holding_pieces(
    holding: Holding, kinds: Mapping[ScrewSize, RingKind], caption: str, most: tuple[float, float]
) -> tuple[Piece, ...]:
    """The part with a ring at the true place of each screw; a grid for screws without a place, or where the part is too
    large for the sheet (`most`: width and height there is) or its places run into each other.
    """
    outline = outline_of(holding.part, holding.is_mirrored) if holding.part else None
    placed = [screw for screw in holding.screws if screw.at is not None]
    wanted = _wanted_radius(holding.screws)
    pieces: list[Piece] = []
    gridded = list(holding.screws)
    if outline is not None and placed:
        at = {screw: _place(screw, outline.box, holding.is_mirrored) for screw in placed}
        radius = _radius(list(at.values()), wanted)
        if radius is not None:
            rings = _rings(at, radius, kinds, outline.box)
            piece = _captioned(_at_corner(Piece(_extent([outline], rings), outlines=(outline,), rings=rings)), caption)
            if piece.box.width <= most[0] and piece.box.height <= most[1]:
                pieces.append(piece)
                gridded = [screw for screw in holding.screws if screw.at is None]
    across, down = 2 * wanted + 8.0, 2 * wanted + 2.0
    step = int(GRID_WIDTH / across) * int(GRID_HEIGHT / down)
    for start in range(0, len(gridded), step):
        pieces.append(_grid(gridded[start : start + step], kinds, wanted, (across, down), caption))
    return tuple(pieces)


def _wanted_radius(screws: Iterable[LooseScrew]) -> float:
    """The radius of the rings of a part: enough for the largest of its heads."""
    largest = max((_head_across(size) for size in {screw.size for screw in screws}), default=0.0)
    return min(MOST_RING, max(RING, largest / 2 + _RIM))


def _place(screw: LooseScrew, box: Box, is_mirrored: bool) -> Point:
    assert screw.at is not None
    return mirrored(screw.at, box) if is_mirrored else screw.at


def _radius(places: Sequence[Point], wanted: float) -> float | None:
    """The radius of all rings of a part, so that none runs into another; None where they would be too small to use."""
    nearest = min((math.dist(a, b) for i, a in enumerate(places) for b in places[:i]), default=math.inf)
    radius = min(wanted, (nearest - _APART) / 2)
    return radius if radius >= LEAST_RING else None


def _rings(at: Mapping[LooseScrew, Point], radius: float, kinds: Mapping[ScrewSize, RingKind], box: Box) -> tuple[Ring, ...]:
    """Rings with their numbers beside them, towards the middle of the part where that is free."""
    taken: list[Box] = []
    rings = []
    for screw, place in at.items():
        label = str(screw.number)
        half = mono_width(label) / 2
        label_at = place
        for spot in _beside(place, radius, half, box):
            ground = Box(spot[0] - half, spot[1] - _LABEL_HALF, 2 * half, 2 * _LABEL_HALF)
            if not any(_overlap(ground, other) for other in taken) and not any(
                _reaches(ground, other, radius + 0.3) for other in at.values()
            ):
                label_at = spot
                taken.append(ground)
                break
        head = _head_in(screw.size, radius)
        rings.append(Ring(place, radius, kinds[screw.size], label, label_at, head, screw.joint, screw.index))
    return tuple(rings)


def _beside(place: Point, radius: float, half: float, box: Box) -> tuple[Point, ...]:
    across, down = radius + 0.9 + half, radius + 0.9 + _LABEL_HALF
    to_right = 1 if place[0] <= box.centre[0] else -1
    to_bottom = 1 if place[1] <= box.centre[1] else -1
    x, y = place
    return (
        (x + to_right * across, y),
        (x, y + to_bottom * down),
        (x + to_right * across * 0.85, y + to_bottom * down * 0.7),
        (x - to_right * across, y),
        (x, y - to_bottom * down),
    )


def _grid(
    screws: Sequence[LooseScrew],
    kinds: Mapping[ScrewSize, RingKind],
    radius: float,
    pitch: tuple[float, float],
    caption: str,
) -> Piece:
    """Rings in rows, numbers at the right of each. pitch: from ring to ring, across and down."""
    across, down = pitch
    columns = min(int(GRID_WIDTH / across), max(4, math.ceil(math.sqrt(2 * len(screws)))), len(screws))
    rings = []
    for index, screw in enumerate(screws):
        place = (radius + (index % columns) * across, radius + (index // columns) * down)
        label = str(screw.number)
        at = (place[0] + radius + 0.8 + mono_width(label) / 2, place[1])
        head = _head_in(screw.size, radius)
        rings.append(Ring(place, radius, kinds[screw.size], label, at, head, screw.joint, screw.index))
    rows = math.ceil(len(screws) / columns)
    box = Box(0.0, 0.0, columns * across - 0.6, (rows - 1) * down + 2 * radius)
    return _captioned(_captioned(Piece(box, rings=tuple(rings)), say(IN_ORDER)), caption)


def _captioned(piece: Piece, caption: str) -> Piece:
    """The piece with up to two lines below it; it grows in width where that is little."""
    if not caption:
        return piece
    width = max(piece.box.width, min(36.0, mono_width(caption)))
    drawn = moved(piece, (width - piece.box.width) / 2, 0.0)
    lines = tuple(
        Line(words, (width / 2, piece.box.height + 1.2 + (index + 1) * SMALL_LEADING - 0.6), "caption")
        for index, words in enumerate(mono_lines(caption, width, 2))
    )
    height = piece.box.height + 1.2 + len(lines) * SMALL_LEADING
    return replace(drawn, box=Box(0.0, 0.0, width, height), lines=(*drawn.lines, *lines))


def _head_in(size: ScrewSize, radius: float) -> float:
    """The diameter of the head, which is shown at 1:1 or, where the ring is too small for that, not at all."""
    across = _head_across(size)
    return across if across <= 2 * radius else 0.0


def _head_across(size: ScrewSize) -> float:
    """The diameter of the head, over the corners of a hexagon; 0 where no thread is told to know it by."""
    thread = thread_of(size.thread)
    head = head_of(size.head, thread.diameter) if thread else None
    if head is None:
        return 0.0
    return max(head.across, *(2 * x for x, _ in from_above(head))) if head.kind == "hexagon" else head.across


def _at_corner(piece: Piece) -> Piece:
    return moved(piece, -piece.box.x, -piece.box.y)


def _extent(outlines: Sequence[Outline], rings: Sequence[Ring]) -> Box:
    """The box around all that is drawn of outlines and rings, numbers included."""
    points: list[Point] = []
    for outline in outlines:
        points += [(outline.box.x, outline.box.y), (outline.box.right, outline.box.bottom)]
    for ring in rings:
        half = mono_width(ring.label) / 2
        points += [(ring.at[0] + side * ring.radius, ring.at[1] + side * ring.radius) for side in (-1, 1)]
        points += [(ring.label_at[0] + side * half, ring.label_at[1] + side * _LABEL_HALF) for side in (-1, 1)]
    left, top = min(x for x, _ in points), min(y for _, y in points)
    return Box(left, top, max(x for x, _ in points) - left, max(y for _, y in points) - top)


def _around(centre: Point, reach: float) -> Box:
    return Box(centre[0] - reach, centre[1] - reach, 2 * reach, 2 * reach)


def _is_on(point: Point, box: Box) -> bool:
    """Whether a point lies on the part's box, half a millimetre given."""
    return box.x - 0.5 <= point[0] <= box.right + 0.5 and box.y - 0.5 <= point[1] <= box.bottom + 0.5


def _is_inside(inner: Box, box: Box) -> bool:
    return _is_on((inner.x, inner.y), box) and _is_on((inner.right, inner.bottom), box)


def _overlap(one: Box, other: Box) -> bool:
    return one.x < other.right and other.x < one.right and one.y < other.bottom and other.y < one.bottom


def _reaches(ground: Box, centre: Point, radius: float) -> bool:
    """Whether a circle touches a box."""
    x = min(max(centre[0], ground.x), ground.right)
    y = min(max(centre[1], ground.y), ground.bottom)
    return math.dist((x, y), centre) < radius
