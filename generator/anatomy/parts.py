"""Parts: what a device is made of."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from typing import NewType

from generator.source.places import Place, Places

PartId = NewType("PartId", str)
JointId = NewType("JointId", str)
Point = tuple[float, float]

BOARD = "board"  # the material that makes a part a circuit board

CELL_LIMIT = 60.0
"""°C at a cell that bench work may not pass where the author gives no `limit`: the usual data sheet limit for discharge
and storage (common practice)."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in mm on the device's outline as seen from the first face; x to the right, y down."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.x + self.width

    @property
    def bottom(self) -> float:
        return self.y + self.height

    @property
    def centre(self) -> Point:
        return (self.x + self.width / 2, self.y + self.height / 2)


@dataclass(frozen=True, slots=True)
class Cell:
    """What a part that stores energy chemically is; volts in V, watt_hours in Wh, limit in °C."""

    chemistry: str
    volts: Decimal | None = None
    watt_hours: Decimal | None = None
    limit: float = CELL_LIMIT


@dataclass(frozen=True, slots=True)
class Charge:
    """A stored charge that can strike: volts in V, microfarads in µF."""

    volts: Decimal
    microfarads: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Feature:
    """A fine line on the top face: kind `coil`, `lens` (centre and diameter across) or `chip` (box)."""

    kind: str
    centre: Point
    across: float
    box: Box | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """One part; lengths in mm, `depth` from its face to its top, `under` what lies over it unfastened."""

    id: PartId
    name: str
    face: str
    place: Place
    places: Places = field(repr=False, compare=False)
    box: Box | None = None
    thickness: float | None = None
    depth: float | None = None
    corner: float = 0.0
    outline: tuple[Point, ...] = ()
    holes: tuple[Box, ...] = ()
    features: tuple[Feature, ...] = ()
    material: str | None = None
    role: str | None = None
    replaceable: bool = False
    spare_number: str | None = None
    spare_price: str | None = None
    inside: PartId | None = None
    under: tuple[PartId, ...] = ()
    cell: Cell | None = None
    charge: Charge | None = None
    licensed: str | None = None
    hazards: tuple[str, ...] = ()
    formerly: tuple[str, ...] = ()

    @property
    def is_board(self) -> bool:
        return self.material == BOARD
