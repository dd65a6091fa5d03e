"""What a rename touches: every mention of a name in every file, and the file that bears it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from posixpath import dirname, join

from generator.editing.mentions import Kind, Mention, Texts, alike
from generator.rules.finding import Edit
from generator.source.values import is_id


@dataclass(frozen=True, slots=True)
class Move:
    """A file that gets another name; paths from the content folder."""

    old: str
    new: str


@dataclass(frozen=True, slots=True)
class Rename:
    """Edits by the places of the files as they stand, then the files that are called after the thing."""

    edits: tuple[Edit, ...]
    moves: tuple[Move, ...]


class NotRenamed(ValueError):
    """The name cannot be given; the message says why."""


def rename(texts: Texts, mentions: Sequence[Mention], one: Mention, new: str) -> Rename:
    """Call the thing that `one` names `new` everywhere. NotRenamed for what is no id, or is taken already."""
    if not is_id(new):
        raise NotRenamed(f'"{new}" is no id: small letters, digits and single dashes, such as upper-cover.')
    taken = next((each for each in mentions if each.is_definition and _is_same_kind(each, one) and each.id == new), None)
    if taken is not None and new != one.id:
        raise NotRenamed(f'There is a {one.kind.value} "{new}" already, in {taken.place}.')
    touched = alike(mentions, one)
    edits = tuple(Edit(each.place, new) for each in touched if each.place.end_column > each.place.column)
    named_after = [each.place.file for each in touched if each.place.end_column == each.place.column]
    moves = tuple(
        Move(file, join(dirname(file), file.rpartition("/")[2].replace(one.id, new, 1))) for file in sorted(set(named_after))
    )
    for move in moves:
        if move.new in texts and move.new != move.old:
            raise NotRenamed(f"There is a file {move.new} already.")
    return Rename(edits, moves)


def _is_same_kind(other: Mention, one: Mention) -> bool:
    return other.kind is one.kind and (other.device == one.device or one.kind in (Kind.TOOL, Kind.SUPPLY))
