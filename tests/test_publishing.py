"""What a build writes works on any static host, from any folder of it, and without the film."""

from __future__ import annotations

import re
import shutil
import threading
from collections.abc import Iterator
from functools import partial
from html import unescape
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from click.testing import CliRunner
from playwright.sync_api import sync_playwright

from generator.commands import partway
from generator.source.reading import read_library
from tests.pages.reading import Page
from tests.scripts.running import browser_program

DEMO = Path(__file__).parents[1] / "content"
BELOW = "deep/er/notes"


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Says nothing: what was asked for is looked at in the browser."""


@pytest.fixture(scope="module")
def host(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, Path]]:
    """A plain static host on this machine alone, with the site in a folder below its root."""
    root = tmp_path_factory.mktemp("host")
    site = root / BELOW
    site.parent.mkdir(parents=True)
    built = CliRunner().invoke(partway, ["build", str(DEMO), "--to", str(site), "--no-packs"])
    assert built.exit_code == 0, built.output
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(root)))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/{BELOW}/", site
    server.shutdown()
    server.server_close()
    thread.join()


def test_no_page_has_an_address_that_starts_at_the_root(host: tuple[str, Path]) -> None:
    """All but the one for wrong addresses, which a host shows at any depth."""
    _, site = host
    pages = [path for path in sorted(site.rglob("*.html")) if path.name != "404.html"]
    assert len(pages) > 20
    for path in pages:
        for element in Page(path.read_text("utf-8")).elements:
            for key in ("href", "src"):
                value = element.attributes.get(key)
                if value:
                    pieces = urlsplit(value)
                    assert pieces.scheme in ("http", "https") or not value.startswith("/"), f"{path}: {value}"
    for path in site.rglob("*.css"):
        assert not re.search(r"url\(\s*[\"']?/", path.read_text("utf-8")), path
    for path in site.rglob("*.webmanifest"):
        assert ': "/' not in path.read_text("utf-8"), path


def test_a_site_in_a_folder_of_a_host_is_read_without_a_failure(host: tuple[str, Path]) -> None:
    address, _ = host
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=browser_program(), args=["--no-sandbox"])
        page = browser.new_page()
        heard: list[str] = []
        page.on("console", lambda message: heard.append(f"{message.location['url']} {message.text}"))
        page.on("response", lambda response: heard.append(response.url) if response.status >= 400 else None)
        page.on("request", lambda request: None if request.url.startswith(address) else heard.append(request.url))
        page.goto(address)
        page.click("text=Veldrun Tarn 5")
        page.click('#ways a[href="to-battery.html"]')
        assert page.url == f"{address}tarn-5/to-battery.html"
        page.wait_for_function("document.fonts.size > 0 && document.fonts.status === 'loaded'")
        assert page.evaluate("[...document.fonts].filter(font => font.status === 'loaded').length") > 0
        page.click('#film a[href="#step-unplug-battery"]')
        assert page.url.endswith("#step-unplug-battery")
        page.goto(f"{address}tarn-5/changes.html")
        # Browsers ask for the icon at the root of a host of their own accord.
        assert [told for told in heard if "/favicon.ico " not in told] == []
        browser.close()


def test_a_player_reads_the_tracks_of_a_site(host: tuple[str, Path]) -> None:
    """The browser's own reader of WebVTT, apart from the validator of the W3C."""
    address, site = host
    player = '<!doctype html><video><track kind="chapters" src="tarn-5/video/chapters.vtt" default>'
    player += '<track kind="captions" src="tarn-5/video/to-battery/overlay.vtt"></video>'
    (site / "player.html").write_text(player, "utf-8")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=browser_program(), args=["--no-sandbox"])
        page = browser.new_page()
        page.goto(f"{address}player.html")
        page.evaluate("for (const track of document.querySelector('video').textTracks) track.mode = 'hidden'")
        page.wait_for_function("[...document.querySelectorAll('track')].every(track => track.readyState === 2)")
        cues = page.evaluate(
            "[...document.querySelector('video').textTracks].map(track => [...track.cues].map("
            "cue => [cue.id, cue.startTime, cue.endTime, cue.text, cue.line]))"
        )
        browser.close()
    chapters, overlay = cues
    assert [cue[:4] for cue in chapters[:2]] == [
        ["step-take-out-sim-tray", 35, 70, "1. Draw out the SIM tray"],
        ["step-open-back", 75, 520, "2. Warm and lift the back glass"],
    ]
    assert len(chapters) == 20
    assert overlay[0] == ["step-open-back", 75, 83, "1. Warm and lift the back glass", 0]
    assert overlay[1] == ["step-open-back-on", 83, 520, "Step 1", 0]


def without_times(html: str) -> str:
    """The words of the pages' steps, without what leads to the film."""
    page = Page(html)
    return " ".join(re.sub(r"film\s[\d:]+", "", step.words) for step in page.all("article", "step"))


def test_the_guide_works_when_the_film_is_gone(tmp_path: Path) -> None:
    bare = Path(shutil.copytree(DEMO, tmp_path / "content"))
    device = bare / "tarn-5" / "device.yaml"
    device.write_text("".join(line for line in device.read_text("utf-8").splitlines(True) if "video:" not in line), "utf-8")
    sites = []
    for name, content in (("with", DEMO), ("without", bare)):
        built = CliRunner().invoke(partway, ["build", str(content), "--to", str(tmp_path / name), "--no-packs"])
        assert built.exit_code == 0, built.output
        sites.append(tmp_path / name)
    for page in ("guide.html", "to-battery.html", "to-display.html"):
        with_film, without = ((site / "tarn-5" / page).read_text("utf-8") for site in sites)
        assert without_times(with_film) == without_times(without)
        assert "watch/tarn-5" in with_film and "watch/tarn-5" not in without
        assert "film\u00a014:35" in without or "14:35" in without  # the times are said all the same
    for path in sites[0].rglob("*.html"):
        text = path.read_text("utf-8")
        assert not re.search(r"<(?:video|audio|iframe|embed|object)\b", text), path
        assert not [tag for tag in re.findall(r"<(?:img|script|link|source)[^>]*>", text) if "watch/tarn-5" in tag], path


def test_author_and_licence_stand_at_the_foot_of_every_page(host: tuple[str, Path]) -> None:
    _, site = host
    pages = [path for path in sorted(site.rglob("*.html")) if path.name not in ("player.html",)]
    for path in pages:
        text = unescape(path.read_text("utf-8"))
        if '<footer class="foot">' not in text:
            assert 'class="sheet' in text or "tray" in path.name or path.name == "offline.html", path
            continue
        foot = text.partition('<footer class="foot">')[2]
        assert re.search(r"(Written by|Verfasst von) Orla Tessendahl\. (Licence|Lizenz): CC BY-SA 4\.0\.", foot), path
        assert 'href="https://creativecommons.org/licenses/by-sa/4.0/" rel="license external noreferrer"' in foot, path


def test_a_change_is_suggested_at_the_file_of_the_step_and_at_its_line(host: tuple[str, Path], tmp_path: Path) -> None:
    _, site = host
    page = Page((site / "tarn-5" / "to-battery.html").read_text("utf-8"))
    links = [page.inside(line, "a")[0].attributes["href"] for line in page.all("p", "step__source")]
    assert len(links) == len(page.all("article", "step")) == 7
    assert "https://example.org/kiln-lane/sources/tarn-5/steps/unplug-battery.md" in links
    content = Path(shutil.copytree(DEMO, tmp_path / "content"))
    library = content / "library.yaml"
    library.write_text(library.read_text("utf-8").replace("{path}", "{path}#L{line}"), "utf-8")
    assert read_library(content).library.record is not None
    built = CliRunner().invoke(partway, ["build", str(content), "--to", str(tmp_path / "site"), "--no-packs"])
    assert built.exit_code == 0, built.output
    page = Page((tmp_path / "site" / "tarn-5" / "to-battery.html").read_text("utf-8"))
    led = [page.inside(line, "a")[0].attributes["href"] for line in page.all("p", "step__source")]
    for link in led:
        file, line = re.fullmatch(r"https://example.org/kiln-lane/sources/(.+)#L(\d+)", link).groups()  # type: ignore[union-attr]
        assert (content / file).read_text("utf-8").splitlines()[int(line) - 1].startswith("title:"), link
