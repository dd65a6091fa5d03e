"""What the scripts add for a reader, and what is there without them: in a real browser, from disk, offline."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from click.testing import CliRunner
from playwright.sync_api import Browser, Page, sync_playwright

from generator.anatomy.parts import PartId
from generator.commands import partway
from generator.orders.routes import Route, best_route
from generator.pages.entries import entries_of
from tests.pages.sites import demo
from tests.scripts.running import browser_program

CONTENT = Path(__file__).parents[1] / "content"
RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}
NARROW = {"width": 360, "height": 780}
TRIO = ("battery", "charging-port", "rear-camera")


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("read") / "site"
    result = CliRunner().invoke(partway, ["build", str(CONTENT), "--to", str(folder)])
    assert result.exit_code == 0, result.output
    return folder


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=browser_program(), args=["--no-sandbox"])
        yield browser
        browser.close()


def opened(browser: Browser, site: Path, address: str, **known: Any) -> tuple[Page, list[str]]:
    name = re.split("[?#]", address)[0]
    rest = address.removeprefix(name)
    page = browser.new_context(offline=True, reduced_motion="reduce", **known).new_page()
    page.set_default_timeout(5000)
    heard: list[str] = []
    page.on("console", lambda message: heard.append(message.text))
    page.on("pageerror", lambda error: heard.append(str(error)))
    page.goto(f"{(site / name).as_uri()}{rest}")
    return page, heard


def route_to(*parts: str) -> Route:
    route = best_route(demo().guides[0], tuple(PartId(part) for part in parts))
    assert isinstance(route, Route)
    return route


def test_several_parts_are_ticked_and_their_one_way_is_laid_out_as_the_program_would(browser: Browser, site: Path) -> None:
    guide = demo().guides[0]
    page, heard = opened(browser, site, "tarn-5/index.html")
    for part in TRIO:
        page.get_by_label(f"choose the {guide.part(PartId(part)).name}", exact=True).check()
    route = route_to(*TRIO)
    assert f"{len(route.steps)}\u00a0steps out" in (page.locator(".pick__said").text_content() or "")
    page.locator(".pick__go a").first.click()
    page.wait_for_selector("article.step")
    laid = page.locator("article").evaluate_all("all => all.map(one => one.id)")
    steps = [step.id for step in route.steps]
    assert laid == [*(f"step-{step}" for step in steps), *(f"back-{step}" for step in reversed(steps))]
    numbers = page.locator(".step__number, .back__number").all_text_contents()
    assert numbers == [str(number) for number in range(1, 2 * len(steps) + 1)]
    assert "1000" not in page.locator("main").inner_text() and "2000" not in page.locator("main").inner_text()
    assert heard == []
    page.context.close()


def test_ticks_outlast_the_page_and_lead_on(browser: Browser, site: Path) -> None:
    page, heard = opened(browser, site, "tarn-5/to-battery.html")
    boxes = page.locator(".leaf__foot .tick input")
    boxes.nth(0).check()
    boxes.nth(1).check()
    page.locator(".leftover__screws input").first.check()
    page.reload()
    assert page.locator(".leaf__foot .tick input:checked").count() == 2
    assert page.locator(".leftover__screws input:checked").count() == 1
    assert page.locator(".desk__go").inner_text() == "Go on at step 3"
    page.locator(".desk__go").click()
    third = page.locator("article.step").nth(2).get_attribute("id")
    assert page.evaluate("location.hash") == f"#{third}"
    page.get_by_role("button", name="Clear the ticks").click()
    assert page.locator(".tick input:checked").count() == 1  # that of the keys
    page.get_by_role("button", name="Put the ticks back").click()
    assert page.locator(".leaf__foot .tick input:checked").count() == 2
    assert heard == []
    page.context.close()


def test_where_nothing_is_kept_the_page_says_so(browser: Browser, site: Path) -> None:
    context = browser.new_context(offline=True)
    context.add_init_script("Object.defineProperty(window, 'localStorage', {get() { throw new Error('refused'); }})")
    page = context.new_page()
    page.goto((site / "tarn-5/to-battery.html").as_uri())
    page.locator(".leaf__foot .tick input").first.check()
    assert "keeps nothing" in page.locator(".desk__line--ticks .desk__said").inner_text()
    context.close()


def test_keys_page_through_the_steps_and_can_be_turned_off(browser: Browser, site: Path) -> None:
    page, _ = opened(browser, site, "tarn-5/to-battery.html")
    steps = page.locator("article.step").evaluate_all("all => all.map(one => '#' + one.id)")
    for key, wanted in (("n", 0), ("n", 1), ("n", 2), ("p", 1)):
        page.keyboard.press(key)
        assert page.evaluate("location.hash") == steps[wanted]
    page.keyboard.press("Control+n")
    assert page.evaluate("location.hash") == steps[1]
    page.locator(".desk__keys input").uncheck()
    page.keyboard.press("n")
    assert page.evaluate("location.hash") == steps[1]
    page.context.close()


@pytest.mark.parametrize("runs", [True, False])
def test_one_step_at_a_time_needs_no_script(browser: Browser, site: Path, runs: bool) -> None:
    page, heard = opened(browser, site, "tarn-5/to-battery.html", viewport=NARROW, java_script_enabled=runs)
    page.locator(".desk__alone").click()
    assert page.locator("article:visible").count() == 1
    page.locator(".leaf__link--next:visible").click()
    assert page.locator("article:visible").count() == 1
    assert "step\u00a02 of\u00a07" in (page.locator(".leaf__here:visible").text_content() or "")
    box = page.locator(".leaf__link--next:visible").bounding_box()
    assert box and min(box["height"], box["width"]) >= 44 and box["y"] + box["height"] <= NARROW["height"] + 1
    page.get_by_role("link", name="The whole page").click()
    assert page.locator("article:visible").count() == 14
    assert heard == []
    page.context.close()


def test_what_is_jumped_to_is_not_under_the_bar(browser: Browser, site: Path) -> None:
    page, _ = opened(browser, site, "tarn-5/to-battery.html#step-unplug-battery", viewport=NARROW)
    title = page.locator("#step-unplug-battery .step__title").bounding_box()
    bar = page.locator("#only-step-unplug-battery .leaf__bar").bounding_box()
    assert title and bar and title["y"] >= 0 and title["y"] + title["height"] <= bar["y"]
    page.context.close()


def test_words_are_found_though_a_letter_is_wrong(browser: Browser, site: Path) -> None:
    page, heard = opened(browser, site, "find.html")
    page.locator("input[type=search]").fill("batery")
    assert page.locator(".find__name").first.inner_text() == "battery"
    assert page.locator(".find__count").inner_text().endswith("found")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    page.wait_for_url("**/tarn-5/to-battery.html")
    page.go_back()
    assert page.locator("input[type=search]").input_value() == "batery"
    page.locator("input[type=search]").fill("zzzzqqq")
    assert "Nothing found" in page.locator(".find__count").inner_text()
    assert heard == []
    page.context.close()


def test_without_scripts_the_index_has_everything(browser: Browser, site: Path) -> None:
    page, _ = opened(browser, site, "index-a-z.html", java_script_enabled=False)
    links = set(page.locator("#letters a.letters__place").evaluate_all("all => all.map(one => one.getAttribute('href'))"))
    assert {entry.href for entry in entries_of(demo()) if entry.kind != "note"} <= links
    assert page.locator("#screws tbody tr").count() >= 3
    page.context.close()
    page, _ = opened(browser, site, "find.html", java_script_enabled=False)
    assert page.locator("#find a").get_attribute("href") == "index-a-z.html"
    page.context.close()
    page, _ = opened(browser, site, "tarn-5/several.html", java_script_enabled=False)
    assert page.locator("#pairs tbody tr").count() > 20
    assert page.locator("article").count() == 0
    page.context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_axe_finds_nothing_in_what_scripts_add(browser: Browser, site: Path, scheme: str, width: int) -> None:
    alone = "tarn-5/to-battery.html#only-step-open-back"
    for name in ("tarn-5/several.html?battery+charging-port", "find.html#q=batery", alone):
        page, heard = opened(
            browser, site, name, color_scheme=scheme, viewport={"width": width, "height": 800}, bypass_csp=True
        )
        assert page.evaluate("document.documentElement.scrollWidth") <= width, name
        assert heard == [], name
        found = Axe().run(page, options=RULES).response["violations"]
        assert [(entry["id"], [node["target"] for node in entry["nodes"]][:3]) for entry in found] == [], name
        page.context.close()
