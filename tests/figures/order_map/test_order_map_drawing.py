"""The order map as text: links, marks, words, safety and the same bytes every time."""

from __future__ import annotations

import os
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

from generator.figures.order_map.dot import dot_layout
from generator.figures.order_map.drawing import order_map_block, order_map_figure
from generator.figures.order_map.geometry import order_map_of
from generator.figures.order_map.maps import order_maps_of
from generator.figures.order_map.shapes import Form
from generator.figures.order_map.words import WaitsRow, brief_titles, numbers_of, waits_table
from generator.orders.reading import read_guides
from generator.orders.waits import waits_of
from generator.orders.work import StepId
from generator.source.reading import read_library
from tests.figures.order_map.waiting import named, some_waits, steps_waiting

ROOT = Path(__file__).parent.parent.parent.parent
SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = '"><script>alert(1)</script><a href=javascript:x onclick="y" \' & \x00\x1b]]>'


def link(step: StepId) -> str:
    return f"#step-{step}"


def drawn(form: Form = Form.ACROSS, titles: tuple[str, ...] = ("One", "Two", "Three", "Four")) -> ElementTree.Element:
    steps = named(titles)
    waits = waits_of(steps_waiting(steps, [(1, {0}), (2, {0}), (3, {1, 2})]))
    shown = order_map_of(waits, steps[:3], dot_layout, form, chosen=[steps[0].id], targets=[steps[1].id])
    return ElementTree.fromstring(order_map_figure(shown, "map", link))


def classes(root: ElementTree.Element) -> list[str]:
    return [name for element in root.iter() for name in element.get("class", "").split()]


def test_every_box_is_a_link_with_a_name() -> None:
    root = drawn()
    links = root.findall(f"{SVG}a")
    assert [a.get("href") for a in links] == [f"#step-step-{n}" for n in range(4)]
    assert [a.get("aria-label") for a in links] == ["Step 1: One", "Step 2: Two", "Step 3: Three", "Step a: Four"]
    assert root.get("role") == "group" and root.get("aria-labelledby") == "map-title map-desc"


def test_a_choice_is_dashed_and_meets_in_a_diamond_with_its_words() -> None:
    names = classes(drawn())
    assert names.count("order-map__line--either") == 3
    assert names.count("order-map__tip--either") == 1
    assert names.count("order-map__diamond") == 1
    assert "either one" in "".join(drawn().itertext())
    small = drawn(Form.NUMBERS_DOWN)
    assert classes(small).count("order-map__diamond") == 2, "the key has one too"
    assert "".join(small.itertext()).count("either one") == 1


def test_route_and_alternatives_are_told_apart() -> None:
    names = classes(drawn())
    steps = [names.count(f"order-map__step--{variant}") for variant in ("chosen", "target", "other", "alternative")]
    assert steps == [1, 1, 2, 1]
    assert names.count("order-map__line--chosen") == names.count("order-map__tip--chosen") == 1


def test_hostile_titles_stay_words() -> None:
    for form in Form:
        root = drawn(form, (HOSTILE, "Two", "Three", "Four" * 500))
        assert {element.tag.removeprefix(SVG) for element in root.iter()} <= {
            "svg", "title", "desc", "path", "a", "rect", "text", "tspan"
        }  # fmt: skip
        assert not [key for element in root.iter() for key in element.attrib if key.startswith("on") or key == "style"]
        assert "<script>" in (root.findall(f"{SVG}a")[0].get("aria-label") or "")


def test_a_map_that_does_not_fit_can_be_scrolled_by_keyboard() -> None:
    waits = some_waits(11, 60)
    shown = order_maps_of(waits, waits.steps, dot_layout)
    assert any(one.scrolled for one in shown)
    root = ElementTree.fromstring(order_map_block(shown, "m", link))
    sheets = [element for element in root if "scrolled" in element.get("class", "")]
    assert [sheet.get("tabindex") for sheet in sheets] == ["0"] * len(sheets) and sheets
    idents = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(idents) == len(set(idents))


def test_the_table_says_the_same_in_words() -> None:
    steps = named(["One", "Two", "Three", "Four"])
    waits = waits_of(steps_waiting(steps, [(2, {0}), (3, {0, 1}), (3, {2})]))
    assert waits_table(waits, steps)[2] == WaitsRow(StepId("step-2"), "3", "Three", "1")
    waits = waits_of(steps_waiting(steps, [(2, {0}), (3, {0, 1})]))
    assert [row.waits_for for row in waits_table(waits, steps[:3])] == ["nothing", "nothing", "1", "either 1 or 2"]
    five = named(["One", "Two", "Three", "Four", "Five"])
    waits = waits_of(steps_waiting(five, [(4, {0}), (4, {1}), (4, {2, 3})]))
    assert waits_table(waits, five)[4].waits_for == "1, 2 and either 3 or 4"


def test_steps_outside_the_run_get_letters() -> None:
    steps = named([f"Step {n}" for n in range(30)])
    numbers = numbers_of(waits_of(steps_waiting(steps, [])), steps[:2])
    assert [numbers[steps[n].id] for n in (0, 1, 2, 27, 28, 29)] == ["1", "2", "a", "z", "aa", "ab"]


def test_brief_titles_are_the_parts_taken_out() -> None:
    guide = read_guides(read_library(ROOT / "content")).guides[0]
    brief = brief_titles(guide.anatomy, guide.steps)
    assert brief[StepId("take-out-leads")] == "Coax lead, joining cable"
    assert StepId("unplug-battery") not in brief


def test_same_bytes_under_any_hash_seed() -> None:
    script = (
        "from generator.figures.order_map.dot import dot_layout\n"
        "from generator.figures.order_map.drawing import order_map_block\n"
        "from generator.figures.order_map.layered import layered_layout\n"
        "from generator.figures.order_map.maps import order_maps_of\n"
        "from tests.figures.order_map.waiting import some_waits\n"
        "waits = some_waits(7, 40)\n"
        "for layout in (dot_layout, layered_layout):\n"
        "    print(order_map_block(order_maps_of(waits, waits.steps, layout), 'm', str))\n"
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
