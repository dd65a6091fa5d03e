"""Every kind of page is light enough to be had over a poor connection; a guide of eighteen steps draws nothing twice."""

from __future__ import annotations

import re

from tests.bench.weights import KINDS, all_weights, once_for_a_site
from tests.pages.sites import demo_site

LIMIT = 60_000  # bytes of a page as it travels, without photos
STYLE_LIMIT = 20_000
SCRIPTS_LIMIT = 40_000


def test_no_kind_of_page_is_heavy() -> None:
    found = all_weights()
    assert set(found) == set(KINDS)
    assert {kind: told for kind, told in found.items() if told[0] >= LIMIT} == {}


def test_what_comes_once_is_light_too() -> None:
    once = once_for_a_site()
    assert once["style"] < STYLE_LIMIT
    assert once["scripts"] < SCRIPTS_LIMIT


def test_the_order_map_of_a_guide_is_drawn_for_wide_and_for_narrow_pages_only() -> None:
    sheets = re.findall(r'class="order-map__sheet ([^"]+)"', str(demo_site()["tarn-5/guide.html"]))
    assert sheets == ["order-map__sheet--wide order-map__sheet--print", "order-map__sheet--narrow"]
