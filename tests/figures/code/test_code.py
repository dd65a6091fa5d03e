"""The code as it is drawn: room around it, size on paper, what it refuses."""

from __future__ import annotations

import re

import pytest

from generator.figures.code.drawing import code_figure
from generator.figures.code.geometry import LARGEST_VERSION, LEAST, LEAST_MODULE, QUIET, code_of
from tests.figures.code.reading import address_in, modules_of

ADDRESSES = (
    "https://example.org/",
    "https://example.org/kiln-lane/tarn-5/to-battery.html#step-lift-upper-cover",
    "https://xn--bcher-kva.example/a%20b/?q=1&r=%C3%A4#step-1",
    "https://example.org/" + "a" * 300,
)


@pytest.mark.parametrize("address", ADDRESSES, ids=len)
def test_an_independent_reader_finds_the_address(address: str) -> None:
    code = code_of(address)
    assert code is not None
    drawn = code_figure(code, "The code")
    assert address_in(drawn) == address
    assert modules_of(drawn) == code.rows


@pytest.mark.parametrize("address", ADDRESSES, ids=len)
def test_it_is_large_enough_on_paper_and_keeps_its_quiet_zone(address: str) -> None:
    code = code_of(address)
    assert code is not None
    assert code.side >= LEAST == 20 and code.module >= LEAST_MODULE
    assert code.across == pytest.approx(code.side + 2 * QUIET * code.module)
    drawn = code_figure(code, "The code")
    width, height = (float(found) for found in re.findall(r'(?:width|height)="([\d.]+)mm"', drawn))
    assert width == height == pytest.approx(code.across, abs=0.01)
    assert f'viewBox="0 0 {len(code.rows) + 8} {len(code.rows) + 8}"' in drawn


def test_what_would_be_too_fine_or_cannot_be_written_is_left_out() -> None:
    largest = code_of("https://example.org/" + "a" * 300)
    assert largest is not None and len(largest.rows) == LARGEST_VERSION * 4 + 17
    assert code_of("https://example.org/" + "a" * 400) is None
    assert code_of("https://example.org/" + "a" * 9000) is None


def test_a_label_cannot_break_out() -> None:
    code = code_of("https://example.org/")
    assert code is not None
    assert "<script" not in code_figure(code, '"><script>')
