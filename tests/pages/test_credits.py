"""Credits: below each photo, and in one list with the licence and the steps."""

from __future__ import annotations

from dataclasses import replace

from generator.orders.guide import Guide, Library
from generator.orders.work import Photo, StepId
from generator.pages.credits import CreditLine, CreditPlace, credits_of
from generator.pages.photos import PhotoView
from generator.pages.site import render_device
from generator.pages.survey import Survey, survey_of
from generator.source.places import Place
from tests.pages.reading import Page
from tests.pages.sites import bench_theme, guide, shelf
from tests.pages.test_pages import HOSTILE

SHOWN = (PhotoView("media/a.jpg", 8, 6, "A lamp.", credit="Ruth Ovenden"),)


def photo(credit: str | None, licence: str | None = None) -> Photo:
    return Photo("a.jpg", "A lamp.", credit, licence, (), Place("f"))


def pictured(*by_step: tuple[Photo, ...], alternative: tuple[Photo, ...] = ()) -> Guide:
    lamp = guide("lamp")
    order = tuple(
        replace(step, photos=by_step[place] if place < len(by_step) else ()) for place, step in enumerate(lamp.order)
    )
    first, *rest = lamp.alternatives
    return replace(lamp, order=order, alternatives=(replace(first, photos=alternative), *rest))


def surveyed(one: Guide, library: Library | None = None) -> Survey:
    views = {step.id: SHOWN for step in one.steps if step.photos}
    return survey_of(library or shelf(), one, views)


def test_names_are_gathered_with_their_licence_and_steps() -> None:
    one = pictured(
        (photo("Ruth Ovenden"), photo("Ivo Lang", "CC BY 4.0")),
        (),
        (photo("Ruth Ovenden"),),
        alternative=(photo("Ruth Ovenden", "ask her"),),
    )
    view = credits_of(surveyed(one))
    assert view is not None and view.unnamed == ""
    zero = "https://creativecommons.org/publicdomain/zero/1.0/"
    step = f"guide.html#step-{one.order[0].id}"
    assert view.lines == (
        CreditLine(
            "Ruth Ovenden",
            "CC0 1.0",
            zero,
            "2\u00a0photos",
            (CreditPlace("step\u00a01", step), CreditPlace("step\u00a03", f"guide.html#step-{one.order[2].id}")),
        ),
        CreditLine(
            "Ivo Lang",
            "CC BY 4.0",
            "https://creativecommons.org/licenses/by/4.0/",
            "1\u00a0photo",
            (CreditPlace("step\u00a01", step),),
        ),
        CreditLine(
            "Ruth Ovenden",
            "ask her",
            "",
            "1\u00a0photo",
            (CreditPlace("another way", f"guide.html#step-{one.alternatives[0].id}"),),
        ),
    )


def test_photos_without_a_name_are_the_authors_or_said_to_carry_none() -> None:
    one = pictured((photo(None), photo(None)))
    view = credits_of(surveyed(one))
    assert view is not None and (view.lines, view.unnamed) == ((), "2\u00a0photos are by Ansgar Quell.")
    view = credits_of(surveyed(one, replace(shelf(), author=None)))
    assert view is not None and view.unnamed == "2\u00a0photos carry no name."


def test_no_photo_no_list() -> None:
    assert credits_of(surveyed(pictured())) is None
    unready = survey_of(shelf(), pictured((photo("Ruth Ovenden"),)), {})
    assert credits_of(unready) is None


def test_the_name_stands_below_its_photo_and_in_the_list_and_stays_a_name() -> None:
    one = pictured((photo(HOSTILE, HOSTILE),))
    shown = {StepId(one.order[0].id): (replace(SHOWN[0], credit=HOSTILE),)}
    pages = render_device(shelf(), one, bench_theme(), shown)
    device, whole = Page(str(pages["lamp/index.html"])), Page(str(pages["lamp/guide.html"]))
    assert "<script>alert(1)</script>" in device.one("credits").words
    assert "<script>alert(1)</script>" in whole.all("p", "photo__credit")[0].words
    assert not device.unclosed and not whole.unclosed
    links = [link.attributes["href"] for link in device.inside(device.one("credits"), "a")]
    assert links and not [link for link in links if "javascript" in link.lower()]
