"""The depth rail: layers, true depths, cuts, and how small and safe its text is."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from dataclasses import replace
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pytest

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import Box, Cell, PartId
from generator.figures.rail.drawing import rail_figure, strip_figure
from generator.figures.rail.geometry import (
    BESIDE,
    BREAK,
    LAYER,
    STRIP,
    TOP,
    WHOLE_LIMIT,
    Rail,
    depth_in_words,
    rail_of,
    strip_cells,
)
from generator.figures.rail.hatches import Hatch, hatch_of, pattern_ident, rail_patterns
from generator.orders.guide import Device, Guide
from generator.orders.reading import read_guides
from generator.orders.work import Step, Verb
from generator.source.reading import read_library
from tests.devices import BASE, PLACE, PLACES, action, part, step

ROOT = Path(__file__).parent.parent.parent.parent
DEMO = read_guides(read_library(ROOT / "content")).guides[0]
SVG = "{http://www.w3.org/2000/svg}"


def stacked(count: int, *, thickness: float | None = 1.0) -> Guide:
    """`count` plates on one another, each lifted in a step of its own."""
    box = Box(0, 0, 10, 10)
    plates = {
        PartId(f"p{n}"): part(f"p{n}", box=box, thickness=thickness, depth=n * thickness if thickness else None)
        for n in range(count)
    }
    steps = tuple(step(f"lift-{n}", [action(Verb.LIFT, part=PartId(f"p{n}"))]) for n in range(count))
    anatomy = Anatomy(BASE, {BASE: part(BASE), **plates})
    return Guide("stack", Device("Stack", PLACE, PLACES, faces=("back", "front")), anatomy, steps)


def rails(guide: Guide) -> list[Rail]:
    return [rail_of(guide, guide.order, now) for now in range(1, len(guide.order) + 1)]


def beds(rail: Rail) -> list[int]:
    return [bed.number for bed in (*rail.out, rail.hand, *rail.left)]


def test_one_layer_a_step_and_the_base_below() -> None:
    for rail in rails(DEMO):
        assert beds(rail) == list(range(1, len(DEMO.order) + 1))
        tops = [bed.top for bed in (*rail.out, rail.hand, *rail.left)]
        assert tops[0] == TOP and all(b - a == LAYER for a, b in pairwise(tops))
        assert rail.base == tops[-1] + LAYER and rail.cuts == ()


def test_bar_and_scale_are_true() -> None:
    for now, rail in enumerate(rails(stacked(8)), 1):
        assert rail.scale is not None and rail.span == (now - 1, now)
        high = rail.base + LAYER - TOP
        assert rail.bar == pytest.approx((TOP + (now - 1) / 8 * high, TOP + now / 8 * high))
        marks = dict(rail.scale.marks)
        assert marks["0"] == TOP and marks["4"] == pytest.approx(TOP + high / 2) and marks["8"] == pytest.approx(TOP + high)


def test_the_demo_tells_depths_as_the_anatomy_has_them() -> None:
    told = {DEMO.order[rail.now - 1].id: depth_in_words(rail) for rail in rails(DEMO)}
    assert told["lift-upper-cover"] == "1.4 to 2.2 mm deep"  # depth 1.4, thickness 0.8
    assert told["draw-out-battery"] == "1.9 to 6.7 mm deep"  # depth 1.9, thickness 4.8
    assert told["unplug-battery"] is None


@pytest.mark.parametrize("thickness", [0.02, 0.7, 4.0, 90.0])
def test_scales_have_a_few_marks(thickness: float) -> None:
    scale = rail_of(stacked(9, thickness=thickness), stacked(9).order, 3).scale
    assert scale is not None and 3 <= len(scale.marks) <= 6
    heights = [height for _, height in scale.marks]
    assert all(b - a >= 20 for a, b in pairwise(heights))


def test_a_thin_part_can_still_be_seen() -> None:
    guide = stacked(12, thickness=1.0)
    thin = replace(guide.anatomy.parts[PartId("p11")], thickness=0.001, depth=10.999)
    guide = replace(guide, anatomy=replace(guide.anatomy, parts={**guide.anatomy.parts, thin.id: thin}))
    rail = rail_of(guide, guide.order, 12)
    assert rail.bar is not None and rail.bar[1] - rail.bar[0] >= 4 and rail.bar[1] <= rail.base + LAYER


def test_without_thickness_there_is_no_scale() -> None:
    rail = rail_of(stacked(4, thickness=None), stacked(4).order, 2)
    assert rail.scale is None and rail.bar is None and depth_in_words(rail) is None
    assert "rail__scale" not in rail_figure(rail, "r") and "rail__hand" in rail_figure(rail, "r")


@pytest.mark.parametrize("now", [1, 5, 13, 14, 40, 68, 69, 80])
def test_a_long_run_is_cut_on_both_sides(now: int) -> None:
    guide = stacked(80)
    rail = rail_of(guide, guide.order, now)
    assert beds(rail) == list(range(max(1, now - BESIDE), min(80, now + BESIDE) + 1))
    assert len(rail.cuts) == (now > BESIDE + 1) + (now < 80 - BESIDE)
    assert (rail.out or (rail.hand,))[0].top == TOP + (BREAK if now > BESIDE + 1 else 0)
    assert rail_figure(rail, "r").count("rail__cut") == len(rail.cuts) == strip_figure(rail, "s").count("rail__cut")


def test_up_to_the_limit_no_layer_is_left_out() -> None:
    guide = stacked(WHOLE_LIMIT)
    assert len(beds(rail_of(guide, guide.order, 15))) == WHOLE_LIMIT


def test_a_run_has_only_its_own_steps() -> None:
    with pytest.raises(IndexError, match="no step 0"):
        rail_of(DEMO, DEMO.order, 0)
    with pytest.raises(IndexError, match="no step 19"):
        rail_of(DEMO, DEMO.order, 19)


@pytest.mark.parametrize("count", [1, 7, 30, 80])
def test_cells_of_the_strip_fill_it(count: int) -> None:
    guide = stacked(count)
    for now in (1, count // 2 + 1, count):
        cells, _ = strip_cells(rail_of(guide, guide.order, now))
        assert all(left + width == pytest.approx(other) for (_, left, width), (_, other, _) in pairwise(cells))
        assert cells[0][1] >= 0 and cells[-1][1] + cells[-1][2] <= STRIP[0] - 4 + 0.01


@pytest.mark.parametrize(
    ("material", "hatch"),
    [
        ("glass", Hatch.GLASS),
        ("Stainless steel", Hatch.METAL),
        ("steel-backed foam", Hatch.FOAM),
        ("metal foil", Hatch.FILM),
        ("board", Hatch.BOARD),
        ("nylon", Hatch.PLASTIC),
        ("moon dust", Hatch.OTHER),
        (None, Hatch.OTHER),
    ],
)
def test_hatch_by_material(material: str | None, hatch: Hatch) -> None:
    assert hatch_of(part("p", material=material)) is hatch


def test_a_cell_is_hatched_as_one() -> None:
    assert hatch_of(part("p", material="metal", cell=Cell("Li-ion"))) is Hatch.CELL


def test_hatches_differ_by_their_lines() -> None:
    patterns = ElementTree.fromstring(rail_patterns()).findall(f"{SVG}defs/{SVG}pattern")
    assert [pattern.get("id") for pattern in patterns] == [pattern_ident(hatch) for hatch in Hatch]
    drawn = {(p[0].get("d"), p.get("width"), p.get("patternTransform")) for p in patterns}
    assert len(drawn) == len(Hatch)


def test_figures_are_small_and_only_ask_for_patterns_there_are() -> None:
    known = set(re.findall(r'id="([^"]+)"', rail_patterns()))
    for rail in rails(DEMO):
        for text, limit in ((rail_figure(rail, "r"), 2800), (strip_figure(rail, "s"), 1800)):
            assert len(text) < limit
            assert set(re.findall(r"url\(#([^)]+)\)", text)) <= known
            root = ElementTree.fromstring(text)
            assert root.get("role") == "img" and root.find(f"{SVG}desc") is not None


def test_names_stay_words() -> None:
    guide = stacked(3)
    hostile = replace(guide.anatomy.parts[BASE], name='<b&">')
    guide = replace(guide, anatomy=replace(guide.anatomy, parts={**guide.anatomy.parts, BASE: hostile}))
    root = ElementTree.fromstring(rail_figure(rail_of(guide, guide.order, 1), "r"))
    assert '<b&">' in "".join(root.itertext())


def test_steps_that_take_nothing_out_have_a_bare_layer() -> None:
    guide = stacked(2)
    order: tuple[Step, ...] = (guide.order[0], step("look", [action(Verb.CHECK, words="look")]), guide.order[1])
    rail = rail_of(replace(guide, order=order), order, 1)
    assert [bed.hatch for bed in rail.left] == [None, Hatch.OTHER]


def test_same_bytes_under_any_hash_seed() -> None:
    script = (
        "from tests.figures.rail.test_rail import *\n"
        "print(rail_patterns(), [rail_figure(r, 'r') + strip_figure(r, 's') for r in rails(DEMO)])\n"
    )
    told = [
        subprocess.run(
            [sys.executable, "-c", script],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)},
            cwd=ROOT,
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("0", "4711")
    ]
    assert told[0] == told[1] and len(told[0]) > 10_000


@pytest.mark.skipif(shutil.which("chromium") is None, reason="needs a browser")
def test_a_browser_hatches_by_patterns_of_another_drawing() -> None:
    """The patterns stand once a page: with them there is ink in the bedrock, without them none."""
    from PIL import Image
    from playwright.sync_api import sync_playwright

    css = (ROOT / "themes/bench/components/rail/rail.css").read_text("utf-8")
    tokens = (ROOT / "themes/bench/tokens.css").read_text("utf-8")
    rail = rail_of(DEMO, DEMO.order, 3)
    middle = rail.base + LAYER / 2
    inks = []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 1200, "height": 700})
        for patterns in (rail_patterns(), ""):
            page.set_content(f"<style>body{{margin:0}}{tokens}{css}</style>{patterns}{rail_figure(rail, 'r')}")
            clip = {"x": 50, "y": middle - 6, "width": 24, "height": 12}
            picture = Image.open(BytesIO(page.screenshot(clip=clip))).convert("L")  # type: ignore[arg-type]
            inks.append(len(picture.getcolors() or ()))
        browser.close()
    assert inks[0] > 3 and inks[1] == 1
