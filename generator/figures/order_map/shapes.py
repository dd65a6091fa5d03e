"""What an order map is made of: frozen shapes; lengths in units, x to the right and y down."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from generator.anatomy.parts import Point
from generator.orders.work import StepId


class Form(StrEnum):
    """How a map is laid out."""

    ACROSS = "across"  # from left to right, boxes with titles
    DOWN = "down"  # from top to bottom, boxes with titles
    NUMBERS_ACROSS = "numbers-across"
    NUMBERS_DOWN = "numbers-down"

    @property
    def is_titled(self) -> bool:
        return self in (Form.ACROSS, Form.DOWN)

    @property
    def runs_down(self) -> bool:
        return self in (Form.DOWN, Form.NUMBERS_DOWN)


class Standing(StrEnum):
    """How a step stands to the route that is shown; the word is the variant of its class."""

    TARGET = "target"
    CHOSEN = "chosen"
    OTHER = "other"


BEND = 9.0
"""Units, the radius of the bends."""


@dataclass(frozen=True, slots=True)
class Place:
    """A step as a box with its middle at `at`; words: its title or shorter; lines: as set, none in a map of numbers."""

    step: StepId
    number: str
    title: str
    words: str
    lines: tuple[str, ...]
    at: Point
    width: float
    height: float
    standing: Standing
    is_alternative: bool

    @property
    def left(self) -> float:
        return self.at[0] - self.width / 2

    @property
    def top(self) -> float:
        return self.at[1] - self.height / 2


@dataclass(frozen=True, slots=True)
class Line:
    """One wait drawn: the corners from the border of one box to the border of the next.

    drawn: the corners of what is drawn of it, which stops where it joins another dashed line. is_either: it belongs to a
    choice; has_tip: it ends at a step, not at a diamond.
    """

    corners: tuple[Point, ...]
    drawn: tuple[Point, ...]
    is_chosen: bool
    is_either: bool
    has_tip: bool


@dataclass(frozen=True, slots=True)
class Diamond:
    """Where the lines of a choice meet. caption: where its words stand, None in a map of numbers."""

    at: Point
    is_chosen: bool
    caption: Point | None


@dataclass(frozen=True, slots=True)
class Words:
    """A caption of the map; the first line of text starts there."""

    words: str
    at: Point


@dataclass(frozen=True, slots=True)
class OrderMap:
    """A whole map; places in the order of the steps, lines with those of the route last, so that they lie on top.

    key: the diamond of the key, in a map whose diamonds have no captions; is_cut: the words of some box did not fit.
    """

    form: Form
    width: float
    height: float
    title: str
    desc: str
    places: tuple[Place, ...]
    lines: tuple[Line, ...]
    diamonds: tuple[Diamond, ...]
    captions: tuple[Words, ...]
    key: Point | None
    is_cut: bool
