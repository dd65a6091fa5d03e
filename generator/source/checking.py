"""A tree of plain values held against a record: what fits becomes the record, what does not becomes faults."""

from __future__ import annotations

import difflib
import re
from collections.abc import Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType
from typing import Any, Generic, TypeVar, cast, get_args

from pydantic import TypeAdapter, ValidationError

from generator.source.characters import shown
from generator.source.faults import BadPath, BadTime, Fault, MissingKey, TooBig, UnknownKey, WrongKind
from generator.source.places import Loc, Place, Places
from generator.source.records import Record
from generator.source.yaml_tree import YamlTree

R = TypeVar("R")

MOST_FAULTS = 50  # a file; more cannot be read at once anyway

_KEYS = "keys with their values, such as name: glass back"
_WANTED = {
    "bool_type": "true or false",
    "int_type": "a whole number such as 3",
    "int_from_float": "a whole number such as 3",
    "list_type": "a list such as [one, two]",
    "dict_type": _KEYS,
    "model_type": _KEYS,
    "model_attributes_type": _KEYS,
    "greater_than_equal": "a number of at least {ge}",
    "less_than_equal": "a number of at most {le}",
    "too_short": "a list with {min_length} or more entries",
}


@dataclass(frozen=True, slots=True)
class Checked(Generic[R]):
    """record holds all that was free of faults, or is None; places are those of what it holds.

    is_complete: whether nothing was left out of it, which is to say: whether there are no faults.
    """

    record: R | None
    places: Places
    faults: tuple[Fault, ...]
    is_complete: bool


def check_record(tree: YamlTree, kind: type[R]) -> Checked[R]:
    """Make a record of `kind` from `tree`: a Record, or a dict of them by id. Never raises for what stands in `tree`.

    Where a value has a fault the smallest whole thing around it that can go is left out (a key, an action, a joint),
    so that the rest of the file can still be looked at.
    """
    if not tree.is_readable:
        return Checked(None, tree.places, first_faults(tree.faults), False)
    value, places = tree.value, tree.places
    if value is None:
        value = {}
    adapter = cast("TypeAdapter[R]", _adapter(cast(Hashable, kind)))
    faults = list(tree.faults)
    is_first = True
    while True:
        try:
            record = adapter.validate_python(value)
        except ValidationError as error:
            problems = [_Problem.of(each, places) for each in error.errors(include_url=False, include_input=False)]
        else:
            return Checked(record, places, first_faults(faults), not faults)
        if is_first:  # what comes up later follows from what was left out
            told = [problem for problem in problems if not _is_spoilt(problem.path, tree.spoilt)]
            faults += [_fault(problem, value, places, kind) for problem in told[: MOST_FAULTS + 1]]
            is_first = False
        removed = {_removable(problem, value) for problem in problems}
        if () in removed:
            return Checked(None, tree.places, first_faults(faults), False)
        value, places = _without(value, places, removed)


def first_faults(faults: Iterable[Fault]) -> tuple[Fault, ...]:
    """At most MOST_FAULTS of one file, in its order; one more says that there are others."""
    ordered = sorted(faults, key=lambda fault: (fault.place, type(fault).__name__))
    if len(ordered) <= MOST_FAULTS:
        return tuple(ordered)
    more = TooBig(ordered[MOST_FAULTS].place, "number of faults in one file", f"the first {MOST_FAULTS} are shown")
    return (*ordered[:MOST_FAULTS], more)


@lru_cache(maxsize=16)
def _adapter(kind: Hashable) -> TypeAdapter[Any]:
    return TypeAdapter(cast(Any, kind))


# --- what the checker said, and where ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Problem:
    """type and context as pydantic gives them; path: the deepest value that was written; key: of a key, its name."""

    type: str
    path: Loc
    context: Mapping[str, Any]
    key: str
    is_about_key: bool

    @staticmethod
    def of(error: Any, places: Places) -> _Problem:
        path: Loc = ()
        for step in error["loc"]:  # pydantic puts in tags of unions and places of single values made lists: skip them
            if (*path, step) in places.values:
                path = (*path, step)
        last = error["loc"][-1] if error["loc"] else ""
        context = error.get("ctx") or {}
        is_about_key = last == "[key]" or error["type"] == "extra_forbidden"
        return _Problem(error["type"], path, context, str(last), is_about_key)


def _is_spoilt(path: Loc, spoilt: frozenset[Loc]) -> bool:
    return path in spoilt


def _fault(problem: _Problem, root: Any, places: Places, kind: Any) -> Fault:
    path, context = problem.path, problem.context
    if problem.type == "extra_forbidden":
        model, inside = _model_at(kind, path[:-1])
        known = tuple(_keys_of(model)) if model is not None else ()
        return UnknownKey(places.key(*path), shown(problem.key), _near(problem.key, model), inside, known)
    if problem.type == "missing":
        place = places.keys.get(path) or places.value(*path)
        return MissingKey(place, problem.key, _model_at(kind, path)[1])
    at_key = context.get("key") or ""
    if at_key:
        place = places.key(*path, at_key)
    elif problem.is_about_key:
        place = places.key(*path)
    else:
        place = places.value(*path)
    written = shown(path[-1] if problem.is_about_key else at_key or _value_at(root, path))
    if problem.type == "time":
        return BadTime(place, written, context["wanted"])
    if problem.type == "path":
        return BadPath(place, written, context["reason"])
    names = [str(step) for step in path if isinstance(step, str)]
    key = shown(names[-1]) if names else _model_at(kind, ())[1]
    return WrongKind(place, key, written, _wanted(problem, _model_at(kind, path)[0]), bool(at_key))


def _wanted(problem: _Problem, model: type[Record] | None) -> str:
    """What belongs there, in words that follow "Write"; model: the record that belongs there, if it is one."""
    context = problem.context
    if problem.type.startswith("model_") and model is not None:
        keys = tuple(_keys_of(model))
        return f"keys with their values, of these: {', '.join(keys)}"
    if problem.type == "kind":
        return f"{context['wanted']} ({context['reason']})" if context["reason"] else str(context["wanted"])
    if problem.type == "literal_error":
        words = re.findall(r"'([^']*)'", str(context["expected"]))
        return f"one of: {', '.join(words)}" if len(words) > 1 else words[0]
    return _WANTED.get(problem.type, "a value of another kind").format_map(context)


def _value_at(root: Any, path: Loc) -> Any:
    for step in path:
        root = root[step]
    return root


def _near(key: str, model: type[Record] | None) -> tuple[str, ...]:
    if model is None:
        return ()
    plain = {_plain(name): name for name in _keys_of(model)}
    return tuple(plain[each] for each in difflib.get_close_matches(_plain(key[:64]), plain, n=3, cutoff=0.6))


def _plain(key: str) -> str:
    return key.lower().replace("_", "-").replace(" ", "-")


def _keys_of(model: type[Record]) -> dict[str, Any]:
    return {field.alias or name: field.annotation for name, field in model.model_fields.items()}


def _model_at(kind: Any, path: Loc) -> tuple[type[Record] | None, str]:
    """The record that stands at `path`, and what a message calls it: `joint "back-glue"`, `photo`, `device`."""
    current, name = kind, ""
    for step in path:
        if isinstance(current, type) and issubclass(current, Record):
            current, name = _keys_of(current).get(str(step)), ""
        else:
            current, name = next(_models_in(current), None), step if isinstance(step, str) else ""
    model = next(_models_in(current), None)
    if model is None or (path == () and not (isinstance(kind, type) and issubclass(kind, Record))):
        return model, "file"
    return model, f'{model.noun} "{shown(name)}"' if name else model.noun


def _models_in(annotation: Any) -> Iterator[type[Record]]:
    if isinstance(annotation, type) and issubclass(annotation, Record):
        yield annotation
        return
    for inner in get_args(annotation):
        yield from _models_in(inner)


# --- leaving out what is faulty ---------------------------------------------------------------------------------


def _removable(problem: _Problem, root: Any) -> Loc:
    """What to leave out so that this problem is gone: a key, an entry of a list, or () for everything.

    A list of numbers or points counts as one value: without one of them it would say something else.
    """
    path = problem.path
    while path and isinstance(path[-1], int) and _is_of_figures(_value_at(root, path[:-1])):
        path = path[:-1]
    return path


def _is_of_figures(items: list[Any]) -> bool:
    """Whether a list holds numbers or points rather than names or entries; a name may look like a number."""
    figures = sum(isinstance(item, int | float | list) for item in items)
    return figures * 2 >= len(items) and not any(isinstance(item, dict) for item in items)


def _without(value: Any, places: Places, removed: set[Loc]) -> tuple[Any, Places]:
    """`value` less what stands at `removed`, with the places moved along to where things stand now."""
    values: dict[Loc, Place] = {}
    keys: dict[Loc, Place] = {}

    def kept(item: Any, was: Loc, now: Loc) -> Any:
        if was in places.values:
            values[now] = places.values[was]
        if was in places.keys:
            keys[now] = places.keys[was]
        if isinstance(item, dict):
            return {key: kept(each, (*was, key), (*now, key)) for key, each in item.items() if (*was, key) not in removed}
        if isinstance(item, list):
            made: list[Any] = []
            for index, each in enumerate(item):
                if (*was, index) not in removed:
                    made.append(kept(each, (*was, index), (*now, len(made))))
            return made
        return item

    left = kept(value, (), ())
    return left, Places(places.whole, MappingProxyType(values), MappingProxyType(keys))
