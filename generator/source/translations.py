"""Words in further languages, side by side with what they translate: `steps/open-back.de.md` beside `steps/open-back.md`.

A translation holds words and nothing else. Work, places and figures stand in the original alone.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from generator.source.characters import shown
from generator.source.checking import check_record, first_faults
from generator.source.faults import BadPath, Fault, NotWords
from generator.source.files import TextFile, list_folder, read_text
from generator.source.places import Place, Places
from generator.source.prose import Prose, read_prose
from generator.source.records import (
    AnatomyWordsRecord,
    DeviceWordsRecord,
    LibraryWordsRecord,
    NamedWordsRecord,
    StepRecord,
    StepWordsRecord,
)
from generator.source.step_files import read_step_file
from generator.source.values import Id
from generator.source.yaml_tree import read_yaml

_NAME = re.compile(r"(?P<original>[^.]+)\.(?P<language>[A-Za-z]{2,8}(?:-[A-Za-z0-9]{1,8}){0,5})(?P<ending>\.md|\.yaml)")

SHARED: Mapping[str, Any] = {
    "library": LibraryWordsRecord,
    "tools": dict[Id, NamedWordsRecord],
    "supplies": dict[Id, NamedWordsRecord],
}
OF_A_DEVICE: Mapping[str, Any] = {"device": DeviceWordsRecord, "anatomy": AnatomyWordsRecord}

CONTRIBUTE = "contribute.md"
"""What the author tells those who want to send a correction; one for the whole library, and there may be none."""

_OF_NO_DEVICE = "this text belongs to no device: it links to the web, to a mail address or within itself"

REFITTING = {"de": ("einbau",)}
"""The heading `## Refitting` in other languages, in small letters; the English one may be used in all."""

WORK_KEYS = frozenset(StepRecord.model_fields) - frozenset(StepWordsRecord.model_fields)
"""Keys of step files that are no words."""


@dataclass(frozen=True, slots=True)
class Translation:
    """One file in one language. kind: library, tools, supplies, contribute, device, anatomy, step or note; id:
    of the step or part.

    original: the path of what it translates, which may not be there. record is None for prose alone and where it could
    not be read; body and refitting are the prose of a step or note, body that of `contribute`.
    """

    language: str
    kind: str
    id: str
    file: str
    original: str
    record: Any
    places: Places
    body: Prose | None = None
    refitting: Prose | None = None


def language_of(name: str) -> str | None:
    """The language of a file by its name; None for a file that is no translation.

    >>> language_of("open-back.de.md"), language_of("open-back.md"), language_of("anatomy.pt-BR.yaml")
    ('de', None, 'pt-BR')
    """
    found = _NAME.fullmatch(name)
    return found["language"] if found else None


def read_shared_translations(root: Path, texts: dict[str, tuple[str, ...]], faults: list[Fault]) -> tuple[Translation, ...]:
    """All translations of what the devices share, in the order of their files, data first."""
    found = list(_data_files(root, "", SHARED, texts, faults))
    for name, _ in list_folder(root, "").files:
        match = _NAME.fullmatch(name)
        if match is not None and f"{match['original']}{match['ending']}" == CONTRIBUTE:
            prose, places = read_shared_prose(root, name, texts, faults), Places(Place(name))
            found.append(Translation(match["language"], "contribute", "", name, CONTRIBUTE, None, places, prose))
    return tuple(found)


def read_shared_prose(root: Path, file: str, texts: dict[str, tuple[str, ...]], faults: list[Fault]) -> Prose | None:
    """Prose that belongs to no device, so that there are no parts it could name and no folder its files could lie in."""
    found = read_text(root, file)
    if not isinstance(found, TextFile):
        faults.append(found)
        return None
    texts[file] = found.lines
    prose = read_prose(found.text, file)
    astray = [BadPath(each.place, f"{each.scheme}:{each.target}", _OF_NO_DEVICE) for each in prose.references]
    astray += [BadPath(picture.place, shown(picture.path), _OF_NO_DEVICE) for picture in prose.pictures]
    astray += [BadPath(link.place, shown(link.path), _OF_NO_DEVICE) for link in prose.files]
    faults.extend(first_faults(tuple(sorted((*prose.faults, *astray), key=lambda fault: fault.place))))
    return prose


def read_device_translations(
    root: Path, device: str, texts: dict[str, tuple[str, ...]], faults: list[Fault]
) -> tuple[Translation, ...]:
    """All translations of a device, in the order of their files."""
    found = list(_data_files(root, device, OF_A_DEVICE, texts, faults))
    for folder, kind in (("steps", "step"), ("notes", "note")):
        for name, _ in list_folder(root, f"{device}/{folder}").files:
            match = _NAME.fullmatch(name)
            if match is not None and match["ending"] == ".md":
                read = _read_step if kind == "step" else _read_note
                found.append(read(root, f"{device}/{folder}/{name}", match["original"], match["language"], texts, faults))
    return tuple(found)


def _data_files(
    root: Path, folder: str, kinds: Mapping[str, Any], texts: dict[str, tuple[str, ...]], faults: list[Fault]
) -> list[Translation]:
    found = []
    for name, _ in list_folder(root, folder).files:
        match = _NAME.fullmatch(name)
        if match is None or match["ending"] != ".yaml" or match["original"] not in kinds:
            continue
        file = f"{folder}/{name}".lstrip("/")
        original = f"{folder}/{match['original']}.yaml".lstrip("/")
        text = read_text(root, file)
        if not isinstance(text, TextFile):
            faults.append(text)
            continue
        texts[file] = text.lines
        checked = check_record(read_yaml(text.text, file), kinds[match["original"]])
        faults.extend(checked.faults)
        kind = match["original"]
        found.append(Translation(match["language"], kind, "", file, original, checked.record, checked.places))
    return found


def _read_step(
    root: Path, file: str, id: str, language: str, texts: dict[str, tuple[str, ...]], faults: list[Fault]
) -> Translation:
    original = f"{file.rpartition('/')[0]}/{id}.md"
    headings = REFITTING.get(language.partition("-")[0], ())
    read = read_step_file(root, file, StepWordsRecord, texts, faults, headings=headings, as_told=_as_words_only)
    if read is None:
        return Translation(language, "step", id, file, original, None, Places(Place(file)))
    checked = read.checked
    return Translation(language, "step", id, file, original, checked.record, checked.places, read.body, read.refitting)


def _as_words_only(fault: Fault, places: Places) -> Fault:
    """A key of step files that is no words is told as such, not as one that nobody knows."""
    key = getattr(fault, "key", "")
    return NotWords(fault.place, key) if key in WORK_KEYS and places.keys.get((key,)) == fault.place else fault


def _read_note(
    root: Path, file: str, id: str, language: str, texts: dict[str, tuple[str, ...]], faults: list[Fault]
) -> Translation:
    original = f"{file.rpartition('/')[0]}/{id}.md"
    found = read_text(root, file)
    if not isinstance(found, TextFile):
        faults.append(found)
        return Translation(language, "note", id, file, original, None, Places(Place(file)))
    texts[file] = found.lines
    prose = read_prose(found.text, file)
    faults.extend(first_faults(prose.faults))
    return Translation(language, "note", id, file, original, None, Places(Place(file)), prose)
