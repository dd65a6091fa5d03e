"""The built demo in a real browser, from disk: nothing fetched, scripts off, on paper. For readers: tests/reading."""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser, Page, sync_playwright

from generator.commands import partway

DEMO = Path(__file__).parents[1] / "content"
KINDS = (
    "index.html", "tools.html", "safety.html", "find.html", "index-a-z.html", "tarn-5/several.html",
    "tarn-5/index.html", "tarn-5/guide.html", "tarn-5/to-battery.html", "tarn-5/workings.html", "tarn-5/changes.html",
    "contribute.html", "tarn-5/correction.html",
)  # fmt: skip


def browser_program() -> str | None:
    """The browser `sh tests/run` found; None leaves it to playwright's own."""
    named = os.environ.get("PARTWAY_BROWSER")
    return named or next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("built") / "site"
    result = CliRunner().invoke(partway, ["build", str(DEMO), "--to", str(folder)])
    assert result.exit_code == 0, result.output
    return folder


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        program = browser_program()
        arguments = ["--no-sandbox", "--disable-background-networking", "--disable-component-update", "--disable-sync"]
        browser = playwright.chromium.launch(executable_path=program, args=arguments)
        yield browser
        browser.close()


def names(site: Path) -> list[str]:
    """One page of each kind. Not 404.html: a server shows it at any depth, so its links start at the address's root."""
    routes = ("tarn-5/to-display.html", "tarn-5/tray-to-battery.html")
    return [name for name in (*KINDS, *routes) if (site / name).is_file()]


def opened(browser: Browser, site: Path, name: str, **known: Any) -> tuple[Page, list[str]]:
    """The page as a reader opens it from disk, offline; and everything it asked for or complained of."""
    context = browser.new_context(offline=True, reduced_motion="reduce", **known)
    page = context.new_page()
    heard: list[str] = []
    page.on("console", lambda message: heard.append(message.text))
    page.on("pageerror", lambda error: heard.append(str(error)))
    page.on("requestfailed", lambda request: heard.append(request.url))
    page.goto((site / name).as_uri())
    return page, heard


def test_no_page_asks_for_more_or_complains(browser: Browser, site: Path) -> None:
    for name in names(site):
        for script in (True, False):
            page, heard = opened(browser, site, name, java_script_enabled=script)
            assert heard == [], f"{name}, script {script}"
            page.context.close()


def test_no_page_is_wider_than_a_phone_without_its_script(browser: Browser, site: Path) -> None:
    """With it, and at more widths: tests/reading."""
    for name in names(site):
        page, _ = opened(browser, site, name, viewport={"width": 360, "height": 800}, java_script_enabled=False)
        main = page.locator("body").bounding_box()
        assert main and main["width"] <= 360, name
        page.context.close()


def test_style_and_fonts_arrive_from_disk(browser: Browser, site: Path) -> None:
    page, _ = opened(browser, site, "tarn-5/guide.html")
    assert page.evaluate("document.fonts.ready.then(f => [...f].filter(x => x.status === 'loaded').length)") >= 2
    assert page.evaluate("getComputedStyle(document.body).fontFamily").startswith('"Bench Serif"')
    page.context.close()


def test_no_script_stands_in_a_page_and_none_comes_from_elsewhere(browser: Browser, site: Path) -> None:
    for name in names(site):
        text = (site / name).read_text("utf-8")
        assert "Content-Security-Policy" in text, name
        for script in re.findall(r"<script(?! type=.application/ld\+json.>)[^>]*>[^<]*", text):
            source = re.fullmatch(r'<script defer src="([^":]+)"(?: data-manifest="[^":]+")?>', script)
            assert source and ((site / name).parent / source[1]).resolve().is_relative_to(site), f"{name}: {script}"


def test_a_route_prints_on_few_pages(browser: Browser, site: Path, tmp_path: Path) -> None:
    from pypdf import PdfReader

    page, _ = opened(browser, site, "tarn-5/to-battery.html")
    target = tmp_path / "route.pdf"
    page.pdf(path=str(target), prefer_css_page_size=True)
    page.context.close()
    pages = [sheet.extract_text() for sheet in PdfReader(target).pages]
    assert 4 <= len(pages) <= 20
    assert "battery" in pages[0]
