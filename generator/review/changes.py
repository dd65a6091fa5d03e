"""What differs between two states of one guide, as plain values; nothing here judges, and nothing has words."""

from __future__ import annotations

from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.indices.differences import Difference
from generator.indices.workings import Index
from generator.orders.accounts import Depth, ScrewSize
from generator.orders.guide import Guide
from generator.orders.hazards import Hazard
from generator.orders.routes import NoRoute
from generator.orders.work import Action, Caution, Photo, Step
from generator.review.wording import Piece
from generator.rules.finding import Reported

PART, JOINT = "part", "joint"


@dataclass(frozen=True, slots=True)
class FieldChange:
    """One field of a device, part or joint; None where it was not or is no longer told.

    pieces: a text, word by word. is_part: of a list, just the names that are gone and those that came.
    """

    field: str
    before: str | None
    after: str | None
    pieces: tuple[Piece, ...] = ()
    is_part: bool = False


@dataclass(frozen=True, slots=True)
class ThingChange:
    """A part or a joint that appeared (was is None), vanished (id is None), was renamed or has other fields."""

    kind: str
    was: str | None
    id: str | None
    fields: tuple[FieldChange, ...] = ()


@dataclass(frozen=True)
class StepChange:
    """One step that is not what it was: new (old is None), gone (new is None), moved, reworded, or with other work.

    numbers count from 1 in the order; None for a step outside it. work: what is no longer done and what is done anew, in
    the order of each; is_reordered: the same work in another order. media: names of files whose bytes changed.
    """

    old: Step | None
    new: Step | None
    number_before: int | None
    number_after: int | None
    is_moved: bool = False
    title: tuple[Piece, ...] = ()
    body: tuple[Piece, ...] = ()
    refitting: tuple[Piece, ...] = ()
    work_gone: tuple[Action, ...] = ()
    work_came: tuple[Action, ...] = ()
    is_reordered: bool = False
    cautions_gone: tuple[Caution, ...] = ()
    cautions_came: tuple[Caution, ...] = ()
    hazards_gone: tuple[Hazard, ...] = ()
    hazards_came: tuple[Hazard, ...] = ()
    photos_gone: tuple[Photo, ...] = ()
    photos_came: tuple[Photo, ...] = ()
    media: tuple[str, ...] = ()

    @property
    def is_renamed(self) -> bool:
        return self.old is not None and self.new is not None and self.old.id != self.new.id

    @property
    def step(self) -> Step:
        """The step as it is now, or as it was if it is gone."""
        found = self.new or self.old
        assert found is not None
        return found


@dataclass(frozen=True, slots=True)
class WayChange:
    """The way to one part: how deep it goes, or what stands in the way; None where the part was not or is not asked for."""

    part: PartId
    before: Depth | NoRoute | None
    after: Depth | NoRoute | None


@dataclass(frozen=True, slots=True)
class ScrewChange:
    """Screws of one size that the whole order takes out."""

    size: ScrewSize
    before: int
    after: int


@dataclass(frozen=True, slots=True)
class IndexChange:
    """The published index; difference is None where only one of the two has one."""

    before: Index | None
    after: Index | None
    difference: Difference | None


@dataclass(frozen=True)
class DeviceChange:
    """All that differs; old is None for a new device, new is None for one that is gone; was: its id before, if another."""

    id: str
    was: str | None
    old: Guide | None
    new: Guide | None
    told: tuple[FieldChange, ...] = ()
    things: tuple[ThingChange, ...] = ()
    steps: tuple[StepChange, ...] = ()
    ways: tuple[WayChange, ...] = ()
    screws: tuple[ScrewChange, ...] = ()
    index: IndexChange | None = None
    findings_new: tuple[Reported, ...] = ()
    findings_gone: tuple[Reported, ...] = ()

    @property
    def guide(self) -> Guide:
        """The guide as it is now, or as it was if it is gone."""
        found = self.new or self.old
        assert found is not None
        return found

    @property
    def is_anything(self) -> bool:
        return (
            self.old is None
            or self.new is None
            or self.was is not None
            or bool(self.told or self.things or self.steps or self.ways or self.screws or self.index)
            or bool(self.findings_new or self.findings_gone)
        )


@dataclass(frozen=True)
class LibraryChange:
    """The devices that changed in any way, in the order of their names, and what changed above them.

    unchanged: how many devices are as they were, and were not worked out.
    """

    devices: tuple[DeviceChange, ...]
    told: tuple[FieldChange, ...] = ()
    findings_new: tuple[Reported, ...] = ()
    findings_gone: tuple[Reported, ...] = ()
    unchanged: int = 0
