"""Gaps: every part shows as much as promised or the gap is at its cap; and near parts are painted over far ones."""

from __future__ import annotations

import pytest
import shapely

from generator.anatomy.parts import Box
from generator.figures.stack.apart import (
    GAP_CAP,
    GAP_START,
    GAP_STEP,
    LARGE,
    SHOWN,
    SHOWN_OF_LARGE,
    painted,
)
from generator.figures.stack.arrangement import Arrangement, arrange
from generator.figures.stack.projection import lowered
from generator.figures.stack.solids import LEAST_THICKNESS, SPAN, Solid, solids_of
from generator.orders.guide import Guide
from tests.figures.stack.demo import demo
from tests.figures.stack.devices import BASE, guide, part, random_guide, step


def arranged(device: Guide) -> Arrangement:
    found = arrange(device, device.order)
    assert found is not None
    return found


def shown(one: Arrangement, number: int, solid: Solid, gap: float | None = None) -> float:
    """Share of a part's silhouette that the levels above leave uncovered, at its own gap or another."""
    level = one.levels[number]
    offset = level.offset if gap is None else level.offset - level.gap + gap
    covers = [lowered(s.silhouette, above.offset) for above in one.levels[:number] for s in above.solids]
    silhouette = lowered(solid.silhouette, offset)
    return float(silhouette.difference(shapely.union_all(covers)).area / silhouette.area)


@pytest.mark.parametrize("device", [demo(), *(random_guide(seed, 18) for seed in range(25))])
def test_each_part_shows_what_is_promised_or_the_gap_is_at_its_cap(device: Guide) -> None:
    one = arranged(device)
    for number, level in enumerate(one.levels):
        if number == 0:
            assert (level.offset, level.gap) == (0.0, 0.0)
            continue
        assert GAP_START <= level.gap <= GAP_CAP
        assert level.offset == pytest.approx(one.levels[number - 1].offset + level.gap)
        asked = [solid for solid in level.solids if solid.part == BASE] or level.solids
        needs = [SHOWN_OF_LARGE if s.box.width * s.box.height > LARGE else SHOWN for s in asked]
        if level.gap < GAP_CAP:
            assert all(shown(one, number, s) >= need - 0.02 for s, need in zip(asked, needs, strict=True))
        if level.gap > GAP_START:
            less = [shown(one, number, s, level.gap - GAP_STEP) for s in asked]
            assert any(share < need for share, need in zip(less, needs, strict=True))


def test_the_demo_shows_all_parts_but_its_slabs_to_four_fifths() -> None:
    one = arranged(demo())
    assert [level.gap for level in one.levels][:3] == [0.0, 50.0, 56.0]
    assert max(level.gap for level in one.levels) < GAP_CAP


def test_a_handset_is_drawn_true_and_thin_parts_are_thickened() -> None:
    solids = {solid.part: solid for solid in solids_of(demo(), {})}
    assert solids["frame"].box == Box(0, 0, 74, 158)
    assert solids["battery"].thickness == 4.8
    assert solids["joining-cable"].thickness == LEAST_THICKNESS


def test_a_large_device_is_scaled_to_the_same_span() -> None:
    device = guide([part(BASE, (0, 0, 340, 230), thickness=12.0)], [], [step("a", ("check", BASE))], (340.0, 230.0))
    box = solids_of(device, {})[0].box
    assert box.width + box.height == pytest.approx(SPAN, abs=0.02)


def test_the_base_is_drawn_where_it_is_and_the_second_face_goes_the_other_way() -> None:
    one = arranged(demo())
    names = [[solid.part for solid in level.solids] for level in one.levels]
    assert names[-2:] == [["frame"], ["display"]]
    assert one.units == pytest.approx(3.05)


def box(name: str, x: float, y: float, z: float, size: float = 10.0, thickness: float = 2.0) -> Solid:
    return Solid(name, Box(x, y, size, size), z, thickness, 0.0, (), (), ())  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("far", "near"),
    [
        (box("a", 0, 0, 0), box("b", 10, 0, 0)),
        (box("a", 0, 0, 0), box("b", 0, 12, 0)),
        (box("a", 0, 0, 5), box("b", 0, 0, 0)),
        (box("a", 30, 30, 9), box("b", 0, 0, 0)),
        (box("frame", 50, 50, 0), box("b", 0, 0, 3)),
        (box("a", 0, 0, 1), box("b", 5, 5, 0)),
    ],
)
def test_far_and_deep_parts_are_painted_first(far: Solid, near: Solid) -> None:
    assert painted([far, near], BASE) == painted([near, far], BASE) == (far, near)


def test_a_ring_of_parts_is_painted_all_the_same() -> None:
    solids = [box("a", 0, 0, 0), box("b", 5, 5, 1), box("c", 3, 8, 0.5)]
    assert {solid.part for solid in painted(solids, BASE)} == {"a", "b", "c"}


def test_silhouettes_are_whole_for_every_kind_of_outline() -> None:
    for seed in range(60):
        for solid in solids_of(random_guide(seed, 20), {}):
            assert solid.silhouette.is_valid
            assert solid.silhouette.area > 0


def test_a_slab_of_straight_sides_has_the_same_silhouette_either_way() -> None:
    corners = ((1.0, 2.0), (11.0, 2.0), (11.0, 7.0), (1.0, 7.0))
    hole = (Box(3, 3, 4, 3),)
    plain = Solid("a", Box(1, 2, 10, 5), 3.0, 1.5, 0.0, (), hole, ())  # type: ignore[arg-type]
    told = Solid("a", Box(1, 2, 10, 5), 3.0, 1.5, 0.0, corners, hole, ())  # type: ignore[arg-type]
    assert plain.silhouette.symmetric_difference(told.silhouette).area == pytest.approx(0.0, abs=1e-9)
