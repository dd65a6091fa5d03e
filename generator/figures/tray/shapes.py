"""What a tray sheet is made of: frozen shapes, all lengths in mm on the paper, x to the right, y down."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from generator.anatomy.joints import Joint
from generator.anatomy.parts import Box, Feature, Point
from generator.figures.code.geometry import Code
from generator.figures.fasteners.silhouette import Silhouette


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper, mm; name as printed, id as in class names."""

    id: str
    name: str
    width: float
    height: float


A4 = Paper("a4", "A4", 210.0, 297.0)
"""ISO 216."""

LETTER = Paper("letter", "Letter", 215.9, 279.4)
"""8.5 by 11 inches, ANSI/ASME Y14.1 size A (memory)."""

MARGIN = 10.0
"""mm on every side that many printers leave white; nothing stands there."""


class RingKind(StrEnum):
    """How a ring is drawn, by the place of its screw's size among the sizes of the cell; the word is its class variant."""

    FIRST = "first"
    SECOND = "second"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Ring:
    """The place of one screw: screw `index`, from 0, of `joint`.

    label: its number in the undoing order of the step; label_at is the middle of that number, which is the ring's own middle
    where there is no room beside it. head: diameter of the screw's head, 0 where it is not shown.
    """

    at: Point
    radius: float
    kind: RingKind
    label: str
    label_at: Point
    head: float
    joint: Joint
    index: int

    @property
    def is_numbered_inside(self) -> bool:
        return self.label_at == self.at


@dataclass(frozen=True, slots=True)
class Outline:
    """A part at 1:1: a box with corner radius, or the polygon `points`; holes are boxes."""

    box: Box
    corner: float = 0.0
    points: tuple[Point, ...] = ()
    holes: tuple[Box, ...] = ()
    features: tuple[Feature, ...] = ()


@dataclass(frozen=True, slots=True)
class DrawnScrew:
    """A screw from the side, its axis at side_at and its top there, `scale` times as large; its head from above at face_at.

    small_at: the top of its axis at 1:1, None where the large one is 1:1 already.
    """

    silhouette: Silhouette
    scale: int
    side_at: Point
    face_at: Point
    small_at: Point | None


@dataclass(frozen=True, slots=True)
class Line:
    """A line of words; kind is the class variant, at its left end on the base line (its middle for a caption)."""

    words: str
    at: Point
    kind: str


@dataclass(frozen=True, slots=True)
class Sample:
    """A small ring beside a size, so that the eye finds its places."""

    at: Point
    kind: RingKind


@dataclass(frozen=True, slots=True)
class Piece:
    """What is laid into a cell as one: an outline with its rings, a grid of rings, or a size of screw.

    box: the room it takes; is_legend: it explains the others.
    """

    box: Box
    outlines: tuple[Outline, ...] = ()
    rings: tuple[Ring, ...] = ()
    screws: tuple[DrawnScrew, ...] = ()
    samples: tuple[Sample, ...] = ()
    lines: tuple[Line, ...] = ()
    is_legend: bool = False


@dataclass(frozen=True, slots=True)
class Cell:
    """The place of one step. number and back: of the step, out and back; header: the words beside the number."""

    box: Box
    number: int
    back: int
    header: tuple[Line, ...]
    pieces: tuple[Piece, ...]
    desc: str


@dataclass(frozen=True, slots=True)
class Rule:
    """A printed ruler of `length` mm from `start`, to the right or upward."""

    start: Point
    length: int
    is_upright: bool


@dataclass(frozen=True, slots=True)
class Field:
    """A field of the title block: a small word over what it says."""

    box: Box
    label: str
    words: str


@dataclass(frozen=True, slots=True)
class Leads:
    """Where a sheet says its steps stand: words, and the code for them at the corner `at`, if there is one."""

    words: str
    code: Code | None = None
    at: Point = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class TraySheet:
    """One sheet of paper, number of count. frame: the box around all cells."""

    paper: Paper
    number: int
    count: int
    title: str
    desc: str
    heading: tuple[Line, ...]
    fields: tuple[Field, ...]
    frame: Box
    cells: tuple[Cell, ...]
    rules: tuple[Rule, ...]
    samples: tuple[Sample, ...]
    foot: tuple[Line, ...]
    leads: Leads

    @property
    def rings(self) -> tuple[Ring, ...]:
        return tuple(ring for cell in self.cells for piece in cell.pieces for ring in piece.rings)
