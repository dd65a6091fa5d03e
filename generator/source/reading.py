"""A whole content folder, read in one go: records, prose and every fault of reading."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from generator.source.faults import Fault
from generator.source.places import Places
from generator.source.prose import Prose
from generator.source.records import AnatomyRecord, DeviceRecord, LibraryRecord, StepRecord, SupplyRecord, ToolRecord

R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class Read(Generic[R]):
    """One file of data. record is None where nothing could be made of it (a fault says why).

    is_complete: False where the record lacks what a fault was found in; what is in it can still be used.
    """

    record: R | None
    places: Places
    is_complete: bool
    file: str


@dataclass(frozen=True, slots=True)
class StepSource:
    """One step file; id is its name without `.md`. record is None where its front matter could not be read."""

    id: str
    file: str
    record: StepRecord | None
    places: Places
    body: Prose
    refitting: Prose | None
    is_complete: bool


@dataclass(frozen=True, slots=True)
class NoteSource:
    """What was found out about a part: `notes/<part>.md`."""

    part: str
    file: str
    prose: Prose


@dataclass(frozen=True, slots=True)
class MediaFile:
    """A file below a device's `media` folder; path from there, with forward slashes; size in bytes."""

    path: str
    size: int


@dataclass(frozen=True, slots=True)
class DeviceSource:
    """The folder of one device; id is its name. Steps, notes and media in the order of their names."""

    id: str
    device: Read[DeviceRecord]
    anatomy: Read[AnatomyRecord]
    steps: tuple[StepSource, ...]
    notes: tuple[NoteSource, ...]
    media: tuple[MediaFile, ...]
    faults: tuple[Fault, ...]
    is_complete: bool


@dataclass(frozen=True, slots=True)
class LibrarySource:
    """A content folder. faults are those of its shared files; texts holds the lines of every file read, by path."""

    library: Read[LibraryRecord]
    tools: Read[dict[str, ToolRecord]]
    supplies: Read[dict[str, SupplyRecord]]
    devices: tuple[DeviceSource, ...]
    faults: tuple[Fault, ...]
    texts: Mapping[str, tuple[str, ...]]

    @property
    def every_fault(self) -> tuple[Fault, ...]:
        """The faults of the shared files, then those of each device."""
        return self.faults + tuple(fault for device in self.devices for fault in device.faults)
