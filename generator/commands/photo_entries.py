"""Adding a photo to a step file: one entry more, and every other sign of the file as its author left it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from generator.source.checking import check_record
from generator.source.front_matter import FrontMatter, split_front_matter
from generator.source.records import PhotoRecord, StepRecord
from generator.source.yaml_tree import read_yaml

_KEY = re.compile(r"photos[ \t]*:[ \t]*(#.*)?$")
_LIST = re.compile(r"(photos[ \t]*:[ \t]*\[)(.*?)[ \t]*,?[ \t]*(\][ \t]*(?:#.*)?)$")
_ITEM = re.compile(r"([ ]*)-(?:[ \t]|$)")
_SPARE = re.compile(r"[ \t]*(#.*)?$")


def entry_for(name: str) -> str:
    """The lines that an author would add to the front matter by hand."""
    return f"photos:\n  - file: {name}\n"


def with_photo(text: str, name: str) -> str | None:
    """The text of a step file with the photo `name` at the end of its list; None where that cannot be done by adding alone.

    What comes out is read again: unless it is the same step with one photo more, nothing is given back.
    """
    before = _step(text)
    if before is None:
        return None
    lines = text.splitlines(keepends=True)
    added = _added(lines, name)
    if added is None:
        return None
    new = "".join(added)
    after = _step(new)
    wanted = before.model_copy(update={"photos": [*before.photos, PhotoRecord(file=name)]})
    return new if after == wanted and _body(new) == _body(text) else None


def _added(lines: Sequence[str], name: str) -> list[str] | None:
    """The lines with the entry put in; lines keep their ends, and the new one takes the end of the first."""
    end = "\r\n" if lines[0].endswith("\r\n") else "\n"
    fence = next((i for i, line in enumerate(lines[1:], 1) if line.rstrip() == "---"), None)
    if fence is None:
        return None
    bare = [line.rstrip("\r\n") for line in lines]
    key = next((i for i in range(1, fence) if bare[i].startswith("photos")), None)
    if key is None:
        return [*lines[:fence], f"photos:{end}", f"  - file: {name}{end}", *lines[fence:]]
    flow = _LIST.match(bare[key])
    if flow is not None:
        comma = ", " if flow[2].strip() else ""
        return [*lines[:key], f"{flow[1]}{flow[2]}{comma}{{file: {name}}}{flow[3]}{end}", *lines[key + 1 :]]
    if _KEY.match(bare[key]) is None:
        return None
    block = key + 1
    while block < fence and (bare[block][:1] in ("", " ", "-", "#")):
        block += 1
    filled = [i for i in range(key + 1, block) if not _SPARE.match(bare[i])]
    first = _ITEM.match(bare[filled[0]]) if filled else None
    if filled and first is None:
        return None
    indent = first[1] if first else "  "
    at = filled[-1] + 1 if filled else key + 1
    return [*lines[:at], f"{indent}- file: {name}{end}", *lines[at:]]


def _step(text: str) -> StepRecord | None:
    halves = _halves(text)
    if halves is None:
        return None
    checked = check_record(read_yaml(halves.yaml, "step", halves.yaml_line), StepRecord)
    return checked.record if not checked.faults else None


def _body(text: str) -> str | None:
    halves = _halves(text)
    return halves.body if halves is not None else None


def _halves(text: str) -> FrontMatter | None:
    halves = split_front_matter(text, "step")
    return halves if isinstance(halves, FrontMatter) else None
