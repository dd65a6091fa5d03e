"""YAML: what plain words mean, where everything stands, and what each refusal says."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.source.faults import BrokenYaml, KeyTwice, TooBig
from generator.source.places import Loc, Place
from generator.source.yaml_tree import RawFloat, RawInt, YamlTree, read_yaml


@pytest.mark.parametrize(
    "word",
    [
        "no",
        "No",
        "on",
        "off",
        "yes",
        "y",
        "TRUE",
        "True",
        "Null",
        "1:30",
        "3:20:10",
        "010",
        "007",
        "1_000",
        "0x1F",
        "0o7",
        "0b1",
        "2024-01-02",
        ".inf",
        "-.inf",
        ".nan",
        "1e999",
        "1.2.3",
        "0:42-1:55",
        "80 °C",
        "<<",
        "=",
        "1e1000",
        "+",
        ".",
        "9" * 301,
    ],
)
def test_words_that_stay_text(word: str) -> None:
    assert read_yaml(f"a: {word}\n", "f").value == {"a": word}


@pytest.mark.parametrize(
    ("word", "meaning"),
    [
        ("true", True),
        ("false", False),
        ("null", None),
        ("~", None),
        ("", None),
        ("3", 3),
        ("-0", 0),
        ("+7", 7),
        ("1.10", 1.1),
        (".5", 0.5),
        ("5.", 5.0),
        ("1e3", 1000.0),
        ("0.0", 0.0),
    ],
)
def test_words_that_mean_something(word: str, meaning: Any) -> None:
    value = read_yaml(f"a: {word}\n", "f").value["a"]
    assert value == meaning
    assert isinstance(value, bool) == isinstance(meaning, bool)
    if isinstance(value, RawInt | RawFloat):
        assert value.raw == word


def test_quoted_words_stay_text() -> None:
    assert read_yaml("a: '3'\nb: \"true\"\nc: ''\nd: |\n  4\n", "f").value == {"a": "3", "b": "true", "c": "", "d": "4\n"}


TEXT = """\
name: Gerät 😀 fünf
größe: [74, 158]   # comment
😀: {é: "ü", list: [a, 'b']}
work:
  - undo: back-glue
    for: 2 min
  - lift: back
about: >
  folded
  text

note: |
  a block
last:
  deep:
    deeper: 1.10
"""

VALUES = {
    ("name",): "Gerät 😀 fünf",
    ("größe",): "[74, 158]",
    ("größe", 0): "74",
    ("größe", 1): "158",
    ("😀",): "{é: \"ü\", list: [a, 'b']}",
    ("😀", "é"): '"ü"',
    ("😀", "list"): "[a, 'b']",
    ("😀", "list", 0): "a",
    ("😀", "list", 1): "'b'",
    ("work",): "- undo: back-glue\n    for: 2 min\n  - lift: back",
    ("work", 0): "undo: back-glue\n    for: 2 min",
    ("work", 0, "undo"): "back-glue",
    ("work", 0, "for"): "2 min",
    ("work", 1): "lift: back",
    ("work", 1, "lift"): "back",
    ("about",): ">\n  folded\n  text",
    ("note",): "|\n  a block",
    ("last",): "deep:\n    deeper: 1.10",
    ("last", "deep"): "deeper: 1.10",
    ("last", "deep", "deeper"): "1.10",
}


@pytest.mark.parametrize("first_line", [1, 7])
@pytest.mark.parametrize("text", [TEXT, TEXT.replace("\n", "\r\n"), "\ufeff" + TEXT, TEXT.rstrip("\n")])
def test_every_value_and_key_has_its_place(text: str, first_line: int) -> None:
    tree = read_yaml(text, "tarn-5/device.yaml", first_line)
    lines = [""] * (first_line - 1) + TEXT.split("\n")
    assert tree.faults == ()
    assert {loc: cut(lines, place) for loc, place in tree.places.values.items()} == VALUES
    assert {loc: cut(lines, place) for loc, place in tree.places.keys.items()} == {
        loc: loc[-1] for loc in VALUES if isinstance(loc[-1], str)
    }
    assert tree.places.value("work", 1, "with").line == first_line + 6
    assert str(tree.places.key("name")) == f"tarn-5/device.yaml:{first_line}:1"


words = st.text(
    st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\u2028\u2029\ufeff\ufffe\uffff"), max_size=8
)
trees: st.SearchStrategy[Any] = st.recursive(
    words,
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(words.filter(lambda word: bool(word.strip())), inner, max_size=4)
    ),
)


@given(st.dictionaries(words.filter(lambda word: bool(word.strip())), trees, max_size=5), st.booleans())
def test_places_cut_out_what_was_written(tree: dict[str, Any], is_spread: bool) -> None:
    text = json.dumps(tree, ensure_ascii=False, indent=1 if is_spread else None)
    lines = text.split("\n")
    read = read_yaml(text, "f")
    assert read.faults == ()
    assert read.value == tree
    for loc, place in read.places.values.items():
        assert json.loads(cut(lines, place)) == at(tree, loc)
    for loc, place in read.places.keys.items():
        assert json.loads(cut(lines, place)) == loc[-1]


pieces = st.sampled_from(
    [
        "a",
        "b: ",
        "- ",
        "\n",
        "  ",
        "\t",
        "[",
        "]",
        "{",
        "}",
        ",",
        "'",
        '"',
        "\\",
        "#",
        " #1",
        "&x ",
        "*x ",
        "!t ",
        "|",
        ">",
        "%",
        "@",
        "`",
        "? ",
        ": ",
        "---\n",
        "...\n",
        "<<: ",
        "\x00",
        "\x07",
        "\u2028",
        "\ufeff",
        "\r",
        "é",
        "😀",
        "1",
        ".5",
        "~",
        "true",
    ]
)


@given(st.lists(pieces, max_size=30).map("".join) | st.text(max_size=60))
def test_no_text_raises_and_every_place_lies_in_it(text: str) -> None:
    tree = read_yaml(text, "f", 3)
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    places = [*tree.places.values.values(), *tree.places.keys.values(), *(fault.place for fault in tree.faults)]
    assert tree.is_readable or tree.faults
    for place in places:
        assert place.line == 1 or 3 <= place.line <= place.end_line < len(lines) + 3, place
        assert 1 <= place.column <= len(lines[max(place.line - 3, 0)]) + 1


@pytest.mark.parametrize(
    ("text", "spot", "problem", "hint"),
    [
        ("a: 1\n\tb: 2\n", "2:1", "A tab stands where blanks belong.", "Indent with blanks"),
        ("a:\n\t- b\n", "2:1", "A tab stands where blanks belong.", "Indent with blanks"),
        ("title: Open: the back\n", "1:12", "A second colon stands in this text", "in quotes"),
        ("a: 1\n  b: 2\n", "2:4", "This key stands deeper", "Line it up"),
        ("a: @home\n", "1:4", "A text cannot start with @", "in quotes"),
        ("a: `x`\n", "1:4", "A text cannot start with `", "in quotes"),
        ("a: %x\n", "1:4", "A text cannot start with %", "in quotes"),
        ('a: "x\\q"\n', "1:6", "In double quotes a backslash", "single quotes"),
        ('a: "\\ud800"\n', "1:7", "In double quotes a backslash", "single quotes"),
        ("a: 'x\nb: 1\n", "1:4", "A quote opens here", "Close it"),
        ('a: "Open" it\n', "1:11", "Text follows the closing quote.", "whole text in quotes"),
        ("a: 'it's'\n", "1:8", "Text follows the closing quote.", "whole text in quotes"),
        ("a: [b, c\nd: 1\n", "1:4", "A list opens with [", "Close it with ]"),
        ("a: {b: c\n", "1:4", "A { opens here", "Close it with }"),
        ("a: [1]]\n", "1:7", "] does not belong here.", "Take it away"),
        ("a: ]\n", "1:4", "] stands where a value belongs.", "Write the value"),
        ("a:\n  b: 1\n c: 2\n", "3:2", "This line does not line up", "as many blanks"),
        ("- a\nb: 1\n", "2:1", "A list is not finished", "Start it with -"),
        ("a: - b\n", "1:4", "A list cannot start on the line of its key.", "line of its own"),
        ("a: b\nfoo\nc: d\n", "2:1", "This line is neither a key", "Write key: value"),
        ("a: |x\n  b\n", "1:4", "After | or > the text starts", "Move it down"),
        (": a\n", "1:1", "There is a colon without a key", "key's name first"),
        ("%YAML 9.9\n---\na: 1\n", "1:1", "A line that starts with %", "Take it away"),
        ("a: 1\n...\nb: 1\n", "3:1", "Text follows the end", "one document"),
        ("a: 1\n---\nb: 1\n", "2:1", "A second document starts here.", "one document"),
        ("a: *b*c\n", "1:4", "A text cannot start with * or &", "in quotes"),
        ("a: !b!c d\n", "1:4", "A text cannot start with !", "in quotes"),
        ("a: b\x07c\n", "1:5", "The unseen character U+0007", "Take it out"),
        ("é: 1\nb: 😀\x85\n", "2:5", "The unseen character U+0085", "Take it out"),
        ("a: b\u2028c\n", "1:5", "The unseen character U+2028", "Take it out"),
    ],
)
def test_each_stumble_ends_the_file_with_one_hint(text: str, spot: str, problem: str, hint: str) -> None:
    tree = read_yaml(text, "f")
    (fault,) = tree.faults
    assert isinstance(fault, BrokenYaml)
    assert str(fault.place) == f"f:{spot}"
    assert fault.problem.startswith(problem)
    assert hint in fault.hint


@pytest.mark.parametrize(
    ("text", "spot", "problem", "value"),
    [
        ("a: *b\nc: 1\n", "1:4-6", "*b points to a value elsewhere.", {"a": None, "c": 1}),
        ("a: &b x\nc: 1\n", "1:4-6", "&b gives a value a name.", {"a": "x", "c": 1}),
        ("a: &b\n  c: 1\n", "1:4-6", "&b gives a value a name.", {"a": {"c": 1}}),
        ("a: !!str 5\nc: 1\n", "1:4-9", "A tag stands here", {"a": "5", "c": 1}),
        ("a: !b {c: 1}\n", "1:4-6", "A tag stands here", {"a": {"c": 1}}),
        ("<<: {a: 1}\nb: 2\n", "1:1-3", "Keys cannot be copied in with <<.", {"b": 2}),
        ("[a]: b\nc: 1\n", "1:1-2", "A key has to be a plain word.", {"c": 1}),
        ("? {a: 1}\n: b\n", "1:3-4", "A key has to be a plain word.", {}),
        ("note: #3 screw\nb: 1\n", "1:7-15", "The # makes all that follows a comment", {"note": None, "b": 1}),
        ("note: Screw #3\n", "1:13-15", "The # makes the end of this text a comment.", {"note": "Screw"}),
    ],
)
def test_what_is_refused_lets_the_rest_be_read(text: str, spot: str, problem: str, value: Any) -> None:
    tree = read_yaml(text, "f")
    (fault,) = tree.faults
    assert isinstance(fault, BrokenYaml)
    assert f"{fault.place.line}:{fault.place.column}-{fault.place.end_column}" == spot
    assert fault.problem.startswith(problem)
    assert tree.value == value
    assert tree.is_readable


def test_a_comment_of_words_after_a_text_is_a_comment() -> None:
    assert read_yaml("a: b # 3 screws\nc: 4 #5\nd: e#5\n", "f").faults == ()


def test_a_key_given_twice_names_the_first_and_keeps_it() -> None:
    tree = read_yaml("a: 1\nb: {c: 2}\na: {d: 3}\n", "f")
    assert tree.faults == (KeyTwice(Place("f", 3, 1, 3, 2), "a", Place("f", 1, 1, 1, 2)),)
    assert tree.value == {"a": 1, "b": {"c": 2}}
    assert tree.places.value("a") == Place("f", 1, 4, 1, 5)
    assert ("a", "d") not in tree.places.values


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("- " * 40, "nesting"),
        ("[" * 40 + "]" * 40, "nesting"),
        ("[" * 50_000, "nesting"),
        ("{a: " * 40, "nesting"),
        ("a: [" + "1," * 200_000 + "1]", "number of values in a file"),
        ("a: " + "b" * (1 << 20), "file"),
    ],
)
def test_bounds(text: str, what: str) -> None:
    tree = read_yaml(text, "f")
    (fault,) = tree.faults
    assert isinstance(fault, TooBig)
    assert fault.what == what
    assert not tree.is_readable


def test_nesting_up_to_the_bound_is_read() -> None:
    assert read_yaml("[" * 32 + "]" * 32, "f").is_readable
    assert not read_yaml("[" * 33 + "]" * 33, "f").is_readable


def test_an_empty_file_is_nothing() -> None:
    for text in ("", "\n", "# only a comment\n", "---\n"):
        assert read_yaml(text, "f") == YamlTree(None, read_yaml("", "f").places)


def at(tree: Any, loc: Loc) -> Any:
    for step in loc:
        tree = tree[step]
    return tree


def cut(lines: list[str], place: Place) -> str:
    if place.line == place.end_line:
        return lines[place.line - 1][place.column - 1 : place.end_column - 1]
    middle = lines[place.line : place.end_line - 1]
    return "\n".join([lines[place.line - 1][place.column - 1 :], *middle, lines[place.end_line - 1][: place.end_column - 1]])
