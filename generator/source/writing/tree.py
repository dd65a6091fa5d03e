"""YAML with all that an author sees: values, keys, and each comment and blank line with the entry it belongs to.

A comment on a line of its own belongs to the entry below it, or, where it stands deeper than that, to the end of the block
whose column it keeps to. A comment behind a value belongs to that value's entry.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass, field
from typing import Any

import yaml

from generator.source.yaml_tree import resolved

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_DASHES = re.compile(r"\s*(?:[-?]\s+)*")

Spot = tuple[int, int]  # line and column, from 0


@dataclass(slots=True)
class Comment:
    """text starts with its #; is_apart: a blank line stands before it."""

    text: str
    is_apart: bool = False


@dataclass(slots=True)
class Scalar:
    """text as the parser gives it; is_text: whether it is a text, and not a number, true, false or nothing."""

    text: str
    is_text: bool


@dataclass(slots=True)
class Entry:
    """A key with its value, or an entry of a list (key is None). above: comments before it; behind: on its lines.

    is_apart: a blank line stands directly before it.
    """

    key: str | None
    start: Spot
    value: Scalar | Block
    above: list[Comment] = field(default_factory=list)
    behind: list[str] = field(default_factory=list)
    is_apart: bool = False


@dataclass(slots=True)
class Block:
    """Keys with values (is_list: entries of a list). below: comments after the last entry. is_flow: written in brackets."""

    is_list: bool
    is_flow: bool
    entries: list[Entry] = field(default_factory=list)
    below: list[Comment] = field(default_factory=list)
    column: int = 0

    @property
    def has_comments(self) -> bool:
        """Whether a comment stands among the entries, at any depth."""
        return bool(self.below) or any(
            entry.above or entry.behind or (isinstance(entry.value, Block) and entry.value.has_comments)
            for entry in self.entries
        )


@dataclass(slots=True)
class Document:
    """root is None where nothing but comments stands in the file; then those are in `head`.

    head: the comments of the whole file: all before the last blank line above the first entry.
    comments: the texts of all comments, as they come.
    """

    root: Scalar | Block | None
    head: list[Comment]
    comments: tuple[str, ...]


def read_document(text: str) -> Document:
    """The document in `text`, which `read_yaml` has to have found free of faults; lines end in `\\n`."""
    return _Reader(text).document()


class _Reader:
    def __init__(self, text: str) -> None:
        self.lines = text.split("\n")
        self.events = iter(yaml.parse(text, Loader=_LOADER))
        self.dashes = iter(
            (token.start_mark.line, token.start_mark.column)
            for token in yaml.scan(text, Loader=_LOADER)
            if isinstance(token, yaml.BlockEntryToken)
        )
        self.spans: list[tuple[Spot, Spot]] = []  # where scalars stand
        self.ends: list[tuple[Spot, Entry]] = []  # ends of keys and values, with their entry
        self.entries: list[tuple[Entry, tuple[Block, ...]]] = []  # in their order, with the blocks around them

    def document(self) -> Document:
        root: Scalar | Block | None = None
        for event in self.events:
            if isinstance(event, yaml.NodeEvent):
                root = self.node(event, None, ())
        head: list[Comment] = []
        self.give_comments(root, head)
        if isinstance(root, Scalar) and not root.text:
            root = None
        if isinstance(root, Block) and root.entries and not root.is_flow:
            first = root.entries[0]
            cut = next((n for n in range(len(first.above), 0, -1) if self.is_cut(first, n)), 0)
            head, first.above = first.above[:cut], first.above[cut:]
        return Document(root, head, tuple(text for _, text in self.comments()))

    @staticmethod
    def is_cut(entry: Entry, number: int) -> bool:
        """Whether a blank line stands behind the first `number` comments above an entry."""
        return entry.is_apart if number == len(entry.above) else entry.above[number].is_apart

    def node(self, event: Any, entry: Entry | None, around: tuple[Block, ...]) -> Scalar | Block:
        start, end = _spots(event)
        if isinstance(event, yaml.ScalarEvent):
            self.scalar(event, entry)
            return Scalar(event.value, bool(event.style) or isinstance(resolved(event.value), str))
        block = Block(isinstance(event, yaml.SequenceStartEvent), bool(event.flow_style), column=start[1])
        inside = (*around, block)
        for inner in self.events:
            if isinstance(inner, yaml.SequenceEndEvent | yaml.MappingEndEvent):
                end = _spots(inner)[1]
                break
            start = _spots(inner)[0]
            if block.is_list and not block.is_flow:
                start = next(self.dashes)
            made = Entry(None, start, _NOTHING)
            self.entries.append((made, inside))
            block.entries.append(made)
            if len(block.entries) == 1:
                block.column = start[1]
            if block.is_list:
                made.value = self.node(inner, made, inside)
            else:
                made.key = str(getattr(inner, "value", ""))
                self.scalar(inner, made)
                made.value = self.node(next(self.events), made, inside)
        if block.is_flow and entry is not None:
            self.ends.append((end, entry))
        return block

    def scalar(self, event: Any, entry: Entry | None) -> None:
        start, end = _spots(event)
        if event.style in ("|", ">"):
            start = (start[0] + 1, 0)  # what stands behind the sign is no text
            while end > start and (end[0] >= len(self.lines) or not self.lines[end[0]][: end[1]].strip()):
                end = (end[0] - 1, len(self.lines[end[0] - 1]))
        if start < end:
            self.spans.append((start, end))
        if entry is not None:
            self.ends.append((max(start, end), entry))

    # --- comments and blank lines ---

    def give_comments(self, root: Scalar | Block | None, head: list[Comment]) -> None:
        starts = [entry.start for entry, _ in self.entries]
        ends = [spot for spot, _ in self.ends]
        for entry, around in self.entries:
            entry.is_apart = not around[-1].is_flow and self.is_blank(entry.start[0] - 1)
        for spot, text in self.comments():
            comment = Comment(text, self.is_blank(spot[0] - 1))
            last = bisect_right(ends, spot) - 1
            is_own_line = not _DASHES.sub("", self.lines[spot[0]][: spot[1]], count=1)
            if not is_own_line and last >= 0:
                self.ends[last][1].behind.append(text)
                continue
            after = bisect_right(starts, spot)
            block = self.block_that_ends(spot, after)
            if block is not None:
                block.below.append(comment)
            elif after < len(self.entries):
                self.entries[after][0].above.append(comment)
            elif isinstance(root, Block):
                root.below.append(comment)
            else:
                head.append(comment)

    def block_that_ends(self, spot: Spot, after: int) -> Block | None:
        """The deepest block that ends between the entries around a comment and whose column the comment keeps to."""
        if not 0 < after <= len(self.entries):
            return None
        inside = self.entries[after - 1][1]
        here: tuple[Block, ...] = self.entries[after][1] if after < len(self.entries) else ()
        if after < len(self.entries) and spot[1] <= self.entries[after][0].start[1]:
            return None
        closed = [block for block in inside if not any(block is each for each in here) and not block.is_flow]
        return next((block for block in reversed(closed) if block.column <= spot[1]), None)

    def comments(self) -> list[tuple[Spot, str]]:
        """Every comment with its place: a # outside of keys and values starts one."""
        by_line: dict[int, list[tuple[int, int]]] = {}
        for (line, column), (last, until) in self.spans:
            for number in range(line, last + 1):
                left = column if number == line else 0
                right = until if number == last else len(self.lines[number])
                by_line.setdefault(number, []).append((left, right))
        found: list[tuple[Spot, str]] = []
        for number, written in enumerate(self.lines):
            if "#" not in written:
                continue
            at = written.find("#")
            for left, right in sorted(by_line.get(number, ())):
                if 0 <= at < left:
                    break
                at = written.find("#", max(at, right)) if at < right else at
            if at >= 0:
                found.append(((number, at), written[at:].rstrip()))
        return found

    def is_blank(self, line: int) -> bool:
        return line >= 0 and not self.lines[line].strip()


_NOTHING = Scalar("", False)


def _spots(event: Any) -> tuple[Spot, Spot]:
    return (event.start_mark.line, event.start_mark.column), (event.end_mark.line, event.end_mark.column)
