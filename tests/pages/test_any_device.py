"""Pages of devices made up at random, most of them faulty: there is always a page, and it holds together."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.orders.guide import Device, Guide, Library
from generator.pages.site import render_site
from tests.devices import PLACE, PLACES, device
from tests.pages.sites import bench_theme
from tests.pages.test_site import broken_links, pages_in


def made_up(seed: int) -> Guide:
    one = device(seed)
    about = Device(f"Device {seed}", PLACE, PLACES, faces=one.faces, power=one.power, pages=tuple(one.anatomy.parts))
    return Guide(f"device-{seed}", about, one.anatomy, one.order, one.alternatives)


@pytest.mark.parametrize("first", range(0, 40, 10))
def test_any_device_has_pages_that_hold_together(first: int) -> None:
    guides = tuple(made_up(seed) for seed in range(first, first + 10))
    site = render_site(Library("Any", guides), bench_theme())
    assert broken_links(site) == []
    for path, page in pages_in(site).items():
        assert not page.unclosed, path
        assert len(page.ids) == len(set(page.ids)), path


def test_a_guide_without_steps_has_pages_too() -> None:
    empty = replace(made_up(3), order=(), alternatives=())
    site = render_site(Library("Any", (empty,)), bench_theme())
    assert broken_links(site) == []
    assert "No step of this guide can be shown." in pages_in(site)["device-3/guide.html"].words
