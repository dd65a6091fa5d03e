"""What an author tells those who send corrections: `contribute.md`, which belongs to no device."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.orders.reading import read_guides
from generator.orders.translating import library_in
from generator.rules import findings_of_everything
from generator.source.faults import BadPath, RawHtml
from generator.source.file_kinds import file_kind
from generator.source.reading import LibrarySource, read_library

LIBRARY = "title: Small\nlanguages: [en, de]\n"


def read(folder: Path, **files: str) -> LibrarySource:
    (folder / "library.yaml").write_text(LIBRARY, "utf-8")
    for name, text in files.items():
        (folder / f"{name.replace('_', '.')}.md").write_text(text, "utf-8")
    return read_library(folder)


def test_without_the_file_nothing_is_missed(tmp_path: Path) -> None:
    source = read(tmp_path)
    assert source.contribute is None and source.faults == ()
    assert read_guides(source).contribute is None


def test_its_words_are_read_and_stand_in_the_library(tmp_path: Path) -> None:
    source = read(tmp_path, contribute="# Write to me\n\nA photo helps. See [the post](mailto:a@example.org).\n")
    assert source.faults == () and source.contribute is not None
    assert [sentence.text for sentence in source.contribute.sentences] == ["A photo helps.", "See the post."]
    assert source.texts["contribute.md"][0] == "# Write to me"
    assert read_guides(source).contribute == source.contribute


@pytest.mark.parametrize(
    ("written", "column"),
    [
        ("[the pick](tool:pick)", 1),
        ("See [the lid](part:lid).", 5),
        ("![A lamp](lamp.jpg)", 1),
        ("[the list](notes.txt)", 1),
        ("[the list](../../notes.txt)", 1),
        ("[go](javascript:alert(1))", 1),
    ],
)
def test_a_link_it_cannot_follow_is_told_with_its_place(tmp_path: Path, written: str, column: int) -> None:
    source = read(tmp_path, contribute=f"Hello.\n\n{written}\n")
    (fault,) = source.faults
    assert isinstance(fault, BadPath)
    assert (fault.place.file, fault.place.line, fault.place.column) == ("contribute.md", 3, column)
    (found,) = (each for each in findings_of_everything(read_guides(source)) if each.rule == "file/path")
    assert found.finding.mend is not None and "https://" in found.finding.mend.text


def test_html_is_told_and_kept_as_text(tmp_path: Path) -> None:
    source = read(tmp_path, contribute="<script>alert(1)</script>\n")
    (fault,) = source.faults
    assert isinstance(fault, RawHtml) and source.contribute is not None


def test_each_language_has_its_own_words_or_shows_the_original(tmp_path: Path) -> None:
    source = read(tmp_path, contribute="Write.\n", contribute_de="Schreib.\n")
    german = library_in(read_guides(source), "de")
    assert german.contribute is not None and german.contribute.markdown == "Schreib.\n"
    assert "contribute" not in german.foreign

    (tmp_path / "contribute.de.md").write_text(" \n", "utf-8")
    german = library_in(read_guides(read_library(tmp_path)), "de")
    assert german.contribute is not None and german.contribute.markdown == "Write.\n"
    assert "contribute" in german.foreign


def test_what_is_not_translated_is_told_as_a_note(tmp_path: Path) -> None:
    source = read(tmp_path, contribute="Write.\n")
    (found,) = (each for each in findings_of_everything(read_guides(source)) if each.rule == "language/missing")
    assert found.finding.place.file == "contribute.md" and found.finding.mend is not None
    assert "contribute.de.md" in found.finding.mend.text
    source = read(tmp_path, contribute="Write.\n", contribute_de="Schreib.\n")
    assert [each for each in findings_of_everything(read_guides(source)) if each.rule == "language/missing"] == []


def test_words_in_a_further_language_alone_are_shown_there(tmp_path: Path) -> None:
    library = read_guides(read(tmp_path, contribute_de="Schreib.\n"))
    german = library_in(library, "de")
    assert library.contribute is None
    assert german.contribute is not None and "contribute" not in german.foreign


def test_it_is_known_as_words_for_those_who_lay_files_out() -> None:
    assert (file_kind("contribute.md"), file_kind("contribute.de.md")) == ("note", "note")
    assert file_kind("tarn-5/contribute.md") is None
