"""A step file, or a translation of one, read: data held against its model, words in their two sections."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Generic, TypeVar

from generator.source.checking import Checked, check_record, first_faults
from generator.source.faults import BrokenYaml, Fault
from generator.source.files import TextFile, read_text
from generator.source.front_matter import split_front_matter
from generator.source.places import Places
from generator.source.prose import Prose, read_prose, split_refitting
from generator.source.yaml_tree import read_yaml

R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class StepFile(Generic[R]):
    """checked: the data; told: the faults of data and words, as many as are told of one file."""

    checked: Checked[R]
    body: Prose
    refitting: Prose | None
    told: tuple[Fault, ...]


def read_step_file(
    root: Path,
    file: str,
    kind: type[R],
    texts: dict[str, tuple[str, ...]],
    faults: list[Fault],
    *,
    headings: tuple[str, ...] = (),
    as_told: Callable[[Fault, Places], Fault] = lambda fault, places: fault,
) -> StepFile[R] | None:
    """Read one; None where nothing could be made of it. What is wrong goes to `faults`, its lines to `texts`.

    headings: what the section about putting back may be called beside Refitting; as_told: how a fault of the data is told.
    """
    found = read_text(root, file)
    if not isinstance(found, TextFile):
        faults.append(found)
        return None
    texts[file] = found.lines
    halves = split_front_matter(found.text, file)
    if isinstance(halves, BrokenYaml):
        faults.append(halves)
        return None
    tree = read_yaml(halves.yaml, file, halves.yaml_line)
    checked = check_record(tree, kind)
    main, section = split_refitting(halves.body, ("refitting", *headings))
    body = read_prose(main, file, halves.body_line)
    refitting = read_prose(section[0], file, halves.body_line + section[1]) if section is not None else None
    of_data = [as_told(fault, tree.places) for fault in checked.faults]
    told = first_faults((*of_data, *body.faults, *(refitting.faults if refitting is not None else ())))
    faults.extend(told)
    return StepFile(checked, body, refitting, told)
