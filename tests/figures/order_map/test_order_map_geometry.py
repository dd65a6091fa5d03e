"""The order map in numbers: boxes apart, lines from border to border, none through a box that is not its own."""

from __future__ import annotations

import json
import re
from itertools import combinations, pairwise
from pathlib import Path

import pytest

from generator.figures.order_map import dot
from generator.figures.order_map.boxes import Boxes, are_apart
from generator.figures.order_map.channels import Bundle, lying_on_another, rounded, tracks_of
from generator.figures.order_map.columns import Kind, columns_of
from generator.figures.order_map.dot import dot_layout, layout_with, places_in, run_dot, source_of
from generator.figures.order_map.geometry import order_map_of
from generator.figures.order_map.joining import joined
from generator.figures.order_map.layered import balanced, layered_layout
from generator.figures.order_map.maps import NARROW_LIMIT, PRINT_LIMIT, WIDE_LIMIT, order_maps_of
from generator.figures.order_map.shapes import Form, Line, OrderMap, Place, Standing
from generator.figures.order_map.sizes import boxes_of, sizes_of
from generator.orders.chaining import members
from generator.orders.waits import Waits, waits_of
from generator.orders.work import StepId
from tests.figures.order_map.waiting import named, some_waits, steps_waiting

SEEDS = [(seed, 5 + seed * 5) for seed in range(16)]  # 5 to 80 steps
SMALL = Boxes(
    sizes=((100.0, 46.0), (100.0, 46.0), (100.0, 46.0), (100.0, 46.0), (0.0, 2.0)),
    columns=(0, 1, 1, 2, 1),
    links=((0, 1, 1), (0, 2, 1), (1, 3, 1), (0, 4, 4), (4, 3, 4)),
    along=28.0,
    across=20.0,
)


def map_of(waits: Waits, form: Form = Form.ACROSS, **known: object) -> OrderMap:
    return order_map_of(waits, waits.steps, dot_layout, form, **known)  # type: ignore[arg-type]


def spans(place: Place) -> tuple[float, float, float, float]:
    return place.left, place.top, place.left + place.width, place.top + place.height


def enters(line: Line, box: tuple[float, float, float, float]) -> bool:
    """Whether some piece of the line lies inside the box, its border not counted."""
    left, top, right, bottom = box
    for (x1, y1), (x2, y2) in pairwise(line.corners):
        if min(x1, x2) < right - 0.1 and max(x1, x2) > left + 0.1 and min(y1, y2) < bottom - 0.1 and max(y1, y2) > top + 0.1:
            return True
    return False


@pytest.mark.parametrize("form", Form)
@pytest.mark.parametrize(("seed", "count"), SEEDS)
def test_boxes_are_apart_and_lines_keep_out_of_them(seed: int, count: int, form: Form) -> None:
    drawn = map_of(some_waits(seed, count), form)
    assert len(drawn.places) == count
    for one, other in combinations(drawn.places, 2):
        a, b = spans(one), spans(other)
        assert a[2] + 8 <= b[0] or b[2] + 8 <= a[0] or a[3] + 8 <= b[1] or b[3] + 8 <= a[1], (one.number, other.number)
    for line in drawn.lines:
        for place in drawn.places:
            assert not enters(line, spans(place)), (line.corners, place.number)
        for (x1, y1), (x2, y2) in pairwise(line.corners):
            assert x1 == pytest.approx(x2) or y1 == pytest.approx(y2), "a piece is neither level nor upright"
    for place in drawn.places:
        left, top, right, bottom = spans(place)
        assert left >= -0.01 and top >= -0.01 and right <= drawn.width + 0.01 and bottom <= drawn.height + 0.01


@pytest.mark.parametrize("form", Form)
@pytest.mark.parametrize(("seed", "count"), SEEDS)
def test_lines_lead_from_border_to_border_of_what_waits(seed: int, count: int, form: Form) -> None:
    waits = some_waits(seed, count)
    drawn = map_of(waits, form)
    leaves, enters_at = (3, 1) if form.runs_down else (2, 0)
    axis = 1 if form.runs_down else 0

    def owner(point: tuple[float, float], side: int) -> int | None:
        for number, place in enumerate(drawn.places):
            span = spans(place)
            across = 1 - axis
            if abs(point[axis] - span[side]) < 0.01 and span[across] <= point[across] <= span[across + 2]:
                return number
        return None

    certain = [line.corners for line in drawn.lines if not line.is_either]
    solid = {(owner(row[0], leaves), owner(row[-1], enters_at)) for row in certain}
    expected = {(other, number) for number in range(count) for other in members(waits.before[number])}
    assert solid == expected
    assert len(drawn.diamonds) == len(waits.eithers)
    assert sum(line.is_either for line in drawn.lines) == sum(e.items.bit_count() + 1 for e in waits.eithers)
    into = [owner(line.corners[-1], enters_at) for line in drawn.lines if line.is_either and line.has_tip]
    assert sorted(map(str, into)) == sorted(str(either.step) for either in waits.eithers)


@pytest.mark.parametrize(("seed", "count"), SEEDS)
def test_no_line_lies_along_the_line_of_another_pair(seed: int, count: int) -> None:
    """Level pieces that overlap share their start or their end, or a reader could not tell which goes where."""
    waits = some_waits(seed, count)
    columns = columns_of(waits)
    drawn = map_of(waits)
    corners = sorted((line.corners for line in drawn.lines), key=str)
    ends = {row: (row[0], row[-1]) for row in corners}
    assert len(columns.runs) == len(corners)
    for one, other in combinations(corners, 2):
        if ends[one][0] == ends[other][0] or ends[one][1] == ends[other][1]:
            continue
        for (a1, b1), (a2, b2) in pairwise(one):
            for (c1, d1), (c2, d2) in pairwise(other):
                if b1 == b2 and d1 == d2 and abs(b1 - d1) < 2:
                    assert min(max(a1, a2), max(c1, c2)) - max(min(a1, a2), min(c1, c2)) < 0.1
                if a1 == a2 and c1 == c2 and abs(a1 - c1) < 2:
                    assert min(max(b1, b2), max(d1, d2)) - max(min(b1, b2), min(d1, d2)) < 0.1


@pytest.mark.parametrize(("seed", "count"), SEEDS)
def test_columns_are_the_longest_way(seed: int, count: int) -> None:
    columns = columns_of(some_waits(seed, count))
    for link in columns.links:
        assert columns.nodes[link.end].column == columns.nodes[link.start].column + 1
    arrived = {link.end for link in columns.links}
    for number, node in enumerate(columns.nodes):
        assert (node.column == 0) == (number not in arrived)
        assert node.kind is not Kind.PASSING or number in arrived


def test_the_route_is_wide_and_lies_on_top() -> None:
    steps = named(["One", "Two", "Three", "Four"])
    waits = waits_of(steps_waiting(steps, [(1, {0}), (2, {0}), (3, {1, 2})]))
    drawn = order_map_of(
        waits, steps[:3], dot_layout, Form.ACROSS, chosen=[steps[0].id, steps[1].id], targets=[steps[3].id]
    )
    assert [place.standing for place in drawn.places] == [Standing.CHOSEN, Standing.CHOSEN, Standing.OTHER, Standing.TARGET]
    assert [place.number for place in drawn.places] == ["1", "2", "3", "a"]
    assert [place.is_alternative for place in drawn.places] == [False, False, False, True]
    assert [line.is_chosen for line in drawn.lines] == [False, False, True, True, True]
    assert [diamond.is_chosen for diamond in drawn.diamonds] == [True]
    assert drawn.diamonds[0].caption is not None
    assert "Step a waits for either 2 or 3" in drawn.desc


def test_steps_that_stand_alone_stand_below() -> None:
    steps = named(["Tray", "Glass", "Sheet"])
    drawn = map_of(waits_of(steps_waiting(steps, [(2, {1})])))
    tray, glass, sheet = drawn.places
    assert tray.top > max(glass.top, sheet.top) + glass.height
    assert [caption.words for caption in drawn.captions] == ["at any time"]


@pytest.mark.parametrize("count", [0, 1, 80])
def test_any_number_of_lone_steps_is_drawn(count: int) -> None:
    steps = named(["Lift"] * count)
    for form in Form:
        drawn = map_of(waits_of(steps_waiting(steps, [])), form)
        assert len({place.at for place in drawn.places}) == count and drawn.lines == ()
    assert order_maps_of(waits_of(steps_waiting(steps, [])), steps, dot_layout)


def test_a_ring_is_drawn_without_the_line_that_closes_it() -> None:
    steps = named(["One", "Two", "Three"])
    drawn = map_of(waits_of(steps_waiting(steps, [(0, {2}), (1, {0}), (2, {1})])))
    assert len(drawn.lines) == 2 and "ring" in drawn.desc


@pytest.mark.parametrize(("seed", "count"), SEEDS)
def test_maps_of_a_page_fit_or_are_scrolled(seed: int, count: int) -> None:
    waits = some_waits(seed, count)
    shown = order_maps_of(waits, waits.steps, dot_layout)
    assert sorted(variant for one in shown for variant in one.variants) == ["narrow", "print", "wide"]
    for one in shown:
        for variant in one.variants:
            limit = {"wide": WIDE_LIMIT, "narrow": NARROW_LIMIT, "print": PRINT_LIMIT}[variant]
            assert one.map.width <= limit or variant in one.scrolled or (variant == "print" and not one.map.form.is_titled)
        assert not ("narrow" in one.variants and one.map.form.is_titled)


# --- layout -----------------------------------------------------------------------------------------------------


def test_positions_of_a_small_graph_are_always_these() -> None:
    answer = run_dot(source_of(SMALL, {}))
    assert answer is not None, "the layout program that comes with graphviz-pure is missing"
    places = places_in(answer, 5)
    assert json.dumps(places) == (
        "[[0.0, 133.0], [128.0, 23.0], [128.0, 89.0], [256.0, 133.0], [128.0, 133.0]]"
    )


@pytest.mark.parametrize("answer", [None, b"", b"{}", b"[]", b'{"objects": [{"name": "n0", "pos": "x"}]}', b"\xff"])
def test_without_a_useful_answer_the_plain_layout_is_taken(answer: bytes | None) -> None:
    asked: list[str] = []

    def run(source: str) -> bytes | None:
        asked.append(source)
        return answer

    assert layout_with(run, SMALL) == layered_layout(SMALL)
    assert len(asked) == 2 and "nslimit" in asked[1] and "nslimit" not in asked[0]


def test_places_that_lie_on_one_another_are_refused() -> None:
    heap = json.dumps({"objects": [{"name": f"n{n}", "pos": "0,0"} for n in range(5)]}).encode()
    assert layout_with(lambda _: heap, SMALL) == layered_layout(SMALL)


def test_a_missing_program_is_no_failure(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(dot, "_program", lambda: Path("/nowhere/layout"))
    assert dot.run_dot("digraph {}") is None
    monkeypatch.setattr(dot, "_program", lambda: None)
    assert dot.run_dot("digraph {}") is None


def test_the_program_is_told_numbers_only() -> None:
    """No label, name or address can reach it: titles are not even part of what a layout is given."""
    lines = source_of(SMALL, {}).splitlines()
    assert lines[1:3] == [
        "\tgraph [nodesep=0.2778 ranksep=0.3889 splines=none]",
        '\tnode [fixedsize=true label="" shape=box]',
    ]
    box_or_link = r"\tn\d+( -> n\d+ \[weight=\d+\]| \[height=[\d.]+ width=[\d.]+\])"
    assert all(re.fullmatch(box_or_link, line) for line in lines[3:-1])


@pytest.mark.parametrize("layout", [layered_layout, dot_layout, lambda boxes: balanced(boxes, dot_layout(boxes))])
@pytest.mark.parametrize(("seed", "count"), SEEDS[::3])
def test_layouts_keep_the_gaps(seed: int, count: int, layout: object) -> None:
    waits = some_waits(seed, count)
    boxes = boxes_of(columns_of(waits), sizes_of([step.title for step in waits.steps], Form.ACROSS, 2))
    assert are_apart(boxes, layout(boxes))  # type: ignore[operator]


def test_the_plain_layout_draws_as_well() -> None:
    waits = some_waits(3, 30)
    drawn = order_map_of(waits, waits.steps, layered_layout, Form.ACROSS)
    assert not any(enters(line, spans(place)) for line in drawn.lines for place in drawn.places)


# --- channels ---------------------------------------------------------------------------------------------------


def test_a_line_turns_off_before_another_arrives_at_its_height() -> None:
    bundles = [Bundle(0.0, (40.0,), (1,)), Bundle(80.0, (0.0,), (2,))]
    tracks, count = tracks_of(bundles)
    assert tracks[0] < tracks[1] and count == 2
    assert lying_on_another(bundles, tracks) == ()


def test_two_that_change_places_cannot_both_keep_clear() -> None:
    bundles = [Bundle(0.0, (80.0,), (1,)), Bundle(80.0, (0.0,), (2,))]
    tracks, _ = tracks_of(bundles)
    assert len(lying_on_another(bundles, tracks)) == 1


def test_parallel_lines_do_not_cross() -> None:
    bundles = [Bundle(0.0, (60.0,), (1,)), Bundle(20.0, (90.0,), (2,))]
    tracks, _ = tracks_of(bundles)
    assert tracks[0] > tracks[1]


def test_bends_share_a_short_piece() -> None:
    bends = rounded([(0.0, 0.0), (20.0, 0.0), (20.0, 8.0), (60.0, 8.0)], 9.0)
    assert [radius for _, radius in bends] == [4.0, 4.0]


def test_titles_are_set_whole_where_there_is_room() -> None:
    steps = named(["Warm and lift the back glass", "Free the coax lead and the joining cable", "a" * 90])
    drawn = map_of(waits_of(steps_waiting(steps, [(1, {0})])), most_lines=3)
    assert [" ".join(place.lines) for place in drawn.places[:2]] == [step.title for step in steps[:2]]
    assert drawn.places[2].lines[-1].endswith("…") and drawn.is_cut


def test_other_words_may_stand_for_titles() -> None:
    steps = named(["Warm and lift the back glass", "Unplug"])
    drawn = map_of(waits_of(steps_waiting(steps, [(1, {0})])), said={StepId("step-0"): "Back glass"})
    assert [place.lines for place in drawn.places] == [("Back", "glass"), ("Unplug",)]
    assert drawn.places[0].title == "Warm and lift the back glass"


@pytest.mark.parametrize(("seed", "count"), SEEDS)
def test_dashes_are_not_drawn_over_dashes_on_the_way_in(seed: int, count: int) -> None:
    """Of the dashed lines that share an end one is drawn to it, the one of the route if there is one."""
    drawn = map_of(some_waits(seed, count), chosen=[StepId(f"step-{n}") for n in range(0, count, 3)])
    groups: dict[tuple[float, float], list[Line]] = {}
    for line in drawn.lines:
        if line.is_either:
            groups.setdefault(line.corners[-1], []).append(line)
    for end, lines in groups.items():
        whole = [line for line in lines if line.drawn[-1] == end]
        assert len(whole) == 1 and (whole[0].is_chosen or not any(line.is_chosen for line in lines))


def test_a_line_stops_where_it_joins_a_longer_one() -> None:
    longer = Line(((0.0, 0.0), (100.0, 0.0)), ((0.0, 0.0), (100.0, 0.0)), False, True, False)
    way = ((0.0, 50.0), (60.0, 50.0), (60.0, 0.0), (100.0, 0.0))
    one, other = joined([longer, Line(way, way, False, True, False)])
    assert one == longer and other.drawn[-1] == pytest.approx((69.0, 0.0)) and other.corners == way
    one, other = joined([longer, Line(way, way, True, True, False)])
    assert one.drawn == ((0.0, 0.0), (60.0, 0.0)) and other.drawn == way
