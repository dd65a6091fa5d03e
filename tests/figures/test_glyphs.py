"""The marks of joints and motions."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET

import pytest

from generator.anatomy.joints import Drive, Joint, JointKind
from generator.figures.glyphs import (
    ACTIONS,
    HEAD,
    action_glyph,
    glyph_figure,
    half_size,
    joint_figure,
    joint_glyph,
    screw_sign,
)
from tests.figures.plan.devices import joint

DRIVES = (Drive("cross-recess", "PH00"), Drive("hexalobular", "T5"), Drive("slotted", "2.0"), Drive("five-lobe", None))


def screws(drive: Drive | None) -> Joint:
    return joint("screws", "screws", ["lid", "base"], thread="M1.6", head="pan", drive=drive)


@pytest.mark.parametrize("kind", JointKind)
@pytest.mark.parametrize("label", ["", "1", "12", "1–120"])
def test_marks_are_at_least_18_units_across_and_grow_with_their_number(kind: JointKind, label: str) -> None:
    wide, high = half_size(kind, label)
    assert wide >= 9 and high >= 9
    assert wide >= half_size(kind, "")[0]
    assert wide * 2 >= len(label) * 7.5


def test_each_kind_has_a_shape_of_its_own() -> None:
    drawn = {joint_glyph(kind, 0, 0, "").replace(str(kind), "") for kind in JointKind}
    assert len({screw_sign(screws(drive)) for drive in DRIVES}) == len(DRIVES)
    drawn |= {action_glyph(kind, 0, 0).replace(kind, "") for kind in ACTIONS}
    assert len(drawn) == len(JointKind) + len(ACTIONS)


@pytest.mark.parametrize("kind", [*JointKind, *ACTIONS])
def test_a_mark_alone_is_decoration_unless_it_has_a_title(kind: str) -> None:
    assert ET.fromstring(glyph_figure(kind)).get("aria-hidden") == "true"
    named = ET.fromstring(glyph_figure(kind, "two <screws>"))
    assert named.get("role") == "img" and named[0].text == "two <screws>"


@pytest.mark.parametrize("drive", DRIVES)
def test_the_table_shows_the_drive_of_the_plan(drive: Drive) -> None:
    joint = screws(drive)
    sign = screw_sign(joint)
    assert joint_figure(joint).count('class="glyph__drive"') == 1
    assert all(math.hypot(x, y) <= sign.radius for polygon in sign.cut for x, y in polygon)
    assert sign.radius == HEAD


def test_a_screw_whose_drive_is_not_known_stands_on_its_centre_lines() -> None:
    assert "glyph__drive" not in joint_figure(screws(None)) and "glyph__line" in joint_figure(screws(None))
    assert joint_figure(screws(Drive("secret", None))) == joint_figure(screws(None))


def test_marks_carry_no_colour_font_or_width() -> None:
    drawn = "".join(glyph_figure(kind) for kind in (*JointKind, *ACTIONS))
    assert not [word for word in ("stroke", "fill", "font", "style", "#") if word in drawn]
