"""Data set down in one way. The rules of writing:

- Keys stand in the order of the record; lists, and what authors name themselves (parts, joints, tools), stay in theirs.
- Two blanks a level, a list two blanks deeper than its key; one blank line at most, and none where a block begins.
- A quantity has one spelling (`spelling`). Quotes stand only where the bare text would be read as something else, here or by
  another reader of YAML; the format's own words have none, times of the film always.
- In brackets on one line stand: figures (points, boxes, sizes), lists of words, and the small records (SMALL), as long as
  the line has at most WIDTH characters and no comment inside. A list of several records has a line an entry, and so have the
  lists of steps (MOVED). A part, joint, tool or supply that its author wrote in braces keeps them while it fits. All else
  has a line a key.
- Words that do not fit into PROSE_WIDTH go on below their key, behind `>-`.
- A comment stays with its entry.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from functools import lru_cache

import yaml

from generator.source.file_kinds import Shape, fields_of, inner_shape, record_at, shape_of
from generator.source.records import (
    CellRecord,
    ChangeRecord,
    ChargeRecord,
    FitsRecord,
    PartMarkRecord,
    PhotoMarkRecord,
    Record,
    SpareRecord,
    VideoRecord,
)
from generator.source.values import read_date
from generator.source.writing.spelling import Reader, is_of_the_film, is_prose, spelled
from generator.source.writing.tree import Block, Comment, Document, Entry, Scalar
from generator.source.yaml_tree import read_yaml

WIDTH = 120
"""Characters of a line of data."""

PROSE_WIDTH = 110
"""Characters of a line of words."""

SMALL = (VideoRecord, FitsRecord, SpareRecord, CellRecord, ChargeRecord, PartMarkRecord, PhotoMarkRecord, ChangeRecord)
MOVED = ("order", "alternatives")
"""Lists of steps: to move a step is to move its line."""

_RESOLVER = yaml.resolver.Resolver()
_TEXT = "tag:yaml.org,2002:str"
_DAY = "tag:yaml.org,2002:timestamp"
_WORD = re.compile(r"(?<! ) (?! )")


def laid_out(document: Document, kind: object) -> str:
    """The document written anew; it ends with a line end, if not empty. kind: the record of the file, or a dict of them."""
    shape = shape_of(kind)
    lines = [*_comment_lines(document.head, "", is_first=True)]
    root = document.root
    if isinstance(root, Block):
        _settle(root, shape)
    if isinstance(root, Block) and root.entries and not (root.is_flow and shape.record is None and shape.by_id is None):
        body = _block_lines(root, shape, 0)
        if lines and body:
            lines.append("")
        lines += body
    elif isinstance(root, Block):
        lines += [_flow(root, shape), *_comment_lines(root.below, "", is_first=True)]
    elif root is not None:
        lines.append(_scalar(root, shape, is_in_flow=False))
    return "".join(f"{line}\n" for line in lines)


def _settle(block: Block, shape: Shape) -> None:
    """Put keys into the order of their record, at every depth; and comments between a dash and its entry above the dash."""
    record = None if block.is_list else record_at(shape)
    if record is not None:
        rank = {key: place for place, key in enumerate(fields_of(record))}
        block.entries.sort(key=lambda entry: rank.get(str(entry.key), len(rank)))
    for entry in block.entries:
        if isinstance(entry.value, Block):
            _settle(entry.value, inner_shape(shape, entry.key))
            if entry.key is None and entry.value.entries:
                first = entry.value.entries[0]
                entry.above += first.above
                first.above = []


# --- blocks ------------------------------------------------------------------------------------------------------------


def _block_lines(block: Block, shape: Shape, indent: int) -> list[str]:
    pad = " " * indent
    lines: list[str] = []
    for entry in block.entries:
        inner = inner_shape(shape, entry.key)
        above = list(entry.above)
        body = _entry_lines(entry, inner, shape, indent, above)
        lines += _comment_lines(above, pad, is_first=not lines)
        if entry.is_apart and lines:
            lines.append("")
        lines += body
    lines += _comment_lines(block.below, pad, is_first=not lines)
    return lines


def _entry_lines(entry: Entry, shape: Shape, around: Shape, indent: int, above: list[Comment]) -> list[str]:
    """The lines of an entry; comments that cannot stay inside it are put at the end of `above`."""
    pad = " " * indent
    head = f"{pad}-" if entry.key is None else f"{pad}{_key(entry.key)}:"
    above += [Comment(text) for text in entry.behind[:-1]]
    behind = f"  {entry.behind[-1]}" if entry.behind else ""
    value = entry.value
    if isinstance(value, Scalar):
        text = _scalar(value, shape, is_in_flow=False)
        if not text:
            return [f"{head}{behind}"]
        if len(head) + 1 + len(text) > PROSE_WIDTH and value.is_text and is_prose(_reader(shape)) and " " in text:
            words = spelled(value.text, _reader(shape))
            return [f"{head} >-{behind}", *_wrapped(words, indent + 2)]
        return [f"{head} {text}{behind}"]
    flow = _flow_if_it_fits(value, entry.key, shape, around, WIDTH - len(head) - 1)
    if flow is not None:
        return [f"{head} {flow}{behind}"]
    lines = _block_lines(value, shape, indent + 2)
    if entry.key is not None:
        return [f"{head}{behind}", *lines]
    if behind:
        above.append(Comment(behind.strip()))
    return [f"{head} {lines[0].lstrip()}", *lines[1:]]


def _comment_lines(comments: Iterable[Comment], pad: str, is_first: bool) -> list[str]:
    lines: list[str] = []
    for comment in comments:
        if comment.is_apart and (lines or not is_first):
            lines.append("")
        lines.append(f"{pad}{comment.text}")
    return lines


def _wrapped(words: str, indent: int) -> list[str]:
    """Words on lines of at most PROSE_WIDTH characters, as far as their blanks allow."""
    lines: list[str] = []
    line = ""
    for word in _WORD.split(words):
        if line and indent + len(line) + 1 + len(word) > PROSE_WIDTH:
            lines.append(" " * indent + line)
            line = word
        else:
            line = f"{line} {word}" if line else word
    return [*lines, " " * indent + line]


# --- brackets ----------------------------------------------------------------------------------------------------------


def _flow_if_it_fits(block: Block, key: str | None, shape: Shape, around: Shape, room: int) -> str | None:
    """The block on one line, where that is how it is written (see above) and it fits into `room` characters."""
    if block.has_comments or not _is_for_one_line(block, key, shape, around):
        return None
    text = _flow(block, shape)
    return text if len(text) <= room or not block.entries else None


def _is_for_one_line(block: Block, key: str | None, shape: Shape, around: Shape) -> bool:
    if not block.entries:
        return True
    if block.is_list:
        if key in MOVED and around.record is not None:
            return False
        if any(isinstance(entry.value, Block) and not entry.value.is_list for entry in block.entries):
            first = block.entries[0].value
            record = record_at(inner_shape(shape, None))
            return len(block.entries) == 1 and _is_small(record, first)
        return True
    if around.by_id is not None and block.is_flow:
        return True
    return _is_small(record_at(shape), block)


def _is_small(record: type[Record] | None, value: Scalar | Block) -> bool:
    return record in SMALL if record is not None else isinstance(value, Block) and value.is_flow


def _flow(block: Block, shape: Shape) -> str:
    parts: list[str] = []
    for entry in block.entries:
        inner = inner_shape(shape, entry.key)
        if isinstance(entry.value, Block):
            text = _flow(entry.value, inner)
        else:
            text = _scalar(entry.value, inner, is_in_flow=True) or "null"
        parts.append(text if entry.key is None else f"{_key(entry.key)}: {text}")
    joined = ", ".join(parts)
    return f"[{joined}]" if block.is_list else f"{{{joined}}}"


# --- single values -----------------------------------------------------------------------------------------------------


def _reader(shape: Shape) -> Reader | None:
    if shape.read is None and shape.is_alone:
        return shape_of(shape.items).read
    return shape.read


def _scalar(value: Scalar, shape: Shape, is_in_flow: bool) -> str:
    """A single value as it is written; empty for nothing."""
    if not value.is_text:
        return "" if value.text in ("", "~", "null") else value.text
    read = _reader(shape)
    text = spelled(value.text, read)
    if text in shape.words:
        return text
    return written(text, is_in_flow, may_be_bare=not is_of_the_film(read), is_day=read == read_date)


def _key(text: str) -> str:
    return text if _is_key(text) else written(text, is_in_flow=True, may_be_bare=False)


@lru_cache(maxsize=4096)
def _is_key(text: str) -> bool:
    tree = read_yaml(f"{{{text}: 0}}\n", "")
    return not tree.faults and isinstance(tree.value, dict) and list(tree.value) == [text] and len(text) < 120


@lru_cache(maxsize=8192)
def written(text: str, is_in_flow: bool, may_be_bare: bool = True, is_day: bool = False) -> str:
    """A text with the fewest quotes with which it is read as that text: none, double, single, or double with escapes."""
    if may_be_bare and _is_text_to_others(text, is_day) and _reads_as(text, text, is_in_flow):
        return text
    single = text.replace("'", "''")
    ways = (f'"{text}"', f"'{single}'", json.dumps(text, ensure_ascii=False))
    return next((way for way in ways if _reads_as(way, text, is_in_flow)), json.dumps(text))


def _is_text_to_others(text: str, is_day: bool) -> bool:
    """Whether readers that keep to YAML 1.1 also take the bare text for a text: `no` and `1:30` they do not."""
    tag = _RESOLVER.resolve(yaml.ScalarNode, text, (True, False))  # type: ignore[no-untyped-call]
    return tag == _TEXT or (is_day and tag == _DAY)


def _reads_as(way: str, text: str, is_in_flow: bool) -> bool:
    if "\n" in way or "\r" in way:
        return False
    tree = read_yaml(f"k: [{way}]\n" if is_in_flow else f"k: {way}\n", "")
    if tree.faults or not isinstance(tree.value, dict):
        return False
    value = tree.value.get("k")
    if is_in_flow:
        value = value[0] if isinstance(value, list) and len(value) == 1 else None
    return isinstance(value, str) and value == text
