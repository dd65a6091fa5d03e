"""Sheets: cells keep apart and on the paper, every screw has its place, parts lie at 1:1."""

from __future__ import annotations

import math
from collections import Counter
from itertools import combinations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.anatomy.joints import JointKind
from generator.anatomy.parts import Box
from generator.figures.tray.lettering import NAME, SMALL, mono_width, serif_width
from generator.figures.tray.shapes import A4, LETTER, MARGIN, Cell, Line, Paper, RingKind, Rule, TraySheet
from generator.figures.tray.sheets import tray_sheets
from generator.orders.accounts import accounts_of
from generator.orders.guide import Guide
from tests.figures.tray.guides import guide, guides, part, plug, screws, step
from tests.wandering import examples

SLACK = 1e-6
PAPERS = (A4, LETTER)


def overlap(one: Box, other: Box) -> bool:
    across = min(one.right, other.right) - max(one.x, other.x)
    down = min(one.bottom, other.bottom) - max(one.y, other.y)
    return across > SLACK and down > SLACK


def within(inner: Box, outer: Box) -> bool:
    return (
        inner.x >= outer.x - SLACK
        and inner.y >= outer.y - SLACK
        and inner.right <= outer.right + SLACK
        and inner.bottom <= outer.bottom + SLACK
    )


def width_of(line: Line) -> float:
    return serif_width(line.words, NAME) if line.kind in ("name", "count") else mono_width(line.words, SMALL)


def ground(line: Line) -> Box:
    width = width_of(line)
    left = line.at[0] - (width / 2 if line.kind == "caption" else 0)
    return Box(left, line.at[1] - 1.6, width, 1.6)


def foot(rule: Rule) -> Box:
    """A rule with its ticks and numbers."""
    (x, y), length = rule.start, rule.length
    return Box(x, y - length - 1.0, 7.6, length + 2.0) if rule.is_upright else Box(x, y - 4.0, length, 7.0)


def printable(paper: Paper) -> Box:
    return Box(MARGIN, MARGIN, paper.width - 2 * MARGIN, paper.height - 2 * MARGIN)


def cells(sheets: tuple[TraySheet, ...]) -> list[Cell]:
    return [cell for sheet in sheets for cell in sheet.cells]


LID = part("lid", (10, 20, 66, 40), outline=((10, 20), (76, 20), (76, 60), (30, 60), (30, 50), (10, 50)))
LAMP = guide(
    [LID, part("coil", (0, 0, 12, 9)), part("shade", (0, 0, 150, 90)), part("cord")],
    [
        plug("coil-plug", "coil"),
        screws("lid-screws", "lid", [(14, 24), (70, 24), (70, 56)], lengths=(4.0, 4.0, 6.0)),
        screws("shade-screws", "shade", [(10, 10), (100, 80)]),
    ],
    [
        step("take-shade", ["shade-screws"], ["shade"]),
        step("pull-cord", lift=["cord"]),
        step("open-lid", ["coil-plug", "lid-screws"], ["lid", "coil"]),
    ],
)


def test_a_cell_a_step_that_frees_something_numbered_out_and_back() -> None:
    drawn = cells(tray_sheets(LAMP, LAMP.order, A4))
    assert [(cell.number, cell.back) for cell in drawn] == [(1, 6), (3, 4)]


def test_rings_lie_at_the_true_places_of_the_screws() -> None:
    sheets = tray_sheets(LAMP, LAMP.order, A4)
    rings = [ring for sheet in sheets for ring in sheet.rings if ring.joint.id == "lid-screws"]
    (outline,) = [
        one for cell in cells(sheets) for piece in cell.pieces for one in piece.outlines if one.box.width == 66
    ]  # 1:1
    assert (outline.box.width, outline.box.height) == (66, 40)
    places = [(ring.at[0] - outline.box.x, ring.at[1] - outline.box.y) for ring in rings]
    assert places == [pytest.approx(place) for place in ((4.0, 4.0), (60.0, 4.0), (60.0, 36.0))]
    assert {ring.radius for ring in rings} == {3.0}


def test_numbers_are_those_of_the_plan_and_the_second_size_is_dashed() -> None:
    rings = [ring for sheet in tray_sheets(LAMP, LAMP.order, A4) for ring in sheet.rings if ring.joint.id == "lid-screws"]
    assert [(ring.label, ring.kind) for ring in rings] == [
        ("2", RingKind.FIRST),  # the plug is 1
        ("3", RingKind.FIRST),
        ("4", RingKind.SECOND),
    ]


def test_sizes_are_told_in_words_with_count_and_numbers() -> None:
    (cell,) = [cell for cell in cells(tray_sheets(LAMP, LAMP.order, A4)) if cell.number == 3]
    words = [line.words for piece in cell.pieces for line in piece.lines]
    assert words[-10:-5] == ["2 ×", "M2 × 4 mm", "pan head", "cross recess PH0", "no. 2–3"]
    assert words[-5:] == ["1 ×", "M2 × 6 mm", "pan head", "cross recess PH0", "no. 4"]
    assert [screw.scale for piece in cell.pieces for screw in piece.screws] == [4, 4]


def test_a_screw_reached_from_the_second_face_is_mirrored() -> None:
    lid = part("lid", (10, 20, 60, 30), face="under")
    lamp = guide([lid], [screws("s", "lid", [(15, 22)], face="under")], [step("a", ["s"], ["lid"])], faces=("top", "under"))
    (sheet,) = tray_sheets(lamp, lamp.order, A4)
    (outline,) = [one for piece in sheet.cells[0].pieces for one in piece.outlines]
    (ring,) = sheet.rings
    assert (ring.at[0] - outline.box.x, ring.at[1] - outline.box.y) == pytest.approx((55.0, 2.0))


@pytest.mark.parametrize(
    ("box", "at"),
    [
        ((0, 0, 300, 200), [(10, 10), (280, 180)]),  # larger than the paper
        ((0, 0, 60, 40), [(10, 10), (11, 10)]),  # places that run into each other
        (None, [(10, 10), (30, 10)]),  # no size
        ((0, 0, 60, 40), []),  # no places
    ],
)
def test_screws_without_room_on_their_part_stand_in_a_grid(
    box: tuple[float, ...] | None, at: list[tuple[float, float]]
) -> None:
    lamp = guide([part("lid", box)], [screws("s", "lid", at, 2)], [step("a", ["s"])])
    (sheet,) = tray_sheets(lamp, lamp.order, A4)
    assert not [one for piece in sheet.cells[0].pieces for one in piece.outlines]
    first, second = sheet.rings
    assert first.at[1] == second.at[1] and math.dist(first.at, second.at) > 2 * first.radius


def test_screws_that_sit_close_get_smaller_rings() -> None:
    lamp = guide([part("lid", (0, 0, 60, 40))], [screws("s", "lid", [(10, 10), (14, 10)])], [step("a", ["s"])])
    (sheet,) = tray_sheets(lamp, lamp.order, A4)
    assert [ring.radius for ring in sheet.rings] == [pytest.approx(1.85)] * 2


def test_large_parts_without_screws_have_no_cell() -> None:
    lamp = guide([part("shade", (0, 0, 90, 90)), part("rod", (0, 0, 70, 2))], [], [step("a", lift=["shade", "rod"])])
    assert tray_sheets(lamp, lamp.order, A4) == ()


def test_a_route_has_sheets_of_its_own_with_its_own_numbers() -> None:
    (sheet,) = tray_sheets(LAMP, LAMP.order[2:], A4)
    assert [(cell.number, cell.back) for cell in sheet.cells] == [(1, 2)]
    assert sheet.title == "Tray sheet 1 of 1: Lamp, the way to the coil"


def test_the_desc_tells_what_the_sheet_shows() -> None:
    (sheet,) = tray_sheets(LAMP, LAMP.order, LETTER)[-1:]
    assert "Step 3, back as 4: lid and coil, 3 screws (2 of M2 × 4 mm, no. 2–3; 1 of M2 × 6 mm, no. 4)." in sheet.desc
    assert sheet.desc.startswith("Letter, printed at 1:1.")


def test_the_rules_are_100_and_50_mm() -> None:
    (sheet,) = tray_sheets(LAMP, LAMP.order[2:], A4)
    assert [(rule.length, rule.is_upright) for rule in sheet.rules] == [(100, False), (50, True)]


def test_hundreds_of_screws_fill_more_cells_of_the_same_step() -> None:
    lamp = guide([part("lid")], [screws("s", "lid", [], 500)], [step("a", ["s"], ["lid"])])
    sheets = tray_sheets(lamp, lamp.order, A4)
    assert len(sheets) > 1 and {cell.number for cell in cells(sheets)} == {1}
    assert sorted(int(ring.label) for sheet in sheets for ring in sheet.rings) == list(range(1, 501))


@settings(max_examples=examples(25), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(guides(), st.sampled_from(PAPERS))
def test_cells_keep_apart_and_inside_the_printable_ground(lamp: Guide, paper: Paper) -> None:
    for sheet in tray_sheets(lamp, lamp.order, paper):
        ground_of_sheet = printable(paper)
        feet = [foot(rule) for rule in sheet.rules]
        fields = [field.box for field in sheet.fields]
        for one, other in combinations([*(cell.box for cell in sheet.cells), *feet, *fields], 2):
            assert not overlap(one, other)
        for box in (sheet.frame, *feet, *fields):
            assert within(box, ground_of_sheet)
        for cell in sheet.cells:
            assert within(cell.box, sheet.frame)
            for one, other in combinations([piece.box for piece in cell.pieces], 2):
                assert not overlap(one, other)
            for line in cell.header:
                assert within(ground(line), cell.box)
            for piece in cell.pieces:
                assert within(piece.box, cell.box)
                assert not any(overlap(piece.box, ground(line)) for line in cell.header)


@settings(max_examples=examples(25), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(guides())
def test_what_is_drawn_in_a_piece_stays_in_its_room(lamp: Guide) -> None:
    for cell in cells(tray_sheets(lamp, lamp.order, A4)):
        for piece in cell.pieces:
            drawn = [one.box for one in piece.outlines]
            drawn += [Box(r.at[0] - r.radius, r.at[1] - r.radius, 2 * r.radius, 2 * r.radius) for r in piece.rings]
            drawn += [ground(line) for line in piece.lines]
            for screw in piece.screws:
                (x, y), k, of = screw.side_at, screw.scale, screw.silhouette
                drawn.append(Box(x - of.across * k / 2, y, of.across * k, of.height * k))
                half = max(of.head.across, of.across) * k / 2
                drawn.append(Box(screw.face_at[0] - half, screw.face_at[1] - half, 2 * half, 2 * half))
                if screw.small_at is not None:
                    drawn.append(Box(screw.small_at[0] - of.across / 2, screw.small_at[1], of.across, of.height))
            for box in drawn:
                assert within(box, piece.box)
            for one, other in combinations(piece.rings, 2):
                assert math.dist(one.at, other.at) >= one.radius + other.radius - SLACK


@settings(max_examples=examples(25), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(guides())
def test_every_screw_of_the_accounts_has_exactly_one_ring(lamp: Guide) -> None:
    rings = Counter((ring.joint.id, ring.index) for sheet in tray_sheets(lamp, lamp.order, A4) for ring in sheet.rings)
    undone = {joint for one in lamp.order for joint in one.undone}
    wanted = {
        (joint.id, index)
        for joint in lamp.anatomy.joints.values()
        if joint.kind is JointKind.SCREWS and joint.id in undone
        for index in range(joint.count)
    }
    assert set(rings) == wanted and set(rings.values()) <= {1}
    assert rings.total() == accounts_of(lamp, lamp.order).screw_count


@settings(max_examples=examples(25), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(guides())
def test_cells_come_in_step_order(lamp: Guide) -> None:
    numbers = [cell.number for cell in cells(tray_sheets(lamp, lamp.order, A4))]
    assert numbers == sorted(numbers)


def test_every_step_of_a_long_guide_has_its_cell() -> None:
    parts = [part(f"p-{n}", (0, 0, 20 + n, 15)) for n in range(40)]
    joints = [screws(f"s-{n}", f"p-{n}", [(2, 2), (12, 2), (2, 12), (12, 12)]) for n in range(40)]
    lamp = guide(parts, joints, [step(f"t-{n}", [f"s-{n}"], [f"p-{n}"]) for n in range(40)])
    assert [cell.number for cell in cells(tray_sheets(lamp, lamp.order, A4))] == list(range(1, 41))


@pytest.mark.parametrize(
    ("thread", "head", "across", "radius"),
    [
        ("M2", "pan", 4.0, 3.0),  # ISO 7045
        ("M4", "pan", 8.0, 4.5),  # ISO 7045: the head is wider than the usual ring
        ("M4", "hexagon", 7 / math.cos(math.pi / 6), None),  # ISO 4017: 7 mm across flats
        (None, "pan", 0.0, 3.0),  # nothing to know the head by
    ],
)
def test_a_ring_holds_its_head_at_its_true_size(thread: str | None, head: str, across: float, radius: float | None) -> None:
    told = screws("s", "lid", [(10, 10)], thread=thread, head=head)
    lamp = guide([part("lid", (0, 0, 60, 40))], [told], [step("a", ["s"])])
    (sheet,) = tray_sheets(lamp, lamp.order, A4)
    (ring,) = sheet.rings
    assert ring.head == pytest.approx(across)
    assert ring.radius == pytest.approx(radius or across / 2 + 0.5)
