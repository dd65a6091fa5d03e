"""Pages as a reader opens them from disk, with the network off."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from playwright.sync_api import Browser, Page

from tests.reading.built import Built


@contextmanager
def opened(browser: Browser, built: Built, kind: str, width: int = 1280, text: int = 16, **known: Any) -> Iterator[Page]:
    """The page of a kind, settled. text: the size in px that the reader has set in the browser."""
    context = browser.new_context(offline=True, reduced_motion="reduce", viewport={"width": width, "height": 800}, **known)
    try:
        page = context.new_page()
        page.set_default_timeout(10_000)
        if text != 16:
            sizes = {"standard": text, "fixed": round(text * 13 / 16)}
            context.new_cdp_session(page).send("Page.setFontSizes", {"fontSizes": sizes})
        page.goto(built.address(kind))
        if kind == "several, laid out":
            page.wait_for_selector("article.step")
        page.evaluate("document.fonts.ready.then(() => 0)")
        yield page
    finally:
        context.close()
