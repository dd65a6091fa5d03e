"""YAML as this format allows it: text → plain values, with the place of every key and value.

The tree is built from the events of the parser, because they show anchors, aliases, tags and keys given twice before
anything is made of them. What a plain word means is decided here and not by the parser's YAML 1.1 rules, which read
`no` as false, `1:30` as ninety and `010` as eight.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

import yaml

from generator.source.characters import BAD_IN_YAML, unseen_character, with_plain_line_ends
from generator.source.faults import BrokenYaml, Fault, KeyTwice, TooBig
from generator.source.places import Loc, Place, Places

DEEPEST = 32  # levels of nesting
MOST_NODES = 200_000
LARGEST = 1 << 20  # characters here, bytes where a file is read: 1 MiB

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_INT = re.compile(r"[-+]?(?:0|[1-9][0-9]{0,299})")
_FLOAT = re.compile(r"[-+]?(?:\.[0-9]+|(?:0|[1-9][0-9]*)(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]{1,3})?")
_WORDS = {"true": True, "false": False, "null": None, "~": None, "": None}
_ALL_EATEN = re.compile(r"\s*(#.*\S|#)")
_END_EATEN = re.compile(r"\s+(#[0-9].*\S|#[0-9])")
_HEADS = {"!": re.compile(r"!\S*"), "&": re.compile(r"&\S*")}


class RawInt(int):
    """A whole number that remembers how it was written."""

    raw: str

    def __new__(cls, raw: str) -> RawInt:
        made = super().__new__(cls, raw)
        made.raw = raw
        return made


class RawFloat(float):
    """A number that remembers how it was written, so that an id or a name `1.10` stays `1.10`."""

    raw: str

    def __new__(cls, raw: str) -> RawFloat:
        made = super().__new__(cls, raw)
        made.raw = raw
        return made


@dataclass(frozen=True, slots=True)
class YamlTree:
    """value: dicts, lists, texts, RawInt, RawFloat, true, false, None. spoilt: where a fault already stands for the value.

    is_readable: False where the text stopped making sense; then value is None.
    """

    value: Any
    places: Places
    faults: tuple[Fault, ...] = ()
    spoilt: frozenset[Loc] = frozenset()
    is_readable: bool = True


def read_yaml(text: str, file: str, first_line: int = 1) -> YamlTree:
    """Read one document. first_line: the line of `file` that `text` starts in (front matter starts in line 2).

    Never raises for what stands in the text: one fault ends the reading where the text stops being YAML.
    """
    whole = Place(file, 1, 1, 1, 1)
    text = with_plain_line_ends(text)
    bad = unseen_character(text, file, first_line, BAD_IN_YAML)
    if bad is not None:
        return YamlTree(None, Places(whole), (bad,), is_readable=False)
    if len(text) > LARGEST:
        return YamlTree(None, Places(whole), (TooBig(whole, "file", "1 MiB"),), is_readable=False)
    builder = _Builder(file, first_line, text.split("\n"))
    try:
        value = builder.document(iter(yaml.parse(text, Loader=_LOADER)))
    except _Stop as stop:
        return YamlTree(None, Places(whole), (*builder.faults, stop.fault), is_readable=False)
    except yaml.YAMLError as error:
        return YamlTree(None, Places(whole), (*builder.faults, builder.syntax_fault(error)), is_readable=False)
    places = Places(whole, MappingProxyType(builder.values), MappingProxyType(builder.keys))
    return YamlTree(value, places, tuple(builder.faults), frozenset(builder.spoilt))


def resolved(written: str) -> Any:
    """What a plain, unquoted word means: true, false, nothing, a number, or else the text itself.

    >>> [resolved(word) for word in ("3", "1.10", "010", "1:30", "no", "~")]
    [3, 1.1, '010', '1:30', 'no', None]
    """
    if written in _WORDS:
        return _WORDS[written]
    if _INT.fullmatch(written):
        return RawInt(written)
    if len(written) <= 300 and _FLOAT.fullmatch(written) and math.isfinite(float(written)):
        return RawFloat(written)
    return written


class _Stop(Exception):
    """Reading ends here; carries the fault that says why."""

    def __init__(self, fault: Fault) -> None:
        super().__init__()
        self.fault = fault


Spot = tuple[int, int]  # line and column as the parser counts them, from 0


def _place(file: str, first_line: int, start: Spot, end: Spot) -> Place:
    """The one passage from the parser's counting from 0 to ours from 1."""
    return Place(file, start[0] + first_line, start[1] + 1, end[0] + first_line, end[1] + 1)


def _spot(mark: Any) -> Spot:
    return mark.line, mark.column


@dataclass
class _Builder:
    file: str
    first_line: int
    lines: list[str]
    values: dict[Loc, Place] = field(default_factory=dict)
    keys: dict[Loc, Place] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    spoilt: set[Loc] = field(default_factory=set)
    nodes: int = 0

    def document(self, events: Iterator[Any]) -> Any:
        value, documents = None, 0
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    raise _Stop(self.second_document(event.start_mark))
            elif isinstance(event, yaml.NodeEvent):
                value, _ = self.node(event, events, (), 1)
        return value

    def node(self, event: Any, events: Iterator[Any], loc: Loc | None, depth: int) -> tuple[Any, Spot]:
        """One value and where it ends. loc: its path, or None where the value is not kept."""
        self.nodes += 1
        if self.nodes > MOST_NODES:
            raise _Stop(TooBig(self.place_of(event), "number of values in a file", f"{MOST_NODES}"))
        if depth > DEEPEST:
            raise _Stop(TooBig(self.place_of(event), "nesting", f"{DEEPEST} levels"))
        self.refuse_extras(event)
        if isinstance(event, yaml.ScalarEvent):
            value, end = self.scalar(event, loc)
        elif isinstance(event, yaml.MappingStartEvent):
            value, end = self.mapping(event, events, loc, depth)
        elif isinstance(event, yaml.SequenceStartEvent):
            value, end = self.sequence(event, events, loc, depth)
        else:
            value, end = None, _spot(event.end_mark)
            self.spoil(loc)
        if loc:
            self.values[loc] = self.place(_spot(event.start_mark), end)
        return value, end

    def mapping(self, event: Any, events: Iterator[Any], loc: Loc | None, depth: int) -> tuple[dict[str, Any], Spot]:
        made: dict[str, Any] = {}
        first: dict[str, Place] = {}
        end = _spot(event.start_mark)
        for key_event in events:
            if isinstance(key_event, yaml.MappingEndEvent):
                return made, _spot(key_event.end_mark) if event.flow_style else end
            key = self.key(key_event, events, depth)
            is_kept = key is not None and key not in first
            if key is not None and not is_kept:
                self.faults.append(KeyTwice(self.place_of(key_event), key, first[key]))
            below = (*loc, key) if loc is not None and key is not None and is_kept else None
            if below is not None:
                self.keys[below] = self.place_of(key_event)
            known = len(self.faults)
            value, end = self.node(next(events), events, below, depth + 1)
            if key is not None and is_kept:
                made[key] = value
                first[key] = self.place_of(key_event)
            elif key is None:
                del self.faults[known:]  # what has no usable key is told once
        raise AssertionError("the parser ends every mapping it starts")

    def key(self, event: Any, events: Iterator[Any], depth: int) -> str | None:
        """The text of a key; None, with a fault told, where it is none."""
        place = self.place_of(event)
        if not isinstance(event, yaml.ScalarEvent):
            known = len(self.faults)
            self.node(event, events, None, depth + 1)
            del self.faults[known:]
            self.faults.append(
                BrokenYaml(place, "A key has to be a plain word.", "A text that starts with [, {, * or & needs quotes.")
            )
            return None
        self.nodes += 1
        self.refuse_extras(event)
        if event.value == "<<" and not event.style:
            hint = "Write out the keys here; what is shared is told once, in tools.yaml or anatomy.yaml."
            self.faults.append(BrokenYaml(place, "Keys cannot be copied in with <<.", hint))
            return None
        if not event.value.strip():
            self.faults.append(BrokenYaml(place, "There is a colon without a key before it.", "Write the key's name first."))
            return None
        return str(event.value)

    def sequence(self, event: Any, events: Iterator[Any], loc: Loc | None, depth: int) -> tuple[list[Any], Spot]:
        made: list[Any] = []
        end = _spot(event.start_mark)
        for item in events:
            if isinstance(item, yaml.SequenceEndEvent):
                return made, _spot(item.end_mark) if event.flow_style else end
            value, end = self.node(item, events, None if loc is None else (*loc, len(made)), depth + 1)
            made.append(value)
        raise AssertionError("the parser ends every list it starts")

    def scalar(self, event: Any, loc: Loc | None) -> tuple[Any, Spot]:
        end = _spot(event.end_mark)
        if event.style in ("|", ">"):
            return event.value, self.end_of_block(event)
        if event.style or event.tag is not None:
            return event.value, end
        value = resolved(event.value)
        self.refuse_eaten(event, value, loc)
        return value, end

    def end_of_block(self, event: Any) -> Spot:
        """A block of text ends, for the parser, where the next line begins: go back to its last written character."""
        start, line = _spot(event.start_mark), event.end_mark.line
        if event.end_mark.column == 0 or line >= len(self.lines):
            line -= 1
        while line > start[0] and not self.lines[line].strip():
            line -= 1
        return line, len(self.lines[line].rstrip())

    def refuse_extras(self, event: Any) -> None:
        """Aliases, anchors and tags: each would let the text mean something that does not stand there."""
        if isinstance(event, yaml.AliasEvent):
            hint = "Write the value out here; a text that starts with * needs quotes."
            self.faults.append(BrokenYaml(self.place_of(event), f"*{event.anchor} points to a value elsewhere.", hint))
            return
        if event.anchor is not None:
            hint = "Take the name away; a text that starts with & needs quotes."
            self.faults.append(BrokenYaml(self.head(event, "&"), f"&{event.anchor} gives a value a name.", hint))
        if getattr(event, "tag", None) is not None:
            hint = "Take the tag away; a text that starts with ! needs quotes."
            place = self.head(event, "!")
            self.faults.append(BrokenYaml(place, "A tag stands here, which this format does not have.", hint))

    def refuse_eaten(self, event: Any, value: Any, loc: Loc | None) -> None:
        """`note: #3 screw` is nothing with a comment after it, and `Screw #3` is the text `Screw`."""
        if not (value is None or isinstance(value, str)):
            return
        line, column = _spot(event.end_mark)
        pattern = _ALL_EATEN if event.value == "" else _END_EATEN
        eaten = pattern.match(self.lines[line], column) if line < len(self.lines) else None
        if eaten is None:
            return
        place = _place(self.file, self.first_line, (line, eaten.start(1)), (line, eaten.end(1)))
        if event.value == "":
            problem = "The # makes all that follows a comment, so there is no value here."
            hint = "Put the text in quotes, or take the key away if there is nothing to say."
        else:
            problem = "The # makes the end of this text a comment."
            hint = "Put the whole text in quotes, or leave a blank after # if a comment is meant."
        self.faults.append(BrokenYaml(place, problem, hint))
        self.spoil(loc)

    def spoil(self, loc: Loc | None) -> None:
        if loc is not None:
            self.spoilt.add(loc)

    def place_of(self, event: Any) -> Place:
        return self.place(_spot(event.start_mark), _spot(event.end_mark))

    def place(self, start: Spot, end: Spot) -> Place:
        last = len(self.lines)
        start = start if start[0] < last else self.within(start)
        return _place(self.file, self.first_line, start, end if end[0] < last else self.within(end))

    def head(self, event: Any, sign: str) -> Place:
        """The word that starts with `sign` before a value; the parser counts it as part of the value."""
        place = self.place_of(event)
        line, column = _spot(event.start_mark)
        word = _HEADS[sign].search(self.lines[line], column)
        if word is None:
            return place
        return _place(self.file, self.first_line, (line, word.start()), (line, word.end()))

    def second_document(self, mark: Any) -> Fault:
        line, column = _spot(mark)
        return BrokenYaml(
            _place(self.file, self.first_line, (line, column), (line, column + 3)),
            "A second document starts here.",
            "Keep one document a file; a text that starts with --- needs quotes.",
        )

    def syntax_fault(self, error: yaml.YAMLError) -> Fault:
        """The parser's complaint in our words, where the hand has to go."""
        mark = getattr(error, "problem_mark", None)
        context = getattr(error, "context_mark", None)
        at = self.within(_spot(mark)) if mark is not None else (0, 0)
        opened = self.within(_spot(context)) if context is not None else at
        told = str(getattr(error, "problem", None) or "")
        if "level" in str(getattr(error, "context", None)) or "depth" in told:
            return TooBig(_place(self.file, self.first_line, at, (at[0], at[1] + 1)), "nesting", f"{DEEPEST} levels")
        spot, problem, hint = _complaint(told, str(getattr(error, "context", None) or ""), at, opened, self.lines)
        return BrokenYaml(_place(self.file, self.first_line, spot, (spot[0], spot[1] + 1)), problem, hint)

    def within(self, spot: Spot) -> Spot:
        """The parser may point behind the last line."""
        if spot[0] < len(self.lines) and (self.lines[spot[0]] or spot[0] < len(self.lines) - 1):
            return spot
        line = len(self.lines) - 1
        while line > 0 and not self.lines[line].strip():
            line -= 1
        return line, len(self.lines[line].rstrip())


_QUOTE_IT = 'Put the text in quotes, such as title: "Open: the back".'


def _complaint(told: str, context: str, at: Spot, opened: Spot, lines: list[str]) -> tuple[Spot, str, str]:
    """Where to point, what is wrong, and what to write instead. told, context: the parser's own words."""
    line = lines[at[0]]
    sign, before = line[at[1] : at[1] + 1], line[: at[1]]
    if "tab character" in told or ("start any token" in told and sign == "\t"):
        return at, "A tab stands where blanks belong.", "Indent with blanks, two a level."
    if "start any token" in told:
        return at, f"A text cannot start with {sign} unless it is in quotes.", 'Put the whole text in quotes: "...".'
    if "mapping values are not allowed" in told and re.search(r":\s", before):
        return at, "A second colon stands in this text, so it reads as another key.", _QUOTE_IT
    if "mapping values are not allowed" in told:
        return at, "This key stands deeper than the value above it allows.", "Line it up with the keys it belongs to."
    if "escape" in told or "hexdecimal" in told:
        hint = "Write \\\\ for a backslash, or use single quotes, in which a backslash is a backslash."
        return at, "In double quotes a backslash starts an escape, and this one is not known.", hint
    if "quoted scalar" in context:
        return opened, "A quote opens here and is not closed.", "Close it with the same sign; inside '...' write ' as ''."
    if "',' or ']'" in told:
        return opened, "A list opens with [ here and is not closed.", "Close it with ], or put the text in quotes."
    if "',' or '}'" in told:
        return opened, "A { opens here and is not closed.", "Close it with }, or put the text in quotes."
    if "expected key" in told and before.rstrip().endswith(('"', "'")):
        hint = "Put the whole text in quotes; inside \"...\" write \\\" for a quote, inside '...' write ''."
        return at, "Text follows the closing quote.", hint
    if "expected key" in told and sign == ":" and not before.strip():
        return at, "There is a colon without a key before it.", "Write the key's name first."
    if "expected key" in told and before.strip():
        return at, f"{sign or 'This'} does not belong here.", "Take it away, or put the whole text in quotes."
    if "expected key" in told:
        hint = "Give it as many blanks as its neighbours have."
        return at, "This line does not line up with the lines it belongs to.", hint
    if "'-' indicator" in told:
        return at, "A list is not finished with an entry: this line has no -.", "Start it with - or indent it to match."
    if "sequence entries are not allowed" in told:
        hint = "Start the list on a line of its own; a text that starts with - needs quotes."
        return at, "A list cannot start on the line of its key.", hint
    if "alias" in context or "anchor" in context:
        return opened, "A text cannot start with * or & unless it is in quotes.", 'Put the whole text in quotes: "...".'
    if "tag" in told or "tag" in context:
        return opened, "A text cannot start with ! unless it is in quotes.", 'Put the whole text in quotes: "...".'
    if "expected ':'" in told:
        hint = "Write key: value; if it goes on with the text above, indent it deeper than that key."
        return opened, "This line is neither a key with its value nor an entry of a list.", hint
    if "node content" in told:
        return at, f"{sign or 'This'} stands where a value belongs.", "Write the value, or put the text in quotes."
    if "block scalar" in context:
        return opened, "After | or > the text starts on the next line.", "Move it down and indent it deeper than the key."
    if "<document start>" in told:
        return at, "Text follows the end of the document.", "Take the line ... away; a file holds one document."
    if "directive" in told + context or "incompatible" in told:
        return at, "A line that starts with % is an order to the reader.", "Take it away, or put the text in quotes."
    return at, "The text stops making sense here.", "Look at the indentation and the quotes of this line and the one above."
