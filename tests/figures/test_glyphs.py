"""The marks of joints and motions."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from generator.anatomy.joints import JointKind
from generator.figures.glyphs import ACTIONS, action_glyph, glyph_figure, half_size, joint_glyph


@pytest.mark.parametrize("kind", JointKind)
@pytest.mark.parametrize("label", ["", "1", "12", "1–120"])
def test_marks_are_at_least_18_units_across_and_grow_with_their_number(kind: JointKind, label: str) -> None:
    wide, high = half_size(kind, label)
    assert wide >= 9 and high >= 9
    assert wide >= half_size(kind, "")[0]
    assert wide * 2 >= len(label) * 7.5


def test_each_kind_has_a_shape_of_its_own() -> None:
    drawn = {joint_glyph(kind, 0, 0, "").replace(str(kind), "") for kind in JointKind}
    drawn |= {action_glyph(kind, 0, 0).replace(kind, "") for kind in ACTIONS}
    assert len(drawn) == len(JointKind) + len(ACTIONS)


@pytest.mark.parametrize("kind", [*JointKind, *ACTIONS])
def test_a_mark_alone_is_decoration_unless_it_has_a_title(kind: str) -> None:
    assert ET.fromstring(glyph_figure(kind)).get("aria-hidden") == "true"
    named = ET.fromstring(glyph_figure(kind, "two <screws>"))
    assert named.get("role") == "img" and named[0].text == "two <screws>"


def test_marks_carry_no_colour_font_or_width() -> None:
    drawn = "".join(glyph_figure(kind) for kind in (*JointKind, *ACTIONS))
    assert not [word for word in ("stroke", "fill", "font", "style", "#") if word in drawn]
