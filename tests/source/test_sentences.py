"""Sentences and their words, counted as the trade counts them."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.source.sentences import count_words, sentences

ROWS = Path(__file__).parents[1] / "data" / "trade" / "text.csv"


@pytest.mark.parametrize(
    ("text", "cut"),
    [
        ("Lift it. Turn it over! Is it warm? Wait", ["Lift it.", "Turn it over!", "Is it warm?", "Wait"]),
        ("Use a pick, e.g. Thin ones. Wait.", ["Use a pick, e.g. Thin ones.", "Wait."]),
        ("Heat to approx. 80 °C. Wait.", ["Heat to approx. 80 °C.", "Wait."]),
        ("Take No. 0 first. Then No. 1.", ["Take No. 0 first.", "Then No. 1."]),
        ("Is it warm? No. Wait.", ["Is it warm?", "No.", "Wait."]),
        ("A gap of 0.6 mm is enough. Go on.", ["A gap of 0.6 mm is enough.", "Go on."]),
        ("Wait 2 min. Lift it.", ["Wait 2 min.", "Lift it."]),
        ("Undo screws, clips, etc. and lift. Done.", ["Undo screws, clips, etc. and lift.", "Done."]),
        ("Undo screws, clips, etc. Lift.", ["Undo screws, clips, etc.", "Lift."]),
        ("Wait ... then lift. Done.", ["Wait ... then lift.", "Done."]),
        ('It says "Open." Go on.', ['It says "Open."', "Go on."]),
        ("See fig. 3 there.", ["See fig. 3 there."]),
        ("Lift. then turn.", ["Lift.", "then turn."]),
        ("", []),
        ("... !", []),
    ],
)
def test_where_a_sentence_ends(text: str, cut: list[str]) -> None:
    assert [each.text for each in sentences(text)] == cut


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Undo the screws (three of them) first.", [("Undo the screws first.", 4), ("three of them", 3)]),
        ("Undo the screw(s) first.", [("Undo the screw(s) first.", 4)]),
        ("(Keep it warm. Wait.) Lift.", [("Keep it warm.", 3), ("Wait.", 1), ("Lift.", 1)]),
        ("Open (see (a) there) it.", [("Open it.", 2), ("see (a) there", 3)]),
        ("Open (it.", [("Open (it.", 2)]),
        ("Undo them (no. 3).", [("Undo them.", 2), ("no. 3", 2)]),
    ],
)
def test_parentheses_hold_sentences_of_their_own(text: str, told: list[tuple[str, int]]) -> None:
    assert sorted((each.text, each.words) for each in sentences(text)) == sorted(told)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Lift the cover.", 3),
        ("Use the lower-left one-sided pick.", 5),
        ("A gap of 0.6 mm.", 4),
        ("Tighten to 0.06 N·m.", 3),
        ("Tighten to 0.06 N m at once.", 5),
        ("Heat to 80 °C for 30-60 s.", 5),
        ("Heat it to 80 °C, then wait 2 min.", 7),
        ("Wait 3 minutes.", 2),
        ("Undo 3 screws.", 3),
        ("Put 3 in the tray.", 5),
        ("Lift it — slowly — and wait.", 5),
        ("It is 60% full.", 4),
        ("It is 60 % full.", 4),
        ("", 0),
    ],
)
def test_words(text: str, words: int) -> None:
    assert count_words(text) == words


def test_sentences_of_the_greatest_length_allowed() -> None:
    with ROWS.open(encoding="utf-8", newline="") as file:
        limits = {row["quantity"]: int(row["value"]) for row in csv.DictReader(file) if row["unit"] == "words"}
    procedural = (
        "Slide the flat opening-pick under the lower-left edge, push it 3 mm in, and move it along "
        "the glue line slowly (not deeper)."
    )
    descriptive = (
        "The back cover is held by a 0.8 mm wide bead of heat-softened glue that runs round the whole frame "
        "and seals the two cable openings."
    )
    assert [each.words for each in sentences(procedural)] == [limits["words per procedural sentence"], 2]
    assert sentences(descriptive)[0].words == limits["words per descriptive sentence"]


@given(st.text(st.sampled_from("ab .!?()3m-…\n\"'"), max_size=60))
def test_sentences_lie_in_the_text_and_hold_every_word(text: str) -> None:
    found = sentences(text)
    for each in found:
        assert 0 <= each.start < each.end <= len(text)
        assert each.words == count_words(each.text) > 0
    signs = "".join(sign for each in found for sign in each.text if sign.isalnum())
    assert sorted(signs) == sorted(sign for sign in text if sign.isalnum())
