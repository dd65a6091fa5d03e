"""Picking a part in the figure of a device: links for everybody, boxes where scripts run."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from tests.pages.reading import Page
from tests.pages.sites import demo, demo_site

BROWSER = os.environ.get("PARTWAY_BROWSER") or shutil.which("chromium")
LEAST = 24  # px, WCAG 2.2, 2.5.8
needs_browser = pytest.mark.skipif(BROWSER is None, reason="NOTHING WAS PICKED: no browser found; set PARTWAY_BROWSER.")


def device_page() -> Page:
    text = demo_site()["tarn-5/index.html"]
    assert isinstance(text, str)
    return Page(text)


@pytest.mark.parametrize("name", ["stack-wide", "stack-narrow"])
def test_every_part_with_a_page_is_a_link_that_says_its_name(name: str) -> None:
    page = device_page()
    figure = next(svg for svg in page.all("svg", "stack") if svg.attributes["aria-labelledby"].startswith(name))
    assert figure.attributes["role"] == "group"
    listed = {link.attributes["href"]: link.words for table in page.all("table", "ways") for link in page.inside(table, "a")}
    links = {link.attributes["href"]: link.attributes["aria-label"] for link in page.inside(figure, "a", "stack__link")}
    assert set(links) == set(listed) and len(links) > 5
    for href, words in links.items():
        assert listed[href].lower() in words.lower()
        assert f"tarn-5/{href}" in demo_site()
    # The parts themselves lead there too, and are no second stop for the keyboard.
    things = page.inside(figure, "a", "stack__thing")
    assert {thing.attributes["href"] for thing in things} == set(links)
    assert all(thing.attributes["tabindex"] == "-1" and thing.attributes["aria-hidden"] == "true" for thing in things)


def test_figures_elsewhere_have_no_links() -> None:
    for path in ("tarn-5/guide.html", "tarn-5/to-battery.html"):
        text = demo_site()[path]
        assert isinstance(text, str) and "stack__link" not in text and "stack__thing" not in text


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("site")
    for path, data in demo_site().items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(data.encode("utf-8") if isinstance(data, str) else data)
    return folder


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as started:
        opened = started.chromium.launch(executable_path=BROWSER, args=["--no-sandbox", "--disable-gpu"])
        yield opened
        opened.close()


def opened(browser: Any, folder: Path, **how: Any) -> Any:
    page = browser.new_context(**how).new_page()
    page.goto((folder / "tarn-5/index.html").as_uri())
    return page


@needs_browser
@pytest.mark.parametrize("width", [360, 1280])
def test_targets_are_large_enough_and_apart(browser: Any, folder: Path, width: int) -> None:
    page = opened(browser, folder, viewport={"width": width, "height": 900}, java_script_enabled=False)
    boxes = [one.bounding_box() for one in page.locator(".stack__target:visible").all()]
    assert len(boxes) > 5
    assert all(box["width"] >= LEAST and box["height"] >= LEAST for box in boxes)
    for one, other in combinations(boxes, 2):
        beside = one["x"] + one["width"] <= other["x"] + 0.5 or other["x"] + other["width"] <= one["x"] + 0.5
        below = one["y"] + one["height"] <= other["y"] + 0.5 or other["y"] + other["height"] <= one["y"] + 0.5
        assert beside or below, (one, other)
    page.context.close()


@needs_browser
def test_without_scripts_the_figure_leads_to_the_part(browser: Any, folder: Path) -> None:
    page = opened(browser, folder, viewport={"width": 1280, "height": 900}, java_script_enabled=False)
    link = page.locator(".stack__link[href='to-battery.html']:visible")
    link.focus()
    focused = "getComputedStyle(document.activeElement.querySelector('.stack__target')).stroke"
    page.keyboard.press("Tab")
    page.keyboard.press("Shift+Tab")
    assert page.evaluate(focused) != "none"
    page.keyboard.press("Enter")
    page.wait_for_url("**/to-battery.html")
    page.go_back()
    page.locator(".stack--full .stack__thing[href='to-speaker-box.html'] .stack__top").click(position={"x": 30, "y": 60})
    page.wait_for_url("**/to-speaker-box.html")
    page.context.close()


@needs_browser
def test_with_scripts_boxes_and_figure_are_one(browser: Any, folder: Path) -> None:
    page = opened(browser, folder, viewport={"width": 1280, "height": 900})
    told: list[str] = []
    page.on("pageerror", lambda error: told.append(str(error)))
    battery = page.locator(".stack--full .stack__link[href='to-battery.html']")
    speaker = page.locator(".stack--full .stack__link[href='to-speaker-box.html']")
    boxes = page.locator(".ways input")
    name = demo().guides[0].part("battery").name  # type: ignore[arg-type]
    page.get_by_label(f"choose the {name}", exact=True).check()
    assert "stack__link--chosen" in battery.get_attribute("class")
    assert battery.get_attribute("role") is None
    page.get_by_label("tick parts in the figure instead of opening them").check()
    assert (battery.get_attribute("role"), battery.get_attribute("aria-checked")) == ("checkbox", "true")
    speaker.click()
    assert [box.is_checked() for box in boxes.all()].count(True) == 2
    assert page.locator(".pick__below").inner_text() == page.locator(".pick__said").inner_text()
    go = page.locator(".pick__go a").last
    assert go.get_attribute("href") == "several.html?battery+speaker-box"
    battery.focus()
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    page.keyboard.press("Space")
    assert battery.get_attribute("aria-checked") == "false"
    assert page.url.endswith("tarn-5/index.html")
    page.get_by_label("tick parts in the figure instead of opening them").uncheck()
    assert speaker.get_attribute("role") is None
    speaker.click()
    page.wait_for_url("**/to-speaker-box.html")
    assert told == []
    page.context.close()
