"""Every page, held against the W3C's checker for HTML, SVG included. `sh tests/run` gets it where Java and npm are there."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import warnings
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from generator.pages.site import render_site
from tests.pages.sites import bench_theme, demo_site, shelf, shelf_site
from tests.pages.test_library import many, renamed

ROOT = Path(__file__).parents[1]
KEPT = ROOT / ".tests-venv/checker/node_modules/vnu-jar/build/dist/vnu.jar"


def checker() -> str | None:
    """The checker's program, where one can be run."""
    named = os.environ.get("PARTWAY_HTML_CHECKER") or str(KEPT)
    return named if Path(named).is_file() and shutil.which("java") else None


def told_of(site: Mapping[str, str | bytes], folder: Path) -> list[str]:
    """What the checker says about the pages of a site: errors and warnings."""
    for path, text in site.items():
        if path.endswith(".html"):
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / path).write_text(str(text), "utf-8")
    pages = [str(path) for path in sorted(folder.rglob("*.html"))]
    # Of the policy it says that 'self' allows no file beside a file, which is what `file:` stands there for.
    quiet = ["--filterpattern", ".*Content Security Policy.*"]
    words = ["java", "-jar", str(checker()), "--format", "json", "--stdout", *quiet]
    done = subprocess.run([*words, *pages], capture_output=True, text=True, timeout=300, check=False)
    told = json.loads(done.stdout)["messages"]
    return [f"{one.get('url')}: {one['message']} {one.get('extract', '')}" for one in told]


@pytest.fixture(autouse=True)
def _has_checker() -> None:
    if checker() is None:
        warnings.warn("NO PAGE WAS HELD AGAINST THE HTML CHECKER: it needs Java, and npm to get it", stacklevel=1)
        pytest.skip("the HTML checker is not there")


def test_the_checker_finds_what_is_wrong(tmp_path: Path) -> None:
    wrong = "<!doctype html><html lang='en'><head><title>a</title></head><body><p id='a'><p id='a'></body></html>"
    assert "Duplicate ID" in " ".join(told_of({"index.html": wrong}, tmp_path))


@pytest.mark.parametrize("site", [demo_site, shelf_site], ids=["demo", "shelf"])
def test_pages_are_valid(site: object, tmp_path: Path) -> None:
    assert told_of(site(), tmp_path) == []  # type: ignore[operator]


def test_pages_of_many_devices_and_at_old_addresses_are_valid(tmp_path: Path) -> None:
    site = {**render_site(many(24), bench_theme()), **render_site(renamed(), bench_theme())}
    chosen = {path: text for path, text in site.items() if path.count("/") == 0 or path.startswith("lantern/")}
    chosen["list.html"] = render_site(many(24), bench_theme())["index.html"]
    assert told_of(chosen, tmp_path) == []


def test_pages_with_nothing_to_show_are_valid(tmp_path: Path) -> None:
    bare = [replace(one, order=(), alternatives=(), notes=()) for one in shelf().guides]
    assert told_of(render_site(replace(shelf(), guides=tuple(bare)), bench_theme()), tmp_path) == []
