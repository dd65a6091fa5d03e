"""One page of every kind, built once: the demo with photos, the small shelf, a long library, pages at old addresses."""

from __future__ import annotations

import math
import re
import shutil
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from click.testing import CliRunner
from PIL import Image

from generator.commands import partway
from generator.handover.single import single_page
from generator.pages.site import render_shared, render_site
from tests.pages.sites import ROOT, bench_theme, guide, shelf, shelf_site
from tests.pages.test_library import lines_of, many, renamed

PHOTOS = {
    "open-back": ("glass.jpg", (1600, 1200)),
    "unplug-battery": ("plug.png", (640, 480)),
    "take-out-port": ("port.webp", (900, 1200)),
}

KINDS = {
    "library": "demo/index.html",
    "library of many": "many/index.html",
    "library of two": "shelf/index.html",
    "compare": "many/compare.html",
    "device": "demo/tarn-5/index.html",
    "device, not all reached": "shelf/lamp/index.html",
    "whole": "demo/tarn-5/guide.html",
    "route": "demo/tarn-5/to-charging-port.html",
    "blocked": "shelf/lamp/to-coil.html",
    "several": "demo/tarn-5/several.html",
    "several, laid out": "demo/tarn-5/several.html?battery+charging-port",
    "one step alone": "demo/tarn-5/to-charging-port.html#only-step-unplug-battery",
    "workings": "demo/tarn-5/workings.html",
    "changes": "demo/tarn-5/changes.html",
    "tray": "demo/tarn-5/tray.html",
    "tools": "demo/tools.html",
    "safety": "demo/safety.html",
    "find": "demo/find.html",
    "alphabet": "demo/index-a-z.html",
    "offline": "demo/offline.html",
    "not found": "demo/404-here.html",
    "moved": "moved/stays.html",
    "single": "packed/heater.html",
}
"""Kinds of page by their address below the folder of all sites."""


@dataclass(frozen=True, slots=True)
class Built:
    """root: the folder in which the sites stand side by side."""

    root: Path

    def address(self, kind: str) -> str:
        """Of the page of that kind, from disk."""
        path, sign, rest = _split(KINDS[kind])
        return f"{(self.root / path).as_uri()}{sign}{rest}"

    def text(self, kind: str) -> str:
        return self.text_of(_split(KINDS[kind])[0])

    def text_of(self, path: str) -> str:
        return (self.root / path).read_text("utf-8")


def build_all(root: Path) -> Built:
    content = root / "content"
    shutil.copytree(ROOT / "content", content)
    add_photos(content / "tarn-5")
    _run("build", str(content), "--to", str(root / "demo"))
    alone = replace(shelf(), guides=(guide("heater"),))
    page = single_page(render_site(alone, bench_theme()), alone, alone.guides[0], bench_theme())
    _written(root / "packed", {"heater.html": page})
    lost = (root / "demo/404.html").read_text("utf-8")
    (root / "demo/404-here.html").write_text(lost.replace("/kiln-lane/", ""), "utf-8")  # as if served from its address
    lot = many(24)
    few = ("model-000/index.html",)
    pages = render_site(replace(lot, guides=lot.guides[:1]), bench_theme())
    _written(root / "many", {**{path: pages[path] for path in few}, **render_shared(lot, bench_theme(), lines_of(lot))})
    _written(root / "shelf", shelf_site())
    moved = render_site(renamed(), bench_theme())
    # The page itself leads on at once; what is read where a browser does not is the same page without that line.
    stays = re.sub("<meta http-equiv=.refresh.[^>]*>", "", str(moved["lantern/index.html"])).replace("../", "")
    _written(root / "moved", {**moved, "stays.html": stays})
    return Built(root)


def add_photos(device: Path) -> None:
    """A photo at three steps, upright and lying, large and small, of mere shades: no file of a picture is needed."""
    media = _made(device / "media")
    for step, (name, size) in PHOTOS.items():
        shade = Image.new("L", (64, 48))
        shade.putdata([int(127 + 120 * math.sin(x / 7) * math.cos(y / 5)) for y in range(48) for x in range(64)])
        shade.resize(size).convert("RGB").save(media / name)
        file = device / "steps" / f"{step}.md"
        marks = f"photos:\n  - {{file: {name}, alt: The work at this step from above.}}\nwork:\n"
        file.write_text(file.read_text("utf-8").replace("work:\n", marks, 1), "utf-8")


def _run(*words: str) -> None:
    result = CliRunner().invoke(partway, list(words))
    assert result.exit_code == 0, result.output


def _made(folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def _written(folder: Path, files: Mapping[str, str | bytes]) -> None:
    for path, data in files.items():
        target = folder / path
        _made(target.parent)
        target.write_bytes(data if isinstance(data, bytes) else data.encode("utf-8"))


def _split(address: str) -> tuple[str, str, str]:
    for sign in "?#":
        if sign in address:
            return address.partition(sign)
    return address, "", ""
