"""A library in several languages: where its pages stand, what they say, how they lead to each other, and right to left."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.commands.folders import read_theme
from generator.languages import Catalogue
from generator.languages import catalogues as shelf
from generator.orders.guide import Library
from generator.orders.translating import library_in
from generator.pages.editions import edition, editions
from generator.pages.scripts import texts_said
from generator.pages.site import render_site
from tests.languages.collecting import collected
from tests.written import library_of

DEVICE = """
name: Box
faces: [top]
order: [open]
pages: [lid]
about: A box.
"""
ANATOMY = """
base: tub
parts:
  tub: {}
  lid: {name: lid <i>}
joints:
  lid-screws: {kind: screws, joins: [lid, tub], count: 2, drive: cross-recess PH0}
"""
OPEN = """
---
title: Open the lid
work:
  - undo: lid-screws
  - lift: lid
---
Turn the [screws](joint:lid-screws) out.
"""
OPEN_DE = """
---
title: Deckel öffnen
---
Die [Schrauben](joint:lid-screws) herausdrehen. <b>x</b>
"""
FILES = {
    "library.yaml": "title: Bench\nlanguages: [en, de]\naddress: https://example.org/b/\n",
    "box/device.yaml": DEVICE,
    "box/anatomy.yaml": ANATOMY,
    "box/steps/open.md": OPEN,
}
GERMAN = {
    "box/steps/open.de.md": OPEN_DE,
    "box/anatomy.de.yaml": "parts:\n  lid: {name: 'Deckel <i>'}\njoints:\n  lid-screws: {name: Deckelschrauben}\n",
}


def library(folder: Path, **more: str) -> Library:
    return library_of(folder, {**FILES, **GERMAN, **more})


def text(files: object, path: str) -> str:
    found = files[path]  # type: ignore[index]
    assert isinstance(found, str)
    return found


def test_the_first_language_is_at_the_root_and_each_other_in_a_folder_with_the_same_pages(tmp_path: Path) -> None:
    files = render_site(library(tmp_path), read_theme())
    pages = {path for path in files if path.endswith(".html") and path not in ("404.html", "rules.html")}
    german = {path.removeprefix("de/") for path in pages if path.startswith("de/")}
    assert german == {path for path in pages if not path.startswith("de/")}
    assert "de/style.css" not in files


def test_a_page_says_its_language_and_leads_to_the_same_page_in_the_other(tmp_path: Path) -> None:
    files = render_site(library(tmp_path), read_theme())
    english, german = text(files, "box/to-lid.html"), text(files, "de/box/to-lid.html")
    assert '<html lang="en" dir="ltr">' in english
    assert '<html lang="de" dir="ltr">' in german
    assert 'href="../de/box/to-lid.html" hreflang="de"' in english
    assert 'href="../../box/to-lid.html" hreflang="en"' in german
    assert '<link rel="alternate" hreflang="de" href="https://example.org/b/de/box/to-lid.html">' in english
    assert '<link rel="canonical" href="https://example.org/b/de/box/to-lid.html">' in german
    assert 'hreflang="de" href="https://example.org/b/de/box/to-lid.html"' in text(files, "sitemap.xml")


def test_names_words_and_references_are_those_of_the_translation_and_escaped_alike(tmp_path: Path) -> None:
    german = text(render_site(library(tmp_path), read_theme()), "de/box/to-lid.html")
    assert "Deckel öffnen" in german and "Open the lid" not in german
    assert "Deckelschrauben herausdrehen" in german
    assert '<a href="#joint-lid-screws">Schrauben</a>' in german
    assert "Deckel &lt;i&gt;" in german and "&lt;b&gt;x&lt;/b&gt;" in german
    assert "<b>x" not in german and "<i>" not in german


def test_what_is_not_translated_stands_there_in_the_original_and_says_so(tmp_path: Path) -> None:
    german = text(render_site(library_of(tmp_path, FILES), read_theme()), "de/box/to-lid.html")
    assert '<span lang="en">Open the lid</span>' in german
    assert re.search(r'<div lang="en" dir="ltr">\s*<p>Turn the ', german)


def test_work_and_references_are_those_of_the_original(tmp_path: Path) -> None:
    whole = library(tmp_path, **{"box/steps/open.de.md": "---\ntitle: Deckel öffnen\n---\nAufdrehen.\n"})
    step, original = library_in(whole, "de").guides[0].order[0], whole.guides[0].order[0]
    assert (step.title, original.title) == ("Deckel öffnen", "Open the lid")
    assert step.actions == original.actions
    assert step.body is not None and original.body is not None
    assert step.body.references == original.body.references


def test_addresses_of_an_edition_are_in_its_folder(tmp_path: Path) -> None:
    assert [spoken.address for spoken in editions(library(tmp_path))] == [
        "https://example.org/b/",
        "https://example.org/b/de/",
    ]
    assert edition(library(tmp_path), "de").folder == "de/"


def test_the_scripts_are_told_what_to_say(tmp_path: Path) -> None:
    theme = read_theme()
    words = text(render_site(library(tmp_path), theme), "de/words.js")
    assert '"Keep the screen on":"Bildschirm anlassen"' in words
    assert '"pair":" und "' in words
    said = {message.id if isinstance(message.id, str) else message.id[0] for message in collected() if message.id}
    assert len(texts_said(theme)) > 40
    assert set(texts_said(theme)) <= said


def test_a_page_can_run_from_right_to_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With words of a test only: figures stay as they are, and the page is not wider than a narrow screen."""
    hebrew = Catalogue({(None, "Steps"): ("שלבים",)}, lambda n: int(n != 1))
    monkeypatch.setattr(shelf, "read_catalogue", lambda tag: hebrew if tag == "he" else None)
    theme = read_theme()
    whole = library_of(tmp_path / "content", {**FILES, "library.yaml": "title: Bench\nlanguages: [en, he]\n"})
    site = tmp_path / "site"
    for path, data in render_site(whole, theme).items():
        (site / path).parent.mkdir(parents=True, exist_ok=True)
        (site / path).write_bytes(data.encode() if isinstance(data, str) else data)
    html = (site / "he/box/to-lid.html").read_text("utf-8")
    assert '<html lang="he" dir="rtl">' in html and "שלבים" in html

    from playwright.sync_api import sync_playwright

    from tests.scripts.running import browser_program

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=browser_program(), args=["--no-sandbox"])
        try:
            page = browser.new_page(viewport={"width": 360, "height": 800})
            page.goto((site / "he/box/to-lid.html").as_uri())
            assert page.evaluate("document.documentElement.scrollWidth") <= 360
            assert page.evaluate("getComputedStyle(document.querySelector('main svg')).direction") == "ltr"
            heading = page.evaluate("getComputedStyle(document.querySelector('h1')).textAlign")
            assert heading in ("start", "right")
            crumb = page.evaluate("document.querySelector('.masthead__crumbs li').getBoundingClientRect().right")
            assert crumb > 300
        finally:
            browser.close()


def test_the_theme_lays_out_by_the_direction_of_the_language() -> None:
    physical = re.compile(r"(?:margin|padding|border)-(?:left|right)|text-align: *(?:left|right)|float: *(?:left|right)")
    figures = ("plan", "stack", "rail", "glyph", "tray", "order-map", "depth", "reach", "code", "index-line", "review")
    wrong = [
        name
        for name, sheet in read_theme().files
        if name.startswith("components/") and name.endswith(".css") and name.split("/")[1] not in figures
        if physical.search(sheet if isinstance(sheet, str) else sheet.decode())
    ]
    assert wrong == []
