"""Findings as text, JSON, SARIF and Markdown: stored text, stable keys, and nothing that authors wrote gets loose."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from textwrap import dedent

import jsonschema
import pytest
from markdown_it import MarkdownIt

from generator.commands.reports import REPORTS, report
from generator.commands.reports.text import LONGEST_LINE, finding_lines
from generator.orders.guide import Library
from generator.rules import RULES, findings_of_everything
from generator.rules.finding import Edit, Finding, Mend, Reported
from generator.source.places import Place
from tests.rules.cases import GOOD, cases_of, folder_of, library_of

HERE = Path(__file__).parent

FINDINGS = (
    Reported(
        "order/behind",
        "error",
        "corin",
        Finding(
            Place("corin/steps/open-back.md", 5, 11, 5, 22),
            "The back screws cannot be reached yet: they are behind the <lid>.",
            ('The lid comes off in step 4 "Lift the lid", two steps later.',),
            Mend(
                'Move "open-back" after "lift-lid" in corin/device.yaml:9.',
                (Edit(Place("corin/device.yaml", 9, 5, 9, 14), "lift-lid"),),
            ),
        ),
    ),
    Reported(
        "media/unused",
        "note",
        "corin",
        Finding(Place("corin/media/ä b.png"), 'No step shows the photo "ä b.png".'),
    ),
    Reported("ref/unused", "warning", "", Finding(Place("tools.yaml", 1, 1, 1, 11), "No guide takes up the *driver*.")),
)


@pytest.fixture(scope="module")
def library() -> Library:
    return library_of(GOOD)


def test_text(library: Library) -> None:
    assert report("text", library, FINDINGS) == dedent("""\
        order/behind  corin/steps/open-back.md:5:11
          The back screws cannot be reached yet: they are behind the <lid>.
             5 |   - undo: back-screws
          The lid comes off in step 4 "Lift the lid", two steps later.
          Move "open-back" after "lift-lid" in corin/device.yaml:9.

        media/unused  corin/media/ä b.png:1:1  (note)
          No step shows the photo "ä b.png".

        ref/unused  tools.yaml:1:1  (warning)
          No guide takes up the *driver*.
             1 | driver-ph1:

        1 error, 1 warning and 1 note in 1 guide.
        """)


@pytest.mark.parametrize("layout", REPORTS)
def test_nothing_found(library: Library, layout: str) -> None:
    text = report(layout, library, ())
    assert text.endswith("\n")
    if layout in ("text", "markdown"):
        assert "Nothing is wrong in 1 guide." in text


def test_colour_only_where_it_is_asked_for(library: Library) -> None:
    plain = report("text", library, FINDINGS)
    coloured = report("text", library, FINDINGS, colour=True)
    assert "\x1b" not in plain
    assert "\x1b[31morder/behind\x1b[0m" in coloured
    assert "\x1b[4mback-screws\x1b[0m" in coloured
    assert report("json", library, FINDINGS, colour=True) == report("json", library, FINDINGS)
    for code in ("\x1b[31m", "\x1b[33m", "\x1b[36m", "\x1b[1m", "\x1b[4m", "\x1b[0m"):
        coloured = coloured.replace(code, "")
    assert coloured == plain


def test_a_terminal_is_told_nothing_by_what_authors_wrote(library: Library) -> None:
    line = "title: \x1b[2J\u202eevil\tx"
    hostile = replace(library, texts={"a.md": (line,)})
    found = Reported("file/yaml", "error", "", Finding(Place("a.md", 1, 8, 1, 12), "A\x1b[2Jb", ("c\x07",), Mend("d\u2066")))
    for text in (*finding_lines(hostile, found), report("markdown", hostile, (found,))):
        assert not any(sign in text for sign in "\x1b\x07\u202e\u2066\t")


def test_long_lines_are_cut_around_the_place(library: Library) -> None:
    line = "a" * 5000 + "wrong" + "b" * 5000
    long = replace(library, texts={"a.md": (line,)})
    for column in (1, 4990, 5001, 10001):
        found = Reported("file/yaml", "error", "", Finding(Place("a.md", 1, column, 1, column + 5), "It is long."))
        shown = finding_lines(long, found)[2]
        assert len(shown) < LONGEST_LINE + 20
        if column == 5001:
            assert "wrong" in shown


@pytest.mark.parametrize(
    "place",
    [
        Place("gone.md", 3, 1, 3, 2),
        Place("a.md", 9, 1, 9, 2),
        Place("a.md", 0, 0, 0, 0),
        Place("a.md", 1, 4, 7, 1),
        Place("a.md", 1, 9, 1, 3),
    ],
)
def test_places_off_the_text_do_no_harm(library: Library, place: Place) -> None:
    found = Reported("file/yaml", "error", "", Finding(place, "It is odd."))
    assert finding_lines(replace(library, texts={"a.md": ("abcdef", "")}), found)[1] == "  It is odd."


def test_a_guide_that_was_not_judged_is_named(tmp_path: Path) -> None:
    case = next(case for case in cases_of("ref/unknown-part") if case.kind == "Fires")
    library = library_of(folder_of(case, tmp_path))
    for layout in ("text", "markdown"):
        text = report(layout, library, findings_of_everything(library))
        assert "The order of Ostrel Corin is judged once its errors in reading and in names are mended." in text


def test_json(library: Library) -> None:
    document = json.loads(report("json", library, FINDINGS))
    assert list(document) == ["version", "findings", "devices"]
    assert document["version"] == 1
    assert document["findings"][0] == {
        "rule": "order/behind",
        "level": "error",
        "device": "corin",
        "file": "corin/steps/open-back.md",
        "line": 5,
        "column": 11,
        "end_line": 5,
        "end_column": 22,
        "message": "The back screws cannot be reached yet: they are behind the <lid>.",
        "why": ['The lid comes off in step 4 "Lift the lid", two steps later.'],
        "mend": {
            "text": 'Move "open-back" after "lift-lid" in corin/device.yaml:9.',
            "edits": [
                {"file": "corin/device.yaml", "line": 9, "column": 5, "end_line": 9, "end_column": 14, "text": "lift-lid"}
            ],
        },
    }
    assert document["findings"][2]["device"] == ""
    assert document["findings"][2]["mend"] is None
    assert document["devices"] == {"corin": {"steps": 11, "parts": 10, "joints": 13, "errors": 1, "warnings": 0, "notes": 1}}


def test_sarif_keeps_to_the_standard(library: Library) -> None:
    document = json.loads(report("sarif", library, FINDINGS))
    jsonschema.validate(document, json.loads((HERE / "sarif-2.1.0-used.json").read_text(encoding="utf-8")))
    run = document["runs"][0]
    assert [result["ruleId"] for result in run["results"]] == [found.rule for found in FINDINGS]
    for result in run["results"]:
        assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"]
    assert run["columnKind"] == "unicodeCodePoints"
    location = run["results"][1]["locations"][0]["physicalLocation"]
    assert location["artifactLocation"] == {"uri": "corin/media/%C3%A4%20b.png", "uriBaseId": "CONTENT"}
    assert "fixes" not in run["results"][1]
    replacement = run["results"][0]["fixes"][0]["artifactChanges"][0]["replacements"][0]
    assert replacement["deletedRegion"] == {"startLine": 9, "startColumn": 5, "endLine": 9, "endColumn": 14}
    assert replacement["insertedContent"] == {"text": "lift-lid"}


def test_the_schema_of_what_is_used_finds_slips(library: Library) -> None:
    schema = json.loads((HERE / "sarif-2.1.0-used.json").read_text(encoding="utf-8"))
    for spoil in (
        lambda run: run["results"][0].update(level="fatal"),
        lambda run: run["results"][0].pop("message"),
        lambda run: run["results"][0].update(colour="red"),
        lambda run: run["results"][0]["locations"][0]["physicalLocation"]["region"].update(startLine=0),
        lambda run: run.update(columnKind="bytes"),
    ):
        document = json.loads(report("sarif", library, FINDINGS))
        spoil(document["runs"][0])
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(document, schema)


def test_sarif_of_every_rule(library: Library) -> None:
    schema = json.loads((HERE / "sarif-2.1.0-used.json").read_text(encoding="utf-8"))
    findings = [Reported(rule, "note", "", Finding(Place("a.yaml"), "It is so.")) for rule in RULES]
    document = json.loads(report("sarif", library, findings))
    jsonschema.validate(document, schema)
    assert [rule["id"] for rule in document["runs"][0]["tool"]["driver"]["rules"]] == list(RULES)


def test_markdown(library: Library) -> None:
    assert report("markdown", library, FINDINGS) == dedent("""\
        ## Findings

        1 error, 1 warning and 1 note in 1 guide.

        ### Ostrel Corin

        - **error** `order/behind` `corin/steps/open-back.md:5:11`\\
          **The back screws cannot be reached yet: they are behind the \\<lid\\>.**\\
          The lid comes off in step 4 "Lift the lid", two steps later.\\
          Move "open-back" after "lift-lid" in corin/device.yaml:9.
        - **note** `media/unused` `corin/media/ä b.png:1:1`\\
          **No step shows the photo "ä b.png".**

        ### Shared files

        - **warning** `ref/unused` `tools.yaml:1:1`\\
          **No guide takes up the \\*driver\\*.**
        """)


@pytest.mark.parametrize(
    "written",
    [
        "<script>alert(1)</script>",
        "[a](javascript:b)",
        "![x](y)",
        "a ` b",
        "`` ` ``",
        "**bold** _x_ ~~y~~",
        "a | b",
        "# h",
        "&lt;",
    ],
)
def test_markdown_shows_what_authors_wrote_and_does_nothing_else(library: Library, written: str) -> None:
    found = Reported(
        "file/yaml", "error", "", Finding(Place(f"{written}.md"), f'The name {written} "x".', (written,), Mend(written))
    )
    text = report("markdown", library, (found,))
    tokens = [child for token in MarkdownIt("commonmark").enable("table").parse(text) for child in token.children or [token]]
    kinds = {token.type for token in tokens}
    assert not kinds & {"html_inline", "html_block", "link_open", "image", "em_open", "s_open", "table_open"}
    assert sum(token.type == "heading_open" for token in tokens) == 2
    assert sum(token.type == "strong_open" for token in tokens) == 2
