"""Scores on their line, the depth plot and the end card, in numbers."""

from __future__ import annotations

from decimal import Decimal
from xml.etree import ElementTree

import pytest

from generator.figures.depth.drawing import depth_figure
from generator.figures.depth.geometry import STEMS, Deep, depth_plot
from generator.figures.end_card.drawing import end_card_figure
from generator.figures.end_card.geometry import HEIGHT, WIDTH, end_card
from generator.figures.index_line.drawing import class_figure, score_figure
from generator.figures.index_line.geometry import CLASS_MARGIN, CLASS_SIZE, class_line, score_line

LADDER = [(letter, Decimal(bound)) for letter, bound in zip("ABCDE", ("4.00", "3.35", "2.55", "1.75", "1.00"), strict=True)]
HOSTILE = "<script>&\"'\x00" * 20


def test_a_range_lies_between_the_ticks_of_its_ends() -> None:
    line = score_line(Decimal(2), Decimal("3.5"), (1, 5))
    assert line.ticks == (9.0, 54.5, 100.0, 145.5, 191.0)
    assert (line.span.low, line.span.high) == (54.5, 122.75)
    assert "index-line__caps" in score_figure(line) and "index-line__point" not in score_figure(line)


def test_a_known_score_is_a_diamond_and_what_lies_outside_stands_at_the_end() -> None:
    line = score_line(Decimal(3), Decimal(3), (1, 5))
    assert line.span.is_point and line.span.low == 100.0
    assert "index-line__point" in score_figure(line) and "index-line__bar" not in score_figure(line)
    assert score_line(Decimal(0), Decimal(9), (1, 5)).span.high == 191.0


def test_classes_begin_at_their_bounds() -> None:
    line = class_line((1, 5), LADDER, ("C", "D"), Decimal("2.1550"), Decimal("2.8600"), "2.16-2.86")
    unit = (CLASS_SIZE[0] - 2 * CLASS_MARGIN) / 4
    assert [bound.label for bound in line.bounds] == ["1", "1.75", "2.55", "3.35", "4.00", "5"]
    assert [bound.x for bound in line.bounds] == pytest.approx(
        [CLASS_MARGIN + unit * (score - 1) for score in (1, 1.75, 2.55, 3.35, 4, 5)]
    )
    assert [letter.letter for letter in line.letters] == list("EDCBA")
    assert [letter.letter for letter in line.letters if letter.is_reached] == ["D", "C"]
    assert (line.span.low, line.span.high) == pytest.approx((CLASS_MARGIN + unit * 1.155, CLASS_MARGIN + unit * 1.86))
    ElementTree.fromstring(class_figure(line, "x", HOSTILE, HOSTILE))


def test_bounds_too_near_each_other_keep_one_label() -> None:
    ladder = [("A", Decimal("2.1")), ("B", Decimal("2.0")), ("C", Decimal("1"))]
    line = class_line((1, 5), ladder, (), Decimal(2), Decimal(2), "2")
    assert [bound.label for bound in line.bounds] == ["1", "2.00", "", "5"]


def test_the_deepest_part_stands_at_the_end_and_equals_keep_their_order() -> None:
    plot = depth_plot([Deep("board", 8, False), Deep("lid", 2, True), Deep("tray", 2, True)])
    assert [(stem.name, stem.steps) for stem in plot.stems] == [("lid", 2), ("tray", 2), ("board", 8)]
    start, end = STEMS
    assert [stem.x for stem in plot.stems] == [start + (end - start) / 4] * 2 + [end]
    assert plot.desc == "From 2 (lid) to 8 (board)."


@pytest.mark.parametrize("count", [1, 80])
def test_any_parts_can_be_plotted(count: int) -> None:
    plot = depth_plot([Deep(HOSTILE, number, number % 2 == 0) for number in range(count)])
    assert plot.left_out == max(count - 40, 0)
    assert all(0 <= stem.x <= end for stem, end in zip(plot.stems, [STEMS[1]] * count, strict=False))
    ElementTree.fromstring(depth_figure(plot, "depth"))


@pytest.mark.parametrize("words", ["", "Short.", "One more reason to open it. " * 60, HOSTILE])
def test_an_end_card_stays_on_its_picture(words: str) -> None:
    line = class_line((1, 5), LADDER, ("A",), Decimal(5), Decimal(5), "5.00")
    card = end_card(words or "X", words, words, [(words[:60] or "Parts", words[:90])] * 12, line, words)
    assert all(0 <= word.at[0] <= WIDTH and 0 < word.at[1] <= HEIGHT for word in card.words)
    left = [word.at[1] for word in card.words if word.kind.startswith("verdict")]
    assert all(y < HEIGHT - 110 for y in left)
    drawn = ElementTree.fromstring(end_card_figure(card, "end-card", ".a{fill:red}"))
    assert drawn.get("viewBox") == "0 0 1920 1080"
