"""Weight of pages, contrast of the tokens and size of the text: what a reader at the bench needs to read at all."""

from __future__ import annotations

import csv
import gzip
import math
import re

import pytest

from tests.pages.sites import ROOT, demo_site, shelf_site

LIMIT = 60_000  # bytes of a page as it travels, without photos
AT = 700.0  # mm from the eye to a phone that is propped up on the bench
PIXEL = 25.4 / 96  # mm, the reference pixel of CSS; phones show it no smaller than 0.15 mm at arm's length
TEXTS = ("ink", "ink2", "ink3", "acc")
GROUNDS = ("paper", "sheet")


def least(quantity: str) -> float:
    with (ROOT / "tests/data/trade/text.csv").open(encoding="utf-8") as rows:
        return float(next(row["value"] for row in csv.DictReader(rows) if row["quantity"] == quantity))


def tokens() -> dict[str, dict[str, str]]:
    """The colours by mode."""
    sheet = (ROOT / "themes/bench/tokens.css").read_text("utf-8")
    light = dict(re.findall(r"--([\w-]+): (#[0-9a-f]{3,6})\b", sheet.split("@media")[0]))
    dark = sheet.split("@media (prefers-color-scheme: dark)")[1].split("@media")[0]
    return {"light": light, "dark": {**light, **dict(re.findall(r"--([\w-]+): (#[0-9a-f]{3,6})\b", dark))}}


def luminance(colour: str) -> float:
    """Relative luminance after WCAG 2.2."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_gives_what_is_known_of_it() -> None:
    assert round(contrast("#000000", "#ffffff"), 2) == 21
    assert round(contrast("#767676", "#ffffff"), 2) == 4.54


@pytest.mark.parametrize("mode", ["light", "dark"])
def test_text_stands_out_from_every_ground(mode: str) -> None:
    colours = tokens()[mode]
    pairs = [(text, ground) for text in TEXTS for ground in GROUNDS] + [("on-acc", "acc")]
    for text, ground in pairs:
        found = contrast(colours[text], colours[ground])
        assert found >= least("contrast normal text"), f"{mode}: {text} on {ground} is {found:.2f}"


@pytest.mark.parametrize("site", [demo_site, shelf_site], ids=["demo", "shelf"])
def test_no_page_is_heavy(site: object) -> None:
    weights = {path: len(gzip.compress(str(text).encode(), 9)) for path, text in site().items() if path.endswith(".html")}  # type: ignore[operator]
    assert {path: weight for path, weight in weights.items() if weight >= LIMIT} == {}


def test_body_text_can_be_read_from_the_bench() -> None:
    """19 px are 5.0 mm; its small letters, 0.47 of that in this face, are seen under 11.6 minutes of arc from 70 cm.

    Eyes of 6/6 tell letters of 5 minutes apart; twice that is read without strain.
    """
    sheet = (ROOT / "themes/bench/tokens.css").read_text("utf-8")
    # 1 rem is 16 px where nobody asked for more.
    sizes = [16 * float(size) for size in re.findall(r"--size: ([\d.]+)rem", sheet)]
    assert len(sizes) == 1, "phones have the size of other screens"
    (size,) = sizes
    assert size >= 19
    small = math.degrees(math.atan(0.47 * size * PIXEL / AT)) * 60
    assert small >= 10


def test_fonts_come_only_where_they_are_used() -> None:
    sheet = (ROOT / "themes/bench/tokens.css").read_text("utf-8")
    faces = re.findall(r"@font-face \{([^}]*)\}", sheet)
    assert len([face for face in faces if "url(" in face and "font-display: swap" in face]) == 3
    assert all("size-adjust" in face for face in faces if "local(" in face)
    for path, text in demo_site().items():
        if path.endswith(".html"):
            assert "preload" not in str(text), path
