"""Files written anew say what they said: laws over odd files, and the rules of writing one by one."""

from __future__ import annotations

import re
from pathlib import Path
from random import Random
from textwrap import dedent
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from generator.source.checking import check_record
from generator.source.file_kinds import FILE_KINDS, file_kind
from generator.source.front_matter import split_front_matter
from generator.source.values import (
    Duration,
    FilmSpan,
    read_film_length,
    read_line,
    read_temperature,
    read_torque,
    read_years,
)
from generator.source.writing.paragraphs import filled
from generator.source.writing.spelling import spelled
from generator.source.writing.tidying import Untouched, tidied
from generator.source.yaml_tree import read_yaml
from tests.source.writing.odd_yaml import IDS, WORDS, document
from tests.wandering import examples

DEMO = Path(__file__).parents[3] / "content"

# --- odd data ----------------------------------------------------------------------------------------------------------

ids = st.sampled_from(IDS)
lines = st.sampled_from(WORDS)
numbers = st.sampled_from((1, 2.5, 0.10, 12, 3.0))
points = st.lists(numbers, min_size=2, max_size=2)
boxes = st.lists(numbers, min_size=4, max_size=4)
durations = st.sampled_from(("45 s", "2min", "3 – 4 min", "1.5h"))
temperatures = st.sampled_from(("70°C", "80 °C", "-5 °C", "−5°C"))


def one_or_many(inner: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return inner | st.lists(inner, max_size=4)


def some(**optional: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries({}, optional={key.rstrip("_").replace("__", "-"): each for key, each in optional.items()})


def with_keys(
    first: dict[str, st.SearchStrategy[Any]], rest: st.SearchStrategy[dict[str, Any]]
) -> st.SearchStrategy[dict[str, Any]]:
    return st.builds(lambda left, right: {**left, **right}, st.fixed_dictionaries(first), rest)


marks = st.fixed_dictionaries({"coil": points, "across": numbers}) | st.fixed_dictionaries({"chip": boxes})
parts = some(
    name=lines,
    box=boxes,
    thickness=numbers,
    holes=st.lists(boxes, max_size=3),
    marks=st.lists(marks, max_size=3),
    material=lines,
    replaceable=st.booleans(),
    spare=some(number=lines, price=lines),
    under=one_or_many(ids),
    hazards=one_or_many(lines),
    cell=with_keys({"chemistry": lines}, some(volts=numbers, watt__hours=numbers, limit=temperatures)),
    licensed=lines,
)
joints = with_keys(
    {"kind": st.sampled_from(("screws", "plug", "glue")), "joins": st.lists(ids, min_size=2, max_size=3)},
    some(
        name=lines,
        behind=one_or_many(ids),
        lengths=one_or_many(numbers),
        count=st.integers(1, 9),
        refit=st.sampled_from(("same", "new")),
        at=temperatures | st.lists(points, max_size=12),
        torque=st.sampled_from(("0.03 Nm", "0.029N·m")),
        note=lines,
        reusable=st.sampled_from(("yes", "no", "supplied with spare")),
    ),
)
anatomies = st.fixed_dictionaries(
    {"base": ids, "parts": st.dictionaries(ids, parts, min_size=1, max_size=4)},
    optional={"joints": st.dictionaries(ids, joints, min_size=1, max_size=4)},
)
tools = st.dictionaries(
    ids,
    with_keys(
        {"name": lines}, some(fits=one_or_many(some(drive=lines, size=lines)), hazards=one_or_many(lines), note=lines)
    ),
    min_size=1,
    max_size=4,
)
devices = with_keys(
    {"name": lines},
    some(
        faces=st.lists(ids, min_size=1, max_size=2),
        order=st.lists(ids, max_size=4),
        pages=st.lists(ids, max_size=4),
        about=lines,
        alternatives=st.lists(ids, max_size=2),
        verdict=with_keys({"text": lines}, some(author=lines)),
        size=points,
        video=st.fixed_dictionaries(
            {"address": st.just("https://example.org/a")}, optional={"length": st.sampled_from(("14:20", "75:10"))}
        ),
        changed=st.just("2026-03-12")
        | st.lists(st.fixed_dictionaries({"on": st.just("2026-03-12"), "what": lines}), min_size=1),
        index=some(updates=st.sampled_from(("5years", "1 years")), paired=st.lists(ids, max_size=2)),
    ),
)
actions = (
    with_keys({"undo": ids}, some(with_=one_or_many(ids), supply=one_or_many(ids), for_=durations))
    | with_keys({"heat": ids}, some(for_=durations, to=temperatures))
    | st.fixed_dictionaries({"wait": durations | lines})
    | with_keys({"check": lines}, some(proves=st.just("unplugged")))
)
steps = with_keys(
    {"title": lines},
    some(
        video=st.sampled_from(("0:42", "00:42 - 61:55", "1:02:30-1:03:00")),
        work=st.lists(actions, max_size=4),
        takes=durations,
        filmed=st.booleans(),
        formerly=one_or_many(ids),
        cautions=st.lists(st.fixed_dictionaries({"level": st.just("warning"), "text": lines}), max_size=2),
    ),
)

# --- odd prose ---------------------------------------------------------------------------------------------------------

PIECES = (
    "Lift the [glass](part:back).",
    "Warm\nit.",
    "A hard  \nbreak.",
    "A hard\\\nbreak.",
    "- item\n  goes on",
    "1. first\n2. second",
    "12.",
    "```\ncode   kept\n\n\nso\n```",
    "    indented code",
    "> quoted\n> twice",
    "| a | b |\n|---|---|\n| 1 | 2 |",
    "## Refitting\nPress it.",
    "Setext\n---",
    "***",
    "A `code  span\nover` lines",
    '[a\nlink](step:open "with\ntitle")',
    "See [ref].\n\n[ref]: https://example.org",
    "<https://example.org/long>",
    "a - b + c * d # e > f = g | h",
    "1986\\. A year.",
    "5.0\nmm long",
    "Ä µ € ✓ и 日本語",
    "+ plus",
    "\\* star",
    " leading blank",
    "trailing blank ",
    "many   blanks",
    "![the open back](media/open.jpg)",
    "*em over\nlines*",
    "~~gone~~",
    "=====",
    "-----",
    " ".join(["word"] * 40),
    " ".join(["- 1. # > + * = | ~~~"] * 9),
    "a line that ends with a number 12 mm and a dash - and goes on " * 3,
)
bodies = st.lists(st.tuples(st.sampled_from(PIECES), st.sampled_from(("\n", "\n\n", "\n\n\n\n", " "))), max_size=7).map(
    lambda pieces: "".join(text + end for text, end in pieces)
)
READER = MarkdownIt("commonmark", {"html": False}).enable(["table", "strikethrough"])


def rendered(text: str) -> str:
    """The page of some Markdown, with the line ends of its paragraphs made blanks."""
    html = READER.render(text)
    return re.sub(r"<p>.*?</p>", lambda match: match[0].replace("\n", " "), html, flags=re.S)


# --- laws --------------------------------------------------------------------------------------------------------------


def holds(path: str, text: str) -> None:
    """A file without faults is written anew; that has no fault either, says the same, keeps each comment, and stays."""
    kind = FILE_KINDS[str(file_kind(path))]
    before = check_record(read_yaml(data_of(path, text), path), kind)
    new = tidied(path, text)
    if before.faults:
        assert isinstance(new, Untouched)
        return
    assert isinstance(new, str), f"{new}\n{text}"
    after = check_record(read_yaml(data_of(path, new), path), kind)
    assert after.record == before.record and not after.faults
    assert sorted(re.findall(r"# note \d+|# far off|#\s?behind \d+", text)) == sorted(
        re.findall(r"# note \d+|# far off|#\s?behind \d+", new)
    )
    assert tidied(path, new) == new
    assert not re.search(r"[ \t]$|\n\n\n|\A\n", data_of(path, new), re.M)


def data_of(path: str, text: str) -> str:
    halves = split_front_matter(text, path)
    return getattr(halves, "yaml", text) if path.endswith(".md") else text


@pytest.mark.parametrize(
    ("path", "values"),
    [("tools.yaml", tools), ("box/device.yaml", devices), ("box/anatomy.yaml", anatomies)],
    ids=["tools", "device", "anatomy"],
)
def test_odd_data_keep_their_meaning_and_their_comments(path: str, values: st.SearchStrategy[dict[str, Any]]) -> None:
    @settings(max_examples=examples(150))
    @given(values, st.integers(0, 10**6))
    def law(value: dict[str, Any], seed: int) -> None:
        holds(path, document(Random(seed), value))

    law()


@given(steps, st.integers(0, 10**6), bodies)
def test_odd_steps_keep_their_meaning_and_their_comments(value: dict[str, Any], seed: int, body: str) -> None:
    holds("box/steps/open.md", f"---\n{document(Random(seed), value)}---\n{body}")


@given(bodies)
def test_odd_prose_says_the_same_and_stays(body: str) -> None:
    new = filled(body)
    assert rendered(new) == rendered(body)
    assert filled(new) == new


@given(st.text(alphabet="ab -+*#>=|`[]()<>!\n1.\\:&_~\t", max_size=60))
def test_any_prose_says_the_same_and_stays(body: str) -> None:
    new = filled(body)
    assert rendered(new).strip() == rendered(body).strip()
    assert filled(new) == new


@given(st.text(alphabet="abk:-#[]{}&*!|>'\" \n,?%@`1.", max_size=60))
def test_any_text_is_written_anew_or_left(text: str) -> None:
    new = tidied("tools.yaml", text)
    assert isinstance(new, Untouched) or tidied("tools.yaml", new) == new


# --- the rules of writing ----------------------------------------------------------------------------------------------


def anew(path: str, text: str) -> str:
    new = tidied(path, dedent(text).lstrip("\n"))
    assert isinstance(new, str), new
    return new


def test_the_demo_is_written_in_the_one_way() -> None:
    for path in sorted(DEMO.rglob("*")):
        name = path.relative_to(DEMO).as_posix()
        if file_kind(name) is not None:
            assert tidied(name, path.read_text("utf-8")) == path.read_text("utf-8"), name


def test_keys_units_quotes_and_brackets() -> None:
    assert anew(
        "box/steps/open.md",
        """
        ---
        work:
        - {for: 3–4min, to: "70°C", heat: 'lid-glue'}   # warm first
        # then
        - undo: lid-glue
          with:
            - pick
            - cup


        video: 00:42 - 61:55
        title: 'Open: the lid'
        ---
        Lift
        it.
        """,
    ) == dedent("""\
        ---
        title: "Open: the lid"

        video: "0:42-1:01:55"
        work:
          # warm first
          - heat: lid-glue
            for: 3-4 min
            to: 70 °C
          # then
          - undo: lid-glue
            with: [pick, cup]
        ---
        Lift it.
        """)


def test_comments_stay_with_what_they_are_about() -> None:
    assert anew(
        "box/anatomy.yaml",
        """
        # Of the whole file.

        # Of the parts.
        parts:
          lid: {box: [1, 2, 3, 4]}  # of the lid
          # at the end of the parts
        # Of the base.
        base: lid
        # Last.
        """,
    ) == dedent("""\
        # Of the whole file.

        # Of the base.
        base: lid

        # Of the parts.
        parts:
          lid: {box: [1, 2, 3, 4]}  # of the lid
          # at the end of the parts
        # Last.
        """)


def test_long_words_go_below_their_key() -> None:
    text = " ".join(["word"] * 30)
    new = anew("supplies.yaml", f"tape: {{name: tape, note: {text}}}\n")
    assert "  note: >-\n    word word" in new
    assert max(len(line) for line in new.splitlines()) <= 110


@pytest.mark.parametrize(
    ("text", "read", "wanted"),
    [
        ("3–4min", Duration.read, "3-4 min"),
        ("45s", Duration.read, "45 s"),
        ("70°C", read_temperature, "70 °C"),
        ("−5 °C", read_temperature, "-5 °C"),
        ("0.029 Nm", read_torque, "0.029 N·m"),
        ("0.029 N m", read_torque, "0.029 N·m"),
        ("1 years", read_years, "1 year"),
        ("75:10", read_film_length, "1:15:10"),
        ("00:42", FilmSpan.read, "0:42"),
        ("0:42 – 1:55", FilmSpan.read, "0:42-1:55"),
        ("two\n lines ", read_line, "two lines"),
        ("no unit", read_torque, "no unit"),
    ],
)
def test_one_spelling_for_each_quantity(text: str, read: Any, wanted: str) -> None:
    assert spelled(text, read) == wanted


@pytest.mark.parametrize(
    "text",
    [
        "a: &x {name: b}\nc: *x\n",
        "a: {name: b}\na: {name: c}\n",
        "a: {nmae: b}\n",
        "a: {name: !t b}\n",
        "a: [\n",
        "a: {name: b, dwell: 3}\n",
    ],
)
def test_files_with_faults_are_left(text: str) -> None:
    assert isinstance(tidied("supplies.yaml", text), Untouched)


def test_line_ends_stay_and_a_byte_order_mark_goes() -> None:
    assert tidied("supplies.yaml", "\ufefftape: {name: 'tape'}\r\n") == "tape: {name: tape}\r\n"
    assert (
        tidied("supplies.yaml", "tape: {name: 'tape'}\r\n\nwipe: {name: wipe}")
        == "tape: {name: tape}\n\nwipe: {name: wipe}\n"
    )


def test_numbers_stay_with_their_units() -> None:
    new = filled(" ".join(["Take out the screw, 5.0 mm long."] * 8) + "\n")
    assert not re.search(r"\d$", new, re.M)
    assert max(len(line) for line in new.splitlines()) <= 110
