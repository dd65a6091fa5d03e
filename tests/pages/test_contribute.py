"""How a correction is sent: the page that says so, the links to it, and the form that is filled in by hand."""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from io import BytesIO
from pathlib import Path

import pytest

from generator.orders.guide import Guide, Library
from generator.orders.work import StepId
from generator.pages.contribute import contribute_page
from generator.pages.correction import FEW_TITLES, MOST_NUMBERS, MOST_TITLES, correction_page
from generator.pages.editions import editions
from generator.pages.site import one_page, render_shared, render_site
from generator.pages.survey import survey_of
from generator.pages.theme import set_page, style_sheet
from generator.source.prose import read_prose
from tests.pages.reading import Page
from tests.pages.sites import bench_theme, demo, demo_site, guide, shelf, shelf_site
from tests.pages.test_pages import HOSTILE
from tests.pages.test_site import broken_links

BROWSER = os.environ.get("PARTWAY_BROWSER") or shutil.which("chromium")
TITLE = "How to send a correction"


def with_words(text: str) -> Library:
    return replace(shelf(), contribute=read_prose(text, "contribute.md"))


def told(library: Library) -> Page:
    return Page(str(render_shared(library, bench_theme())["contribute.html"]))


@cache
def without_sources() -> Mapping[str, str | bytes]:
    return render_site(replace(shelf(), sources=None), bench_theme())


def of_length(count: int) -> Guide:
    """The lamp with its first step over and over, each under a name of its own."""
    lamp = guide("lamp")
    first = lamp.order[0]
    order = tuple(replace(first, id=StepId(f"step-{n}"), title=f"Lift the shade for the {n}th time") for n in range(count))
    return replace(lamp, order=order, alternatives=())


def form(one: Guide, library: Library | None = None) -> Page:
    survey = replace(survey_of(library or shelf(), guide("lamp")), guide=one)
    return Page(set_page(bench_theme(), "correction", correction_page(survey)))


def links(page: Page) -> dict[str, str]:
    return {link.attributes["href"]: link.words for link in page.all("a") if "href" in link.attributes}


def test_the_foot_of_every_page_leads_to_it() -> None:
    for site in (shelf_site(), demo_site()):
        pages = [path for path, text in site.items() if path.endswith(".html") and 'class="foot"' in str(text)]
        assert {"index.html", "tools.html", "404.html"} <= set(pages)
        for path in pages:
            root = "/" if path == "404.html" else "../" * path.removeprefix("de/").count("/")
            found = [href for href in links(Page(str(site[path]))) if href.endswith("contribute.html")]
            assert any(href == f"{root}contribute.html" or (root == "/" and href.startswith(root)) for href in found), path


def test_without_words_of_the_author_it_has_some_of_its_own() -> None:
    page = told(shelf())
    assert [each.words for each in page.all("h1")] == [TITLE]
    headings = ["What helps", "How it is sent", "What is looked at", "Under which licence"]
    assert [each.words for each in page.all("h2")] == headings
    assert not page.all("h3")
    assert [each.words for each in told(with_words(" \n\n")).all("h2")] == headings


def test_the_words_of_the_author_stand_above_what_the_program_adds() -> None:
    page = told(with_words("# What I need\n\nA *photo*.\n\n#### Later\n\nSee [the post](mailto:a@example.org).\n"))
    assert [each.words for each in page.all("h2")][:2] == ["From Ansgar Quell", "How it is sent"]
    assert [each.words for each in page.all("h3")] == ["What I need"]
    assert [each.words for each in page.all("h4")] == ["Later"]
    assert links(page)["mailto:a@example.org"] == "the post"
    assert "What helps" not in page.words
    assert "https://example.org/sources/contribute.md" in links(page)


@pytest.mark.parametrize(
    "written",
    [
        HOSTILE,
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "[go](javascript:alert(1))",
        "[go](data:text/html,x)",
        "![x](https://example.org/x.png)",
        "[the pick](tool:pick) and [the lid](part:shade)",
    ],
)
def test_hostile_words_stay_words(written: str) -> None:
    page = told(with_words(f"Hello.\n\n{written}\n"))
    assert not page.unclosed and not page.all("img")
    for element in page.elements:
        assert not any(key.startswith("on") for key in element.attributes)
        assert not element.attributes.get("href", "").lower().startswith(("javascript:", "data:", "tool:", "part:"))
    assert all(script.attributes.get("src") and not script.text for script in page.all("script"))
    assert "Hello." in page.words


def test_it_leads_to_the_rules_where_they_stand_beside_it() -> None:
    site = demo_site()
    assert "rules.html" in site and "rules.html" in links(Page(str(site["contribute.html"])))
    assert not [href for href in links(Page(str(site["de/contribute.html"]))) if href.endswith("rules.html")]


def test_it_says_the_licence_and_where_each_text_lies() -> None:
    found = links(told(shelf()))
    assert found["https://creativecommons.org/publicdomain/zero/1.0/"]
    for each in shelf().guides:
        assert f"https://example.org/sources/{each.id}/device.yaml" in found
        assert f"{each.id}/correction.html" in found and f"{each.id}/guide.html" in found
    bare = told(replace(shelf(), licence=None))
    assert "The guides name no licence." in bare.words
    named = told(replace(shelf(), licence=f"Mine {HOSTILE}"))
    assert "like the guides themselves: Mine" in named.words and not named.unclosed


def test_a_step_leads_to_its_text_or_else_to_the_form() -> None:
    step = "Suggest a change"
    for path, text in shelf_site().items():
        if re.search(r"/(guide|to-.*)\.html", path):
            page = Page(str(text))
            assert page.all("article") == [] or step in page.words
            assert "correction.html" not in links(page), path
    for path, text in without_sources().items():
        if re.search(r"/(guide|to-.*)\.html", path):
            page = Page(str(text))
            steps = [each for each in page.all("article") if "step" in each.classes]
            there = [link for link in page.all("a") if link.attributes.get("href") == "correction.html"]
            assert len(there) == len(steps), path
            assert all(link.attributes["aria-describedby"] in page.ids for link in there)


def test_without_sources_the_form_is_the_way_and_every_link_leads_somewhere() -> None:
    site = without_sources()
    assert broken_links(site) == []
    page = Page(str(site["contribute.html"]))
    assert "Suggest a change" not in page.words and "Give or send it to Ansgar Quell" in page.words
    assert "Its text" not in page.words
    nobody = told(replace(shelf(), sources=None, author=None))
    assert "Give it to whoever gave you the guide" in nobody.words


def test_the_form_lists_every_step_under_its_number() -> None:
    lamp = guide("lamp")
    page = Page(str(shelf_site()["lamp/correction.html"]))
    boxes = [" ".join(each.words.split()) for each in page.all("li") if "form__step" in each.classes]
    numbered = [f"{number} {step.title}" for number, step in enumerate(lamp.order, 1)]
    assert boxes[: len(numbered)] == numbered
    assert [box.partition(" ")[2] for box in boxes[len(numbered) :]] == [step.title for step in lamp.alternatives]
    labels = [each.words for each in page.all("h3")]
    assert labels[2:] == [
        "What stands there", "What should stand there", "What happened at the bench", "Photo taken", "May we name you",
    ]  # fmt: skip
    assert not page.all("input") and not page.all("form")


def test_a_long_guide_has_numbers_to_tick_and_a_longer_one_a_line_to_write_on() -> None:
    def boxes(count: int) -> list[str]:
        return [each.words.strip() for each in form(of_length(count)).all("li") if "form__step" in each.classes]

    assert boxes(MOST_TITLES)[-1].endswith(f"Lift the shade for the {MOST_TITLES - 1}th time")
    assert boxes(MOST_TITLES + 1) == [str(number) for number in range(1, MOST_TITLES + 2)]
    assert len(boxes(MOST_NUMBERS)) == MOST_NUMBERS
    assert boxes(MOST_NUMBERS + 1) == [] and boxes(0) == []


def test_hostile_titles_stay_titles_on_the_form() -> None:
    lamp = guide("lamp")
    first, *rest = lamp.order
    device = replace(lamp.device, name=HOSTILE)
    page = form(replace(lamp, device=device, order=(replace(first, title=HOSTILE), *rest)), replace(shelf(), author=HOSTILE))
    assert not page.unclosed and all(script.attributes.get("src") and not script.text for script in page.all("script"))
    assert "<script>alert(1)</script>" in page.words


def test_the_page_alone_is_the_page_of_the_site() -> None:
    survey = survey_of(shelf(), guide("lamp"))
    assert one_page(survey, bench_theme(), "correction.html") == shelf_site()["lamp/correction.html"]


def test_each_language_has_its_own_page_and_form() -> None:
    site = demo_site()
    english, german = Page(str(site["contribute.html"])), Page(str(site["de/contribute.html"]))
    assert "These guides were written at one bench" in english.words
    assert "Diese Anleitungen entstanden an einer einzigen Werkbank" in german.words
    assert "These guides" not in german.words
    assert german.all("html")[0].attributes["lang"] == "de"
    form = Page(str(site["de/tarn-5/correction.html"]))
    assert "Korrektur auf Papier" in form.words and "Veldrun Tarn 5" in form.words


def test_words_that_are_not_translated_say_their_language() -> None:
    translations = tuple(each for each in demo().translations if each.kind != "contribute")
    _, german = editions(replace(demo(), translations=translations))
    view = contribute_page(german)
    assert view.prose.startswith('<div lang="en" dir="ltr">') and "These guides were written" in view.prose


def sheet(page_of: str) -> str:
    """The page with its style in it, so that a browser needs nothing else."""
    bare = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*>|<script defer[^>]*></script>', "", page_of)
    style = style_sheet(bench_theme())
    return re.sub(r'<link rel="stylesheet"[^>]*>', lambda _: f"<style>{style}</style>", bare)


def forms() -> dict[str, str]:
    """Forms that fill the sheet in every way, the longest of each."""
    lamp, german = guide("lamp"), demo_site()["de/tarn-5/correction.html"]
    counts = (0, FEW_TITLES, FEW_TITLES + 1, MOST_TITLES, MOST_TITLES + 1, MOST_NUMBERS, MOST_NUMBERS + 1)
    made = {"demo": str(demo_site()["tarn-5/correction.html"]), "german": str(german)}
    long = "a very long name of a lamp with an adjustable arm " * 6
    for count in counts:
        one = replace(of_length(count), device=replace(lamp.device, name=long))
        one = replace(one, order=tuple(replace(step, title=f"{step.title}: {long}") for step in one.order))
        library = replace(shelf(), author=long, licence=long, address=f"https://example.org/{'a' * 400}/")
        survey = replace(survey_of(library, lamp), guide=one)
        made[f"{count} steps"] = set_page(bench_theme(), "correction", correction_page(survey))
    return made


@pytest.mark.skipif(BROWSER is None, reason="there is no browser here")
@pytest.mark.parametrize(("paper", "millimetres"), [("A4", (210, 297)), ("Letter", (216, 279))])
def test_the_form_is_one_sheet_of_paper(paper: str, millimetres: tuple[int, int], tmp_path: Path) -> None:
    from playwright.sync_api import sync_playwright
    from pypdf import PdfReader

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=BROWSER, args=["--no-sandbox"])
        page = browser.new_page(java_script_enabled=False)
        for name, text in forms().items():
            page.set_content(sheet(text))
            read = PdfReader(BytesIO(page.pdf(format=paper, prefer_css_page_size=True)))
            assert len(read.pages) == 1, name
            box = read.pages[0].mediabox
            assert (round(float(box.width) / 72 * 25.4), round(float(box.height) / 72 * 25.4)) == millimetres, name
            words = read.pages[0].extract_text()
            wanted = "Dürfen wir" if name == "german" else "May we name you"
            assert wanted in words and ("Tools and supplies" not in words), name
        browser.close()


@pytest.mark.skipif(BROWSER is None, reason="there is no browser here")
@pytest.mark.parametrize("width", [360, 1280])
def test_neither_page_is_wider_than_the_window(width: int) -> None:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=BROWSER, args=["--no-sandbox"])
        page = browser.new_page(java_script_enabled=False, viewport={"width": width, "height": 800})
        for name, text in {"words": str(demo_site()["contribute.html"]), **forms()}.items():
            page.set_content(sheet(text))
            wide = page.evaluate("document.documentElement.scrollWidth")
            assert wide <= width, name
        browser.close()
