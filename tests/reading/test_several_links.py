"""The page for several parts laid out by its script: every link within the site leads to something that is there."""

from __future__ import annotations

from itertools import combinations
from urllib.parse import unquote, urlsplit

import pytest
from playwright.sync_api import Browser

from tests.reading.built import Built
from tests.reading.opening import opened

LINKS = "[...document.querySelectorAll('body a[href]')].map((one) => one.getAttribute('href'))"
IDS = "[...document.querySelectorAll('[id]')].map((one) => one.id)"
PARTS = "partwayDevice.parts.map((part) => part.id)"


def test_links_lead_somewhere_whatever_was_chosen(browser: Browser, built: Built) -> None:
    with opened(browser, built, "several") as page:
        parts = page.evaluate(PARTS)
        asked = [*combinations(parts[:4], 2), *((part,) for part in parts), tuple(parts), tuple(parts[-3:])]
        start = page.url
        ids: dict[str, set[str]] = {}
        left: set[str] = set()
        for chosen in asked:
            page.goto(f"{start}?{'+'.join(chosen)}")
            page.wait_for_selector("article.step")
            own = page.evaluate(IDS)
            assert sorted(set(own)) == sorted(own)
            for href in page.evaluate(LINKS):
                path, name = urlsplit(href).path, unquote(urlsplit(href).fragment)
                if not path and name not in own:
                    pytest.fail(f"{'+'.join(chosen)}: {href}")
                if path.startswith(("guide.html", "index.html")) and name:
                    left.add(f"{path}#{name}")
        for one in sorted(left):
            path, _, name = one.partition("#")
            if path not in ids:
                page.goto(start.replace("several.html", path))
                ids[path] = set(page.evaluate(IDS))
            assert name in ids[path], one
        assert any(one.startswith("index.html#joint-") for one in left)  # of a step that the way does without
