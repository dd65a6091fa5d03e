"""What is laid into the cells: outlines with rings, grids of rings, small parts, sizes of screws. mm, corner at (0, 0)."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from generator.anatomy.joints import Drive
from generator.anatomy.parts import Box, Part, Point
from generator.figures.fasteners.heads import from_above, head_of
from generator.figures.fasteners.silhouette import Silhouette, screw_silhouette
from generator.figures.fasteners.threads import thread_of
from generator.figures.tray.lettering import (
    NAME,
    SMALL_LEADING,
    mono_lines,
    mono_width,
    serif_width,
)
from generator.figures.tray.loose import Holding, LooseScrew, mirrored, mirrored_box
from generator.figures.tray.shapes import DrawnScrew, Line, Outline, Piece, Ring, RingKind, Sample
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

IN_ORDER = "in undoing order, not in place"

_APART = 0.3  # ground between rings drawn smaller
_RIM = 0.5  # ground between a head and its ring
_SCALES = (4, 2, 1)
_TALLEST = 46.0
_WIDEST = 28.0
_LEGEND_WORDS = 29.8
_GAP = 2.4
_STACK_GAP = 3.0
_LABEL_HALF = 1.2  # half the height of a ring's number


@dataclass(frozen=True, slots=True)
class SizeInCell:
    """One size of screw in a cell: how its rings are drawn and which numbers they bear."""

    size: ScrewSize
    drive: Drive | None
    kind: RingKind
    numbers: tuple[int, ...]


def sizes_in(screws: Sequence[LooseScrew]) -> tuple[SizeInCell, ...]:
    """The sizes of the screws, in the order of their first numbers; the second is drawn dashed, further ones dotted."""
    numbers: dict[ScrewSize, list[int]] = {}
    drives: dict[ScrewSize, Drive | None] = {}
    for screw in screws:
        numbers.setdefault(screw.size, []).append(screw.number)
        drives.setdefault(screw.size, screw.joint.drive)
    kinds = [RingKind.FIRST, RingKind.SECOND]
    return tuple(
        SizeInCell(size, drives[size], kinds[index] if index < 2 else RingKind.OTHER, tuple(sorted(bearing)))
        for index, (size, bearing) in enumerate(numbers.items())
    )


# --- parts ------------------------------------------------------------------------------------------------------


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
    return _captioned(_captioned(Piece(box, rings=tuple(rings)), IN_ORDER), caption)


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


# --- sizes ------------------------------------------------------------------------------------------------------


def size_piece(size: SizeInCell, is_alone: bool) -> Piece:
    """A size in words, with its silhouette large and at 1:1 and its head from above; without drawing if it is too large."""
    silhouette = screw_silhouette(size.size.thread, size.size.length, size.size.head, size.drive)
    scale = next((scale for scale in _SCALES if _has_room(silhouette, scale)), None)
    screws: tuple[DrawnScrew, ...] = ()
    left = height = 0.0
    if scale is not None:
        wide = silhouette.across * scale
        top = _top_across(silhouette) * scale
        second = wide + _GAP
        face = (second + top / 2, top / 2)
        small = (second + top / 2, top + 2.0) if scale > 1 else None
        screws = (DrawnScrew(silhouette, scale, (wide / 2, 0.0), face, small),)
        left = second + max(top, silhouette.across) + _GAP
        height = max(silhouette.height * scale, top + (2.0 + silhouette.height if small else 0.0))
    lines: list[Line] = []
    samples = () if is_alone else (Sample((left + 1.5, NAME / 2 - 0.2), size.kind),)
    lines.append(Line(f"{len(size.numbers)} ×", (left + (0.0 if is_alone else 4.4), NAME - 0.6), "count"))
    y = NAME + SMALL_LEADING
    for words in _size_words(size, scale):
        lines.append(Line(words, (left, y), "small"))
        y += SMALL_LEADING
    height = max(height, y - SMALL_LEADING + 0.8)
    width = max(left + 4.4 + serif_width(lines[0].words), *(left + mono_width(line.words) for line in lines[1:]))
    return Piece(Box(0.0, 0.0, width, height), screws=screws, samples=samples, lines=tuple(lines), is_legend=True)


def stacked(pieces: Sequence[Piece], height: float) -> tuple[Piece, ...]:
    """Sizes one below the other, in as many stacks of at most that height as they need."""
    stacks: list[Piece] = []
    for piece in pieces:
        over = stacks[-1] if stacks else None
        if over is None or over.box.height + _STACK_GAP + piece.box.height > height:
            stacks.append(piece)
        else:
            stacks[-1] = _below(over, piece)
    return tuple(stacks)


def _below(over: Piece, piece: Piece) -> Piece:
    lower = moved(piece, 0.0, over.box.height + _STACK_GAP)
    return Piece(
        Box(0.0, 0.0, max(over.box.width, lower.box.width), lower.box.bottom),
        screws=over.screws + lower.screws,
        samples=over.samples + lower.samples,
        lines=over.lines + lower.lines,
        is_legend=True,
    )


def size_label(size: ScrewSize) -> str:
    """Thread and length: M1.4 × 3.5 mm.

    >>> size_label(ScrewSize("M1.4", 3.5, None, None)), size_label(ScrewSize(None, None, None, None))
    ('M1.4 × 3.5 mm', 'size not told')
    """
    length = f"{size.length:g} mm" if size.length else ""
    return " × ".join(part for part in (size.thread or "", length) if part) or "size not told"


def spans(numbers: Iterable[int]) -> str:
    """Numbers as spans: 1–3, 7.

    >>> spans([1, 2, 3, 7])
    '1–3, 7'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return ", ".join(f"{first}–{last}" if last > first else str(first) for first, last in runs)


def _size_words(size: SizeInCell, scale: int | None) -> tuple[str, ...]:
    of = size.size
    head = (of.head or "").strip()
    if head and not any(word in head.lower() for word in ("head", "none", "set", "grub")):
        head = f"{head} head"
    scale_words = "" if scale == _SCALES[0] else f"drawn {scale}:1" if scale else "too large to draw"
    said = (size_label(of), head, of.drive or "", f"no. {spans(size.numbers)}", scale_words)
    return tuple(line for words in said for line in mono_lines(words, _LEGEND_WORDS, 2))


def _has_room(silhouette: Silhouette, scale: int) -> bool:
    return silhouette.height * scale <= _TALLEST and _top_across(silhouette) * scale <= _WIDEST


def _top_across(silhouette: Silhouette) -> float:
    """The head's greatest width from above: over the corners where it has some."""
    return max(silhouette.across, silhouette.head.across)


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


# --- moving -----------------------------------------------------------------------------------------------------


def moved(piece: Piece, right: float, down: float) -> Piece:
    def at(point: Point) -> Point:
        return point[0] + right, point[1] + down

    def box(inner: Box) -> Box:
        return replace(inner, x=inner.x + right, y=inner.y + down)

    return replace(
        piece,
        box=box(piece.box),
        outlines=tuple(
            replace(
                outline,
                box=box(outline.box),
                points=tuple(map(at, outline.points)),
                holes=tuple(map(box, outline.holes)),
                features=tuple(
                    replace(feature, centre=at(feature.centre), box=box(feature.box) if feature.box else None)
                    for feature in outline.features
                ),
            )
            for outline in piece.outlines
        ),
        rings=tuple(replace(ring, at=at(ring.at), label_at=at(ring.label_at)) for ring in piece.rings),
        screws=tuple(
            replace(
                screw,
                side_at=at(screw.side_at),
                face_at=at(screw.face_at),
                small_at=at(screw.small_at) if screw.small_at else None,
            )
            for screw in piece.screws
        ),
        samples=tuple(replace(sample, at=at(sample.at)) for sample in piece.samples),
        lines=tuple(replace(line, at=at(line.at)) for line in piece.lines),
    )


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
