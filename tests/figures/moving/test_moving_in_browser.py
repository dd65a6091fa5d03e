"""The moving picture in a real browser, from disk: it moves, it can be stopped, and it keeps still where that is asked."""

from __future__ import annotations

import io
import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Browser, Page, Playwright, sync_playwright

from generator.commands.folders import read_theme
from generator.figures.moving.drawing import moving_figure
from generator.figures.moving.geometry import moving_of
from generator.figures.stack.arrangement import arrange
from generator.pages.moving import moving_style
from tests.figures.stack.demo import demo

STATE = "getComputedStyle(document.querySelector('.moving__piece')).animationPlayState"
RUNNING = "document.getAnimations().filter(one => one.playState === 'running').length"
SEEK = "at => document.getAnimations().forEach(one => { one.pause(); one.currentTime = at })"


@pytest.fixture(scope="module")
def picture(tmp_path_factory: pytest.TempPathFactory) -> Path:
    arranged = arrange(demo(), demo().order)
    assert arranged is not None
    folder = tmp_path_factory.mktemp("moving")
    drawn = moving_figure(moving_of(arranged, "Tarn 5", "taken apart"), "moving", moving_style(read_theme()))
    (folder / "film.svg").write_text(drawn, "utf-8")
    page = '<!doctype html><meta name="color-scheme" content="light dark"><img src="film.svg" alt="" width="400">'
    (folder / "image.html").write_text(page, "utf-8")
    (folder / "object.html").write_text('<!doctype html><object data="film.svg" width="400"></object>', "utf-8")
    return folder


@pytest.fixture(scope="module")
def driver() -> Iterator[Playwright]:
    with sync_playwright() as playwright:
        yield playwright


@pytest.fixture(scope="module")
def browser(driver: Playwright) -> Iterator[Browser]:
    browser = launched(driver)
    yield browser
    browser.close()


def launched(playwright: Playwright, *arguments: str) -> Browser:
    named = os.environ.get("PARTWAY_BROWSER")
    program = named or next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    return playwright.chromium.launch(executable_path=program, args=["--no-sandbox", *arguments])


def opened(
    browser: Browser, picture: Path, name: str = "film.svg", motion: Any = "no-preference", scheme: Any = "light"
) -> Page:
    known = {"reduced_motion": motion, "color_scheme": scheme, "viewport": {"width": 500, "height": 900}}
    context = browser.new_context(offline=True, **known)
    page = context.new_page()
    page.goto((picture / name).as_uri())
    return page


def middle_of(page: Page, part: str) -> float:
    return float(
        page.evaluate(f"(r => r.top + r.height / 2)(document.getElementById('moving-{part}').getBoundingClientRect())")
    )


def test_it_moves_and_two_times_look_different(browser: Browser, picture: Path) -> None:
    page = opened(browser, picture)
    assert page.evaluate(RUNNING) > 50
    page.evaluate(SEEK, 500)
    first, start = page.screenshot(), middle_of(page, "back")
    page.evaluate(SEEK, 20_000)
    assert page.screenshot() != first
    assert middle_of(page, "back") < start - 100
    page.context.close()


def test_parts_stand_assembled_at_first_and_in_the_stack_at_rest(browser: Browser, picture: Path) -> None:
    page = opened(browser, picture)
    page.evaluate(SEEK, 0)
    frame, assembled = middle_of(page, "frame"), middle_of(page, "back")
    assert abs(assembled - frame) < 12  # the back lies on the frame
    page.evaluate(SEEK, 57_000)
    rest = middle_of(page, "back")
    still = opened(browser, picture, motion="reduce")
    assert middle_of(still, "back") == pytest.approx(rest, abs=0.5)
    assert middle_of(still, "frame") == pytest.approx(frame, abs=0.5)
    still.context.close()
    page.context.close()


def test_with_less_motion_asked_for_nothing_is_animated(browser: Browser, picture: Path) -> None:
    page = opened(browser, picture, motion="reduce")
    assert page.evaluate("document.getAnimations().length") == 0
    assert page.evaluate("getComputedStyle(document.querySelector('.moving__control')).display") == "none"
    shown = page.evaluate(
        "[...document.querySelectorAll('.moving__heading')].filter(one => getComputedStyle(one).opacity > 0).length"
    )
    assert shown == 1
    page.context.close()


@pytest.mark.parametrize("name", ["film.svg", "object.html"])
def test_the_checkbox_stops_it_by_mouse_and_by_key(browser: Browser, picture: Path, name: str) -> None:
    page = opened(browser, picture, name)
    frame = page if name.endswith(".svg") else page.frames[-1]
    assert frame.evaluate(STATE).startswith("running")
    frame.locator("input").check()
    assert set(frame.evaluate(STATE).split(", ")) == {"paused"}
    held = page.screenshot()
    page.wait_for_timeout(400)
    assert page.screenshot() == held
    frame.locator("input").focus()
    page.keyboard.press("Space")
    assert frame.evaluate(STATE).startswith("running")
    page.context.close()


def test_in_an_image_it_moves_too(browser: Browser, picture: Path) -> None:
    page = opened(browser, picture, "image.html")
    page.wait_for_timeout(2200)  # the first step has begun
    first = page.screenshot()
    page.wait_for_timeout(900)
    assert page.screenshot() != first
    page.context.close()


def test_in_an_image_it_keeps_still_for_readers_whose_system_asks_for_that(driver: Playwright, picture: Path) -> None:
    """The whole browser is told here: what a test tells one page does not reach the images in it."""
    quiet = launched(driver, "--force-prefers-reduced-motion")
    page = opened(quiet, picture, "image.html")
    page.wait_for_timeout(500)
    first = page.screenshot()
    page.wait_for_timeout(3000)
    assert page.screenshot() == first
    quiet.close()


@pytest.mark.parametrize("name", ["film.svg", "image.html"])
def test_in_the_dark_no_part_stays_light(browser: Browser, picture: Path, name: str) -> None:
    page = opened(browser, picture, name, scheme="dark")
    page.wait_for_timeout(600)
    image = Image.open(io.BytesIO(page.screenshot())).convert("L")
    assert sum(image.histogram()[200:]) < 0.03 * image.width * image.height  # lines and words only
    page.context.close()
