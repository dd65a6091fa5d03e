"""The moving picture and the frames as SVG: bytes, ids, hostile names, colours, and what a program without CSS knows."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from generator.commands.folders import read_theme
from generator.figures.moving.drawing import moving_figure
from generator.figures.moving.frames import HEIGHT, WIDTH, frame_figure, frames_of
from generator.figures.moving.geometry import moving_of
from generator.figures.stack.arrangement import arrange
from generator.orders.guide import Guide
from generator.pages.moving import frame_style, moving_style
from tests.figures.stack.demo import demo
from tests.figures.stack.devices import BASE, guide, joint, part, random_guide, step

ROOT = Path(__file__).parents[3]
SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = "</style><script>alert(1)</script>\"'&\x00]]>"


def moving(device: Guide, name: str = "Lamp", what: str = "taken apart", style: str = "") -> str:
    arranged = arrange(device, device.order)
    assert arranged is not None
    return moving_figure(moving_of(arranged, name, what), "moving", style)


def frames(device: Guide, style: str = "") -> list[str]:
    arranged = arrange(device, device.order)
    assert arranged is not None
    return [frame_figure(frame, f"frame-{n}", style) for n, frame in enumerate(frames_of(arranged, "Lamp"), 1)]


def hostile() -> Guide:
    parts = [
        part(BASE, (0, 0, 80, 60), thickness=10.0, depth=1.0, called=HOSTILE),
        part("shade", (5, 5, 60, 40), thickness=2.0, depth=0.0, called=HOSTILE),
    ]
    joints = [joint("screws", "screws", ["shade", BASE], positions=((8, 8), (60, 40)), count=2)]
    return guide(parts, joints, [step(HOSTILE, ("undo", "screws"), ("lift", "shade"))])


def test_the_demo_stays_under_60_kilobytes() -> None:
    drawn = moving(demo(), "Veldrun Tarn 5", style=moving_style(read_theme()))
    assert 10_000 < len(drawn.encode()) < 60_000


def test_title_desc_and_headings_are_in_it_in_order() -> None:
    root = ET.fromstring(moving(demo()))
    assert root.findtext(f"{SVG}title") == "Lamp: taken apart, in 18 steps"
    desc = root.findtext(f"{SVG}desc") or ""
    at = [desc.index(f"{number} {step.title}") for number, step in enumerate(demo().order, 1)]
    assert at == sorted(at)
    numbers = [one.text for one in root.iter(f"{SVG}text") if one.get("class") == "moving__number"]
    assert numbers == [str(number) for number in range(1, 19)]


def test_every_part_is_drawn_once() -> None:
    root = ET.fromstring(moving(demo()))
    ids = [one.get("id") or "" for one in root.iter(f"{SVG}g") if (one.get("class") or "").startswith("moving__part")]
    boxed = sorted(f"moving-{part.id}" for part in demo().anatomy.parts.values() if part.box is not None)
    assert sorted(ids) == boxed


def test_every_reference_and_every_name_of_a_motion_has_what_it_means() -> None:
    drawn = moving(demo())
    ids = re.findall(r' id="([^"]+)"', drawn)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r'href="#([^"]+)"', drawn)) | set(re.findall(r"url\(#([^)]+)\)", drawn)) <= set(ids)
    named = set(re.findall(r"@keyframes ([a-z0-9-]+)", drawn))
    assert named and named == set(re.findall(r"--(?:leave|fade|shine):([a-z0-9-]+)\}", drawn))
    used = {
        word for words in re.findall(r'class="(?:moving__part )?moving__piece ([^"]+)"', drawn) for word in words.split()
    }
    assert named <= used


def test_keyframes_go_forward_from_the_beginning_to_the_end() -> None:
    for frames_text in re.findall(r"@keyframes [a-z0-9-]+\{((?:[^{}]*\{[^{}]*\})*)\}", moving(demo())):
        shares = [float(share) for share in re.findall(r"([0-9.]+)%", frames_text)]
        assert shares[0] == 0 and shares[-1] == 100
        assert shares == sorted(shares) and len(shares) == len(set(shares))


@pytest.mark.parametrize("seed", [3, 11, 40])
def test_any_device_has_a_picture_that_can_be_read(seed: int) -> None:
    device = random_guide(seed, 5 + seed)
    ET.fromstring(moving(device))
    for drawn in frames(device):
        ET.fromstring(drawn)


def test_hostile_names_stay_text() -> None:
    style = moving_style(read_theme())
    for drawn in (moving(hostile(), HOSTILE, HOSTILE, style), *frames(hostile(), frame_style(read_theme()))):
        root = ET.fromstring(drawn)
        assert "script" not in {element.tag.rpartition("}")[2] for element in root.iter()}
        assert "<script" not in drawn and drawn.count("</style>") == 1


def test_nothing_is_coloured_in_python() -> None:
    for drawn in (moving(demo()), *frames(demo())):
        assert not re.findall(r'(?:fill|stroke|color)="(?!url\()[^"]*"', drawn)
        assert not re.search(r"#[0-9a-f]{3,6}\b(?=[;\"}])", drawn)


def test_the_style_has_every_token_it_names_in_light_and_dark() -> None:
    style = moving_style(read_theme())
    named = set(re.findall(r"var\(--([a-z0-9-]+)", style)) - {"leave", "fade", "shine", "hand", "work"}
    light, dark = style.split("@media screen", 1)
    assert named <= set(re.findall(r"--([a-z0-9-]+):", light))
    colours = named - {"serif", "mono"}
    assert colours <= set(re.findall(r"--([a-z0-9-]+):", dark.split("}}", 1)[0]))
    assert "@font-face" not in style and "url(" not in style


def test_frames_hold_no_custom_property_and_nothing_that_depends_on_a_medium() -> None:
    style = frame_style(read_theme())
    assert "var(" not in style and "@media" not in style and "display" not in style
    drawn = frames(demo(), style)
    assert len(drawn) == 18
    for number, (frame, work) in enumerate(zip(drawn, demo().order, strict=True), 1):
        root = ET.fromstring(frame)
        assert (root.get("width"), root.get("height")) == (f"{WIDTH:g}", f"{HEIGHT:g}")
        assert root.findtext(f"{SVG}title") == f"Step {number} of 18: {work.title}"
        assert "var(" not in frame


def test_the_device_stands_at_the_same_place_in_every_frame() -> None:
    arranged = arrange(demo(), demo().order)
    assert arranged is not None
    stills = frames_of(arranged, "Lamp")
    origins = [[at - corner * one.scale for at, corner in zip(one.at, one.stack.corner, strict=True)] for one in stills]
    assert all(origin == pytest.approx(origins[0], abs=0.2) for origin in origins)
    assert len({frame.scale for frame in stills}) == 1
    for frame in stills:
        assert frame.at[1] >= 0 and frame.at[1] + frame.stack.height * frame.scale <= HEIGHT
        assert frame.at[0] + frame.stack.width * frame.scale <= WIDTH
        assert all(line.at[1] <= HEIGHT for line in frame.lines)


def test_the_same_bytes_whatever_the_seed_of_the_hashes() -> None:
    program = (
        "from tests.figures.moving.test_moving_drawing import *\n"
        "import hashlib\n"
        "told = moving(demo()) + ''.join(frames(demo()))\n"
        "print(hashlib.sha256(told.encode()).hexdigest())"
    )
    found = {
        subprocess.run(
            [sys.executable, "-c", program],
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "77")
    }
    assert len(found) == 1
