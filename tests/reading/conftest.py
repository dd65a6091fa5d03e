"""One browser and one build of every kind of page for all tests of this folder."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.reading.built import Built, build_all
from tests.scripts.running import browser_program


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Built:
    return build_all(tmp_path_factory.mktemp("reading"))


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        quiet = ["--no-sandbox", "--disable-background-networking", "--disable-component-update", "--disable-sync"]
        browser = playwright.chromium.launch(executable_path=browser_program(), args=quiet)
        yield browser
        browser.close()
