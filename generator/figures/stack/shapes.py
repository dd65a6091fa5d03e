"""What a stack is made of: frozen shapes on the sheet. Lengths are drawing units unless a field says mm."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from generator.anatomy.parts import JointId, PartId

Point = tuple[float, float]


class State(StrEnum):
    """How a part stands; the word is the variant of its class."""

    BASE = "base"
    PLACE = "place"  # in the stack of a whole run
    MUTED = "muted"  # still in, in the stack of one step
    HAND = "hand"  # lifted or folded in this step
    WORKED = "worked"  # only its joints are worked on in this step
    CARRIED = "carried"  # leaves with the part in hand
    OUT = "out"


IN_HAND = (State.HAND, State.WORKED)
"""The states of the parts a step is about: they are labelled."""


class Variant(StrEnum):
    """The forms of the figure; the word is the variant of its class.

    FULL has names at the leaders, NARROW numbers alone for small screens, NUMBERS numbers alone because there are too many
    labels. STEP shows one step, with names; STEP_NARROW the same with numbers alone. PICK is NARROW with room between the
    numbers, so that a finger tells them apart where they are links.
    """

    FULL = "full"
    NARROW = "narrow"
    PICK = "pick"
    NUMBERS = "numbers"
    STEP = "step"
    STEP_NARROW = "step-narrow"

    @property
    def has_names(self) -> bool:
        return self in (Variant.FULL, Variant.STEP)

    @property
    def is_of_step(self) -> bool:
        return self in (Variant.STEP, Variant.STEP_NARROW)


@dataclass(frozen=True, slots=True)
class Node:
    """A corner of a ring; `radius` of the part's rounding (units) on the way to it from the corner before, 0 if straight."""

    u: float
    v: float
    radius: float = 0.0


Ring = tuple[Node, ...]
"""A closed line, clockwise where it is round; the last node leads back to the first."""


@dataclass(frozen=True, slots=True)
class ScrewForm:
    """How screws of one size are drawn: half widths of shaft and head, lengths.

    hover: from the hole to the underside of the head; hole: half width of the ellipse in the part. is_below: the head is
    down, for a part that leaves downward.
    """

    shaft: float
    head: float
    head_height: float
    length: float
    hole: float
    hover: float
    is_below: bool


@dataclass(frozen=True, slots=True)
class Screw:
    """A screw of a joint over its hole; form: index into the stack's forms."""

    at: Point
    form: int
    joint: JointId
    is_below: bool = False


@dataclass(frozen=True, slots=True)
class Slab:
    """One part as drawn. side: its whole silhouette; top: its top face with its holes as further rings.

    edges: upright edges; features: fine lines on the top face; wall and floor: the hollow of the base. slide: the way a part
    was drawn out sideways, from the part to its seat.
    """

    part: PartId
    state: State
    side: tuple[Ring, ...]
    top: tuple[Ring, ...] = ()
    edges: tuple[tuple[Point, Point], ...] = ()
    features: tuple[Ring, ...] = ()
    wall: tuple[Ring, ...] = ()
    floor: tuple[Ring, ...] = ()
    screws: tuple[Screw, ...] = ()
    slide: tuple[Point, Point] | None = None


@dataclass(frozen=True, slots=True)
class Chains:
    """Stretches of the axes of screws between two neighbouring levels, each from its upper to its lower end."""

    lines: tuple[tuple[Point, Point], ...]


@dataclass(frozen=True, slots=True)
class Label:
    """A label with its leader: from `port` level to `knee`, then straight to the dot at `anchor`.

    number and words stand at their baselines; is_left: they end at these places, else they begin there. box: left, top,
    right, bottom of all that is written; target: the same with what a finger may miss it by, never over another's.
    """

    part: PartId
    state: State
    is_left: bool
    port: Point
    knee: Point
    anchor: Point
    number: str
    number_at: Point
    name: tuple[tuple[str, Point], ...]
    note: tuple[tuple[str, Point], ...]
    box: tuple[float, float, float, float]
    target: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Stack:
    """The whole figure. painted: from the deepest up, what comes later covers what came before.

    corner: of the sheet; undrawn: the parts that have no box, told in words only.
    """

    title: str
    desc: str
    variant: Variant
    corner: Point
    width: float
    height: float
    forms: tuple[ScrewForm, ...]
    painted: tuple[Slab | Chains, ...]
    labels: tuple[Label, ...]
    undrawn: tuple[PartId, ...]
