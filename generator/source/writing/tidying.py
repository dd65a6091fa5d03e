"""One authored file written anew, and the proof that it says what it said."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass
from typing import Any

from pydantic import BaseModel

from generator.source.characters import BAD_IN_TEXT, unseen_character, with_plain_line_ends
from generator.source.checking import check_record
from generator.source.faults import BrokenYaml, RawHtml
from generator.source.file_kinds import FILE_KINDS, file_kind
from generator.source.front_matter import split_front_matter
from generator.source.places import Place, Places
from generator.source.prose import Prose, markdown_tokens, read_prose
from generator.source.writing.layout import laid_out
from generator.source.writing.paragraphs import filled, reading_of
from generator.source.writing.tree import read_document
from generator.source.yaml_tree import read_yaml

_STEPS = ("step", "step-words")
_HAS_FAULTS = "it has faults, which `partway check` tells. Mend them first"


@dataclass(frozen=True, slots=True)
class Untouched:
    """Why a file is left as it is, in words that follow its name and a colon."""

    reason: str


def tidied(path: str, text: str) -> str | Untouched:
    """The file at `path` (from the content folder, which says what is in it) in the one way of writing.

    The ends of lines stay as they are where all are alike; a byte order mark goes. Nothing is given back that does not read
    as before: then the file is Untouched, as it is if it has faults.
    """
    plain = with_plain_line_ends(text)
    new = _written_anew(path, plain)
    if isinstance(new, Untouched):
        return new
    if not reads_alike(path, plain, new) or _comments(path, plain) != _comments(path, new):
        return Untouched("written anew it would not read as before. It is better changed by hand")
    is_crlf = "\r\n" in text and text.count("\r\n") == text.count("\n") == text.count("\r")
    return new.replace("\n", "\r\n") if is_crlf else new


def _written_anew(path: str, text: str) -> str | Untouched:
    kind = file_kind(path)
    if kind == "note":
        faults = [fault for fault in read_prose(text, path).faults if not isinstance(fault, RawHtml)]
        if faults or unseen_character(text, path, 1, BAD_IN_TEXT):
            return Untouched(_HAS_FAULTS)
        return filled(text)
    if kind not in _STEPS:
        return _data(text, path, kind)
    if unseen_character(text, path, 1, BAD_IN_TEXT):
        return Untouched(_HAS_FAULTS)
    halves = split_front_matter(text, path)
    if isinstance(halves, BrokenYaml):
        return Untouched(_HAS_FAULTS)
    data = _data(halves.yaml, path, kind)
    return data if isinstance(data, Untouched) else f"---\n{data}---\n{filled(halves.body)}"


def _data(text: str, path: str, kind: str | None) -> str | Untouched:
    record = FILE_KINDS[kind or ""]
    tree = read_yaml(text, path)
    if tree.faults or check_record(tree, record).faults:
        return Untouched(_HAS_FAULTS)
    return laid_out(read_document(text), record)


# --- the same meaning -----------------------------------------------------------------------------------------------


def reads_alike(path: str, old: str, new: str) -> bool:
    """Whether two texts of the file at `path` give the same record, the same prose and the same faults, places apart."""
    return _reading(path, old) == _reading(path, new)


def _reading(path: str, text: str) -> tuple[Any, ...]:
    kind = file_kind(path)
    if kind == "note":
        return (without_places(read_prose(text, path)),)
    if kind not in _STEPS:
        return _record(text, path, kind)
    halves = split_front_matter(text, path)
    if isinstance(halves, BrokenYaml):
        return ()
    return (*_record(halves.yaml, path, kind), without_places(read_prose(halves.body, path)))


def _record(text: str, path: str, kind: str | None) -> tuple[Any, ...]:
    checked = check_record(read_yaml(text, path), FILE_KINDS[kind or ""])
    return without_places(checked.record), without_places(checked.faults)


def _comments(path: str, text: str) -> list[str]:
    """Every comment of a file's data, in the order of its words."""
    kind = file_kind(path)
    halves = split_front_matter(text, path) if kind in _STEPS else None
    if kind == "note" or isinstance(halves, BrokenYaml):
        return []
    return sorted(read_document(halves.yaml if halves else text).comments)


def without_places(value: Any) -> Any:
    """A value of the model with all that says where it was written taken out, to be held against another.

    Prose counts by what it says, not by the lines it stands on; keys of a mapping count in their order.
    """
    if isinstance(value, Place | Places):
        return None
    if isinstance(value, Prose):
        spoken = [(" ".join(each.text.split()), each.words) for each in value.sentences]
        links = [(each.scheme, each.target, " ".join(each.text.split())) for each in value.references]
        pictures = [(each.path, each.alt) for each in value.pictures]
        faults = sorted(repr(without_places(fault)) for fault in value.faults)
        return spoken, links, pictures, faults, reading_of(markdown_tokens(value.markdown))
    if isinstance(value, BaseModel):
        return type(value).__name__, [(name, without_places(getattr(value, name))) for name in type(value).model_fields]
    if is_dataclass(value) and not isinstance(value, type):
        named = [each.name for each in fields(value)]
        return type(value).__name__, [(name, without_places(getattr(value, name))) for name in named]
    if isinstance(value, Mapping):
        return [(without_places(key), without_places(each)) for key, each in value.items()]
    if isinstance(value, list | tuple):
        return [without_places(each) for each in value]
    if isinstance(value, set | frozenset):
        return sorted(repr(without_places(each)) for each in value)
    return value
