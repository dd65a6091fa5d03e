"""The small shelf of invented things, and what it renders to."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from generator.orders.guide import Guide, Library
from generator.orders.reading import read_guides
from generator.pages.site import render_site
from generator.pages.theme import Theme
from generator.source.reading import read_library
from tests.pages.reading import Page

HERE = Path(__file__).parent
ROOT = HERE.parent.parent
TEXTS = (".html", ".css", ".txt")


@cache
def bench_theme() -> Theme:
    folder = ROOT / "themes" / "bench"
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return Theme.of(
        {
            path.relative_to(folder).as_posix(): path.read_text("utf-8") if path.suffix in TEXTS else path.read_bytes()
            for path in files
        }
    )


@cache
def shelf() -> Library:
    return read_guides(read_library(HERE / "shelf"))


def guide(name: str) -> Guide:
    return next(each for each in shelf().guides if each.id == name)


@cache
def shelf_site() -> Mapping[str, str | bytes]:
    return render_site(shelf(), bench_theme())


@cache
def demo() -> Library:
    """The demo content that comes with the program."""
    return read_guides(read_library(ROOT / "content"))


@cache
def demo_site() -> Mapping[str, str | bytes]:
    return render_site(demo(), bench_theme())


def page(path: str) -> Page:
    text = shelf_site()[path]
    assert isinstance(text, str)
    return Page(text)
