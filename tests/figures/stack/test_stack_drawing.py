"""The stack as SVG: states, words, hostile names, sizes in bytes, the same bytes every time."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from generator.figures.stack.drawing import stack_figure
from generator.figures.stack.geometry import stack_of, stacks_of
from generator.figures.stack.lettering import width_of, wrapped
from generator.figures.stack.listing import parts_list
from generator.figures.stack.shapes import Chains, Slab, Stack, State, Variant
from generator.orders.guide import Guide
from tests.figures.stack.demo import demo
from tests.figures.stack.devices import BASE, guide, joint, part, random_guide, step

ROOT = Path(__file__).parents[3]
SVG = "{http://www.w3.org/2000/svg}"


def stack(device: Guide, **how: object) -> Stack:
    found = stack_of(device, device.order, **how)  # type: ignore[arg-type]
    assert found is not None
    return found


def states(one: Stack) -> dict[str, State]:
    return {slab.part: slab.state for slab in one.painted if isinstance(slab, Slab)}


def slab(one: Stack, name: str) -> Slab:
    return next(shape for shape in one.painted if isinstance(shape, Slab) and shape.part == name)


def lamp(**names: str) -> Guide:
    parts = [
        part(BASE, (0, 0, 80, 60), thickness=10.0, depth=1.0, called=names.get("base", "foot")),
        part("shade", (5, 5, 60, 40), thickness=2.0, depth=0.0, called=names.get("shade", "shade"), corner=4.0),
        part("driver", (20, 20, 10, 8), thickness=1.0, depth=4.0, called="driver"),
        part("cord", called=names.get("cord", "cord")),
    ]
    joints = [
        joint("shade-screws", "screws", ["shade", BASE], positions=((8, 8), (60, 40)), count=2, lengths=(3.0, 3.0)),
        joint("driver-pads", "solder", ["driver", BASE], count=2),
        joint("cord-seat", "press", ["cord", BASE]),
    ]
    order = [
        step("open", ("undo", "shade-screws"), ("lift", "shade")),
        step("free", ("undo", "driver-pads")),
        step("take", ("lift", "driver")),
        step("pull", ("undo", "cord-seat"), ("lift", "cord")),
    ]
    return guide(parts, joints, order)


def test_parts_stand_as_the_step_has_them() -> None:
    device = lamp()
    assert states(stack(device)) == {BASE: "base", "shade": "place", "driver": "place"}
    assert states(stack(device, now=0)) == {BASE: "base", "shade": "hand", "driver": "muted"}
    assert states(stack(device, now=1)) == {BASE: "base", "shade": "out", "driver": "worked"}
    assert states(stack(device, now=2)) == {BASE: "base", "shade": "out", "driver": "hand"}
    assert states(stack(device, now=3)) == {BASE: "base", "shade": "out", "driver": "out"}


def test_what_a_part_carries_leaves_with_it_and_may_be_in_the_hand_later() -> None:
    found = stacks_of(demo(), demo().order)
    by_step = dict(zip([one.id for one in demo().order], found, strict=True))
    assert states(by_step["lift-upper-cover"])["plug-plate"] == State.CARRIED
    assert states(by_step["lift-main-board"])["board-shield"] == State.CARRIED
    assert states(by_step["open-shield"])["board-shield"] == State.HAND
    assert states(by_step["open-shield"])["main-board"] == State.OUT
    assert states(by_step["unplug-battery"])["battery"] == State.WORKED


def test_what_is_out_is_an_outline_without_screws_features_or_fill() -> None:
    drawn = stack_figure(stack(lamp(), now=2), "x")
    assert drawn.count("stack__ghost") == 1
    assert "<use" not in drawn
    assert stack_figure(stack(lamp(), now=0), "x").count("<use") == 2
    out = slab(stack(lamp(), now=2), "shade")
    assert (out.top, out.features, out.screws, out.edges) == ((), (), (), ())


def test_the_hand_is_filled_hatched_and_labelled_alone() -> None:
    drawn = stack_figure(stack(lamp(), now=0), "x")
    assert "stack__part--hand" in drawn
    assert 'fill="url(#x-hatch)"' in drawn
    assert re.findall(r'class="stack__name[^"]*"[^>]*>([^<]*)', drawn) == ["Shade"]
    assert 'class="stack__number stack__number--hand"' in drawn


def test_parts_that_stay_are_labelled_without_a_number() -> None:
    labels = {label.part: label for label in stack(lamp()).labels}
    assert labels[BASE].number == ""  # type: ignore[index]
    assert [line for line, _ in labels[BASE].note] == ["stays"]  # type: ignore[index]
    assert {label.number for label in stack(lamp(), narrow=True).labels} == {"1", "3"}


def test_labels_say_what_holds_the_part_and_numbers_are_those_of_the_run() -> None:
    lines = {line.part.id: line for line in parts_list(demo(), demo().order)}
    assert [line.number for line in lines.values() if line.number] == [
        "1", "2", "3", "4", "6", "7", "8.1", "8.2", "9", "11", "12", "13", "14", "15", "16", "17.1", "17.2", "18",
    ]  # fmt: skip
    told = {name: line.held_by for name, line in lines.items()}
    assert told["back"] == "glued"
    assert told["upper-cover"] == "9 screws"
    assert told["sim-tray"] == "clip, slides out"
    assert told["battery"] == "plug, 2 glue runs"
    assert told["plug-plate"] == "inside the upper cover"
    assert told["frame"] == "stays"
    assert lines["battery"].size_in_words == "50 × 71 × 4.8"  # type: ignore[index]
    notes = {label.part: " ".join(line for line, _ in label.note) for label in stack(demo()).labels}
    assert notes == told


def test_a_part_that_slides_is_drawn_out_and_points_back_to_its_slot() -> None:
    tray = slab(stack(demo()), "sim-tray")
    assert tray.slide is not None
    (u0, v0), (u1, v1) = tray.slide
    assert u1 > u0
    assert (v1 - v0) / (u1 - u0) == pytest.approx(0.5774, abs=0.01)


def test_screws_hover_over_their_holes_and_their_axes_run_on_upright() -> None:
    one = stack(demo())
    cover = slab(one, "upper-cover")
    assert len(cover.screws) == 9
    form = one.forms[cover.screws[0].form]
    assert form.hover == pytest.approx(15 * 3.05, abs=0.1)
    stretches = [line for chain in one.painted if isinstance(chain, Chains) for line in chain.lines]
    assert all(upper[0] == lower[0] and upper[1] < lower[1] for upper, lower in stretches)
    for screw in cover.screws:
        assert any(abs(upper[0] - screw.at[0]) < 0.2 for upper, _ in stretches)


def test_screws_of_the_second_face_are_upside_down() -> None:
    parts = [
        part(BASE, (0, 0, 80, 60), thickness=10.0, depth=1.0),
        part("plate", (5, 5, 60, 40), "front", thickness=2.0, depth=0.0),
    ]
    joints = [joint("screws", "screws", ["plate", BASE], positions=((8, 8),), lengths=(3.0,))]
    one = stack(guide(parts, joints, [step("turn-it", ("turn", "front"), ("undo", "screws"), ("lift", "plate"))]))
    assert [form.is_below for form in one.forms] == [True]
    assert [shape.part for shape in one.painted if isinstance(shape, Slab)] == ["plate", BASE]


def test_a_part_that_stays_in_the_hollow_is_seen_inside_its_rim() -> None:
    steps = [one for one in demo().order if one.id in ("open-back", "lift-antenna", "lift-upper-cover", "unplug-battery")]
    route = stack_of(demo(), steps)
    assert route is not None
    assert states(route)["battery"] == State.PLACE
    assert not slab(route, "battery").edges
    assert slab(route, BASE).wall
    assert not {"speaker-box", "display", "sim-tray"} & states(route).keys()


def test_without_boxes_there_is_no_stack_and_the_list_stands_alone() -> None:
    device = guide([part(BASE), part("cord")], [], [step("pull", ("lift", "cord"))])
    assert stack_of(device, device.order) is None
    assert stacks_of(device, device.order) == ()
    assert [(line.number, line.held_by, line.size) for line in parts_list(device, device.order)] == [
        ("1", "lies loose", None),
        (None, "stays", None),
    ]


def test_parts_without_a_box_are_told_in_words() -> None:
    one = stack(lamp(cord="mains cord"))
    assert one.undrawn == ("cord",)
    assert "Not drawn, because no place is given: mains cord." in one.desc
    assert "4 mains cord (press fit)" in one.desc


def test_one_part_alone_is_drawn() -> None:
    device = guide([part(BASE, (0, 0, 10, 10))], [], [step("look", ("check", BASE))])
    assert ElementTree.fromstring(stack_figure(stack(device), "x")).tag == f"{SVG}svg"
    assert ElementTree.fromstring(stack_figure(stack(device, now=0), "x")).tag == f"{SVG}svg"
    assert stack_of(device, []) is not None


def test_names_from_strangers_stay_text() -> None:
    name = "<script>alert(1)</script>\x00 & \"'"
    for how in ({}, {"narrow": True}, {"now": 0}):
        drawn = stack_figure(stack(lamp(shade=name, base=name), **how), "x")
        assert "<script" not in drawn
        root = ElementTree.fromstring(drawn)
        assert not [tag for tag in root.iter() if tag.tag.endswith("script")]


def test_every_id_carries_the_prefix_and_every_reference_ends_at_one() -> None:
    for now in (None, 3, 5):
        drawn = stack_figure(stack(demo(), now=now), "tarn-5-stack")
        ids = re.findall(r' id="([^"]+)"', drawn)
        assert len(ids) == len(set(ids))
        assert all(one.startswith("tarn-5-stack-") for one in ids)
        assert set(re.findall(r'(?:href="|url\()#([\w-]+)', drawn)) <= set(ids)
        assert ElementTree.fromstring(drawn).get("role") == "img"


def test_the_drawing_names_no_colour_font_or_width() -> None:
    drawn = stack_figure(stack(demo(), now=4), "x") + stack_figure(stack(demo()), "x")
    assert not re.search(r"stroke=|stroke-width|font-|style=|fill=\"(?!url)", drawn)


def test_the_form_follows_screen_and_count() -> None:
    assert stack(demo()).variant is Variant.FULL
    assert stack(demo(), narrow=True).variant is Variant.NARROW
    assert stack(demo(), now=2).variant is Variant.STEP
    assert 'class="stack stack--step stack--narrow"' in stack_figure(stack(demo(), now=2, narrow=True), "x")
    assert stack(random_guide(5, 80)).variant is Variant.NUMBERS


def test_the_steps_of_a_run_lie_at_one_place_on_sheets_of_one_size() -> None:
    found = stacks_of(demo(), demo().order)
    assert len(found) == len(demo().order)
    assert len({(one.corner, one.width, one.height) for one in found}) == 1
    sides = {one.painted[-1].side for one in found if isinstance(one.painted[-1], Slab)}
    assert len(sides) == 1
    assert found[3] == stack(demo(), now=3)


def test_the_way_back_shows_the_same_in_other_words() -> None:
    out, back = stack(demo(), now=3), stack(demo(), now=3, back=True)
    assert out.painted == back.painted
    assert out.title.startswith("Exploded view at step 4: ")
    assert back.title.startswith("Exploded view at step 33: ")
    assert back.desc.startswith("Being put back: upper cover. Still out: ")


def test_figures_of_the_demo_are_small() -> None:
    assert len(stack_figure(stack(demo()), "tarn-5-stack").encode()) < 25_000
    for narrow in (False, True):
        for number, one in enumerate(stacks_of(demo(), demo().order, narrow=narrow), 1):
            assert len(stack_figure(one, f"tarn-5-step-{number}").encode()) < 12_000


def test_the_same_bytes_whatever_the_hash_seed() -> None:
    code = (
        "import hashlib\n"
        "from generator.figures.stack.drawing import stack_figure\n"
        "from generator.figures.stack.geometry import stack_of, stacks_of\n"
        "from tests.figures.stack.demo import demo\n"
        "from tests.figures.stack.devices import random_guide\n"
        "for g in (demo(), random_guide(4, 25)):\n"
        "    for s in (stack_of(g, g.order), stack_of(g, g.order, narrow=True), *stacks_of(g, g.order)):\n"
        "        print(hashlib.sha256(stack_figure(s, 'x').encode()).hexdigest())\n"
    )
    runs = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)},
            cwd=ROOT,
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(runs) == 1
    assert runs.pop().count(b"\n") > 30


def test_any_device_can_be_drawn_in_any_form() -> None:
    for seed in range(40):
        device = random_guide(seed, 1 + seed % 20)
        for one in (*stacks_of(device, device.order, narrow=bool(seed % 2)), stack(device), stack(device, narrow=True)):
            ElementTree.fromstring(stack_figure(one, "x"))


@pytest.mark.parametrize(
    ("words", "lines"),
    [
        ("battery", ("battery",)),
        ("sub-board with microphone", ("sub-board with", "microphone")),
        ("a-b", ("a-b",)),
        ("  two   blanks ", ("two blanks",)),
        ("", ("",)),
    ],
)
def test_names_break_at_blanks_and_after_hyphens(words: str, lines: tuple[str, ...]) -> None:
    assert wrapped(words, 17, 168, 3) == lines


@pytest.mark.parametrize("words", ["W" * 200, "long words of many kinds " * 9, "左スピーカー用" * 9, "é" * 90, "-" * 200])
def test_lines_keep_within_their_room_and_are_cut_with_a_sign(words: str) -> None:
    found = wrapped(words, 17, 168, 3)
    assert len(found) == 3
    assert found[-1].endswith("…")
    assert all(width_of(line, 17) <= 168 for line in found)
