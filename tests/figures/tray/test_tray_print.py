"""The printed sheet measured: a browser makes the PDF, and the rules in it must be as long as they say."""

from __future__ import annotations

import math
import os
import shutil
from pathlib import Path

import pytest

from generator.figures.tray.drawing import tray_figure
from generator.figures.tray.shapes import A4, LETTER, MARGIN, Paper
from generator.figures.tray.sheets import tray_sheets
from tests.figures.tray.guides import guide, part, screws, step

THEME = Path(__file__).parents[3] / "themes" / "bench"
BROWSER = os.environ.get("PARTWAY_BROWSER") or shutil.which("chromium")
POINT = 25.4 / 72  # mm

pytestmark = pytest.mark.skipif(
    BROWSER is None,
    reason="THE 1:1 PRINT WAS NOT MEASURED: no browser found. Set PARTWAY_BROWSER to one, or install chromium.",
)

Segment = tuple[tuple[float, float], tuple[float, float]]

PARTS = [part(f"cover-{n}", (0, 0, 66, 40)) for n in range(12)]
LAMP = guide(
    PARTS,
    [screws(f"screws-{n}", one.id, [(4, 4), (61, 36)]) for n, one in enumerate(PARTS)],
    [step(f"open-{n}", [f"screws-{n}"], [one.id]) for n, one in enumerate(PARTS)],
)


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_the_rules_of_a_printed_sheet_measure_100_and_50_mm(paper: Paper, tmp_path: Path) -> None:
    pypdf = pytest.importorskip("pypdf")
    sheets = tray_sheets(LAMP, LAMP.order, paper)
    assert len(sheets) > 1
    reader = pypdf.PdfReader(printed("".join(tray_figure(sheet, f"t-{sheet.number}") for sheet in sheets), tmp_path))
    assert len(reader.pages) == len(sheets)
    for page in reader.pages:
        assert float(page.mediabox.width) * POINT == pytest.approx(paper.width, abs=0.5)
        assert float(page.mediabox.height) * POINT == pytest.approx(paper.height, abs=0.5)
        flat = [line for line in segments(page) if is_level(line) and at_left(line) == pytest.approx(MARGIN, abs=0.3)]
        rule = min(flat, key=lambda line: line[0][1])  # nothing that begins at the left margin is lower on the page
        assert math.dist(*rule) * POINT == pytest.approx(100.0, abs=0.2)
        rightmost = max((line for line in segments(page) if is_upright(line)), key=lambda line: line[0][0])
        assert math.dist(*rightmost) * POINT == pytest.approx(50.0, abs=0.2)


def is_level(line: Segment) -> bool:
    return abs(line[0][1] - line[1][1]) < 0.01


def is_upright(line: Segment) -> bool:
    return abs(line[0][0] - line[1][0]) < 0.01


def at_left(line: Segment) -> float:
    """Where the left end lies, mm from the edge of the paper."""
    return min(line[0][0], line[1][0]) * POINT


def printed(figures: str, folder: Path) -> Path:
    """The figures as a PDF, with the theme's own styles and the page sizes they ask for."""
    playwright = pytest.importorskip("playwright.sync_api")
    style = "".join((THEME / name).read_text(encoding="utf-8") for name in ("tokens.css", "components/tray/tray.css"))
    page_file, pdf = folder / "tray.html", folder / "tray.pdf"
    body = f"<!doctype html><meta charset=utf-8><style>{style} body{{margin:0}}</style><main>{figures}</main>"
    page_file.write_text(body, encoding="utf-8")
    with playwright.sync_playwright() as started:
        browser = started.chromium.launch(executable_path=BROWSER, args=["--no-sandbox", "--disable-gpu"])
        page = browser.new_page()
        page.goto(page_file.as_uri())
        page.pdf(path=str(pdf), prefer_css_page_size=True, print_background=True)
        browser.close()
    return pdf


def segments(page: object) -> list[Segment]:
    """The straight lines that begin a path, in points on the page."""
    found: list[Segment] = []
    start: list[tuple[float, float]] = []

    def see(operator: bytes, operands: list[object], cm: list[float], tm: list[float]) -> None:
        if operator in (b"m", b"l"):
            x, y = (float(str(value)) for value in operands)
            point = (cm[0] * x + cm[2] * y + cm[4], cm[1] * x + cm[3] * y + cm[5])
            if operator == b"l" and start:
                found.append((start[-1], point))
            start[:] = [point]

    page.extract_text(visitor_operand_before=see)  # type: ignore[attr-defined]
    return found
