"""Turning a page into a PDF with whatever this machine has: a browser, else the optional library."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import tempfile
from importlib.util import find_spec
from pathlib import Path

from generator.commands.folders import Unreadable

BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
NAMED = "PARTWAY_BROWSER"
"""The environment variable that names another browser of that family."""

PATIENCE = 180  # seconds
EPOCH = "SOURCE_DATE_EPOCH"
NO_DAY = "315532800"
"""1980-01-01 in seconds, the day of packs to which nobody gives another."""

NOTHING_PRINTS = (
    "Nothing on this machine can make a PDF. Install Chromium, or name one in PARTWAY_BROWSER, or install the optional "
    "library: pip install 'partway[pdf]'. `--as page` needs neither and prints from any browser."
)


def pdf_of(html: str) -> bytes:
    """The page as a tagged PDF with an outline; Unreadable where nothing can make one, or it cannot be made."""
    browser = _browser()
    if browser is not None:
        return _by_browser(browser, html)
    if find_spec("weasyprint") is not None:
        return _by_library(html)
    raise Unreadable(NOTHING_PRINTS)


def _browser() -> str | None:
    named = os.environ.get(NAMED)
    if named:
        found = shutil.which(named)
        if found is None:
            raise Unreadable(f"{NAMED} names {named}, and there is no such program. Take it away, or name the one there is.")
        return found
    return next(filter(None, map(shutil.which, BROWSERS)), None)


def _by_browser(browser: str, html: str) -> bytes:
    """The browser gets a folder of its own, no network; the page lets no script run."""
    with tempfile.TemporaryDirectory(prefix="partway-") as name:
        folder = Path(name)
        (folder / "page.html").write_text(html, "utf-8")
        target = folder / "page.pdf"
        command = [
            browser,
            "--headless",
            "--disable-gpu",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-extensions",
            "--disable-sync",
            "--no-first-run",
            "--host-resolver-rules=MAP * ~NOTFOUND",
            f"--user-data-dir={folder / 'profile'}",
            "--no-pdf-header-footer",
            "--generate-pdf-document-outline",
            f"--print-to-pdf={target}",
            *(["--no-sandbox"] if _is_root() else []),
            (folder / "page.html").as_uri(),
        ]
        try:
            done = subprocess.run(command, capture_output=True, timeout=PATIENCE, check=False)
        except (OSError, subprocess.TimeoutExpired) as error:
            raise Unreadable(f"{browser} made no PDF: {error}") from error
        if done.returncode != 0 or not target.is_file():
            told = done.stderr.decode("utf-8", "replace").strip().splitlines()
            raise Unreadable(f"{browser} made no PDF (status {done.returncode}). {told[-1] if told else ''}".strip())
        return target.read_bytes()


def _is_root() -> bool:
    """Chromium's own walls cannot be put up by root (as in a container); it then starts only without them."""
    return hasattr(os, "geteuid") and os.geteuid() == 0


def _by_library(html: str) -> bytes:
    try:
        from weasyprint import HTML
        from weasyprint.urls import URLFetcher
    except (ImportError, OSError) as error:
        raise Unreadable(f"The library for PDFs cannot be loaded: {error}. {NOTHING_PRINTS}") from error
    # Only what stands in the page is loaded.
    fetcher = URLFetcher(allowed_protocols=("data",), allow_redirects=False)
    dated = os.environ.get(EPOCH)
    os.environ[EPOCH] = dated or NO_DAY  # else the fonts in it say when they were put there
    try:
        made = HTML(string=_without_grids(html), url_fetcher=fetcher).write_pdf(pdf_tags=True)
    except Exception as error:  # whatever goes wrong in there, the author is told what else there is
        raise Unreadable(f"The library made no PDF: {error}. {NOTHING_PRINTS}") from error
    finally:
        if dated is None:
            del os.environ[EPOCH]
    assert isinstance(made, bytes)
    return made


def _without_grids(html: str) -> str:
    """The page with its pieces below each other: the library cannot part a grid over two sheets (seen in version 70.0)."""
    return re.sub(r"display:\s*(?:inline-)?grid", "display: block", html)
