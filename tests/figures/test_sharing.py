"""Paths drawn once and referred to: the page says the same, in fewer bytes."""

from __future__ import annotations

import doctest
import re

from generator.figures import sharing
from generator.figures.sharing import with_shared_paths
from tests.pages.sites import demo_site

LONG = "M0 0" + "h10v10" * 8
OTHER = "M5 5" + "h10v10" * 8


def page(*paths: str) -> str:
    return f"<body><main>{''.join(paths)}</main></body>"


def path(d: str, name: str = "a", more: str = "") -> str:
    return f'<path class="{name}"{more} d="{d}"/>'


def spelled_out(html: str) -> str:
    """The page with every reference put back in place of what it refers to."""
    drawn = dict(re.findall(r'<path id="(shape-[0-9]+)" d="([^"]+)"/>', html))
    without = re.sub(r'<svg [^>]*class="shared-paths".*?</svg>\n', "", html)
    return re.sub(
        r'<use class="([^"]+)"( fill="[^"]+")? href="#(shape-[0-9]+)"/>',
        lambda found: f'<path class="{found[1]}"{found[2] or ""} d="{drawn[found[3]]}"/>',
        without,
    )


def test_the_docstring_holds() -> None:
    assert doctest.testmod(sharing).failed == 0


def test_what_stands_once_or_is_short_stays_where_it_is() -> None:
    once = page(path(LONG), path("M0 0h5"), path("M0 0h5"))
    assert with_shared_paths(once) == once


def test_class_and_fill_stay_where_the_path_is_shown() -> None:
    drawn = with_shared_paths(page(path(LONG, "a"), path(LONG, "b", ' fill="url(#hatch)"'), path(OTHER)))
    assert drawn.count(LONG) == 1 and drawn.count(OTHER) == 1
    assert '<use class="a" href="#shape-0"/>' in drawn
    assert '<use class="b" fill="url(#hatch)" href="#shape-0"/>' in drawn
    assert drawn.index('id="shape-0"') < drawn.index("</main>")


def test_paths_that_say_more_about_themselves_are_their_own() -> None:
    alone = page(*[f'<path class="a" pathLength="1" d="{LONG}"/>'] * 2, *[f'<path d="{LONG}"/>'] * 2)
    assert with_shared_paths(alone) == alone


def test_every_page_of_the_demo_says_the_same_when_spelled_out() -> None:
    shared = {name: text for name, text in demo_site().items() if isinstance(text, str) and "shared-paths" in text}
    shared = {name: text for name, text in shared.items() if name.endswith(".html")}
    assert "tarn-5/guide.html" in shared
    for name, text in shared.items():
        assert len(text) < len(spelled_out(text)), name
        assert 'href="#shape-' not in spelled_out(text), name


def test_hatches_that_differ_only_in_their_ids_are_drawn_once() -> None:
    def hatched(name: str, width: int = 5) -> str:
        pattern = f'<pattern id="{name}" width="{width}"><path class="s" d="M0 0V5"/></pattern>'
        return f'<svg><defs>{pattern}</defs><rect fill="url(#{name})"/></svg>'

    drawn = with_shared_paths(page(hatched("one"), hatched("two"), hatched("other", 7)))
    assert re.findall(r'<pattern id="([^"]+)"', drawn) == ["other", "shape-hatch-0"]
    assert re.findall(r'<rect fill="url\(#([^)]+)\)"', drawn) == ["shape-hatch-0", "shape-hatch-0", "other"]
    assert drawn.index('id="shape-hatch-0"') > drawn.index("<rect") and "<defs></defs>" not in drawn


def test_every_hatch_of_the_demo_leads_to_one_on_its_page() -> None:
    for name, text in demo_site().items():
        if isinstance(text, str) and name.endswith(".html"):
            drawn = re.findall(r'<pattern id="([^"]+)"', text)
            assert len(drawn) == len(set(drawn)), name
            assert set(re.findall(r'fill="url\(#([^)]+)\)"', text)) <= set(drawn), name
