"""Screws in true size, held to the tables of the standards and to the way the standards measure length."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from generator.anatomy.joints import Drive
from generator.figures.fasteners.heads import WORDS, head_of
from generator.figures.fasteners.silhouette import MOST_TURNS, screw_silhouette
from generator.figures.fasteners.threads import THREAD_DEPTH, thread_of
from generator.rules.trade.threads import BY_NAME
from tests.figures.fasteners.standards import rows


@pytest.mark.parametrize(("name", "pitch"), rows("thread pitch coarse"))  # ISO 262
def test_threads_have_the_coarse_pitch(name: str, pitch: float) -> None:
    drawn = screw_silhouette(name, 6.0, "pan", None)
    assert drawn.diameter == float(name[1:])
    assert drawn.pitch == pitch


@pytest.mark.parametrize(("name", "pitch"), rows("thread pitch"))  # ISO 1501
def test_miniature_threads_have_theirs(name: str, pitch: float) -> None:
    thread = thread_of(name)
    assert thread is not None and (thread.diameter, thread.pitch) == (float(name[1:]), pitch)


def test_every_thread_the_rules_know_is_drawn_with_its_pitch() -> None:
    for thread in BY_NAME.values():
        drawn = thread_of(thread.name)
        assert drawn is not None and drawn.pitch == thread.pitch and not drawn.is_nominal, thread.name


def test_a_miniature_size_written_as_metric_is_the_miniature_thread() -> None:
    assert thread_of("M0.8") == thread_of("S0.8")


@pytest.mark.parametrize(("name", "hole"), rows("clearance hole coarse"))  # ISO 273
def test_every_head_is_wider_than_the_coarse_clearance_hole(name: str, hole: float) -> None:
    for kind in ("pan", "countersunk", "cap", "cheese", "button", "hexagon", "wafer"):
        assert head_of(kind, float(name[1:])).across > hole, kind


@pytest.mark.parametrize(
    ("head", "thread", "across", "height"),
    [  # greatest head diameter and height: memory of the standard named
        ("pan", "M2", 4.0, 1.6),  # ISO 7045
        ("pan", "M3", 5.6, 2.4),  # ISO 7045
        ("countersunk", "M3", 5.5, 1.65),  # ISO 7046-1
        ("cap", "M3", 5.5, 3.0),  # ISO 4762
        ("cheese", "M4", 7.0, 2.6),  # ISO 1207
        ("button", "M5", 9.5, 2.75),  # ISO 7380-1
        ("hexagon", "M4", 7.0, 2.8),  # ISO 4017, across flats
    ],
)
def test_heads_have_their_size(head: str, thread: str, across: float, height: float) -> None:
    drawn = screw_silhouette(thread, 10.0, head, None)
    assert (drawn.head.across, drawn.head.height) == (across, height)
    widest = across if head != "hexagon" else across / 0.75**0.5  # over the corners
    assert drawn.across == pytest.approx(widest, abs=0.01)
    assert drawn.head.source is not None


def test_a_size_between_two_of_the_standard_lies_between_them() -> None:
    between = head_of("pan", 2.3)
    assert 4.0 < between.across < 5.0 and 1.6 < between.height < 2.1 and between.source == "ISO 7045"


@pytest.mark.parametrize("head", ["pan", "cap", "cheese", "button", "hexagon", "wafer"])
def test_length_runs_from_the_bearing_face_to_the_end(head: str) -> None:  # ISO 225, ISO 888
    drawn = screw_silhouette("M2", 7.0, head, None)
    bearing = max(y for x, y in drawn.outline if x > 0.6 * drawn.diameter)  # the lowest place of the head
    assert max(y for _, y in drawn.outline) - bearing == pytest.approx(7.0)


@pytest.mark.parametrize("head", ["countersunk", "set", "none"])
def test_length_is_overall_for_sunk_and_headless_screws(head: str) -> None:  # ISO 225, ISO 888
    drawn = screw_silhouette("M3", 8.0, head, None)
    assert drawn.height == 8.0 == max(y for _, y in drawn.outline) - min(y for _, y in drawn.outline)


def test_a_countersunk_head_is_a_cone_of_90_degrees() -> None:  # ISO 7721
    points = screw_silhouette("M3", 8.0, "countersunk", None).outline
    (edge, top), (bolt, bottom) = next((a, b) for a, b in pairwise(points) if b == (1.5, 1.65))
    assert edge - bolt == pytest.approx(bottom - top)


def test_the_thread_has_as_many_turns_as_its_length_over_its_pitch() -> None:
    drawn = screw_silhouette("M1.4", 3.0, "pan", None)  # threads.csv of the trade: 10 turns
    roots = [x for x, y in drawn.outline if x > 0 and x == pytest.approx(0.7 - THREAD_DEPTH * 0.3) and y > drawn.head.height]
    assert abs(len(roots) - 10) <= 1


def test_a_long_thread_is_drawn_without_turns() -> None:
    drawn = screw_silhouette("M1", 0.25 * MOST_TURNS + 1, "pan", None)
    assert drawn.outline == drawn.plain


def test_a_self_tapping_screw_ends_in_a_point() -> None:
    drawn = screw_silhouette("ST2.9", 9.0, "pan", None)
    end = max(y for _, y in drawn.outline)
    assert max(x for x, y in drawn.outline if y == end) < 0.4


def test_a_slotted_screw_shows_its_slot_from_the_end() -> None:
    drawn = screw_silhouette("M3", 6.0, "cheese", Drive("slotted", None))
    assert (0.4, 0.0) in drawn.outline  # half of 0.8 mm, ISO 1207
    assert drawn.drive is not None and drawn.drive.across < drawn.head.across


@pytest.mark.parametrize(
    ("thread", "length", "head", "said"),
    [
        ("M2", 4.0, "bobble", "head bobble, not known here, drawn as a plain pan head"),
        ("M2", 4.0, None, "head not told"),
        ("M2", None, "pan", "length not told"),
        (None, 4.0, "pan", "thread not told"),
        ("W1/8", 4.0, "pan", "thread W1/8, which is in no table"),
    ],
)
def test_what_is_not_told_is_drawn_dashed_and_said(
    thread: str | None, length: float | None, head: str | None, said: str
) -> None:
    drawn = screw_silhouette(thread, length, head, None)
    assert drawn.is_guessed and said in drawn.desc


def test_a_screw_told_in_full_is_not_dashed() -> None:
    drawn = screw_silhouette("M2", 4.0, "pan", Drive("cross-recess", "PH0"))
    assert not drawn.is_guessed
    assert drawn.desc.startswith("thread M2, length 4 mm, pan head, drive cross-recess PH0")


words = st.one_of(st.none(), st.text(max_size=12), st.sampled_from([word for word, _ in WORDS]))
names = st.sampled_from(["M1", "M1.4", "M3", "S0.3", "ST6.3", "M30", "M99", "M8x1", "M2x9", "M0.1"])
threads = st.one_of(st.none(), st.text(max_size=8), names)
shapes = st.sampled_from(
    ["cross-recess", "hexalobular", "slotted", "hexagon-socket", "hexagon", "five-lobe", "one-way", "odd"]
)
drives = st.one_of(
    st.none(),
    st.builds(
        Drive,
        shapes,
        st.one_of(st.none(), st.text(max_size=6), st.sampled_from(["PH0", "T1", "T100", "99", "0.1"])),
    ),
)


@example("M3", 1.0, "set", Drive("slotted", None))  # the slot is as deep as the screw is long
@given(threads, st.one_of(st.none(), st.floats(0.01, 5000)), words, drives)
def test_anything_makes_a_closed_shape_that_is_even_on_both_sides(
    thread: str | None, length: float | None, head: str | None, drive: Drive | None
) -> None:
    drawn = screw_silhouette(thread, length, head, drive)
    for outline in (drawn.outline, drawn.plain):
        assert len(outline) > 3
        assert max(x for x, _ in outline) == pytest.approx(-min(x for x, _ in outline))
        assert min(y for _, y in outline) >= -1e-9
        assert max(y for _, y in outline) == pytest.approx(drawn.height)
    assert len(drawn.outline) < 5 * MOST_TURNS
    if drawn.drive is not None:
        assert drawn.drive.across <= max(drawn.head.across, drawn.diameter) + 1e-9
