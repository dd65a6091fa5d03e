"""A whole content folder, read in one go: records, prose and every fault of reading."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any, Generic, TypeVar

from generator.source.characters import shown
from generator.source.checking import check_record, first_faults
from generator.source.faults import BadPath, Fault, RawHtml, TooBig
from generator.source.files import Listing, NoContent, TextFile, list_folder, read_text
from generator.source.pictures import Refusal, refusal_of
from generator.source.places import Place, Places
from generator.source.prose import Prose, read_prose
from generator.source.records import AnatomyRecord, DeviceRecord, LibraryRecord, StepRecord, SupplyRecord, ToolRecord
from generator.source.step_files import read_step_file
from generator.source.translations import (
    CONTRIBUTE,
    Translation,
    language_of,
    read_device_translations,
    read_shared_prose,
    read_shared_translations,
)
from generator.source.values import Id, is_id
from generator.source.yaml_tree import read_yaml

R = TypeVar("R")

DEEPEST_MEDIA = 8  # folders below `media`


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
    """A file below a device's `media` folder; path from there, with forward slashes; size in bytes.

    refusal: why pages could not show it as a picture, None where they can.
    """

    path: str
    size: int
    refusal: Refusal | None = None


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
    translations: tuple[Translation, ...] = ()


@dataclass(frozen=True, slots=True)
class LibrarySource:
    """A content folder. faults are those of its shared files; texts holds the lines of every file read, by path.

    contribute: what the author tells those who send corrections, None where there is no such file.
    """

    library: Read[LibraryRecord]
    tools: Read[dict[str, ToolRecord]]
    supplies: Read[dict[str, SupplyRecord]]
    devices: tuple[DeviceSource, ...]
    faults: tuple[Fault, ...]
    texts: Mapping[str, tuple[str, ...]]
    translations: tuple[Translation, ...] = ()
    contribute: Prose | None = None

    @property
    def every_fault(self) -> tuple[Fault, ...]:
        """The faults of the shared files, then those of each device."""
        return self.faults + tuple(fault for device in self.devices for fault in device.faults)


def read_library(root: Path, only: str | None = None) -> LibrarySource:
    """Read the content folder `root`, or of its devices just the one named `only`. Devices in the order of their names.

    Every fault of every file comes back with the rest. NoContent, with a message, where there is no such folder or no
    such device.
    """
    if not _is_folder(root):
        raise NoContent(f"There is no folder {shown(str(root))} to read guides from.")
    texts: dict[str, tuple[str, ...]] = {}
    top = list_folder(root, "")
    faults: list[Fault] = list(top.faults)
    library = _read_data(root, "library.yaml", LibraryRecord, texts, faults)
    tools: Read[dict[str, ToolRecord]] = _read_ids(root, "tools.yaml", dict[Id, ToolRecord], top, texts, faults)
    supplies: Read[dict[str, SupplyRecord]] = _read_ids(root, "supplies.yaml", dict[Id, SupplyRecord], top, texts, faults)
    names = _device_names(root, top, faults)
    if only is not None and only not in names:
        near = difflib.get_close_matches(only[:64].lower(), names, n=3)
        hint = f" Near it: {', '.join(near)}." if near else ""
        raise NoContent(f'There is no device "{shown(only)}" in {shown(str(root))}.{hint}')
    translations = read_shared_translations(root, texts, faults)
    has_words = any(name == CONTRIBUTE for name, _ in top.files)
    contribute = read_shared_prose(root, CONTRIBUTE, texts, faults) if has_words else None
    devices = tuple(_read_device(root, name, texts) for name in names if only in (None, name))
    told = tuple(dict.fromkeys(faults))
    return LibrarySource(library, tools, supplies, devices, told, MappingProxyType(texts), translations, contribute)


def _is_folder(root: Path) -> bool:
    try:
        return root.is_dir()
    except OSError:
        return False


def _device_names(root: Path, top: Listing, faults: list[Fault]) -> list[str]:
    """The folders that hold a guide; one whose name cannot be an id is told and left out."""
    names: list[str] = []
    for name in top.folders:
        inside = list_folder(root, name)
        files = {each for each, _ in inside.files}
        if not files & {"device.yaml", "anatomy.yaml"} and "steps" not in inside.folders:
            continue
        if is_id(name):
            names.append(name)
        else:
            faults.append(BadPath(Place(shown(name)), shown(name), "a device's folder is named with an id such as tarn-5"))
    return names


def _read_device(root: Path, name: str, texts: dict[str, tuple[str, ...]]) -> DeviceSource:
    faults: list[Fault] = list(list_folder(root, name).faults)
    device = _read_data(root, f"{name}/device.yaml", DeviceRecord, texts, faults)
    anatomy = _read_data(root, f"{name}/anatomy.yaml", AnatomyRecord, texts, faults)
    steps = tuple(
        _read_step(root, file, id, texts, faults) for id, file in _markdown_files(root, f"{name}/steps", "a step", faults)
    )
    notes = tuple(
        note
        for part, file in _markdown_files(root, f"{name}/notes", "a note", faults)
        if (note := _read_note(root, file, part, texts, faults)) is not None
    )
    translations = read_device_translations(root, name, texts, faults)
    media = _media_files(root, f"{name}/media", faults)
    # A link that is refused is told by its folder and again by whoever wanted to read it: once is enough.
    is_complete = all(isinstance(fault, RawHtml) for fault in faults)  # HTML is shown as text: nothing is left out
    told = tuple(dict.fromkeys(faults))
    return DeviceSource(name, device, anatomy, steps, notes, media, told, is_complete, translations)


def _read_data(root: Path, file: str, kind: type[R], texts: dict[str, tuple[str, ...]], faults: list[Fault]) -> Read[R]:
    found = read_text(root, file)
    if not isinstance(found, TextFile):
        faults.append(found)
        return Read(None, Places(Place(file)), False, file)
    texts[file] = found.lines
    checked = check_record(read_yaml(found.text, file), kind)
    faults.extend(checked.faults)
    return Read(checked.record, checked.places, checked.is_complete, file)


def _read_ids(
    root: Path, file: str, kind: Any, top: Listing, texts: dict[str, tuple[str, ...]], faults: list[Fault]
) -> Read[Any]:
    """A file of records by id, which may be absent."""
    if file not in (name for name, _ in top.files):
        # A link that leaves the folder has been told with the folder, and leaves nothing to read.
        is_told = any(fault.place.file == file for fault in top.faults)
        return Read({}, Places(Place(file)), not is_told, file)
    return _read_data(root, file, kind, texts, faults)


def _markdown_files(root: Path, folder: str, what: str, faults: list[Fault]) -> list[tuple[str, str]]:
    """Ids and paths of the Markdown files of a folder; what else lies there is told."""
    listing = list_folder(root, folder)
    faults.extend(listing.faults)
    found: list[tuple[str, str]] = []
    for name, _ in listing.files:
        file = f"{folder}/{name}"
        if language_of(name) is not None:
            continue
        id = name.removesuffix(".md")
        if id == name or not is_id(id):
            reason = f"the file of {what} is named with an id and .md, such as upper-cover.md"
            faults.append(BadPath(Place(file), shown(name), reason))
        else:
            found.append((id, file))
    return found


def _read_step(root: Path, file: str, id: str, texts: dict[str, tuple[str, ...]], faults: list[Fault]) -> StepSource:
    read = read_step_file(root, file, StepRecord, texts, faults)
    if read is None:
        return StepSource(id, file, None, Places(Place(file)), Prose("", Place(file)), None, False)
    return StepSource(id, file, read.checked.record, read.checked.places, read.body, read.refitting, not read.told)


def _read_note(
    root: Path, file: str, part: str, texts: dict[str, tuple[str, ...]], faults: list[Fault]
) -> NoteSource | None:
    found = read_text(root, file)
    if not isinstance(found, TextFile):
        faults.append(found)
        return None
    texts[file] = found.lines
    prose = read_prose(found.text, file)
    faults.extend(first_faults(prose.faults))
    return NoteSource(part, file, prose)


def _media_files(root: Path, media: str, faults: list[Fault]) -> tuple[MediaFile, ...]:
    """The files below `media`, in the order of their paths; of pictures the head is read."""
    found: list[MediaFile] = []
    open_folders = [(media, 0)]
    while open_folders:
        folder, depth = open_folders.pop()
        if depth > DEEPEST_MEDIA:
            faults.append(TooBig(Place(folder), "nesting of folders", f"{DEEPEST_MEDIA} levels"))
            continue
        listing = list_folder(root, folder)
        faults.extend(listing.faults)
        found.extend(
            MediaFile(f"{folder}/{name}".removeprefix(f"{media}/"), size, refusal_of(root / folder / name, size))
            for name, size in listing.files
        )
        open_folders.extend((f"{folder}/{name}", depth + 1) for name in listing.folders)
    return tuple(sorted(found, key=lambda file: file.path))
