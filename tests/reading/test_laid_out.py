"""Every kind of page at the widths of phones and desks, and with large text: nothing cut, covered or beyond the screen."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser

from tests.reading.built import KINDS, Built
from tests.reading.layout import wrong_with
from tests.reading.opening import opened

WIDTHS = (320, 360, 640, 768, 1130, 1280)


def test_what_is_wrong_is_found(browser: Browser, built: Built) -> None:
    with opened(browser, built, "safety", 360) as page:
        page.evaluate(
            "document.querySelector('h1').style.whiteSpace = 'nowrap';"
            "document.querySelector('.head__lede').style.marginTop = '-40px';"
            "document.querySelector('.foot p').style.cssText = 'overflow: hidden; height: 20px'"
        )
        found = " ".join(wrong_with(page))
        assert "cut off" in found and "lies upon" in found
        page.evaluate("document.querySelector('h1').style.width = '500px'")
        assert "scrolls sideways" in " ".join(wrong_with(page))


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_cut_or_covered_or_beyond_the_screen(browser: Browser, built: Built, kind: str) -> None:
    with opened(browser, built, kind, WIDTHS[0]) as page:
        for width in WIDTHS:
            page.set_viewport_size({"width": width, "height": 800})
            assert wrong_with(page) == [], f"{width} px"


@pytest.mark.parametrize("kind", KINDS)
def test_text_can_be_twice_as_large(browser: Browser, built: Built, kind: str) -> None:
    """The size set in the browser counts, and so does the size of the root where something else sets that."""
    with opened(browser, built, kind, 1280, text=32) as page:
        assert page.evaluate("getComputedStyle(document.body).fontSize") == "38px"
        assert wrong_with(page) == [], "browser's size 32 px"
    with opened(browser, built, kind, 1280) as page:
        assert page.evaluate("getComputedStyle(document.body).fontSize") == "19px"
        page.evaluate("document.documentElement.style.fontSize = '200%'")
        assert page.evaluate("getComputedStyle(document.body).fontSize") == "38px"
        assert wrong_with(page) == [], "root of 200 %"


def test_no_text_of_a_page_has_a_size_in_pixels(built: Built) -> None:
    """Only figures do: their letters belong to their own measure."""
    rules = re.findall(r"([^{}]+)\{([^{}]*)\}", built.text_of("demo/style.css"))
    fixed = [head.strip() for head, body in rules if re.search(r"font(-size)?:[^;]*\dpx", body)]
    figures = r"\.(plan|stack|rail|order-map|index-line|glyph|depth|reach|tray)(__|--|\b)|\.photo__number"
    assert fixed and [head for head in fixed if not re.search(figures, head)] == []
