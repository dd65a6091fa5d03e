"""What pages weigh as they travel: `python -m tests.bench.weights` prints the heaviest page of every kind.

gzip, level 9, without photos; the style sheet, scripts and fonts come once for the whole site.
"""

from __future__ import annotations

import gzip
import re
from collections.abc import Mapping
from dataclasses import replace

from generator.handover.installing import installing_files
from generator.pages.site import render_shared, render_site
from generator.pages.theme import STYLE
from tests.pages.sites import bench_theme, demo, demo_site, shelf, shelf_site
from tests.pages.test_library import lines_of, many, renamed

KINDS = {
    "library": r"index\.html",
    "compare": r"compare\.html",
    "device": r"[^/]+/index\.html",
    "whole": r"[^/]+/guide\.html",
    "route or blocked": r"[^/]+/to-[^/]+\.html",
    "several": r"[^/]+/several\.html",
    "workings": r"[^/]+/workings\.html",
    "tray": r"[^/]+/tray[^/]*\.html",
    "tools": r"tools\.html",
    "safety": r"safety\.html",
    "find": r"find\.html",
    "alphabet": r"index-a-z\.html",
    "offline": r"offline\.html",
    "not found": r"404\.html",
}
"""Kinds of page by what their paths look like. Pages at old addresses are counted as what they stand for."""


def weights_of(files: Mapping[str, str | bytes]) -> dict[str, int]:
    """Bytes as they travel by path, of pages, scripts and style sheets."""
    return {
        path: len(gzip.compress(data.encode("utf-8") if isinstance(data, str) else data, 9))
        for path, data in files.items()
        if path.endswith((".html", ".js", ".css"))
    }


def all_weights() -> dict[str, tuple[int, str]]:
    """The heaviest page of every kind: its weight, and the site and path it was found at."""
    lot = many(300)
    (line,) = lines_of(replace(lot, guides=lot.guides[:1]))
    lines = [replace(line, id=one.id, name=one.device.name) for one in lot.guides]  # type: ignore[type-var]
    sites = {
        "demo": {**demo_site(), **installing_files(demo_site(), demo(), bench_theme())},
        "shelf": {**shelf_site(), **installing_files(shelf_site(), shelf(), bench_theme())},
        "300 devices": render_shared(lot, bench_theme(), lines),  # type: ignore[arg-type]
        "renamed": render_site(renamed(), bench_theme()),
    }
    heaviest: dict[str, tuple[int, str]] = {}
    for site, files in sites.items():
        for path, weight in weights_of(files).items():
            kind = next((kind for kind, pattern in KINDS.items() if re.fullmatch(pattern, path)), None)
            if kind:
                heaviest[kind] = max(heaviest.get(kind, (0, "")), (weight, f"{site}: {path}"))
    return {kind: heaviest[kind] for kind in KINDS}


def once_for_a_site() -> dict[str, int]:
    """What is fetched once: the style sheet, all scripts, all fonts (which are packed already)."""
    files = demo_site()
    weights = weights_of(files)
    return {
        "style": weights[STYLE],
        "scripts": sum(weight for path, weight in weights.items() if path.startswith("scripts/")),
        "fonts": sum(len(data) for path, data in files.items() if path.endswith(".woff2")),
    }


if __name__ == "__main__":
    print(f"{'kind':<18}{'bytes':>8}  heaviest")
    for kind, (weight, where) in all_weights().items():
        print(f"{kind:<18}{weight:>8}  {where}")
    print()
    for name, weight in once_for_a_site().items():
        print(f"{name:<18}{weight:>8}  once")
