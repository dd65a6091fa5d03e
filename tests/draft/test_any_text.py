"""Whatever stands in a caption file: no traceback, files that are read back, and every word accounted for."""

from __future__ import annotations

import re
from pathlib import Path

import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.commands.draft import NOT_READ
from generator.draft.assembling import draft_of
from generator.draft.captions import Captions, Unusable, read_captions
from generator.draft.decoding import decode
from generator.draft.lexicon import LANGUAGES, lexicon
from generator.draft.records import Draft, Fate
from generator.draft.summary import as_text, sections
from generator.draft.written import device_files, library_file, tools_file
from generator.orders.reading import read_guides
from generator.rules import findings_of_everything
from generator.source.reading import read_library

SPOKEN = st.sampled_from(
    [
        "remove",
        "take",
        "pull",
        "lift",
        "pry",
        "peel",
        "unplug",
        "disconnect",
        "unscrew",
        "undo",
        "heat",
        "warm",
        "soak",
        "wait",
        "flip",
        "turn",
        "fold",
        "cut",
        "slide",
        "pop",
        "the",
        "a",
        "these",
        "those",
        "it",
        "them",
        "four",
        "2",
        "two",
        "screws",
        "screw",
        "clips",
        "battery",
        "connector",
        "back",
        "cover",
        "lid",
        "board",
        "cable",
        "glue",
        "adhesive",
        "strips",
        "off",
        "out",
        "up",
        "over",
        "from",
        "with",
        "using",
        "tweezers",
        "spudger",
        "T5",
        "ph00",
        "phillips",
        "for",
        "minutes",
        "seconds",
        "90",
        "degrees",
        "and",
        "then",
        "so",
        "now",
        "once",
        "before",
        "to",
        "reach",
        "behind",
        "under",
        "underneath",
        "don't",
        "careful",
        "subscribe",
        "um",
        ",",
        ".",
        "!",
        "?",
        "-",
        "phone",
        "thing",
        "gizmo",
        "you",
        "we",
        "I'm",
        "going",
        "want",
        "is",
        "are",
        "there's",
        "that",
        "which",
        "Ende",
        "wir",
        "nehmen",
        "ziehen",
        "die",
        "den",
        "Akku",
        "Schrauben",
        "ab",
        "heraus",
        "lösen",
        "Deckel",
        "mit",
        "Pinzette",
        "drei",
        "Minuten",
        "erwärmen",
        "drehen",
        "um",
        "hinter",
        "dem",
        "sich",
        "lässt",
        "Stecker",
        "#",
        "```",
        "---",
        "[x](javascript:1)",
        "<b>",
        "&lt;",
        "{a:",
        "*b}",
        "|-",
        "'it'",
        '"q"',
        "\\",
        "!!python/object",
        "%TAG",
        "@",
        "`",
        "~",
        "null",
        "yes",
        "1:20",
        "0x1f",
        "../../etc",
        "日本",
        "é",
        "\u202e",
        "\ufeff",
        "##",
        "Refitting",
    ]
)
SIGNED = st.tuples(SPOKEN, st.sampled_from(("", "", "", "", ",", "."))).map("".join)
SENTENCES = st.lists(SIGNED, max_size=40).map(" ".join)
ANY = st.text(max_size=200)
TIMES = st.integers(0, 30_000)


def clock(seconds: int, mark: str) -> str:
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}{mark}000"


@st.composite
def caption_files(draw: st.DrawFn) -> str:
    """Cues in any order, of any words, in one of the three forms, now and then with a damaged line between them."""
    form = draw(st.sampled_from(("vtt", "srt", "txt")))
    lines = ["WEBVTT", ""] if form == "vtt" else []
    for number in range(draw(st.integers(0, 12))):
        start = draw(TIMES)
        words = draw(st.one_of(SENTENCES, ANY))
        if form == "txt":
            lines.append(f"{start // 60}:{start % 60:02d} {words}")
            continue
        mark = "." if form == "vtt" else ","
        lines += [str(number)] if form == "srt" else []
        timing = f"{clock(start, mark)} --> {clock(start + draw(st.integers(-3, 8)), mark)}"
        lines += [draw(st.sampled_from((timing, timing, timing, "00:zz --> 00:02", f"{timing} align:start")))]
        lines += [words, ""]
    return "\n".join(lines)


@given(caption_files(), st.sampled_from(LANGUAGES))
@settings(max_examples=150, deadline=None)
def test_any_captions_become_files_that_are_read_back(text: str, language: str) -> None:
    holds(text, language)


@given(ANY, st.sampled_from(LANGUAGES))
@settings(max_examples=100, deadline=None)
def test_any_text_becomes_files_or_a_refusal(text: str, language: str) -> None:
    holds(text, language)


@given(st.binary(max_size=300))
@settings(max_examples=100, deadline=None)
def test_any_bytes_are_decoded(data: bytes) -> None:
    holds(decode(data).text, "en")


def holds(text: str, language: str) -> None:
    """Read, draft, write, read back and account for every word."""
    try:
        captions = read_captions(text)
    except Unusable as refusal:
        assert str(refusal).endswith(".")
        return
    draft = draft_of(captions, lexicon(language))
    files = {f"thing/{path}": words for path, words in written(draft, captions).items()}
    files |= {"library.yaml": library_file("Guides", language), "tools.yaml": tools_file(draft.tools)}
    assert_read_back(files)
    assert_accounted(draft, captions, files)


def written(draft: Draft, captions: Captions) -> dict[str, str]:
    return device_files(draft, captions.words, "A thing", "thing.vtt", {tool.id: tool.id for tool in draft.tools})


def assert_read_back(files: dict[str, str]) -> None:
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        for path, words in files.items():
            place = Path(folder, path)
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_text(words, "utf-8")
        library = read_library(Path(folder))
        assert library.every_fault == ()
        findings = findings_of_everything(read_guides(library))
        assert [
            (each.rule, each.finding.message)
            for each in findings
            if each.level == "error" and each.rule.startswith(NOT_READ)
        ] == []


def assert_accounted(draft: Draft, captions: Captions, files: dict[str, str]) -> None:
    """Each word is used, noted or left out; what is used is in a step, what is noted in a file, the rest is told."""
    words = captions.words
    assert len(draft.fates) == len(words)
    used = [index for step in draft.steps for sentence in step.sentences for index in sentence.words]
    assert sorted(used) == [index for index, fate in enumerate(draft.fates) if fate is Fate.USED]
    noted = [said for _, notes in draft.notes for said in notes] + list(draft.loose)
    noted += [said for step in draft.steps for said in (*step.cautions, *step.remarks)]
    spoken = sorted(word for said in noted for word in said.words.split())
    assert spoken == sorted(words[index].text for index, fate in enumerate(draft.fates) if fate is Fate.NOTE)
    chatter = sorted(word for said in draft.chatter for word in said.words.split())
    assert chatter == sorted(words[index].text for index, fate in enumerate(draft.fates) if fate is Fate.CHATTER)
    assert sum(count for _, count in draft.fillers) == sum(fate is Fate.FILLER for fate in draft.fates)
    everything = "\n".join(files.values())
    for said in noted:
        assert all(plain(word) in plain(everything) for word in said.words.split()), said
    for step in draft.steps:
        body = plain(files[f"thing/steps/{step.id}.md"].split("---\n", 2)[2])
        for index in (index for sentence in step.sentences for index in sentence.words):
            assert plain(words[index].norm) in body.lower(), (words[index], body)
    told = as_text(sections(draft, captions, "thing.vtt", "UTF-8", ()))
    assert all(said.words in told for said in draft.chatter)


def plain(text: str) -> str:
    """Without marks, blanks and case: what is left of a text however it is escaped and wrapped."""
    return re.sub(r"[\W_]+", "", text.replace("\\", "")).lower()


def test_words_are_only_words_to_yaml_and_markdown(tmp_path: Path) -> None:
    text = "0:00 Remove the {a: *b} cover: | --- <script>alert(1)</script> [x](javascript:alert(1)) &amp; ## Refitting\n"
    captions = read_captions(text)
    draft = draft_of(captions, lexicon("en"))
    files = written(draft, captions)
    assert yaml.safe_load(files["anatomy.yaml"])["base"] == draft.base.id
    assert_read_back(
        {f"thing/{path}": words for path, words in files.items()}
        | {"library.yaml": library_file("G", "en"), "tools.yaml": "{}\n"}
    )
