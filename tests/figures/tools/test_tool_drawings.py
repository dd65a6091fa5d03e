"""Tools and supplies: which drawing they get, and that drawings stand on the bench and fit their ground."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.figures.tools.drawing import supply_drawing, tip_width, tool_drawing
from generator.figures.tools.kinds import PLAIN_SUPPLY, PLAIN_TOOL, SUPPLY_WORDS, TOOL_WORDS, supply_kind, tool_kind
from generator.figures.tools.lines import BENCH, DRIVER_TIPS, HEIGHT, SUPPLIES, TOOLS, WIDTH
from generator.orders.work import Supply, SupplyId, Tool, ToolId
from generator.source.places import Place

PLACE = Place("tools.yaml")
STYLE = Path(__file__).parents[3] / "themes" / "bench" / "components" / "tool-drawing" / "tool-drawing.css"


def tool(name: str = "thing", type: str = "other", **facts: object) -> Tool:
    return Tool(ToolId(str(facts.pop("id", "thing"))), name, type, PLACE, **facts)


def supply(name: str = "stuff", id: str = "stuff", **facts: object) -> Supply:
    return Supply(SupplyId(id), name, PLACE, **facts)


@pytest.mark.parametrize(
    ("type", "kind"),
    [  # the sixteen types of Regulation (EU) 2023/1670, Annex I (50), as its list and as authors write them
        ("screwdriver for slotted heads", "driver"),
        ("screwdriver for cross recess", "driver"),
        ("screwdriver, hexalobular recess", "driver"),
        ("hexagon socket key", "key"),
        ("combination wrench", "wrench"),
        ("combination pliers", "pliers"),
        ("wire stripping and crimping pliers", "strippers"),
        ("wire-strip/crimp pliers", "strippers"),
        ("half-round nose pliers", "nose-pliers"),
        ("diagonal cutters", "cutters"),
        ("multigrip pliers", "multigrip"),
        ("locking pliers", "locking-pliers"),
        ("prying lever", "lever"),
        ("tweezers", "tweezers"),
        ("magnifying glass", "magnifier"),
        ("magnifier", "magnifier"),
        ("spudger", "spudger"),
        ("pick", "pick"),
    ],
)
def test_every_basic_type_has_its_drawing(type: str, kind: str) -> None:
    assert tool_kind(tool(type=type)) == kind
    assert f"tool-drawing--{kind}" in tool_drawing(tool(type=type))


@pytest.mark.parametrize(
    ("id", "name", "kind"),
    [
        ("heating-pad", "heating pad with thermostat", "pad"),
        ("suction-cup", "suction cup, 30 mm", "cup"),
        ("hot-air-tool", "hot air", "hot-air"),
        ("soldering-iron", "soldering iron with a 1 mm tip", "iron"),
        ("flat-card", "flat card", "card"),
        ("tray-pin", "tray pin", "pin"),
        ("clamps", "padded spring clamps", "clamp"),
        ("dmm", "multimeter", "meter"),
        ("gadget", "contraption", PLAIN_TOOL),
        ("spinner", "spinner", PLAIN_TOOL),  # no pin
    ],
)
def test_other_tools_are_known_by_their_words(id: str, name: str, kind: str) -> None:
    assert tool_kind(tool(name, id=id)) == kind


def test_what_fits_screws_is_a_driver_and_what_fits_solder_an_iron() -> None:
    assert tool_kind(tool(fits=(("hexalobular", "T6"),))) == "driver"
    assert tool_kind(tool(undoes=("solder",))) == "iron"
    assert tool_kind(tool(undoes=("glue",))) == PLAIN_TOOL


@pytest.mark.parametrize(
    ("id", "name", "kind"),
    [
        ("back-frame", "adhesive frame for the back glass", "frame"),
        ("stretch-strips", "pair of stretch-release strips", "strip"),
        ("motor-pad", "adhesive pad, 8 × 8 mm", "patch"),
        ("earpiece-tape", "adhesive tape, 1.5 mm wide", "tape"),
        ("solder-wire", "solder wire", "wire"),
        ("solvent", "isopropyl alcohol 99 %", "bottle"),
        ("wipes", "lint-free wipes", "wipe"),
        ("thermal-paste", "thermal paste", "tube"),
        ("sundries", "sundries", PLAIN_SUPPLY),
    ],
)
def test_supplies_are_known_by_their_words(id: str, name: str, kind: str) -> None:
    assert supply_kind(supply(name, id)) == kind


def test_a_flammable_supply_of_no_known_name_comes_in_a_bottle() -> None:
    assert supply_kind(supply(hazards=("flammable",))) == "bottle"


def test_every_word_leads_to_a_drawing() -> None:
    assert {kind for _, kind in TOOL_WORDS} <= set(TOOLS)
    assert {kind for _, kind in SUPPLY_WORDS} <= set(SUPPLIES)


def test_the_tip_of_a_driver_is_drawn_by_drive_and_size() -> None:
    fits = [
        ("cross-recess", "PH00"),
        ("cross-recess", "PH2"),
        ("cross-recess", "PZ2"),
        ("hexalobular", "T6"),
        ("slotted", "2.0"),
    ]
    drawings = [tool_drawing(tool(type="screwdriver", fits=(fit,))) for fit in fits]
    assert len(set(drawings)) == len(fits)
    assert all("tool-drawing__lens" in drawing for drawing in drawings)


def test_a_driver_of_an_unknown_shape_has_no_circle() -> None:
    assert "tool-drawing__lens" not in tool_drawing(tool(type="screwdriver", fits=(("heart", None),)))


def test_larger_tips_are_drawn_larger_within_the_circle() -> None:
    widths = [tip_width(across) for across in (0.99, 1.35, 1.83, 2.91, 4.41)]
    assert widths == sorted(set(widths)) and widths[-1] < 30
    assert tip_width(0.0) < tip_width(1000.0) < 30


@pytest.mark.parametrize("d", [*TOOLS.values(), *SUPPLIES.values(), *DRIVER_TIPS.values()])
def test_paths_are_sound_and_inside_the_ground(d: str) -> None:
    x_low, y_low, x_high, y_high = extent(d)
    assert x_low >= 1 and x_high <= WIDTH - 1 and y_low >= 1 and y_high <= BENCH


@pytest.mark.parametrize("kind", [*(kind for kind in TOOLS if kind != "driver"), *SUPPLIES])
def test_every_drawing_stands_on_the_bench(kind: str) -> None:
    assert extent({**TOOLS, **SUPPLIES}[kind])[3] == pytest.approx(BENCH, abs=1.0)


def test_drawings_are_decoration_of_one_size() -> None:
    root = ET.fromstring(supply_drawing(supply()))
    assert root.get("aria-hidden") == "true" and root.get("viewBox") == f"0 0 {WIDTH} {HEIGHT}"


@given(st.text(max_size=30), st.text(max_size=30), st.text(max_size=12), st.text(max_size=8))
def test_anything_is_drawn_as_sound_xml_without_its_words(name: str, type: str, shape: str, size: str) -> None:
    drawing = tool_drawing(tool(f"{name}<script>", type, fits=((shape, size), ("cross-recess", size))))
    ET.fromstring(drawing)
    assert "script" not in drawing
    ET.fromstring(tool_drawing(tool(name, "screwdriver", fits=(("cross-recess", size),))))
    ET.fromstring(supply_drawing(supply(name, name)))


def test_every_class_that_is_drawn_is_styled() -> None:
    drawn = tool_drawing(tool(type="screwdriver", fits=(("hexalobular", "T10H"),)))
    names = set(re.findall(r'class="(tool-drawing__[a-z]+)', drawn))
    assert names == {f"tool-drawing__{piece}" for piece in ("line", "lens", "tip", "hole")}
    assert all(f".{name} " in STYLE.read_text(encoding="utf-8") for name in names)


def extent(d: str) -> tuple[float, float, float, float]:
    """Least and greatest x and y of the corners of a path and of the ends of its arcs and curves."""
    tokens = re.findall(r"[A-Za-z]|-?(?:\d+\.\d+|\.\d+|\d+)", d)
    assert "".join(tokens) == re.sub(r"\s", "", d)
    sizes = {"m": 2, "l": 2, "h": 1, "v": 1, "c": 6, "s": 4, "a": 7, "z": 0}
    x = y = 0.0
    start = (0.0, 0.0)
    points: list[tuple[float, float]] = []
    index, command = 0, ""
    while index < len(tokens):
        if tokens[index].isalpha():
            command = tokens[index]
            index += 1
        step = sizes[command.lower()]
        values = [float(value) for value in tokens[index : index + step]]
        assert len(values) == step, d
        index += step
        relative = command.islower()
        match command.lower():
            case "h":
                x = x + values[0] if relative else values[0]
            case "v":
                y = y + values[0] if relative else values[0]
            case "z":
                x, y = start
            case _:
                x, y = (x + values[-2], y + values[-1]) if relative else (values[-2], values[-1])
        if command in "mM":
            start = (x, y)
            command = "l" if command == "m" else "L"
        points.append((x, y))
    return min(p[0] for p in points), min(p[1] for p in points), max(p[0] for p in points), max(p[1] for p in points)
