"""What a plan is made of: frozen shapes, lengths in mm on the view unless a field says units.

A view is the device as drawn: x to the right and y down as the reader sees them, already mirrored where the device lies
on its first face. Units are the drawing's own; a `Pane` holds the scale between the two.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from generator.anatomy.joints import JointKind
from generator.anatomy.parts import Box, Feature, PartId, Point
from generator.figures.glyphs import PLAIN_SIGN, ScrewSign


class State(StrEnum):
    """How a part stands in the step; the word is the variant of its class."""

    BASE = "base"
    PLACE = "place"
    HAND = "hand"  # lifted or folded in this step
    WORKED = "worked"  # only its joints are worked on
    CARRIED = "carried"  # leaves with the part in hand
    HIDDEN = "hidden"  # in hand, but under others
    UNDER = "under"  # only its joints are worked on, and it lies under others
    ASIDE = "aside"  # folded aside before
    ASIDE_HAND = "aside-hand"  # folded aside before, and in hand now


IN_HAND = (State.HAND, State.WORKED, State.HIDDEN, State.UNDER, State.ASIDE_HAND)
"""The states of the parts a step is about."""

ARROW_LENGTH = 33.0
"""Units of a broad arrow from its tail to its point."""


@dataclass(frozen=True, slots=True)
class Pane:
    """Where a view lies in the drawing: the corner in units, the mm shown there, units per mm across and down."""

    left: float
    top: float
    origin: Point
    across: float
    down: float

    def x(self, value: float) -> float:
        return self.left + (value - self.origin[0]) * self.across

    def y(self, value: float) -> float:
        return self.top + (value - self.origin[1]) * self.down

    def point(self, point: Point) -> Point:
        return self.x(point[0]), self.y(point[1])


@dataclass(frozen=True, slots=True)
class Shape:
    """The outline of a part: a box with corner radius, or the polygon `points`; holes are boxes."""

    part: PartId | None
    state: State
    box: Box
    corner: float = 0.0
    points: tuple[Point, ...] = ()
    holes: tuple[Box, ...] = ()
    features: tuple[Feature, ...] = ()


@dataclass(frozen=True, slots=True)
class PlacedMark:
    """A mark of a joint; `at` in units. `of`: the true place in units, where the mark had to make room for others.

    middle and half: the ground it takes with its number, which stands beside a screw, else in the mark. is_left: the number
    stands on the left; is_hidden: what it marks lies under something that is in place. length: of its screws, mm, in words,
    where the screws of the step differ.
    """

    kind: JointKind
    label: str
    at: Point
    middle: Point
    half: tuple[float, float]
    of: Point | None = None
    grown: float = 1.0
    sign: ScrewSign = PLAIN_SIGN
    is_left: bool = False
    is_hidden: bool = False
    length: str = ""


@dataclass(frozen=True, slots=True)
class Length:
    """The length of a screw in words beside its mark, units: baseline middle; middle and half of the ground it takes."""

    words: str
    at: Point
    middle: Point
    half: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Entry:
    """A wedge where a tool goes in (its tip) or a small arrow the way a plug comes off (its tail), units.

    kind: `pry` or `pull`; degrees: the way it points, from pointing right; label: the joint's numbers; middle and half: of
    the ground it takes.
    """

    kind: str
    label: str
    at: Point
    degrees: int
    middle: Point
    half: tuple[float, float]
    grown: float = 1.0


@dataclass(frozen=True, slots=True)
class Arrow:
    """A broad arrow; tail in units, turned by `degrees` from pointing right."""

    tail: Point
    degrees: int


@dataclass(frozen=True, slots=True)
class Fold:
    """Folding aside, units: the hinge from end to end, the sweep as a cubic curve, the head's tip turned by degrees."""

    hinge: tuple[Point, Point]
    sweep: tuple[Point, Point, Point, Point]
    degrees: int


@dataclass(frozen=True, slots=True)
class Caption:
    words: str
    at: Point
    kind: str = "caption"


@dataclass(frozen=True, slots=True)
class Motion:
    """lifts: middles of the rings, units. turn: the middle of the arch over the device; turned_to: the face it ends on."""

    lifts: tuple[Point, ...] = ()
    slides: tuple[Arrow, ...] = ()
    folds: tuple[Fold, ...] = ()
    turn: Point | None = None
    turned_to: Caption | None = None


@dataclass(frozen=True, slots=True)
class Elevation:
    """The view from the side, third angle: right of the plan, or below it for a device wider than high."""

    pane: Pane
    device: Box
    shapes: tuple[Shape, ...]
    arrows: tuple[Arrow, ...]


@dataclass(frozen=True, slots=True)
class Detail:
    """Detail A: a circle of the plan drawn larger in a figure of its own.

    circle, radius and letter are on the plan; drawn is the radius in the detail, whose middle is its (0, 0). Units.
    """

    circle: Point
    radius: float
    letter: Point
    drawn: float
    corner: Point
    width: float
    height: float
    caption_at: Point
    pane: Pane
    ground: Shape | None
    shapes: tuple[Shape, ...]
    runs: tuple[tuple[Point, ...], ...]
    dots: tuple[Point, ...]
    marks: tuple[PlacedMark, ...]
    lengths: tuple[Length, ...]
    entries: tuple[Entry, ...]
    enlarged: str
    title: str
    desc: str


@dataclass(frozen=True, slots=True)
class Row:
    """A line below the drawing: a glyph or none (kind None; "" keeps its place free), then words. y of its middle, units.

    sign: how a screw looks.
    """

    y: float
    words: str
    kind: str | None = None
    is_heading: bool = False
    sign: ScrewSign = PLAIN_SIGN


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole plan of one step. width and height in units; device is None where no part has a box.

    over: dashed outlines, drawn over everything; dots: fasteners that share a mark with others, mm.
    """

    title: str
    desc: str
    width: float
    height: float
    pane: Pane
    device: Shape | None
    is_on_bench: bool
    shapes: tuple[Shape, ...]
    over: tuple[Shape, ...]
    runs: tuple[tuple[Point, ...], ...]
    dots: tuple[Point, ...]
    ticks: tuple[tuple[Point, Point], ...]
    marks: tuple[PlacedMark, ...]
    lengths: tuple[Length, ...]
    entries: tuple[Entry, ...]
    motion: Motion
    elevation: Elevation | None
    detail: Detail | None
    captions: tuple[Caption, ...]
    scale_bar: tuple[Point, Point] | None
    rows: tuple[Row, ...]
