"""The preview in a real browser and by raw requests: anew on every save, the last good page when a file breaks."""

from __future__ import annotations

import http.client
import shutil
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlencode

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser, Page, expect, sync_playwright

from generator.commands import partway
from generator.commands.folders import load_library, read_theme, shipped
from generator.commands.preview.server import ADDRESS, PreviewServer, editor_words
from generator.commands.preview.shelf import Shelf
from generator.commands.preview.watching import watch
from generator.handover.previewed import OPEN, OWN
from generator.pages.site import one_page, render_device
from generator.pages.survey import survey_of
from tests.review.corrections import LIBRARY
from tests.scripts.running import browser_program

STEP = "tarn-5/steps/unplug-screen.md"


@pytest.fixture(scope="module")
def preview(tmp_path_factory: pytest.TempPathFactory) -> Iterator[PreviewServer]:
    """A preview of a library of its own, with an editor that notes what it was asked to open."""
    folder = tmp_path_factory.mktemp("preview")
    root = Path(shutil.copytree(LIBRARY, folder / "content"))
    note = f"import sys; open({str(folder / 'opened')!r}, 'a').write(repr(sys.argv[1:]))"
    own = {path.name: path.read_text("utf-8") for path in (shipped("themes") / "bench" / "preview").iterdir()}
    shelf = Shelf(root, read_theme())
    server = PreviewServer(shelf, 0, (sys.executable, "-c", note, "{file}", "{line}", "{column}"), own)
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
    with watch(root, shelf), server:
        thread.start()
        yield server
        server.shutdown()


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=browser_program(), args=["--no-sandbox"])
        yield browser
        browser.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    page = browser.new_page()
    page.set_default_timeout(20_000)
    yield page
    page.close()


@pytest.fixture
def step(preview: PreviewServer) -> Iterator[Path]:
    """A step file that is as it was again after the test."""
    path = preview.shelf.root / STEP
    text = path.read_text("utf-8")
    yield path
    path.write_text(text, "utf-8")
    waited = time.monotonic() + 20
    while preview.shelf.findings("tarn-5") and time.monotonic() < waited:
        time.sleep(0.05)


def asked(
    preview: PreviewServer, method: str, path: str, body: str | None = None, **headers: str
) -> tuple[int, str, http.client.HTTPMessage]:
    connection = http.client.HTTPConnection(ADDRESS, preview.server_address[1], timeout=30)
    sent = {name.replace("_", "-"): value for name, value in headers.items()}
    connection.request(method, path, body, sent)
    answer = connection.getresponse()
    text = answer.read().decode("utf-8", "replace")
    connection.close()
    return answer.status, text, answer.headers


# --- in the browser --------------------------------------------------------------------------------------------------


def test_a_saved_word_is_on_the_page_without_being_asked_for(preview: PreviewServer, page: Page, step: Path) -> None:
    page.goto(f"{preview.address}tarn-5/to-display.html")
    step.write_text(step.read_text("utf-8").replace("Raise the", "Gently raise the"), "utf-8")
    expect(page.get_by_text("Gently raise the").first).to_be_attached(timeout=20_000)


def test_a_broken_file_leaves_the_last_good_page_with_the_fault_on_top(
    preview: PreviewServer, page: Page, step: Path
) -> None:
    page.goto(f"{preview.address}tarn-5/guide.html")
    text = step.read_text("utf-8")
    step.write_text(text.replace("work:\n", "work:\n\t- x\n"), "utf-8")
    panel = page.locator(".preview-panel[open]")
    expect(panel).to_contain_text("This is the page as it was before the last change", timeout=20_000)
    expect(panel).to_contain_text("A tab stands where blanks belong.")
    expect(page.locator("#step-unplug-screen")).to_contain_text("Unplug the screen")
    step.write_text(text, "utf-8")
    expect(page.locator(".preview-panel")).to_have_count(0, timeout=20_000)


def test_a_finding_stands_beside_its_step(preview: PreviewServer, page: Page, step: Path) -> None:
    page.goto(f"{preview.address}tarn-5/guide.html")
    step.write_text(step.read_text("utf-8").replace("undo: display-plug", "undo: port-screws"), "utf-8")
    beside = page.locator("#step-unplug-screen .preview-note")
    expect(beside).to_contain_text("undone twice", timeout=20_000)
    expect(page.locator(".preview-panel")).to_contain_text("tarn-5/steps/unplug-screen.md:5:11")


def test_a_step_opens_its_file_at_the_line(preview: PreviewServer, page: Page) -> None:
    opened = preview.shelf.root.parent / "opened"
    page.goto(f"{preview.address}tarn-5/guide.html")
    page.locator("#step-unplug-screen .preview-opener button").first.click()
    waited = time.monotonic() + 20
    while not opened.exists() and time.monotonic() < waited:
        time.sleep(0.05)
    assert opened.read_text() == repr([str((preview.shelf.root / STEP).resolve()), "1", "1"])
    assert page.url.endswith("tarn-5/guide.html")


def test_no_page_of_the_preview_offers_to_be_kept(preview: PreviewServer, page: Page) -> None:
    page.goto(preview.address)
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then(all => all.length)") == 0
    assert page.locator("script[src*='install']").count() == 0


# --- by raw requests -------------------------------------------------------------------------------------------------


def test_only_the_loopback_address_answers(preview: PreviewServer) -> None:
    assert preview.server_address[0] == "127.0.0.1"


@pytest.mark.parametrize(
    "headers", [{"Host": "elsewhere.example"}, {"Host": ""}, {"Origin": "https://elsewhere.example"}, {"Origin": "null"}]
)
def test_a_page_from_elsewhere_is_refused(preview: PreviewServer, headers: dict[str, str]) -> None:
    status, text, _ = asked(preview, "GET", "/tarn-5/guide.html", **headers)
    assert status == 403 and "Veldrun" not in text


@pytest.mark.parametrize(
    "path",
    ["/../device.yaml", "/tarn-5/../../x", "/%2e%2e/etc/passwd", "/tarn-5/steps/unplug-screen.md", "/-/shelf.py", "//x"],
)
def test_nothing_but_the_site_is_sent(preview: PreviewServer, path: str) -> None:
    assert asked(preview, "GET", path)[0] == 404


@pytest.mark.parametrize(
    ("fields", "status"),
    [
        ({"token": "guessed", "file": STEP}, 403),
        ({"file": STEP}, 403),
        ({"token": None, "file": "../secret"}, 404),
        ({"token": None, "file": STEP, "line": "1; rm"}, 404),
    ],
)
def test_only_files_that_were_read_are_opened_and_only_for_the_page(
    preview: PreviewServer, fields: dict[str, str | None], status: int
) -> None:
    sent = {name: preview.token if value is None else value for name, value in fields.items()}
    assert asked(preview, "POST", OPEN, urlencode(sent))[0] == status


def test_a_wish_without_end_is_refused(preview: PreviewServer) -> None:
    assert asked(preview, "POST", OPEN, "x" * 9_000)[0] == 413
    assert asked(preview, "POST", f"{OWN}other", "x")[0] == 404


def test_what_is_not_there_is_told_in_words(preview: PreviewServer) -> None:
    status, text, headers = asked(preview, "GET", "/tarn-5/to-nothing.html")
    assert status == 404 and "There is no such page." in text
    assert "frame-ancestors 'none'" in headers["Content-Security-Policy"]


# --- the rest --------------------------------------------------------------------------------------------------------


def test_a_page_made_alone_is_the_page_of_the_build() -> None:
    theme = read_theme()
    library = load_library(LIBRARY)
    (guide,) = library.guides
    survey = survey_of(library, guide)
    built = render_device(library, guide, theme)
    alone = {path: page for path in built if (page := one_page(survey, theme, path.partition("/")[2])) is not None}
    assert {path.partition("/")[2] for path in alone} >= {"index.html", "guide.html", "workings.html", "to-battery.html"}
    assert all(built[path] == page for path, page in alone.items())


def test_a_new_device_is_shown_and_one_that_cannot_be_read_says_why(tmp_path: Path) -> None:
    root = Path(shutil.copytree(LIBRARY, tmp_path / "content"))
    shelf = Shelf(root, read_theme())
    shutil.copytree(root / "tarn-5", root / "tarn-6")
    (root / "tarn-6" / "anatomy.yaml").write_text("parts: [", "utf-8")
    shelf.read([root / "tarn-6" / "device.yaml"])
    assert shelf.show("tarn-6/guide.html") is None
    assert any(found.rule == "file/yaml" for found in shelf.findings("tarn-6"))
    shutil.copy(root / "tarn-5" / "anatomy.yaml", root / "tarn-6" / "anatomy.yaml")
    shelf.read([root / "tarn-6" / "anatomy.yaml"])
    shown = shelf.show("tarn-6/guide.html")
    assert shown is not None and not shown.is_old
    shutil.rmtree(root / "tarn-6")
    shelf.read([root / "tarn-6"])
    assert shelf.show("tarn-6/guide.html") is None
    shutil.rmtree(root)
    shelf.read([root / "library.yaml"])
    assert shelf.show("tarn-5/guide.html") is not None
    assert "no folder" in shelf.trouble


@pytest.mark.parametrize("command", ["edit", "edit 'half", "{file}"])
def test_an_editor_command_that_cannot_work_is_refused(command: str, tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="editor command"):
        editor_words(command)
    result = CliRunner().invoke(partway, ["preview", str(LIBRARY), "--editor", command])
    assert result.exit_code == 2 and "editor command" in result.output


def test_a_taken_port_and_a_missing_folder_are_told(preview: PreviewServer, tmp_path: Path) -> None:
    taken = CliRunner().invoke(partway, ["preview", str(LIBRARY), "--port", str(preview.server_address[1])])
    assert taken.exit_code == 2 and "cannot be used" in taken.output
    missing = CliRunner().invoke(partway, ["preview", str(tmp_path / "nowhere")])
    assert missing.exit_code == 2 and "no folder" in missing.output
