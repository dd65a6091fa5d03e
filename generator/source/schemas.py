"""JSON Schemas of authored files, made from the records and from the patterns with which values are read.

Draft 2020-12. A schema is for an editor that knows no other way to complete and check; what it cannot say (that an id is
known, that a tool fits, that the shorter time stands first, that a film has a length at all, that no host is missing from an
address, that a day is in the calendar) `partway check` says. Where a text is asked for, numbers are
taken too, as an author may write `name: 5`.

Source: JSON Schema, draft 2020-12, "JSON Schema: A Media Type for Describing JSON Documents" and "JSON Schema Validation".
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any, get_args

from annotated_types import Ge, Le, MinLen

from generator.source import values
from generator.source.file_kinds import FILE_KINDS, fields_of, shape_of
from generator.source.records import VERBS, ActionRecord, PartMarkRecord, PhotoRecord, Record

DIALECT = "https://json-schema.org/draft/2020-12/schema"

ABOUT = {
    "library": "The collection: title, author, languages, licence.",
    "tools": "Every tool used by any guide, by its id.",
    "supplies": "What is used up, by its id.",
    "device": "One device: identity, faces, film, the order of the steps.",
    "anatomy": "The parts of a device and the joints between them.",
    "step": "What stands between the two lines of --- at the top of a step file.",
}
"""The kinds of file that have a schema, and what each holds."""

_TEXT = ["string", "number"]
_FIGURE = {"type": "number", "minimum": -values.FARTHEST, "maximum": values.FARTHEST}
_LENGTH = {"type": "number", "exclusiveMinimum": 0, "maximum": values.FARTHEST}
_SHARE = {"type": "number", "minimum": 0, "maximum": 1}


def schema_of(kind: str) -> dict[str, Any]:
    """The schema of a kind of file (a key of ABOUT). KeyError for another one."""
    about = ABOUT[kind]
    made: dict[type[Record], dict[str, Any]] = {}
    top = _schema(FILE_KINDS[kind], made)
    definitions = {_name(record): made[record] for record in sorted(made, key=_name)}
    return {"$schema": DIALECT, "title": f"Partway: {kind}", "description": about, **top, "$defs": definitions}


def every_schema() -> Mapping[str, dict[str, Any]]:
    """All schemas by the name of their file, such as `device.schema.json`."""
    return {f"{kind}.schema.json": schema_of(kind) for kind in ABOUT}


# --- records -------------------------------------------------------------------------------------------------------------


def _schema(annotation: Any, made: dict[type[Record], dict[str, Any]]) -> dict[str, Any]:
    shape = shape_of(annotation)
    ways: list[dict[str, Any]] = []
    if shape.record is not None:
        if shape.record not in made:
            made[shape.record] = {}
            made[shape.record] = _record(shape.record, made)
        ways.append({"$ref": f"#/$defs/{_name(shape.record)}"})
    if shape.by_id is not None:
        names = _pattern(values._ID, values.WANTED_ID) if _has_ids(annotation) else {}
        bounds = {"propertyNames": {**names, "maxLength": values.LONGEST_ID}} if names else {}
        ways.append({"type": "object", "additionalProperties": _schema(shape.by_id, made), **bounds})
    if shape.items is not None:
        entries = _schema(shape.items, made)
        ways.append({"type": "array", "items": entries})
        if shape.is_alone:
            ways.append(entries)
    if shape.words:
        ways.append({"enum": list(shape.words)})
    if shape.read is not None:
        ways.append(_single(shape.read))
    if not ways:
        ways.append(_plain(annotation))
    return ways[0] if len(ways) == 1 else {"anyOf": ways}


def _record(record: type[Record], made: dict[type[Record], dict[str, Any]]) -> dict[str, Any]:
    fewest = {
        field.alias or name: {"minItems": note.min_length}
        for name, field in record.model_fields.items()
        for note in field.metadata
        if isinstance(note, MinLen)
    }
    properties = {}
    for key, annotation in fields_of(record).items():
        schema = {**_schema(annotation, made), **fewest.get(key, {})}
        if type(None) in _members(annotation):
            schema = {"anyOf": [schema, {"type": "null"}]}
        properties[key] = schema
    required = [field.alias or name for name, field in record.model_fields.items() if field.is_required()]
    schema = {
        "title": record.noun,
        "description": (record.__doc__ or "").strip() if record.__doc__ != Record.__doc__ else f"Keys of a {record.noun}.",
        "type": "object",
        "properties": properties,
        "additionalProperties": False,
    }
    return {**schema, **({"required": required} if required else {}), **_TOGETHER.get(record, {})}


def _name(record: type[Record]) -> str:
    return re.sub("(?<=[a-z])(?=[A-Z])", "-", record.__name__.removesuffix("Record")).lower()


def _there(key: str) -> dict[str, Any]:
    """That a key is there and holds something: an empty one counts as left out."""
    return {"required": [key], "properties": {key: {"not": {"type": "null"}}}}


def _needs(key: str, other: str) -> dict[str, Any]:
    return {"if": _there(key), "then": _there(other)}


_TOGETHER: Mapping[type[Record], dict[str, Any]] = {
    ActionRecord: {
        "oneOf": [_there(verb) for verb in VERBS],
        "allOf": [
            _needs("to", "heat"),
            _needs("proves", "check"),
            {"if": _there("of"), "then": {"required": ["proves"], "properties": {"proves": {"const": "discharged"}}}},
            {"if": {"required": ["proves"], "properties": {"proves": {"const": "discharged"}}}, "then": _there("of")},
        ],
    },
    PartMarkRecord: {
        "oneOf": [_there("coil"), _there("lens"), _there("chip")],
        "allOf": [
            _needs("coil", "across"),
            _needs("lens", "across"),
            {"if": _there("chip"), "then": {"not": _there("across")}},
        ],
    },
    PhotoRecord: {"allOf": [_needs("closer", "focus")]},
}
"""What keys of a record need beside each other; the records themselves say the same in their validators."""


# --- values --------------------------------------------------------------------------------------------------------------


def _pattern(pattern: re.Pattern[str], wanted: str) -> dict[str, Any]:
    """A text that matches as a whole, blanks around it apart."""
    return {"pattern": rf"^\s*(?:{pattern.pattern})\s*$", "description": _sentence(wanted)}


def _sentence(wanted: str) -> str:
    return f"{wanted[0].upper()}{wanted[1:]}."


def _text(pattern: re.Pattern[str], wanted: str) -> dict[str, Any]:
    return {"type": "string", **_pattern(pattern, wanted)}


def _of_figures(count: int, each: dict[str, Any], wanted: str, last: dict[str, Any] | None = None) -> dict[str, Any]:
    entries = [each] * count if last is None else [each] * (count // 2) + [last] * (count - count // 2)
    return {
        "type": "array",
        "prefixItems": entries,
        "items": False,
        "minItems": count,
        "description": _sentence(wanted),
    }


def _single(read: Callable[[Any], Any]) -> dict[str, Any]:
    """What a single value that `read` takes looks like."""
    return next(dict(schema) for known, schema in _SINGLE if known == read)


_WEB = r"^[Hh][Tt][Tt][Pp][Ss]?://"
_PATH = r"^(?![/.])(?!.*/[./])[^\\:]*[^\\:/]$"
_LINE = {"type": _TEXT, "maxLength": values.LONGEST_LINE, "pattern": r"\S"}
_SINGLE: tuple[tuple[Callable[[Any], Any], dict[str, Any]], ...] = (
    (values.read_line, {**_LINE, "description": _sentence(values.WANTED_LINE)}),
    (values.read_reason, {**_LINE, "description": _sentence(values.WANTED_REASON)}),
    (values.read_wait, {**_LINE, "description": _sentence(values.WANTED_WAIT)}),
    (
        values.read_id,
        {
            "type": ["string", "integer"],
            "minimum": 0,
            "maxLength": values.LONGEST_ID,
            "pattern": f"^{values._ID.pattern}$",
            "description": _sentence(values.WANTED_ID),
        },
    ),
    (values.read_date, _text(values._DATE, values.WANTED_DATE)),
    (values.read_language, _text(values._LANGUAGE, values.WANTED_LANGUAGE)),
    (values.Duration.read, _text(values._DURATION, values.WANTED_DURATION)),
    (values.FilmSpan.read, _text(values._FILM_SPAN, values.WANTED_SPAN)),
    (values.read_film_length, _text(values._FILM_LENGTH, values.WANTED_LENGTH)),
    (values.read_years, _text(values._YEARS, values.WANTED_YEARS)),
    (values.read_temperature, _text(values._TEMPERATURE, values.WANTED_TEMPERATURE)),
    (values.read_torque, _text(values._TORQUE, values.WANTED_TORQUE)),
    (values.read_measure, {**_FIGURE, "description": _sentence(values.WANTED_MEASURE)}),
    (values.read_positive, {**_LENGTH, "description": _sentence(values.WANTED_POSITIVE)}),
    (
        values.read_exact,
        {"type": "number", "exclusiveMinimum": 0, "maximum": 1e6, "description": _sentence(values.WANTED_NUMBER)},
    ),
    (
        values.read_closer,
        {"type": "number", "minimum": 1, "maximum": values.CLOSEST, "description": _sentence(values.WANTED_CLOSER)},
    ),
    (values.read_point, _of_figures(2, _FIGURE, values.WANTED_POINT)),
    (values.read_spot, _of_figures(2, _SHARE, values.WANTED_SPOT)),
    (values.read_size, _of_figures(2, _LENGTH, values.WANTED_SIZE)),
    (values.read_box, _of_figures(4, _FIGURE, values.WANTED_BOX, _LENGTH)),
    (values.read_path, {"type": _TEXT, "pattern": _PATH, "description": _sentence(values.WANTED_PATH)}),
    (
        values.read_address,
        {"type": "string", "pattern": _WEB + r"[^\s<>\"\\]+$", "description": _sentence(values.WANTED_ADDRESS)},
    ),
    (
        values.read_sources,
        {"type": "string", "pattern": _WEB + r".*\{path\}", "description": _sentence(values.WANTED_SOURCES)},
    ),
    (
        values.read_seconds_address,
        {"type": "string", "pattern": r"\{seconds\}", "description": _sentence(values.WANTED_SECONDS)},
    ),
)


def _plain(annotation: Any) -> dict[str, Any]:
    """true or false, or a whole number within its bounds."""
    members = _members(annotation)
    if bool in members:
        return {"type": "boolean"}
    if int in members:
        least = _bounds(annotation, Ge, "ge", "minimum")
        return {"type": "integer", **least, **_bounds(annotation, Le, "le", "maximum")}
    raise TypeError(f"no schema is known for {annotation}")


def _members(annotation: Any) -> set[Any]:
    """The plain types an annotation is made of, choices and notes looked through."""
    inner = get_args(annotation)
    if not inner:
        return {annotation}
    return {member for each in inner for member in (_members(each) if not isinstance(each, str) else ())}


def _has_ids(annotation: Any) -> bool:
    return shape_of(get_args(annotation)[0]).read == values.read_id if get_args(annotation) else False


def _bounds(annotation: Any, kind: type, name: str, key: str) -> dict[str, Any]:
    """A bound that stands beside a type, wherever in the annotation."""
    for each in (*getattr(annotation, "__metadata__", ()), *get_args(annotation)):
        for note in (each, *getattr(each, "metadata", ())):
            if isinstance(note, kind):
                return {key: getattr(note, name)}
        if get_args(each):
            found = _bounds(each, kind, name, key)
            if found:
                return found
    return {}
