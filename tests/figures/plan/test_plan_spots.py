"""Where fasteners sit."""

from __future__ import annotations

import pytest

from generator.figures.plan.spots import spots_of
from tests.figures.plan.devices import anatomy, joint, part

PARTS = [part("lid", (10, 20, 40, 100)), part("pack", (60, 30, 20, 20)), part("cord"), part("base", (0, 0, 90, 130))]


def spots(kind: str, joins: list[str], count: int = 1, **facts: object) -> list[tuple[int, int, tuple[float, float]]]:
    made = joint("j", kind, joins, count, **facts)
    found = spots_of(anatomy("base", PARTS, [made]), made, (), roomy=20, stretch=40)
    return [(spot.first, spot.last, spot.at) for spot in found]


def test_screws_sit_where_the_author_says() -> None:
    assert spots("screws", ["lid", "base"], 2, positions=((1, 2), (3, 4))) == [(0, 0, (1, 2)), (1, 1, (3, 4))]


def test_screws_without_a_place_share_one_mark_in_the_middle_of_their_part() -> None:
    assert spots("screws", ["lid", "base"], 5) == [(0, 4, (30, 70))]
    assert spots("screws", ["lid", "base"], 5, positions=((1, 2),)) == [(0, 0, (1, 2)), (1, 4, (30, 70))]


@pytest.mark.parametrize("count", range(1, 25))
def test_clips_are_spread_along_the_edges(count: int) -> None:
    found = spots("clips", ["lid", "base"], count)
    assert [first for first, _, _ in found] == list(range(count))
    assert len({at for _, _, at in found}) == count
    assert all(x in (10, 50) or y in (20, 120) for _, _, (x, y) in found)


def test_very_many_clips_share_one_mark() -> None:
    assert spots("clips", ["lid", "base"], 25) == [(0, 24, (30, 70))]


def test_glue_is_on_the_middles_of_the_sides_or_in_the_middle_of_a_small_part() -> None:
    assert [at for _, _, at in spots("glue", ["lid", "base"])] == [(30, 20), (50, 70), (30, 120), (10, 70)]
    small = anatomy("base", [part("chip", (0, 0, 10, 10)), part("base")])
    made = joint("j", "glue", ["chip", "base"])
    assert [spot.at for spot in spots_of(small, made, (), roomy=20, stretch=40)] == [(5, 5)]


def test_an_open_run_of_glue_carries_marks_at_even_distances() -> None:
    assert [at for _, _, at in spots("glue", ["lid", "base"], run=((0, 0), (80, 0)))] == [(20, 0), (60, 0)]
    assert [at for _, _, at in spots("glue", ["lid", "base"], run=((0, 0), (0, 10)))] == [(0, 5)]


def test_a_closed_run_carries_them_on_its_sides() -> None:
    run = ((10, 20), (50, 20), (50, 120), (10, 120), (10, 20))
    assert [at for _, _, at in spots("glue", ["lid", "base"], run=run)] == [(30, 20), (50, 70), (30, 120), (10, 70)]
    tight = ((0, 0), (8, 0), (8, 4), (0, 4), (0, 0))
    assert [at for _, _, at in spots("glue", ["lid", "base"], run=tight)] == [(4, 2)]


def test_a_plug_is_between_its_two_parts() -> None:
    assert spots("plug", ["pack", "lid"]) == [(0, 0, (55, 40))]


def test_a_plug_on_the_base_is_on_its_own_part() -> None:
    assert spots("plug", ["pack", "base"]) == [(0, 0, (70, 40))]


def test_a_joint_of_parts_without_boxes_has_no_spot() -> None:
    assert spots("press", ["cord", "base"]) == []
