"""Packs of every kind as they are opened elsewhere: links that lead somewhere, paper of two sizes, hostile names."""

from __future__ import annotations

import io
import os
import re
import shutil
from html import unescape
from importlib.util import find_spec
from pathlib import Path
from posixpath import dirname, join, normpath
from xml.etree import ElementTree
from zipfile import ZipFile

import pytest

from tests.commands.test_pack import DEMO, pack
from tests.commands.test_partway import edit
from tests.pages.reading import Page

HOSTILE = """</title><script>alert(1)</script> "&quot;' ]]> %s {{ 7*7 }} <!-- – Bench"""
SMALL = DEMO.parent / "tests/rules/good"
"""The library sets a large guide slowly."""

HREF = re.compile(r'<a [^>]*href="([^"]*)"')
ANCHOR = re.compile(r'\sid="([^"]*)"')
BROWSERS = [os.environ.get("PARTWAY_BROWSER", ""), "chromium", "google-chrome"]
needs_browser = pytest.mark.skipif(
    not any(map(shutil.which, filter(None, BROWSERS))), reason="NO PDF WAS PRINTED: no browser found; set PARTWAY_BROWSER."
)
needs_library = pytest.mark.skipif(
    find_spec("weasyprint") is None, reason="NO PDF WAS MADE BY THE EXTRA: it is not installed (pip install 'partway[pdf]')."
)


def packed(kind: str, folder: Path, *, content: Path = DEMO, paper: str = "a4") -> bytes:
    target = folder / f"made.{kind}"
    result = pack(kind, target, content, paper=paper)
    assert result.exit_code == 0, result.output
    return target.read_bytes()


@pytest.fixture
def hostile(tmp_path: Path) -> Path:
    """The demo with a name, a title and a part's name that try to break out of wherever they are put."""
    content = Path(shutil.copytree(DEMO, tmp_path / "content"))
    quoted = "'" + HOSTILE.replace("'", "''") + "'"
    for file, key in (("library.yaml", "title"), ("tarn-5/device.yaml", "name")):
        text = (content / file).read_text("utf-8")
        old = re.search(rf"^{key}: .*$", text, re.M)
        assert old
        (content / file).write_text(text.replace(old[0], f"{key}: {quoted}", 1), "utf-8")
    edit(content / "tarn-5/steps/unplug-battery.md", "title: Unplug the battery", f"title: {quoted}")
    return content


# --- links ---


def links_of_a_book(archive: ZipFile) -> list[tuple[str, str]]:
    """Links of every page of a book to its own files, as the file and the place on it."""
    found = []
    for name in archive.namelist():
        if name.endswith(".xhtml"):
            for href in map(unescape, HREF.findall(archive.read(name).decode("utf-8"))):
                if not href.startswith(("http://", "https://", "mailto:")):
                    path, _, place = href.partition("#")
                    found.append((normpath(join(dirname(name), path)) if path else name, place))
    return found


def test_every_link_of_a_book_leads_to_a_place_in_it(tmp_path: Path) -> None:
    with ZipFile(io.BytesIO(packed("epub", tmp_path))) as archive:
        links = links_of_a_book(archive)
        assert len(links) > 200
        ids = {n: set(ANCHOR.findall(archive.read(n).decode("utf-8"))) for n in archive.namelist() if n.endswith(".xhtml")}
    assert [link for link in links if link[0] not in ids or (link[1] and link[1] not in ids[link[0]])] == []


def test_contents_name_what_differs(tmp_path: Path) -> None:
    page = Page(packed("page", tmp_path).decode("utf-8"))
    listed = [link.words for entry in page.all("ol", "chapters__list") for link in page.inside(entry, "a")]
    assert "To the battery" in listed and listed[0] == "Veldrun Tarn 5" and len(set(listed)) == len(listed)


@needs_browser
@pytest.mark.parametrize(("paper", "width", "height"), [("a4", 210, 297), ("letter", 215.9, 279.4)])
def test_a_pdf_is_of_its_paper_and_its_links_lead_to_its_pages(
    tmp_path: Path, paper: str, width: float, height: float
) -> None:
    from pypdf import PdfReader

    reader = PdfReader(io.BytesIO(packed("pdf", tmp_path, paper=paper)))
    for sheet in reader.pages:
        assert abs(float(sheet.mediabox.width) / 72 * 25.4 - width) < 0.5
        assert abs(float(sheet.mediabox.height) / 72 * 25.4 - height) < 0.5
    named = set(reader.named_destinations)
    inside = outside = 0
    for sheet in reader.pages:
        for note in sheet.get("/Annots") or ():
            note = note.get_object()
            action = note.get("/A", {})
            if "/Dest" in note:
                assert str(note["/Dest"]).removeprefix("/") in {name.removeprefix("/") for name in named}
                inside += 1
            elif "/URI" in action:
                assert str(action["/URI"]).startswith(("https://", "http://")), action["/URI"]
                outside += 1
    assert inside > 50 and outside > 5


@needs_library
def test_the_extra_makes_a_pdf_where_no_browser_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from pypdf import PdfReader

    monkeypatch.delenv("PARTWAY_BROWSER", raising=False)
    monkeypatch.setattr("generator.commands.printing.shutil.which", lambda name: None)
    made = []
    for name in ("one.pdf", "two.pdf"):
        result = pack("pdf", tmp_path / name, SMALL, "corin", paper="letter")
        assert result.exit_code == 0, result.output
        made.append((tmp_path / name).read_bytes())
    assert made[0] == made[1]
    reader = PdfReader(io.BytesIO(made[0]))
    assert abs(float(reader.pages[0].mediabox.width) / 72 * 25.4 - 215.9) < 0.5
    assert len(reader.pages) > 5 and len(reader.outline) > 3


def test_without_either_it_says_what_would_help(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("PARTWAY_BROWSER", raising=False)
    monkeypatch.setattr("generator.commands.printing.shutil.which", lambda name: None)
    monkeypatch.setattr("generator.commands.printing.find_spec", lambda name: None)
    result = pack("pdf", tmp_path / "a.pdf")
    assert result.exit_code == 2 and "partway[pdf]" in result.output and "--as page" in result.output
    assert not (tmp_path / "a.pdf").exists()


# --- names that try to break out ---


def test_a_hostile_name_stays_text_in_a_page_and_a_folder(hostile: Path, tmp_path: Path) -> None:
    page = packed("page", tmp_path, content=hostile).decode("utf-8")
    assert "<script" not in page and "alert(1)" in page
    assert HOSTILE in Page(page).words
    with ZipFile(io.BytesIO(packed("folder", tmp_path, content=hostile))) as archive:
        assert all(re.fullmatch(r"[\w./-]+", name) and ".." not in name for name in archive.namelist())
        for name in archive.namelist():
            if name.endswith(".html"):
                text = archive.read(name).decode("utf-8")
                assert "<script>" not in text, name
                assert not Page(text).unclosed, name


def test_a_hostile_name_leaves_a_book_well_formed(hostile: Path, tmp_path: Path) -> None:
    with ZipFile(io.BytesIO(packed("epub", tmp_path, content=hostile))) as archive:
        for name in archive.namelist():
            if name.endswith((".xhtml", ".opf", ".svg", ".xml")):
                tree = ElementTree.fromstring(archive.read(name))
                assert not [one for one in tree.iter() if str(one.tag).endswith("}script")], name
        package = ElementTree.fromstring(archive.read("book/package.opf"))
        assert package.findtext(".//{http://purl.org/dc/elements/1.1/}title") == HOSTILE


@needs_browser
def test_a_hostile_name_stays_text_in_a_pdf(hostile: Path, tmp_path: Path) -> None:
    from pypdf import PdfReader

    data = packed("pdf", tmp_path, content=hostile)
    assert b"/JavaScript" not in data and b"/JS" not in data
    words = " ".join(PdfReader(io.BytesIO(data)).pages[0].extract_text().split())
    assert "alert(1)" in words
