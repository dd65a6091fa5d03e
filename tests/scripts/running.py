"""Running a script of the theme outside a page: in node where there is one, else in the browser."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

SCRIPTS = Path(__file__).parents[2] / "themes" / "bench" / "scripts"


def browser_program() -> str | None:
    """The browser `sh tests/run` found; None leaves it to playwright's own."""
    named = os.environ.get("PARTWAY_BROWSER")
    return named or next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)


def value_of(script: str, expression: str, data: object) -> Any:
    """The value of `expression`, in which `data` is known, after the script has run."""
    text = (SCRIPTS / script).read_text("utf-8")
    program = f"{text}\n;const data = {json.dumps(data)};"
    node = shutil.which("node")
    if node:
        program += f"\nprocess.stdout.write(JSON.stringify({expression}));"
        done = subprocess.run([node, "-"], input=program, capture_output=True, text=True, check=True, timeout=300)
        return json.loads(done.stdout)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=browser_program(), args=["--no-sandbox"])
        try:
            return json.loads(browser.new_page().evaluate(f"() => {{ {program}\nreturn JSON.stringify({expression}); }}"))
        finally:
            browser.close()
