"""The sheet as SVG: millimetres, text alternatives, hostile names, the same bytes each time."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from generator.anatomy.joints import Drive
from generator.figures.tray.drawing import tray_figure
from generator.figures.tray.shapes import A4, LETTER, Paper
from generator.figures.tray.sheets import tray_sheets
from generator.orders.guide import Guide
from tests.figures.tray.guides import HOSTILE, guide, guides, part, screws, step
from tests.wandering import examples

SVG = "{http://www.w3.org/2000/svg}"
THEME = Path(__file__).parents[3] / "themes" / "bench" / "components" / "tray" / "tray.css"

LAMP = guide(
    [part("lid", (0, 0, 40, 20), corner=3.0), part("plate", (0, 0, 12, 9), outline=((0, 0), (12, 0), (12, 9)))],
    [screws("lid-screws", "lid", [(4, 4), (36, 16)], lengths=(3.0, 5.0))],
    [step("open", ["lid-screws"], ["lid", "plate"])],
)


def drawn(lamp: Guide, paper: Paper = A4, ident: str = "t") -> str:
    return "".join(tray_figure(sheet, f"{ident}-{sheet.number}") for sheet in tray_sheets(lamp, lamp.order, paper))


@pytest.mark.parametrize(("paper", "width", "height"), [(A4, "210", "297"), (LETTER, "215.9", "279.4")])
def test_a_unit_is_a_millimetre(paper: Paper, width: str, height: str) -> None:
    root = ET.fromstring(drawn(LAMP, paper))
    assert (root.get("width"), root.get("height")) == (f"{width}mm", f"{height}mm")
    assert root.get("viewBox") == f"0 0 {width} {height}"
    assert root.get("class") == f"tray tray--{paper.id}"


def test_the_sheet_of_the_lamp() -> None:
    """Stored text; after a wanted change look at the new drawing, then store it."""
    stored = Path(__file__).with_name("lamp-tray.svg.txt")
    assert drawn(LAMP).replace("><", ">\n<") + "\n" == stored.read_text(encoding="utf-8")


def test_title_and_desc_stand_in_the_drawing_and_are_named() -> None:
    root = ET.fromstring(drawn(LAMP))
    assert root.get("role") == "img" and root.get("aria-labelledby") == "t-1-title t-1-desc"
    assert root.findtext(f"{SVG}title") == "Tray sheet 1 of 1: Lamp"
    assert "2 screws (1 of M2 × 3 mm, no. 1; 1 of M2 × 5 mm, no. 2)" in (root.findtext(f"{SVG}desc") or "")


def test_hostile_names_stay_text() -> None:
    lamp = guide(
        [part("lid", (0, 0, 40, 20), called=HOSTILE)],
        [screws("s", "lid", [(4, 4)], thread=HOSTILE, head=HOSTILE, drive=Drive(HOSTILE, HOSTILE))],
        [step("a", ["s"], ["lid"])],
        name=HOSTILE,
    )
    text = drawn(lamp)
    assert "script" not in {element.tag.rpartition("}")[2] for element in ET.fromstring(text).iter()}
    assert "<script" not in text


def test_every_class_that_is_drawn_is_styled() -> None:
    places = [(4, 4), (36, 16), (20, 10), (4, 16)]
    lamp = guide(
        [part("lid", (0, 0, 40, 20), face="top"), part("nut", (0, 0, 9, 9))],
        [
            screws("a", "lid", places, lengths=(3.0, 5.0, 7.0, 9.0), drive=Drive("hexalobular", "T6H")),
            screws("b", "lid", [(36, 4)], drive=Drive("cross-recess", "PZ0"), head=None),
        ],
        [step("open", ["a", "b"], ["lid", "nut"])],
    )
    style = THEME.read_text(encoding="utf-8")
    names = {name for words in re.findall(r'class="([^"]+)"', drawn(lamp)) for name in words.split()}
    plain = {"tray__step", "tray__ring--first"}
    assert {name for name in names if not re.search(rf"\.{name}\b(?!-|_)", style)} <= plain
    assert {"tray__ring--second", "tray__ring--other", "tray__post", "tray__rib", "tray__screw--guessed"} <= names


@settings(max_examples=examples(15), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(guides())
def test_anything_is_drawn_as_sound_xml_twice_the_same(lamp: Guide) -> None:
    for sheet in tray_sheets(lamp, lamp.order, A4):
        text = tray_figure(sheet, "t")
        ET.fromstring(text)
        assert tray_figure(sheet, "t") == text
    assert tray_sheets(lamp, lamp.order, A4) == tray_sheets(lamp, lamp.order, A4)
