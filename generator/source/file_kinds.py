"""Which record belongs in which file, and what belongs at each place of a record: its fields in order, how they are read."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType, NoneType, UnionType
from typing import Annotated, Any, Literal, Union, cast, get_args, get_origin, get_type_hints

from pydantic import BeforeValidator, PlainValidator

from generator.source.records import (
    AnatomyRecord,
    AnatomyWordsRecord,
    DeviceRecord,
    DeviceWordsRecord,
    LibraryRecord,
    LibraryWordsRecord,
    NamedWordsRecord,
    Record,
    StepRecord,
    StepWordsRecord,
    SupplyRecord,
    ToolRecord,
)
from generator.source.translations import language_of
from generator.source.values import Duration, FilmSpan, Id, as_list

FILE_KINDS: Mapping[str, Any] = MappingProxyType(
    {
        "library": LibraryRecord,
        "tools": dict[Id, ToolRecord],
        "supplies": dict[Id, SupplyRecord],
        "device": DeviceRecord,
        "anatomy": AnatomyRecord,
        "step": StepRecord,
        "library-words": LibraryWordsRecord,
        "tools-words": dict[Id, NamedWordsRecord],
        "supplies-words": dict[Id, NamedWordsRecord],
        "device-words": DeviceWordsRecord,
        "anatomy-words": AnatomyWordsRecord,
        "step-words": StepWordsRecord,
    }
)
"""What an author writes, by the name of the file without its ending; `step` is what stands between the fences of a step.
The kinds that end with `-words` are the same in another language."""


def file_kind(path: str) -> str | None:
    """The kind of the file at `path` below a content folder; `note` for words alone, such as a
    note on a part; None for what is no guide's.

    >>> file_kind("tarn-5/steps/open-back.md"), file_kind("tools.yaml"), file_kind("tarn-5/media/a.jpg")
    ('step', 'tools', None)
    """
    language = language_of(path.rpartition("/")[2])
    match (path if language is None else path.replace(f".{language}.", ".")).split("/"):
        case ["library.yaml" | "tools.yaml" | "supplies.yaml" as name] | [_, "device.yaml" | "anatomy.yaml" as name]:
            kind = name.removesuffix(".yaml")
        case [_, "steps", name] if name.endswith(".md"):
            kind = "step"
        case ["contribute.md"]:
            return "note"
        case [_, "notes", name] if name.endswith(".md"):
            return "note"
        case _:
            return None
    return kind if language is None else f"{kind}-words"


@dataclass(frozen=True, slots=True)
class Shape:
    """What may stand at a place. record: keys of this record; by_id: for keys that authors choose, what each holds;
    items: what each entry of a list is; read: how a single value is read, None where it stands for itself.

    words: the words to choose from; is_alone: whether a single entry may stand without its list.
    """

    record: type[Record] | None = None
    by_id: Any = None
    items: Any = None
    read: Callable[[Any], Any] | None = None
    words: tuple[str, ...] = ()
    is_alone: bool = False


NOTHING = Shape()


@lru_cache(maxsize=512)
def shape_of(annotation: Any) -> Shape:
    """The shape of an annotation of `records`; of a choice between several, what they have together."""
    if annotation is None or annotation is NoneType:
        return NOTHING
    origin = get_origin(annotation)
    if origin is Annotated:
        inner, *notes = get_args(annotation)
        shape = shape_of(inner)
        for note in notes:
            if isinstance(note, BeforeValidator | PlainValidator):
                is_alone = note.func is as_list
                read = shape.read if is_alone else cast("Callable[[Any], Any]", note.func)
                shape = replace(shape, read=read, is_alone=shape.is_alone or is_alone)
        return shape
    if origin in (Union, UnionType):
        shape = NOTHING
        for member in get_args(annotation):
            other = shape_of(member)
            shape = Shape(
                shape.record or other.record,
                shape.by_id if shape.by_id is not None else other.by_id,
                shape.items if shape.items is not None else other.items,
                shape.read or other.read,
                shape.words or other.words,
                shape.is_alone or other.is_alone,
            )
        return shape
    if origin is Literal:
        return Shape(words=get_args(annotation))
    if origin is dict:
        return Shape(by_id=get_args(annotation)[1])
    if origin is list:
        return Shape(items=get_args(annotation)[0])
    if annotation in (Duration, FilmSpan):
        return Shape(read=annotation.read)
    if isinstance(annotation, type) and issubclass(annotation, Record):
        return Shape(record=annotation)
    return NOTHING


@lru_cache(maxsize=64)
def fields_of(record: type[Record]) -> Mapping[str, Any]:
    """The keys of a record as authors write them, in the order in which they are written, with their annotations."""
    hints = get_type_hints(record, include_extras=True)
    return MappingProxyType({field.alias or name: hints[name] for name, field in record.model_fields.items()})


def inner_shape(shape: Shape, key: str | None) -> Shape:
    """The shape of what stands under `key`; of an entry of a list for None."""
    if key is None:
        return shape_of(shape.items)
    if shape.by_id is not None:
        return shape_of(shape.by_id)
    if shape.record is not None:
        return shape_of(fields_of(shape.record).get(key))
    if shape.is_alone and shape.items is not None:
        return inner_shape(shape_of(shape.items), key)
    return NOTHING


def record_at(shape: Shape) -> type[Record] | None:
    """The record that keys here belong to, also where it stands alone instead of in a list."""
    if shape.record is None and shape.is_alone:
        return shape_of(shape.items).record
    return shape.record
