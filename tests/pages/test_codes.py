"""Codes on printed sheets: each leads to the page it stands on, and to a place that is there."""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Iterator, Mapping
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest

from generator.pages.codes import code_line, code_to
from generator.pages.site import render_site
from tests.figures.code.reading import address_in
from tests.pages.reading import Page
from tests.pages.sites import bench_theme, demo, demo_site

BASE = "https://example.org/kiln-lane/"
BROWSER = os.environ.get("PARTWAY_BROWSER") or shutil.which("chromium")
CODE = re.compile(r'<svg [^>]*class="code".*?</svg>')
TRAY_CODE = re.compile(r'<g class="tray__code".*?</g>')


def pages(site: Mapping[str, str | bytes], begin: str) -> Iterator[tuple[str, str]]:
    for path, text in site.items():
        if path.startswith(f"tarn-5/{begin}") and path.endswith(".html"):
            assert isinstance(text, str)
            yield path, text


def tray_codes(text: str) -> list[str]:
    """The codes of the sheets of a page; where several sheets share one, it stands at the end of the page."""
    shapes = dict(re.findall(r'<path id="([^"]+)" d="([^"]+)"/>', text))
    return [
        re.sub(
            r'<use class="code__modules" href="#([^"]+)"/>',
            lambda use: f'<path class="code__modules" d="{shapes[use[1]]}"/>',
            found,
        )
        for found in TRAY_CODE.findall(text)
    ]


def test_a_way_has_a_code_for_itself_and_for_each_of_its_steps() -> None:
    site = demo_site()
    for path, text in pages(site, "to-"):
        addresses = [address_in(found) for found in CODE.findall(text)]
        ids = Page(text).ids
        steps = [name for name in ids if name.startswith("step-")]
        assert addresses == [f"{BASE}{path}", *(f"{BASE}{path}#{step}" for step in steps)], path
        assert len(steps) > 0


def test_the_whole_guide_has_one_and_says_the_address_in_words() -> None:
    (text,) = (text for _, text in pages(demo_site(), "guide"))
    assert [address_in(found) for found in CODE.findall(text)] == [f"{BASE}tarn-5/guide.html"]
    assert f"This sheet as a page: {BASE}tarn-5/guide.html" in Page(text).words


def test_a_tray_sheet_leads_to_its_steps() -> None:
    site = demo_site()
    for path, text in pages(site, "tray"):
        part = re.search(r"tray-(to-.*?)(?:-letter)?\.html", path)
        wanted = f"tarn-5/{part[1]}.html" if part else "tarn-5/guide.html"
        found = tray_codes(text)
        assert found and wanted in site, path
        assert {address_in(code) for code in found} == {BASE + wanted}


def test_without_an_address_there_is_no_code_and_the_sheet_says_which_page_it_is() -> None:
    library = replace(demo(), address=None)
    site = render_site(library, bench_theme())
    for path, text in [*pages(site, "to-"), *pages(site, "guide"), *pages(site, "tray")]:
        assert not CODE.findall(text) and not TRAY_CODE.findall(text), path
    for path, text in [*pages(site, "to-"), *pages(site, "guide")]:
        assert f"This sheet is the page {path} of “{library.title}”." in Page(text).words
    for path, text in pages(site, "tray-to-battery"):
        assert "Steps: tarn-5/to-battery.html" in Page(text).words, path


def test_an_address_is_written_so_that_every_reader_takes_it() -> None:
    library = replace(demo(), address="https://bücher.example/ä b/")
    code = code_to(library, "tarn-5/guide.html")
    assert code is not None and code.address == "https://xn--bcher-kva.example/%C3%A4%20b/tarn-5/guide.html"
    assert not code_line(replace(demo(), address="https://example.org/" + "a" * 500), "tarn-5/guide.html").drawing


@pytest.mark.skipif(BROWSER is None, reason="THE PRINTED CODES WERE NOT READ: no browser found; set PARTWAY_BROWSER.")
@pytest.mark.parametrize("name", ["to-battery.html", "guide.html", "tray.html"])
def test_what_is_printed_is_read_and_is_large_enough(name: str, tmp_path: Path) -> None:
    import zxingcpp
    from PIL import Image
    from playwright.sync_api import sync_playwright

    site = demo_site()
    for path, data in site.items():
        if path in (f"tarn-5/{name}", "style.css"):
            (tmp_path / path).parent.mkdir(exist_ok=True)
            (tmp_path / path).write_text(str(data), "utf-8")
    with sync_playwright() as started:
        browser = started.chromium.launch(executable_path=BROWSER, args=["--no-sandbox", "--disable-gpu"])
        page = browser.new_page(viewport={"width": 720, "height": 1000}, color_scheme="dark", device_scale_factor=2)
        page.goto((tmp_path / "tarn-5" / name).as_uri())
        assert not page.locator(".code:visible").count()
        page.emulate_media(media="print")
        found = []
        for code in page.locator("svg.code, .tray__code").all():
            box = code.bounding_box()
            assert box is not None and box["width"] / 96 * 25.4 >= 19.9
            # With what stands around it on the sheet.
            code.scroll_into_view_if_needed()
            picture = Image.open(BytesIO(page.screenshot()))
            found.append({each.text for each in zxingcpp.read_barcodes(picture)})
        browser.close()
    text = str(site[f"tarn-5/{name}"])
    wanted = [address_in(drawn) for drawn in (*CODE.findall(text), *tray_codes(text))]
    assert wanted
    assert all(address in each for address, each in zip(wanted, found, strict=True))
