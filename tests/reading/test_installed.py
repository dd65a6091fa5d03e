"""The served site put on a phone: manifest, icons, what is kept for reading without a network, and how it is renewed."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Page

from tests.reading.built import Built
from tests.reading.serving import served

KEPT = "document.documentElement.dataset.kept !== undefined"
READY = "navigator.serviceWorker.ready.then(() => true)"
GUIDE = "tarn-5/to-charging-port.html"


@pytest.fixture(scope="module")
def folder(built: Built, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site as somebody publishes it, below the root of a host, with a second device."""
    folder = tmp_path_factory.mktemp("host") / "guides"
    shutil.copytree(built.root / "demo", folder)
    return folder


@pytest.fixture(scope="module")
def address(folder: Path) -> Iterator[str]:
    with served(folder.parent) as root:
        yield f"{root}guides/"


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(reduced_motion="reduce", viewport={"width": 360, "height": 780})
    yield context
    context.close()


def read(context: BrowserContext, address: str) -> tuple[Page, list[str]]:
    """A page that has been opened and kept; and every address that was asked for, by pages and worker."""
    asked: list[str] = []
    context.on("request", lambda request: asked.append(request.url))
    page = context.new_page()
    page.set_default_timeout(15_000)
    page.goto(address)
    until(page, KEPT)
    return page, asked


def until(page: Page, claim: str) -> None:
    """Waits for a claim to hold; the policy of the pages lets no text be run within them, so they are asked from outside."""
    for _ in range(150):
        if page.evaluate(claim):
            return
        page.wait_for_timeout(100)
    raise AssertionError(f"never came true: {claim}")


def heading(page: Page) -> str:
    return " ".join(page.locator("h1").inner_text().split())


def test_the_browser_reads_the_manifest_and_finds_it_can_be_installed(context: BrowserContext, address: str) -> None:
    page = context.new_page()
    page.goto(address)
    page.evaluate(READY)
    asking = context.new_cdp_session(page)
    told = asking.send("Page.getAppManifest")
    assert told["url"] == f"{address}site.webmanifest" and told["errors"] == []
    manifest = json.loads(told["data"])
    assert manifest["name"] == "Bench notes from Kiln Lane"
    wrong = {error["errorId"] for error in asking.send("Page.getInstallabilityErrors")["installabilityErrors"]}
    assert wrong <= {"in-incognito"}, "a browser of tests keeps nothing, and says no more than that"
    for icon in manifest["icons"]:
        answer = context.request.get(f"{address}{icon['src']}")
        assert answer.ok, icon["src"]
        if icon["type"] == "image/png":
            assert "{}x{}".format(*Image.open(BytesIO(answer.body())).size) == icon["sizes"]
        else:
            assert answer.text().startswith("<svg")
    assert {icon["sizes"] for icon in manifest["icons"]} >= {"192x192", "512x512"}


def test_a_visited_guide_can_be_read_without_a_network(context: BrowserContext, address: str) -> None:
    page, asked = read(context, f"{address}{GUIDE}")
    context.set_offline(True)
    page.reload()
    assert heading(page) == "I came for the charging port"
    assert page.evaluate("document.fonts.ready.then(all => [...all].filter(one => one.status === 'loaded').length)") >= 2
    assert page.evaluate("getComputedStyle(document.body).fontSize") == "19px"
    # Other pages of the device, though none was opened; photos; and with words behind the address.
    for path in ("tarn-5/", "tarn-5/guide.html", "tarn-5/several.html?battery+display", "", "tools.html#tools", "find.html"):
        page.goto(f"{address}{path}")
        assert "Not kept" not in page.title(), path
    page.goto(f"{address}tarn-5/guide.html")
    page.locator("img").first.scroll_into_view_if_needed()
    until(page, "document.querySelector('img').naturalWidth > 0")
    assert {url for url in asked if not url.startswith(address)} == set()


def test_a_page_that_was_not_kept_is_named_as_such(context: BrowserContext, address: str) -> None:
    page, _ = read(context, f"{address}tarn-5/")
    context.set_offline(True)
    page.goto(f"{address}elsewhere/guide.html")
    assert heading(page) == "Not kept on this device"
    page.get_by_role("main").get_by_role("link", name="All devices").click()
    page.wait_for_url(f"{address}index.html")
    assert heading(page) == "Bench notes from Kiln Lane"
    assert page.locator(".masthead").evaluate("one => getComputedStyle(one).display") == "flex"


def test_nothing_is_kept_of_devices_that_were_not_opened(context: BrowserContext, address: str) -> None:
    page = context.new_page()
    page.goto(address)
    page.evaluate(READY)
    page.wait_for_timeout(300)
    names = page.evaluate("caches.keys()")
    assert [name.rsplit("@")[0].split(address)[1].strip() for name in names] == [""]
    context.set_offline(True)
    page.goto(f"{address}{GUIDE}")
    assert heading(page) == "Not kept on this device"


def test_a_changed_site_takes_the_place_of_the_old(context: BrowserContext, address: str, folder: Path) -> None:
    page, _ = read(context, f"{address}{GUIDE}")
    before = set(page.evaluate("caches.keys()"))
    guide, worker = folder / GUIDE, folder / "worker.js"
    old_guide, old_worker = guide.read_text("utf-8"), worker.read_text("utf-8")
    version = re.search(r'"tarn-5":\{"version":"(\w+)"', old_worker)
    assert version
    try:
        guide.write_text(old_guide.replace("I came for the", "Back for the"), "utf-8")
        worker.write_text(old_worker.replace(version[1], "0123456789abcdef"), "utf-8")
        page.evaluate("navigator.serviceWorker.ready.then(worker => worker.update()).then(() => 0)")
        old = json.dumps(next(key for key in before if "tarn-5@" in key))
        until(page, f"caches.keys().then(keys => !keys.includes({old}))")
        context.set_offline(True)
        page.reload()
        assert heading(page) == "Back for the charging port"
        after = set(page.evaluate("caches.keys()"))
        assert len(after) == len(before)
        assert before - after == {json.loads(old)}, "only the folder that changed is fetched again"
    finally:
        guide.write_text(old_guide, "utf-8")
        worker.write_text(old_worker, "utf-8")


def test_a_folder_that_cannot_be_fetched_whole_is_not_kept_in_part(
    context: BrowserContext, address: str, folder: Path
) -> None:
    missing = folder / "tarn-5/workings.html"
    text = missing.read_bytes()
    missing.unlink()
    try:
        page = context.new_page()
        page.goto(f"{address}{GUIDE}")
        page.evaluate(READY)
        page.wait_for_timeout(1500)
        assert not page.evaluate(KEPT)
        assert page.evaluate("caches.keys().then(keys => keys.filter(key => key.includes('tarn-5@')))") == []
    finally:
        missing.write_bytes(text)
