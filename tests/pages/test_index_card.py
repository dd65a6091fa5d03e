"""The index card and the workings: the numbers of the index, nothing else, each with what it was made from."""

from __future__ import annotations

from dataclasses import replace
from xml.etree import ElementTree

from generator.figures.index_line.geometry import class_line
from generator.figures.svg import number
from generator.indices.scores import scores_of
from generator.pages.depths import depths_of
from generator.pages.device import device_page
from generator.pages.end_card import verdict_card
from generator.pages.index_card import card_of
from generator.pages.site import render_site
from generator.pages.survey import survey_of
from generator.pages.typography import DASH
from generator.pages.workings import NOT_SHOWN, workings_page
from tests.pages.reading import Page
from tests.pages.sites import bench_theme, demo, demo_site, guide, shelf
from tests.pages.test_licensed import dryers


def plain(words: str) -> str:
    return words.replace(DASH, "–").replace("\u00a0", " ")


def test_the_card_has_the_numbers_of_the_index() -> None:
    phone = demo().guides[0]
    index = scores_of(phone).index
    assert index is not None and index.low is not None and index.high is not None
    card = card_of(phone, scores_of(phone), "x")
    for row, criterion in zip(card.rows, index.criteria, strict=True):
        assert criterion.product is not None and row.weight == f"{criterion.weight:.2f}"
        assert plain(row.score).split("–")[0] == f"{criterion.low:.2f}"
        assert plain(row.product).split("–")[-1] == f"{criterion.product[1]:.4f}"
    assert plain(card.product_sum) == f"{index.low:.4f}–{index.high:.4f}"
    assert [row.width for row in card.unknown] == [f"{entry.width:.4f}" for entry in index.widths]
    assert "not the label" in card.statement and index.applies in card.source
    told = plain(Page(str(demo_site()["tarn-5/index.html"])).one("index").words)
    for figure in (f"{index.low:.4f}", f"{index.high:.4f}", *(row.width for row in card.unknown)):
        assert figure in told


def test_the_bar_on_the_class_line_is_that_of_the_sum() -> None:
    phone = demo().guides[0]
    index = scores_of(phone).index
    assert index is not None and index.low is not None and index.high is not None
    line = class_line(index.scale, [(r.letter, r.bound) for r in index.ladder], index.classes, index.low, index.high, "")
    drawn = str(card_of(phone, scores_of(phone), "x").line)
    assert f'd="M{number(line.span.low)} 74H{number(line.span.high)}"' in drawn


def test_every_line_of_a_working_names_a_rule_that_stands_on_the_page() -> None:
    phone = demo().guides[0]
    view = workings_page(survey_of(demo(), phone), scores_of(phone))
    known = {f"#{rule.id}" for rule in view.rules}
    lines = [line for criterion in view.criteria for cell in criterion.cells for line in cell.lines]
    assert len(lines) > 30 and {line.cite.href for line in lines} <= known
    battery = next(cell for cell in view.criteria[0].cells if cell.name == "Battery")
    steps = sum(int(line.amount) for line in battery.lines if not line.amount.startswith("("))
    assert battery.figures.startswith(f"{steps}")
    assert view.checks and view.efforts


def test_a_device_without_an_index_says_so_and_has_its_counts() -> None:
    lamp = guide("lamp")
    card = card_of(lamp, scores_of(lamp), "x")
    assert not card.has_index and card.no_index.startswith("No index is computed") and card.efforts
    assert [(row.part, row.steps, row.lost) for row in card.efforts] == [("glass cover", "1", "1")]


def test_the_card_of_a_dryer_has_the_points_of_each_part_and_no_sum() -> None:
    dryer = dryers().guides[0]
    index = scores_of(dryer).index
    assert index is not None and index.withheld
    card = card_of(dryer, scores_of(dryer), "x")
    assert card.points is not None and not card.product_sum and not card.line and not card.verdict
    names = [name for name, _ in card.points.columns]
    assert names == ["Disassembly depth", "Fasteners", "Tools"]
    told = {row.name: [plain(figure) for figure in row.figures] for row in card.points.rows}
    assert told["Drum bearing"] == ["4 steps, 10 points", "4 to 7 points", "0 points"]
    assert told["Main printed circuit board"][0] == "2 steps, 0 points", "a code ties it to the dryer"
    assert len(told) == 7, "the pump has no role in it"
    assert [(name, plain(figure)) for name, _, figure in card.points.others] == [("Repair information", "10 points")]
    site = render_site(dryers(), bench_theme())
    for path in ("velm-8/index.html", "velm-8/workings.html"):
        words = plain(Page(str(site[path])).all("main")[0].words)
        assert "4 steps, 10 points" in words and "The sum cannot be computed" in words, path
        assert "not the label" in words and "part by part" not in words, path
    known = set(Page(str(site["velm-8/workings.html"])).ids)
    assert {href.partition("#")[2] for _, href in card.points.columns} <= known


def test_work_for_licensed_practice_is_not_told_in_the_workings() -> None:
    phone = demo().guides[0]
    parts = dict(phone.anatomy.parts)
    back = next(part for part in parts if parts[part].role == "back cover")
    parts[back] = replace(parts[back], licensed="stored charge")
    shut = replace(phone, anatomy=replace(phone.anatomy, parts=parts))
    view = workings_page(survey_of(demo(), shut), scores_of(shut))
    battery = next(cell for cell in view.criteria[0].cells if cell.name == "Battery")
    assert NOT_SHOWN.capitalize() in {line.words for line in battery.lines}
    assert not any("glue line" in line.words for line in battery.lines)


def test_gates_and_the_longest_chain_are_told() -> None:
    view = depths_of(survey_of(shelf(), guide("lamp")))
    assert view is not None
    assert view.gates == ("The glass cover gates 1 of 1 other replaceable part.",)
    assert plain(view.chain).startswith("The longest chain is 3 of 6 steps") and len(view.links) == 3


def test_the_verdict_is_a_picture_with_the_figures_and_no_hostile_word_gets_through() -> None:
    phone = demo().guides[0]
    hostile = replace(phone, device=replace(phone.device, name="<script>alert(1)</script>", verdict="& \"<b>'"))
    figures = device_page(survey_of(demo(), hostile)).figures
    drawn = verdict_card(hostile, figures, scores_of(hostile), bench_theme())
    assert "<script" not in drawn and "var(" not in drawn
    words = "".join(ElementTree.fromstring(drawn).itertext())
    assert "Own estimate, not the label" in words and figures[0].value in words
