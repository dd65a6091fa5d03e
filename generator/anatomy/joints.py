"""Joints: what holds parts together, and what follows from their kind."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from generator.anatomy.parts import JointId, PartId, Point
from generator.source.places import Place, Places


class JointKind(StrEnum):
    SCREWS = "screws"
    PLUG = "plug"
    GLUE = "glue"
    CLIPS = "clips"
    SOLDER = "solder"
    PRESS = "press"


@dataclass(frozen=True, slots=True)
class Drive:
    """How a screw is driven, named as the standards name it: shape (`cross-recess`) and size (`PH00`)."""

    shape: str
    size: str | None

    def __str__(self) -> str:
        return f"{self.shape} {self.size}" if self.size else self.shape


@dataclass(frozen=True, slots=True)
class Joint:
    """One joint; lengths in mm (one a screw), torque in N·m, temperature in °C, positions in mm on the device."""

    id: JointId
    kind: JointKind
    name: str
    joins: tuple[PartId, ...]
    face: str
    place: Place
    places: Places = field(repr=False, compare=False)
    behind: tuple[PartId, ...] = ()
    drive: Drive | None = None
    head: str | None = None
    thread: str | None = None
    lengths: tuple[float, ...] = ()
    lengths_written: tuple[float, ...] = ()
    count_written: int | None = None
    count: int = 1
    positions: tuple[Point, ...] = ()
    run: tuple[Point, ...] = ()
    torque: float | None = None
    softens: str | None = None
    temperature: float | None = None
    is_renewed: bool = False
    reusable: str | None = None
    tools: tuple[str, ...] = ()
    note: str | None = None

    @property
    def ends(self) -> frozenset[PartId]:
        return frozenset(self.joins)

    @property
    def may_stay_when_folded(self) -> bool:
        """Whether a part can be folded aside while this joint still crosses: a plug on its cable."""
        return self.kind is JointKind.PLUG

    @property
    def needs_tool(self) -> bool:
        """Whether bare hands cannot undo it (common practice)."""
        return self.kind in (JointKind.SCREWS, JointKind.SOLDER)
