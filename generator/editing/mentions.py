"""Every place of a library where a part, joint, tool, supply or step is named, as the files stand."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from generator.source.front_matter import FrontMatter, split_front_matter
from generator.source.places import Loc, Place
from generator.source.prose import SCHEMES, read_prose
from generator.source.values import is_id
from generator.source.yaml_tree import read_yaml

Texts = Mapping[str, Sequence[str]]
"""The lines of every file of a library, by path from the content folder."""


class Kind(StrEnum):
    PART = "part"
    JOINT = "joint"
    TOOL = "tool"
    SUPPLY = "supply"
    STEP = "step"


SHARED = (Kind.TOOL, Kind.SUPPLY)
"""Kinds that all devices of a library share."""


@dataclass(frozen=True, slots=True)
class Mention:
    """One place where a name stands. device: whose it is, empty for what all share; is_definition: it is made here."""

    kind: Kind
    id: str
    device: str
    place: Place
    is_definition: bool = False


ANY = "*"
Patterns = Mapping[Loc, Kind]
"""What stands at a path of keys and indexes; ANY for whatever key or index."""

DEVICE_USES: Patterns = {
    ("order", ANY): Kind.STEP,
    ("alternatives", ANY): Kind.STEP,
    ("pages", ANY): Kind.PART,
    ("index", "paired", ANY): Kind.PART,
}
ANATOMY_USES: Patterns = {
    ("base",): Kind.PART,
    ("parts", ANY, "inside"): Kind.PART,
    ("parts", ANY, "under"): Kind.PART,
    ("parts", ANY, "under", ANY): Kind.PART,
    ("joints", ANY, "joins", ANY): Kind.PART,
    ("joints", ANY, "behind"): Kind.PART,
    ("joints", ANY, "behind", ANY): Kind.PART,
    ("joints", ANY, "tool"): Kind.TOOL,
    ("joints", ANY, "tool", ANY): Kind.TOOL,
}
ANATOMY_MAKES: Patterns = {("parts", ANY): Kind.PART, ("joints", ANY): Kind.JOINT}
STEP_USES: Patterns = {
    **{("work", ANY, verb): Kind.JOINT for verb in ("undo", "heat", "soak")},
    **{("work", ANY, verb): Kind.PART for verb in ("lift", "fold", "of")},
    ("work", ANY, "with"): Kind.TOOL,
    ("work", ANY, "with", ANY): Kind.TOOL,
    ("work", ANY, "supply"): Kind.SUPPLY,
    ("work", ANY, "supply", ANY): Kind.SUPPLY,
    ("photos", ANY, "marks", ANY, "joint"): Kind.JOINT,
    ("photos", ANY, "marks", ANY, "part"): Kind.PART,
}
SUPPLY_USES: Patterns = {(ANY, "for"): Kind.JOINT, (ANY, "for", ANY): Kind.JOINT}

TOOLS_MAKE: Patterns = {(ANY,): Kind.TOOL}
SUPPLIES_MAKE: Patterns = {(ANY,): Kind.SUPPLY}
NOTHING: Patterns = {}

_LANGUAGE = re.compile(r"\.[a-z]{2,3}(?=\.(?:md|yaml)$)")


def mentions_of(texts: Texts) -> tuple[Mention, ...]:
    """Every mention in every file, in the order of the files and of their places."""
    return tuple(mention for file in sorted(texts) for mention in mentions_in(file, texts[file]))


def mentions_in(file: str, lines: Sequence[str]) -> tuple[Mention, ...]:
    """The mentions in one file; data that is broken names nothing, while the words beside it do."""
    folders, name = file.split("/")[:-1], file.rpartition("/")[2]
    device = folders[0] if folders else ""
    text = "\n".join(lines)
    plain = _LANGUAGE.sub("", name)  # anatomy.de.yaml names what anatomy.yaml makes
    found: list[Mention] = []
    if plain == "device.yaml":
        found += _in_data(text, file, device, DEVICE_USES, NOTHING)
    elif plain == "anatomy.yaml":
        found += _in_data(text, file, device, ANATOMY_USES, ANATOMY_MAKES, makes=plain == name)
    elif plain == "tools.yaml":
        found += _in_data(text, file, "", NOTHING, TOOLS_MAKE, makes=plain == name)
    elif plain == "supplies.yaml":
        found += _in_data(text, file, "", SUPPLY_USES, SUPPLIES_MAKE, makes=plain == name)
    elif name.endswith(".md") and folders[1:] == ["steps"]:
        found += _in_step(text, file, device)
        step = plain.removesuffix(".md")
        if is_id(step):
            found.append(Mention(Kind.STEP, step, device, Place(file), is_definition=plain == name))
    elif name.endswith(".md") and folders[1:] == ["notes"]:
        found += _in_prose(text, file, device, 1)
        part = plain.removesuffix(".md")
        if is_id(part):
            found.append(Mention(Kind.PART, part, device, Place(file)))
    return tuple(sorted(found, key=lambda mention: (mention.place, mention.kind)))


def at(mentions: Sequence[Mention], file: str, line: int, column: int) -> Mention | None:
    """What is named at a position of a file; lines and columns count from 1, and the end of a name still is the name."""
    for mention in mentions:
        place = mention.place
        is_here = place.file == file and place.line == line == place.end_line
        if is_here and place.column <= column <= place.end_column and place.end_column > place.column:
            return mention
    return None


def alike(mentions: Sequence[Mention], one: Mention) -> tuple[Mention, ...]:
    """Every mention of the same thing: in the same device, or anywhere for what all share.

    A supply names joints of any device; such a mention is of each device that has the joint.
    """
    return tuple(
        other
        for other in mentions
        if (other.kind, other.id) == (one.kind, one.id)
        and (one.kind in SHARED or other.device == one.device or not other.device or not one.device)
    )


def _in_step(text: str, file: str, device: str) -> Iterator[Mention]:
    split = split_front_matter(text, file)
    if isinstance(split, FrontMatter):
        yield from _in_data(split.yaml, file, device, STEP_USES, NOTHING, split.yaml_line)
        yield from _in_prose(split.body, file, device, split.body_line)


def _in_data(
    text: str,
    file: str,
    device: str,
    uses: Patterns,
    made: Patterns,
    first_line: int = 1,
    makes: bool = True,
) -> Iterator[Mention]:
    tree = read_yaml(text, file, first_line)
    lines = text.split("\n")
    for loc, place in tree.places.values.items():
        kind = _kind(uses, loc)
        if kind is not None:
            yield from _named(kind, device, lines, place, first_line, False)
    for loc, place in tree.places.keys.items():
        kind = _kind(made, loc)
        if kind is not None:
            yield from _named(kind, device, lines, place, first_line, makes)


def _kind(patterns: Patterns, loc: Loc) -> Kind | None:
    for pattern, kind in patterns.items():
        if len(pattern) == len(loc) and all(want in (ANY, got) for want, got in zip(pattern, loc, strict=True)):
            return kind
    return None


def _named(
    kind: Kind, device: str, lines: Sequence[str], place: Place, first_line: int, is_definition: bool
) -> Iterator[Mention]:
    """The name at a place, without its quotes; nothing for a list or what is no name."""
    if place.line != place.end_line or not 0 <= place.line - first_line < len(lines):
        return
    written = lines[place.line - first_line][place.column - 1 : place.end_column - 1]
    quotes = 1 if len(written) > 1 and written[0] == written[-1] and written[0] in "'\"" else 0
    name = written[quotes : len(written) - quotes]
    if is_id(name):
        start, end = place.column + quotes, place.end_column - quotes
        device = "" if kind in SHARED else device
        yield Mention(kind, name, device, Place(place.file, place.line, start, place.line, end), is_definition)


def _in_prose(text: str, file: str, device: str, first_line: int) -> Iterator[Mention]:
    lines = text.split("\n")
    for reference in read_prose(text, file, first_line).references:
        place = reference.place
        wanted = f"{reference.scheme}:{reference.target}"
        if reference.scheme not in SCHEMES or not is_id(reference.target):
            continue
        for line in range(place.line, place.end_line + 1):
            written = lines[line - first_line]
            begin = place.column - 1 if line == place.line else 0
            start = written.lower().find(wanted, begin)
            if start >= 0:
                column = start + len(reference.scheme) + 2
                end = column + len(reference.target)
                owner = "" if Kind(reference.scheme) in SHARED else device
                yield Mention(Kind(reference.scheme), reference.target, owner, Place(file, line, column, line, end))
                break
