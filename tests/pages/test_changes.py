"""The page of changes: what a guide's author said that changed, the latest first, made for paper too."""

from __future__ import annotations

from dataclasses import replace

from generator.orders.guide import Change, Guide
from generator.pages.changes import changes_page
from generator.pages.site import render_site
from generator.pages.survey import survey_of
from tests.pages.reading import Page
from tests.pages.sites import bench_theme, demo, demo_site, guide, shelf
from tests.pages.test_pages import HOSTILE


def changed(*changes: tuple[str, str]) -> Guide:
    lamp = guide("lamp")
    told = tuple(Change(day, words) for day, words in changes)
    return replace(lamp, device=replace(lamp.device, changes=told, changed=max(day for day, _ in changes)))


def test_the_latest_day_stands_first_and_a_day_keeps_the_order_it_was_written_in() -> None:
    page = changes_page(survey_of(shelf(), changed(("2025-01-02", "A"), ("2026-03-12", "B"), ("2025-01-02", "C"))))
    assert page is not None
    assert [(entry.date, [each.words for each in entry.words]) for entry in page.entries] == [
        ("2026-03-12", ["B"]),
        ("2025-01-02", ["A", "C"]),
    ]
    assert [(fact.label, fact.value) for fact in page.block] == [
        ("Last changed", "12 March 2026"),
        ("On record", "3\u00a0changes"),
    ]


def test_a_guide_that_tells_no_change_has_no_such_page() -> None:
    lamp = guide("lamp")
    assert changes_page(survey_of(shelf(), lamp)) is None
    dated = replace(lamp, device=replace(lamp.device, changed="2026-03-12"))
    site = render_site(replace(shelf(), guides=(dated,)), bench_theme())
    assert "lamp/changes.html" not in site and "changes.html" not in str(site["lamp/index.html"])


def test_the_device_leads_to_its_changes_and_the_feed_tells_the_last_day() -> None:
    site = demo_site()
    assert any(link.attributes["href"] == "changes.html" for link in Page(str(site["tarn-5/index.html"])).all("a"))
    page = Page(str(site["tarn-5/changes.html"]))
    days = [element.attributes["datetime"] for element in page.all("time")]
    assert days == sorted(days, reverse=True) == [change.day for change in demo().guides[0].device.changes]
    assert "<updated>2026-03-12T00:00:00Z</updated>" in str(site["feed.xml"])


def test_words_that_no_translation_has_are_marked_as_what_they_are() -> None:
    one = changed(("2026-03-12", "The plug is levered up."))
    site = render_site(replace(shelf(), guides=(one,), languages=("en", "de")), bench_theme())
    for path, marked in (("lamp/changes.html", None), ("de/lamp/changes.html", "en")):
        (words,) = Page(str(site[path])).all("dd", "changes__words")
        assert (words.words, words.attributes.get("lang")) == ("The plug is levered up.", marked)
    film = Page(str(site["de/lamp/to-cover.html"])).all("a", "film__step")
    assert film and all(link.attributes["lang"] == "en" for link in film)


def test_hostile_words_stay_words() -> None:
    site = render_site(replace(shelf(), guides=(changed(("2026-03-12", HOSTILE)),)), bench_theme())
    page = Page(str(site["lamp/changes.html"]))
    assert not page.unclosed and not [script for script in page.all("script") if "src" not in script.attributes]
    assert "<script>alert(1)</script>" in page.words
