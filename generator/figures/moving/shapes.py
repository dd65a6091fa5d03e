"""What a moving picture is made of: frozen shapes in drawing units, times in tenths of a second."""

from __future__ import annotations

from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.figures.moving.timing import Timetable
from generator.figures.stack.shapes import Chains, Label, Point, Ring, ScrewForm, Slab


@dataclass(frozen=True, slots=True)
class Turn:
    """The screw of a part and the step that takes it out, from 0; None for one that no step of the run takes out."""

    at: Point
    form: int
    step: int
    is_below: bool


@dataclass(frozen=True, slots=True)
class Mover:
    """A part that is painted, standing where it does in the finished stack.

    step: in which it leaves, from 0, None if it stays. start: where it is in the assembled device, as the way from its place
    in the stack; slot: the same once it is drawn out of its slot, before it rises (None if it does not slide). accents: the
    steps it is in the hand (true) or only worked on in. is_sunk: it sits in the hollow of the base, whose rim hides what
    is below; is_unseen: it comes out of a slot in a side that faces the viewer, and is not to be seen before.
    """

    slab: Slab
    step: int | None
    start: Point
    slot: Point | None
    accents: tuple[tuple[int, bool], ...]
    turns: tuple[Turn, ...]
    is_sunk: bool
    is_unseen: bool

    @property
    def part(self) -> PartId:
        return self.slab.part


@dataclass(frozen=True, slots=True)
class Heading:
    """What stands above the picture while a step runs; number is empty for the heading of the whole. Lines of the title."""

    number: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Moving:
    """A whole moving picture. movers: in the order of painting; chains: each with the index of the mover it follows.

    labels: with the step that brings each. rim: where the hollow of the base is open upward, all above it with it. corner,
    width, height: of the whole; picture_top: where the picture begins below the headings.
    """

    title: str
    desc: str
    timetable: Timetable
    corner: Point
    width: float
    height: float
    picture_top: float
    forms: tuple[ScrewForm, ...]
    movers: tuple[Mover, ...]
    chains: tuple[tuple[int, Chains], ...]
    labels: tuple[tuple[int, Label], ...]
    rim: tuple[Ring, ...]
    whole: Heading
    headings: tuple[Heading, ...]
