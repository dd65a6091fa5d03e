"""The library page with one, few and many devices; the comparison; shared spare parts; what is published beside."""

from __future__ import annotations

import doctest
import gzip
import xml.etree.ElementTree as ElementTree
from dataclasses import replace

import pytest

from generator.anatomy.parts import PartId
from generator.orders.guide import Guide, Library
from generator.orders.work import StepId
from generator.pages import not_found
from generator.pages.compare import compared, comparison_of
from generator.pages.device import device_page
from generator.pages.feed import feed_of
from generator.pages.library import MANY, in_library_order, library_page
from generator.pages.site import render_shared, render_site
from generator.pages.sitemap import Mapped, sitemap_files
from generator.pages.spares import spares_of
from generator.pages.survey import survey_of
from tests.pages.reading import Page
from tests.pages.sites import bench_theme, demo, guide, shelf

ATOM = "{http://www.w3.org/2005/Atom}"
MAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
SITE = "https://example.org/kiln-lane/"


def named(name: str, maker: str | None = None, kind: str = "phone", **more: object) -> Guide:
    """The lamp under another name."""
    lamp = guide("lamp")
    device = replace(lamp.device, name=name, maker=maker, kind=kind, **more)
    return replace(lamp, id=name.lower().replace(" ", "-"), device=device)


def library_of(*guides: Guide, address: str | None = SITE) -> Library:
    return replace(shelf(), guides=guides, address=address)


def many(count: int) -> Library:
    return library_of(*(named(f"Model {number:03d}", f"{chr(65 + number % 20)}works") for number in range(count)))


def lines_of(library: Library) -> list[object]:
    return [compared(survey_of(library, one)) for one in library.guides]


# --- groups -----------------------------------------------------------------------------------------------------


def test_devices_stand_by_kind_then_maker_then_name_whatever_order_they_come_in() -> None:
    guides = (
        named("Zeta", "Ostrel"), named("Alpha", "Ostrel"), named("Beta", "Äsmark"), named("Nameless"),
        named("Board", "Ostrel", "tablet"), named("Kettle", "Ostrel", "other"), named("Odd", "Ostrel", "sundial"),
    )  # fmt: skip
    view = library_page(library_of(*guides))
    told = [(kind.heading, [(m.heading, [d.name for d in m.devices]) for m in kind.makers]) for kind in view.kinds]
    assert told == [
        ("Phones", [("Äsmark", ["Beta"]), ("Ostrel", ["Alpha", "Zeta"]), ("No maker named", ["Nameless"])]),
        ("Tablets", [("Ostrel", ["Board"])]),
        ("Other devices", [("Ostrel", ["Kettle"])]),
        ("Sundial", [("Ostrel", ["Odd"])]),
    ]
    assert library_page(library_of(*reversed(guides))).kinds == view.kinds


def test_few_devices_have_cards_and_many_a_list_with_letters() -> None:
    few, lots = library_page(many(MANY)), library_page(many(MANY + 1))
    assert not few.is_list and not any(kind.letters for kind in few.kinds)
    assert lots.is_list
    places = {maker.id for kind in lots.kinds for maker in kind.makers}
    letters = [letter for kind in lots.kinds for letter in kind.letters]
    assert [letter.label for letter in letters] == sorted({chr(65 + number % 20) for number in range(MANY + 1)})
    assert {letter.href.removeprefix("#") for letter in letters} <= places


def test_letters_of_one_maker_are_those_of_its_devices() -> None:
    guides = [named(f"{name} {number}", "Ostrel") for number in range(8) for name in ("Ärla", "beck", "4tune")]
    (kind,) = library_page(library_of(*guides)).kinds
    assert [letter.label for letter in kind.letters] == ["#", "A", "B"]
    assert kind.letters[1].href == "#device-ärla-0"


def test_a_library_of_three_hundred_stays_light() -> None:
    library = many(300)
    line = compared(survey_of(library, library.guides[0]))
    lines = [replace(line, id=one.id, name=one.device.name) for one in library.guides]
    files = render_shared(library, bench_theme(), lines)
    for name in ("index.html", "compare.html", "404.html") if "404.html" in files else ("index.html", "compare.html"):
        text = files[name]
        assert isinstance(text, str)
        assert len(gzip.compress(text.encode(), 9)) < 60_000, name
    index = files["index.html"]
    assert isinstance(index, str)
    assert all(one.device.name in index for one in library.guides)


# --- comparison -------------------------------------------------------------------------------------------------


def test_one_device_is_compared_with_nothing() -> None:
    assert comparison_of([compared(survey_of(demo(), demo().guides[0]))]) is None


def test_the_comparison_tells_what_the_guide_tells() -> None:
    handset = demo().guides[0]
    survey = survey_of(demo(), handset)
    line = compared(survey)
    assert [reach.steps for reach in line.reaches] == [
        len(survey.ways[PartId(part)].steps) for part in ("battery", "display", "charging-port")
    ]
    view = comparison_of([line, replace(line, id="other", name="Other")])
    assert view is not None
    cells = {cell.label: cell for cell in view.rows[0].cells}
    assert cells["Screws"].value == str(survey.accounts.screw_count)
    assert cells["Battery"].note.startswith("about")
    assert view.columns == tuple(cells)
    assert view.plot.count("<text") > 5


def test_what_cannot_be_reached_says_why() -> None:
    lamp = guide("lamp")
    parts = lamp.anatomy.parts
    pack = replace(parts[PartId("pack")], role="battery")
    coil = replace(parts[PartId("coil")], role="Speaker and external charging port")
    changed = replace(lamp, anatomy=replace(lamp.anatomy, parts={**parts, pack.id: pack, coil.id: coil}))
    line = compared(survey_of(shelf(), changed))
    battery, display, port = line.reaches
    assert battery.steps and display.note == "no such part" and (port.steps or port.note)
    wiped = replace(changed, order=(), alternatives=())
    assert compared(survey_of(shelf(), wiped)).reaches[0].note == "no way"
    barred = replace(pack, licensed="the mains comes in here")
    barred_guide = replace(changed, anatomy=replace(changed.anatomy, parts={**parts, pack.id: barred}))
    assert compared(survey_of(shelf(), barred_guide)).reaches[0].note == "licensed practice"


# --- spare parts ------------------------------------------------------------------------------------------------


def with_spare(one: Guide, part: str, number: str) -> Guide:
    """The device with one spare number and no other."""
    parts = {name: replace(each, spare_number=None) for name, each in one.anatomy.parts.items()}
    spare = replace(parts[PartId(part)], spare_number=number)
    return replace(one, anatomy=replace(one.anatomy, parts={**parts, spare.id: spare}))


def test_a_spare_that_fits_several_devices_says_which() -> None:
    guides = (with_spare(named("One"), "pack", "B-77 x"), with_spare(named("Two"), "coil", "b-77X"), named("Three"))
    library = library_of(*guides)
    spares = spares_of(library)
    rows = {row.id: row for row in device_page(survey_of(library, guides[0], None, spares)).parts}
    assert [(fit.label, fit.href) for fit in rows["part-pack"].fits] == [("Two", "../two/index.html#part-coil")]
    assert all(not row.fits for name, row in rows.items() if name != "part-pack")
    assert "also fits" in Page(str(render_site(library, bench_theme())["one/index.html"])).words


def test_of_many_devices_that_a_spare_fits_some_are_named_and_all_are_counted() -> None:
    library = library_of(*(with_spare(named(f"Model {number}"), "pack", "B-77") for number in range(9)))
    first = library.guides[0]
    row = next(r for r in device_page(survey_of(library, first, None, spares_of(library))).parts if r.id == "part-pack")
    assert len(row.fits) == 5 and row.fits_more.split() == ["3", "other", "devices"]


# --- feed -------------------------------------------------------------------------------------------------------


def test_the_feed_has_what_the_format_asks_for_and_the_latest_first() -> None:
    guides = (
        named("Old", changed="2024-05-01"), named("Silent"), named("New & bright", changed="2026-03-12", formerly=("first",))
    )  # fmt: skip
    feed = ElementTree.fromstring(feed_of(library_of(*guides)))
    assert feed.tag == f"{ATOM}feed"
    assert feed.findtext(f"{ATOM}updated") == "2026-03-12T00:00:00Z"
    assert feed.findtext(f"{ATOM}author/{ATOM}name")
    entries = feed.findall(f"{ATOM}entry")
    assert [entry.findtext(f"{ATOM}title") for entry in entries] == ["New & bright", "Old"]
    assert [entry.findtext(f"{ATOM}id") for entry in entries] == [f"{SITE}first/", f"{SITE}old/"]
    assert all(entry.findtext(f"{ATOM}summary") for entry in entries)
    links = {link.get("rel"): link.get("href") for link in feed.findall(f"{ATOM}link")}
    assert links == {"self": f"{SITE}feed.xml", "alternate": SITE}


def test_there_is_no_feed_without_an_address_or_a_day() -> None:
    assert feed_of(library_of(named("One", changed="2024-05-01"), address=None)) == ""
    assert feed_of(library_of(named("One"))) == ""
    assert library_page(library_of(named("One"))).feed_href == ""


# --- site map ---------------------------------------------------------------------------------------------------


def test_the_site_map_has_every_page_once_and_the_day_it_changed() -> None:
    site = render_site(library_of(named("One", changed="2024-05-01")), bench_theme())
    urls = ElementTree.fromstring(str(site["sitemap.xml"])).findall(f"{MAP}url")
    places = [url.findtext(f"{MAP}loc") for url in urls]
    pages = [path for path in site if path.endswith(".html") and path != "404.html"]
    assert sorted(places) == sorted(SITE + path.removesuffix("index.html") for path in pages)
    assert {url.findtext(f"{MAP}lastmod") for url in urls if "/one/" in str(url.findtext(f"{MAP}loc"))} == {"2024-05-01"}


@pytest.mark.parametrize("limits", [{"most_addresses": 4}, {"most_bytes": 500}])
def test_a_site_map_that_is_too_long_is_split_and_has_an_index(limits: dict[str, int]) -> None:
    addresses = {f"{SITE}page-{number}?a&b": Mapped() for number in range(18)}
    files = sitemap_files(addresses, SITE, **limits)
    index = [entry.findtext(f"{MAP}loc") for entry in ElementTree.fromstring(files.pop("sitemap.xml"))]
    assert len(files) > 1 and index == [SITE + name for name in files]
    found = [url.findtext(f"{MAP}loc") for text in files.values() for url in ElementTree.fromstring(text)]
    assert found == list(addresses)
    for text in files.values():
        assert text.count("<url>") <= limits.get("most_addresses", 18)
        assert len(text.encode()) <= limits.get("most_bytes", 10_000)


def test_robots_are_told_only_at_the_root_of_a_host() -> None:
    below = render_site(library_of(named("One")), bench_theme())
    assert "robots.txt" not in below
    at_root = render_site(library_of(named("One"), address="https://bench.example"), bench_theme())
    assert str(at_root["robots.txt"]).endswith("\nSitemap: https://bench.example/sitemap.xml\n")


def test_a_site_without_an_address_has_none_of_it() -> None:
    site = render_site(library_of(named("One", changed="2024-05-01"), address=None), bench_theme())
    assert not {"feed.xml", "sitemap.xml", "404.html", "robots.txt"} & set(site)


def test_every_page_tells_of_the_feed_where_there_is_one() -> None:
    def told(path: str, html: str | bytes) -> list[str]:
        links = Page(str(html)).all("link") if path.endswith(".html") else []
        return [link.attributes["href"] for link in links if link.attributes.get("type") == "application/atom+xml"]

    site = render_site(library_of(named("One", changed="2024-05-01")), bench_theme())
    pages = [path for path in site if path.endswith(".html") and path != "404.html"]
    assert [path for path in pages if told(path, site[path]) != [f"{SITE}feed.xml"]] == []
    assert not any(told(path, html) for path, html in render_site(library_of(named("One")), bench_theme()).items())


# --- wrong and old addresses ------------------------------------------------------------------------------------


def test_the_page_for_wrong_addresses_works_at_any_depth() -> None:
    assert doctest.testmod(not_found).failed == 0
    site = render_site(library_of(named("One")), bench_theme())
    found = Page(str(site["404.html"]))
    for element in found.elements:
        for key in ("href", "src"):
            address = element.attributes.get(key, "#")
            if not address.startswith("#") and element.attributes.get("rel") != "license external noreferrer":
                assert address.startswith("/kiln-lane/"), address
                assert address.removeprefix("/kiln-lane/") in site, address
    assert not any(element.attributes.get("rel") == "canonical" for element in found.elements)


def renamed() -> Library:
    lamp = guide("lamp")
    parts = lamp.anatomy.parts
    coil = replace(parts[PartId("coil")], formerly=("spool",))
    cover = replace(parts[PartId("cover")], formerly=("lid",))
    first = replace(lamp.order[0], formerly=("begin",))
    return library_of(
        replace(
            lamp,
            device=replace(lamp.device, formerly=("lantern",)),
            anatomy=replace(lamp.anatomy, parts={**parts, coil.id: coil, cover.id: cover}),
            order=(first, *lamp.order[1:]),
        )
    )


def leads_to(page: Page) -> tuple[str, str]:
    """Where a page at an old address leads: by itself, and by its link."""
    refresh = next(e for e in page.elements if e.attributes.get("http-equiv") == "refresh")
    return refresh.attributes["content"].removeprefix("0; url="), page.all("a")[0].attributes["href"]


def test_old_addresses_lead_on_without_a_script() -> None:
    site = render_site(renamed(), bench_theme())
    wanted = {
        "lamp/to-spool.html": "to-coil.html" if "lamp/to-coil.html" in site else "index.html#part-coil",
        "lamp/to-lid.html": "to-cover.html" if "lamp/to-cover.html" in site else "index.html#part-cover",
        "lantern/index.html": "../lamp/index.html",
        "lantern/guide.html": "../lamp/guide.html",
        "lantern/to-spool.html": "../lamp/to-coil.html" if "lamp/to-coil.html" in site else "../lamp/index.html#part-coil",
    }
    for old, now in wanted.items():
        page = Page(str(site[old]))
        assert leads_to(page) == (now, now), old
        assert not page.all("script")
    assert all(f"lantern/{path.removeprefix('lamp/')}" in site for path in site if path.startswith("lamp/to-"))


def test_old_anchors_stand_beside_the_new_ones() -> None:
    library = renamed()
    site = render_site(library, bench_theme())
    step = StepId(library.guides[0].order[0].id)
    for old, now, path in (
        ("step-begin", f"step-{step}", "lamp/guide.html"),
        ("back-begin", f"back-{step}", "lamp/guide.html"),
        ("part-spool", "part-coil", "lamp/index.html"),
    ):
        page = Page(str(site[path]))
        assert page.one(now) in page.one(old).ancestors


def test_an_id_that_is_in_use_is_never_overwritten() -> None:
    library = renamed()
    lamp = library.guides[0]
    taken = replace(lamp, device=replace(lamp.device, formerly=("lamp",)))
    assert render_site(replace(library, guides=(taken,)), bench_theme())["lamp/index.html"] == render_site(
        replace(library, guides=(replace(lamp, device=replace(lamp.device, formerly=())),)), bench_theme()
    )["lamp/index.html"]


def test_the_order_of_devices_has_no_ties() -> None:
    guides = (named("Same", "A"), replace(named("Same", "A"), id="other"))
    assert in_library_order(guides) == in_library_order(guides[::-1])
