"""Turning a page into a PDF with whatever this machine has: a browser, else the optional library."""

from __future__ import annotations

import os
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
    except (ImportError, OSError) as error:
        raise Unreadable(f"The library for PDFs cannot be loaded: {error}. {NOTHING_PRINTS}") from error
    made = HTML(string=html, url_fetcher=_only_data).write_pdf(pdf_tags=True)
    assert isinstance(made, bytes)
    return made


def _only_data(address: str) -> object:
    from weasyprint import default_url_fetcher

    if not address.startswith("data:"):
        raise ValueError("only what stands in the page is loaded")
    return default_url_fetcher(address)
