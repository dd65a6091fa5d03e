"""One step alone on a phone that stands behind the work: letters of the size that is read there, the figure on top."""

from __future__ import annotations

import math

import pytest
from playwright.sync_api import Browser, Page

from tests.reading.built import KINDS, Built
from tests.reading.layout import wrong_with
from tests.reading.opening import opened

AWAY = 700  # mm from the eye
PIXEL = 25.4 / 160  # mm, of a page on a phone
HEIGHTS = {"Bench Serif": 0.475, "Bench Mono": 1091 / 2000}
"""Of small letters, in em, as the fonts themselves say."""

ROUTE = KINDS["one step alone"].partition("#")[0]
READ = ".work__line span, .prose p, .back__prose p, .back__checks li, .panel__words p, .joints__name, .joints__size, .hand p"
TOLD = f"""() => [...document.querySelector(".leaf:target").querySelectorAll("{READ}")]
  .filter((one) => one.getClientRects().length)
  .map((one) => [one.className, getComputedStyle(one)])
  .map(([name, style]) => [name, style.fontFamily.split(",")[0].replaceAll('"', ""), parseFloat(style.fontSize)])"""


def minutes_of_arc(face: str, size: float) -> float:
    """How high small letters look from where they are read."""
    return math.degrees(math.atan(size * HEIGHTS[face] * PIXEL / AWAY)) * 60


def alone(page: Page, built: Built, name: str) -> None:
    page.goto("about:blank")
    page.goto(f"{(built.root / ROUTE).as_uri()}#only-{name}")


@pytest.mark.parametrize("width", [320, 360, 412])
def test_letters_are_ten_minutes_of_arc_high_and_fit(browser: Browser, built: Built, width: int) -> None:
    with opened(browser, built, "route", width) as page:
        leaves = page.locator(".leaf").evaluate_all("all => all.map(leaf => leaf.firstElementChild.id)")
        seen = 0
        for name in leaves:
            alone(page, built, name)
            told = page.evaluate(TOLD)
            small = [one for one in told if minutes_of_arc(one[1], one[2]) < 9.99]
            assert small == [], name
            assert wrong_with(page) == [], name
            seen += len(told)
        assert seen > 3 * len(leaves)
        page.goto(built.address("route"))
        size = page.locator(".step .work__words").first.evaluate("one => parseFloat(getComputedStyle(one).fontSize)")
        assert minutes_of_arc("Bench Serif", size) < 9  # in the whole page the text is that of a phone in the hand


@pytest.mark.parametrize("width", [320, 360])
def test_the_figure_stands_first(browser: Browser, built: Built, width: int) -> None:
    with opened(browser, built, "route", width) as page:
        for name in page.locator(".leaf > .step").evaluate_all("all => all.map(one => one.id)"):
            alone(page, built, name)
            figure = page.locator(".leaf:target .plan").first.bounding_box()
            head = page.locator(".leaf:target .step__number").bounding_box()
            words = page.locator(".leaf:target .work").bounding_box()
            assert figure and head and words, name
            assert figure["y"] + figure["height"] <= head["y"] < words["y"], name


def test_a_reader_with_large_text_keeps_it(browser: Browser, built: Built) -> None:
    with opened(browser, built, "one step alone", 360, text=32) as page:
        size = page.locator(".leaf:target .work__line").first.evaluate("one => parseFloat(getComputedStyle(one).fontSize)")
        assert size >= 38
