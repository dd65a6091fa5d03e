"""Everything by keys alone: from the library to a part, out and back, with the focus always where the eye can find it."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page

from tests.reading.built import Built
from tests.reading.keyboard import MOST, Stop, here, listeners_without_focus, not_reached, pressed, round_of, wrong_with
from tests.reading.opening import opened

KINDS = (
    "library", "library of many", "compare", "device", "route", "blocked", "several", "several, laid out", "one step alone",
    "tools", "safety", "find", "alphabet", "workings", "tray", "not found", "moved",
)  # fmt: skip
NARROW = ("library", "device", "route", "several, laid out", "one step alone")


@pytest.mark.parametrize(("kind", "width"), [*((kind, 1280) for kind in KINDS), *((kind, 360) for kind in NARROW)])
def test_the_focus_goes_through_the_page_in_its_order_and_is_always_seen(
    browser: Browser, built: Built, kind: str, width: int
) -> None:
    with opened(browser, built, kind, width) as page:
        stops = round_of(page)
        assert wrong_with(stops) == []
        assert not_reached(page, stops) == []
        assert listeners_without_focus(page) == []


def test_what_is_wrong_is_found(browser: Browser, built: Built) -> None:
    with opened(browser, built, "safety") as page:
        page.evaluate(
            "const links = document.querySelectorAll('a');"
            "links[1].style.outline = 'none'; links[2].tabIndex = -1; links[2].href += '?'; links[3].tabIndex = 1;"
            "document.querySelector('h1').addEventListener('click', () => 0)"
        )
        stops = round_of(page)
        told = [line.partition(":")[0] for line in wrong_with(stops)]
        assert set(told) == {"cannot be seen to have the focus", "comes late"}
        assert len(not_reached(page, stops)) == 1
        assert len(listeners_without_focus(page)) == 1
        page.evaluate("addEventListener('keydown', (event) => event.key === 'Tab' && event.preventDefault(), true)")
        page.keyboard.press("Tab")
        held = here(page)
        assert held is not None and "a ring" in wrong_with([held] * MOST)[0]


@pytest.mark.parametrize("kind", ["library", "device", "route", "safety", "find"])
def test_the_first_stop_skips_to_what_the_page_is_about(browser: Browser, built: Built, kind: str) -> None:
    with opened(browser, built, kind) as page:
        skip = round_of(page)[0]
        page.goto("about:blank")
        page.goto(built.address(kind))
        page.locator("a.skip").focus()
        assert here(page) == skip and skip.href.startswith("#")
        target = page.evaluate("id => [...document.querySelectorAll('*')].findIndex(one => one.id === id)", skip.href[1:])
        after = pressed_on(page, "Enter")
        masthead = page.evaluate("[...document.querySelectorAll('*')].indexOf(document.querySelector('.masthead__shared'))")
        assert masthead < target < after.index


def pressed_on(page: Page, key: str) -> Stop:
    """Where Tab leads after a key that moved the page."""
    page.keyboard.press(key)
    stop = pressed(page)
    assert stop is not None
    return stop


def tab_to(page: Page, wanted: str) -> Stop:
    """Presses Tab until what the selector names has the focus; on the way nothing may be wrong."""
    stops: list[Stop] = []
    while len(stops) < MOST:
        stop = pressed(page)
        assert stop is not None, f"{wanted} never has the focus"
        stops.append(stop)
        if page.evaluate("wanted => document.activeElement.matches(wanted)", wanted):
            assert wrong_with(stops) == []
            return stop
    raise AssertionError(f"{wanted} never has the focus")


def place_of(page: Page) -> str:
    return str(page.evaluate("location.hash.slice(1)"))


@pytest.mark.parametrize("width", [1280, 360])
def test_a_part_is_reached_and_the_device_closed_by_keys_alone(browser: Browser, built: Built, width: int) -> None:
    with opened(browser, built, "library", width) as page:
        tab_to(page, "a[href='tarn-5/index.html']")
        page.keyboard.press("Enter")
        page.wait_for_url("**/tarn-5/index.html")
        tab_to(page, ".tick--pick:has(+ a[href='to-charging-port.html']) input")
        page.keyboard.press("Space")
        tab_to(page, ".pick__go a")
        page.keyboard.press("Enter")
        page.wait_for_url("**/to-charging-port.html")
        leaves = page.locator(".leaf").evaluate_all("all => all.map(leaf => leaf.firstElementChild.id)")
        steps = [name for name in leaves if name.startswith(("step-", "back-"))]
        assert leaves[0].startswith("step-") and leaves[-2:] == [steps[-1], "leftover"]
        for name in leaves:
            page.keyboard.press("n")
            assert place_of(page) == name
            first = pressed(page)
            inside = "id => document.getElementById(id).parentElement.contains(document.activeElement)"
            assert first is not None and page.evaluate(inside, name), f"after n at {name}: {first}"
            assert wrong_with([first]) == []
            if name in steps:
                if not page.evaluate("document.activeElement.matches('.leaf__foot input')"):
                    tab_to(page, ".leaf__foot input")
                assert page.evaluate(inside, name)
                page.keyboard.press("Space")
        page.keyboard.press("p")
        assert place_of(page) == leaves[-2]
        page.keyboard.press("n")
        lines = page.locator(".leftover__screws tbody tr").count()
        for _ in range(lines):
            tab_to(page, ".leftover__screws input")
            page.keyboard.press("Space")
        assert page.locator(".leftover__screws input:checked").count() == lines > 0
        assert page.locator(".leaf__foot input:checked").count() == len(steps)
        assert page.locator(".desk__go").get_attribute("href") == "#leftover"


def test_one_step_at_a_time_goes_by_the_same_keys_and_they_can_be_turned_off(browser: Browser, built: Built) -> None:
    with opened(browser, built, "route", 360) as page:
        tab_to(page, ".desk__keys input")
        page.keyboard.press("Space")
        page.keyboard.press("n")
        assert place_of(page) == ""
        page.keyboard.press("Space")
        page.keyboard.press("n")
        first = place_of(page)
        assert first.startswith("step-")
        page.goto(built.address("route"))
        tab_to(page, ".desk__alone")
        page.keyboard.press("Enter")
        assert place_of(page) == f"only-{first}"
        page.keyboard.press("n")
        second = place_of(page)
        assert second.startswith("only-step-") and second != f"only-{first}"
        stop = tab_to(page, ".leaf:target .leaf__mode.leaf__in-one")
        page.keyboard.press("Enter")
        assert place_of(page) == second.removeprefix("only-") and stop.href == f"#{place_of(page)}"
