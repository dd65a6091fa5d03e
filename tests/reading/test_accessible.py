"""The accessibility rules of axe, WCAG 2.2 AA and good practice, on one page of every kind; headings and landmarks."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from tests.reading.built import KINDS, Built
from tests.reading.opening import opened

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
ALL: dict[str, Any] = {"runOnly": TAGS, "resultTypes": ["violations"]}
NO_COLOURS: dict[str, Any] = {**ALL, "rules": {"color-contrast": {"enabled": False}}}


def told(page: Page, rules: dict[str, Any]) -> list[tuple[str, list[Any]]]:
    found = Axe().run(page, options=rules).response["violations"]
    return [(entry["id"], [node["target"] for node in entry["nodes"]][:3]) for entry in found]


def test_what_is_wrong_is_found(browser: Browser, built: Built) -> None:
    with opened(browser, built, "find", bypass_csp=True) as page:
        page.evaluate("document.documentElement.lang = ''; document.querySelector('h1').style.color = '#eee'")
        assert {name for name, _ in told(page, ALL)} >= {"html-has-lang", "color-contrast"}


@pytest.mark.parametrize("kind", KINDS)
def test_axe_finds_nothing(browser: Browser, built: Built, kind: str) -> None:
    """In light, in dark on a phone, and enlarged to 200 %, which lays a screen of 1280 px out as one of 640."""
    with opened(browser, built, kind, bypass_csp=True) as page:
        for scheme, width, rules in (("light", 1280, ALL), ("dark", 360, ALL), ("light", 640, NO_COLOURS)):
            page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
            page.set_viewport_size({"width": width, "height": 800})
            assert told(page, rules) == [], f"{scheme}, {width} px"


@pytest.mark.parametrize("kind", KINDS)
def test_headings_and_landmarks_tell_how_the_page_is_made(browser: Browser, built: Built, kind: str) -> None:
    """One first heading (a chapter, where a guide is one page), no level skipped, one main part, navigation named."""
    with opened(browser, built, kind, java_script_enabled=kind == "several, laid out") as page:
        levels = page.locator("h1, h2, h3, h4, h5, h6").evaluate_all(
            "all => all.filter(one => !one.closest('template')).map(one => Number(one.tagName[1]))"
        )
        firsts = page.locator(".chapter").count() or 1
        assert levels.count(1) == firsts and levels[0] == 1
        assert [(one, other) for one, other in pairwise(levels) if other > one + 1] == []
        assert page.locator("main").count() == 1
        unnamed = page.locator("nav:not([aria-label]):not([aria-labelledby])").count()
        assert unnamed == 0
        names = page.locator("nav").evaluate_all(
            "all => all.map(one => one.getAttribute('aria-label') || one.getAttribute('aria-labelledby'))"
        )
        assert len(set(names)) == len(names)
        assert page.evaluate("document.title").strip()
        named = "all => all.flatMap(one => one.getAttribute('aria-labelledby').split(' '))"
        ids = page.locator("[aria-labelledby]").evaluate_all(named)
        lost = [one for one in ids if page.locator(f"[id='{one}']").count() == 0]
        assert lost == []
