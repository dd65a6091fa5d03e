"""Numbers, escaping, attribute order and ids of the SVG builder."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.figures.svg import element, escaped, figure, ident, number, path_data


@pytest.mark.parametrize(
    ("value", "text"),
    [(0, "0"), (-0.0, "0"), (-0.004, "0"), (1.0, "1"), (2.50, "2.5"), (1 / 3, "0.33"), (100, "100"), (1e7, "10000000")],
)
def test_numbers_are_short_and_plain(value: float, text: str) -> None:
    assert number(value) == text


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_number_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        number(value)


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_numbers_read_back_to_the_hundredth(value: float) -> None:
    text = number(value)
    assert "e" not in text and text != "-0" and not (("." in text) and text.endswith("0"))
    assert abs(float(text) - value) <= 0.005 + 1e-9 * abs(value)


@given(st.text())
def test_any_text_can_stand_in_text_and_attributes(words: str) -> None:
    root = ET.fromstring(element("a", {"b": words}, escaped(words)))
    assert len(root) == 0
    assert "<" not in escaped(words) and '"' not in escaped(words)


def test_attributes_keep_their_order_and_none_leaves_one_out() -> None:
    assert element("rect", {"y": 1.50, "x": None, "class": "a&b"}) == '<rect y="1.5" class="a&amp;b"/>'


@given(st.lists(st.text(min_size=1), min_size=1, max_size=3), st.lists(st.text(min_size=1), min_size=1, max_size=3))
def test_ids_are_safe_and_differ_where_content_differs(one: list[str], other: list[str]) -> None:
    made = ident(*one)
    assert made[0].isalpha() and made.isascii() and set(made) <= set("abcdefghijklmnopqrstuvwxyz0123456789-_")
    if "-".join(one) != "-".join(other):
        assert made != ident(*other) or "n" in (made[0], ident(*other)[0])


def test_a_figure_names_itself() -> None:
    text = figure("plan", ident="x", size=(10, 20.25), title="A < B", desc="C & D", content=["<g/>"])
    root = ET.fromstring(text)
    assert root.get("role") == "img"
    assert root.get("aria-labelledby") == "x-title x-desc"
    assert root.get("viewBox") == "0 0 10 20.25"
    assert [child.text for child in root][:2] == ["A < B", "C & D"]


def test_paths_close_unless_told() -> None:
    assert path_data([(0, 0), (1.005, 2)]) == "M0 0L1 2Z"
    assert path_data([(0, 0), (1, 2)], closed=False) == "M0 0L1 2"
