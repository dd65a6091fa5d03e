"""What holds for every page of a site: links that lead somewhere, no script but the site's own files, the same bytes."""

from __future__ import annotations

import doctest
import hashlib
import json
import os
import posixpath
import re
import subprocess
import sys
from collections.abc import Mapping
from itertools import pairwise
from types import ModuleType
from urllib.parse import unquote, urlsplit

import pytest

from generator.orders.accounts import pages_of
from generator.pages import alphabet, back, leaves, scripts, typography, wording
from generator.pages.compare import compared
from generator.pages.several import reached_parts
from generator.pages.site import render_device, render_published, render_shared, render_site
from generator.pages.survey import survey_of
from generator.pages.theme import Theme, style_sheet
from tests.pages.reading import Page
from tests.pages.sites import ROOT, bench_theme, demo_site, shelf, shelf_site

SITES = {"shelf": shelf_site, "demo": demo_site}


def pages_in(site: Mapping[str, str | bytes]) -> dict[str, Page]:
    return {path: Page(text) for path, text in site.items() if path.endswith(".html") and isinstance(text, str)}


def broken_links(site: Mapping[str, str | bytes]) -> list[str]:
    """Links within the site that lead to no file or no id."""
    pages = pages_in(site)
    broken = []
    for path, page in pages.items():
        # The page for wrong addresses is shown at any depth: its links begin at the root of the host, all alike.
        style = next(e.attributes["href"] for e in page.all("link") if e.attributes.get("rel") == "stylesheet")
        root = style.removesuffix("style.css") if style.startswith("/") else ""
        for element in page.elements:
            for key in ("href", "src"):
                address = element.attributes.get(key)
                if address is None or urlsplit(address).scheme:
                    continue
                target, _, fragment = address.removeprefix(root).partition("#")
                file = posixpath.normpath(posixpath.join(posixpath.dirname(path), unquote(target))) if target else path
                if file not in site or (fragment and file in pages and unquote(fragment) not in pages[file].ids):
                    broken.append(f"{path}: {address}")
    return broken


@pytest.mark.parametrize("name", SITES)
def test_every_link_within_the_site_leads_to_a_file_and_an_id(name: str) -> None:
    site = SITES[name]()
    assert sum(path.endswith(".html") for path in site) > 8
    assert broken_links(site) == []


@pytest.mark.parametrize("name", SITES)
def test_ids_are_unique_and_what_points_at_an_id_finds_it(name: str) -> None:
    for path, page in pages_in(SITES[name]()).items():
        ids = page.ids
        assert len(ids) == len(set(ids)), f"{path}: {sorted(i for i in ids if ids.count(i) > 1)}"
        for element in page.elements:
            for key in ("aria-labelledby", "aria-describedby"):
                for identifier in element.attributes.get(key, "").split():
                    assert identifier in ids, f"{path}: {key} points at {identifier}"


@pytest.mark.parametrize("name", SITES)
def test_only_the_sites_own_files_run_and_nothing_is_fetched_from_elsewhere(name: str) -> None:
    for path, page in pages_in(SITES[name]()).items():
        assert not page.unclosed, path
        for element in page.elements:
            assert element.tag not in ("style", "iframe", "object", "embed", "base", "form"), path
            if element.tag == "script" and element.attributes.get("type") == "application/ld+json":
                assert set(element.attributes) == {"type"} and "<" not in element.text, path  # data, which nothing runs
                assert json.loads(element.text)["@type"] == "HowTo", path
            elif element.tag == "script":
                assert not element.text and set(element.attributes) - {"data-manifest"} == {"defer", "src"}, path
                address = posixpath.normpath(posixpath.join(posixpath.dirname(path), element.attributes["src"]))
                address = address[address.index("scripts/") :] if address.startswith("/") else address
                assert address in SITES[name](), f"{path}: {address}"
                assert address.startswith("scripts/") or address in data_scripts(path), f"{path}: {address}"
            for key, value in element.attributes.items():
                assert not key.startswith("on"), f"{path}: {key}"
                assert key != "style", f"{path}: a style attribute, which the policy of the page forbids"
                if key in ("src", "href", "data", "srcset"):
                    assert urlsplit(value).scheme in ("", "http", "https"), f"{path}: {value}"
            if element.tag in ("img", "link") and element.attributes.get("rel") not in ("canonical", "alternate"):
                address = element.attributes.get("src", element.attributes.get("href", ""))
                assert not urlsplit(address).scheme and not address.startswith("//"), f"{path}: {address}"
        policy = next(e for e in page.elements if e.attributes.get("http-equiv") == "Content-Security-Policy")
        assert policy.attributes["content"].startswith("default-src 'none';")
        assert "script-src 'self' file:;" in policy.attributes["content"] and "unsafe" not in policy.attributes["content"]
        assert policy.place < next(e.place for e in page.elements if e.tag == "link")
    sheet = SITES[name]()["style.css"]
    assert isinstance(sheet, str)
    assert "@import" not in sheet
    for address in re.findall(r"url\(([^)]*)\)", sheet):
        assert address in SITES[name](), address


def data_scripts(path: str) -> tuple[str, ...]:
    """The script files that a page may run beside those of the theme: they hold data and nothing else."""
    edition = "de/" if path.startswith("de/") else ""
    of_device = posixpath.join(posixpath.dirname(path), "several.js")
    found = f"{edition}find-index.js" if path == f"{edition}find.html" else of_device
    return (found, f"{edition}words.js") if edition else (found,)


@pytest.mark.parametrize("name", SITES)
def test_data_in_scripts_is_one_value_with_a_name(name: str) -> None:
    found = [text for path, text in SITES[name]().items() if path.endswith(".js") and not path.startswith("scripts/")]
    assert found
    for text in found:
        assert isinstance(text, str)
        head, _, value = text.partition(" = ")
        assert re.fullmatch(r"var \w+", head) and value.endswith(";\n") and "<" not in value
        assert json.loads(value.removesuffix(";\n"))


@pytest.mark.parametrize("name", SITES)
def test_headings_step_down_one_at_a_time_and_landmarks_stand_once(name: str) -> None:
    for path, page in pages_in(SITES[name]()).items():
        levels = [int(e.tag[1]) for e in page.elements if re.fullmatch("h[1-6]", e.tag)]
        assert levels[0] == 1 and levels.count(1) == 1, path
        assert all(later <= earlier + 1 for earlier, later in pairwise(levels)), f"{path}: {levels}"
        assert [len(page.all(tag)) for tag in ("main", "h1", "footer")] == [1, 1, 1], path
        assert sum(not any(outer.tag == "svg" for outer in title.ancestors) for title in page.all("title")) == 1, path
        skip = page.all("a", "skip")[0]
        assert skip.attributes["href"].removeprefix("#") in page.ids, path
        assert page.all("html")[0].attributes["lang"] == ("de" if path.startswith("de/") else "en")


@pytest.mark.parametrize("name", SITES)
def test_tables_have_captions_and_heads_with_a_scope(name: str) -> None:
    for path, page in pages_in(SITES[name]()).items():
        for table in page.all("table"):
            if any("prose" in outer.classes for outer in table.ancestors):
                continue
            assert page.inside(table, "caption")[0].words, path
            assert all("scope" in head.attributes for head in page.inside(table, "th")), path


@pytest.mark.parametrize("name", SITES)
def test_figures_are_named_or_hidden(name: str) -> None:
    for path, page in pages_in(SITES[name]()).items():
        for figure in page.all("svg"):
            # A drawing whose boxes are links is a group: an image would hide them.
            role = "group" if page.inside(figure, "a") else "img"
            spoken = figure.attributes.get("role") == role and page.inside(figure, "title")
            assert spoken or figure.attributes.get("aria-hidden") == "true", path


def test_a_device_has_a_page_for_itself_its_whole_guide_and_each_part() -> None:
    site = shelf_site()
    for guide in shelf().guides:
        folder = {path for path in site if path.startswith(f"{guide.id}/") and "/tray" not in path and "/video/" not in path}
        wanted = {f"{guide.id}/{name}.html" for name in ("index", "guide", "workings", "correction")}
        if len(reached_parts(survey_of(shelf(), guide))) > 1:
            wanted |= {f"{guide.id}/several.html", f"{guide.id}/several.js"}
        assert folder == wanted | {f"{guide.id}/to-{part}.html" for part in pages_of(guide)}
    shared = ("index", "tools", "safety", "find", "index-a-z", "contribute")
    assert {"style.css", *(f"{name}.html" for name in shared)} <= set(site)


def test_a_run_that_frees_something_has_tray_sheets_on_both_papers() -> None:
    site = shelf_site()
    for guide in shelf().guides:
        for name in ("guide", *(f"to-{part}" for part in pages_of(guide))):
            text = str(site[f"{guide.id}/{name}.html"])
            tray = "tray" if name == "guide" else f"tray-{name}"
            on_site = {f"{guide.id}/{tray}.html", f"{guide.id}/{tray}-letter.html"} & set(site)
            assert len(on_site) in (0, 2)
            assert (f'href="{tray}.html"' in text) == bool(on_site)


def test_every_step_is_drawn_pulled_apart_going_out_and_coming_back() -> None:
    text = str(shelf_site()["lamp/guide.html"])
    page = Page(text)
    steps = [part for part in page.all("article") if "step" in part.classes or "back" in part.classes]
    drawn = [figure for figure in page.all("svg") if "stack--step" in figure.classes]
    assert steps and len(drawn) == len(steps)


def test_a_site_is_its_shared_files_and_its_devices() -> None:
    library, theme = shelf(), bench_theme()
    lines = [compared(survey_of(library, guide)) for guide in library.guides]
    parts: dict[str, str | bytes] = dict(render_shared(library, theme, lines))
    for guide in library.guides:
        parts.update(render_device(library, guide, theme))
    assert render_published(library, theme, parts) == shelf_site()
    assert list(shelf_site()) == sorted(shelf_site())


def test_a_library_without_guides_still_has_its_pages() -> None:
    from generator.orders.guide import Library

    site = render_site(Library("Empty", ()), bench_theme())
    assert broken_links(site) == []
    assert "There is no guide here yet." in pages_in(site)["index.html"].words


def test_fonts_ship_unchanged_with_their_licences() -> None:
    site = shelf_site()
    fonts = [path for path in site if path.startswith("fonts/")]
    assert sum(path.endswith(".woff2") for path in fonts) == 3
    assert sum(path.endswith("-OFL.txt") for path in fonts) == 2
    for path in fonts:
        file = (ROOT / "themes" / "bench" / path).read_bytes()
        content = site[path]
        assert (content.encode() if isinstance(content, str) else content) == file


def test_the_style_sheet_lays_tokens_base_and_components_in_layers() -> None:
    sheet = style_sheet(
        Theme.of({"components/b/b.css": "b{}", "components/a/a.css": "a{}", "base.css": "p{}", "tokens.css": ":root{}"})
    )
    assert sheet == (
        "@layer tokens, base, components;\n@layer tokens {\n:root{}\n}\n@layer base {\np{}\n}\n"
        "@layer components {\na{}\n}\n@layer components {\nb{}\n}\n"
    )


def test_colours_stand_among_the_tokens_only() -> None:
    for name, content in bench_theme().files:
        if name.endswith(".css") and name != "tokens.css":
            assert isinstance(content, str)
            assert not re.findall(r"#[0-9a-f]{3,8}\b(?![^{]*\{)|\brgba?\(|\bhsl", content), name


@pytest.mark.parametrize("module", (alphabet, back, leaves, scripts, typography, wording))
def test_the_examples_in_the_docstrings_hold(module: ModuleType) -> None:
    failed, attempted = doctest.testmod(module)
    assert attempted and not failed


def test_the_same_library_gives_the_same_bytes_whatever_the_hash_seed() -> None:
    program = (
        "import hashlib; from tests.pages.sites import shelf_site; found = hashlib.sha256()\n"
        "for path, content in shelf_site().items():\n"
        "    found.update(path.encode()); found.update(content.encode() if isinstance(content, str) else content)\n"
        "print(found.hexdigest())"
    )
    seen = set()
    for seed in ("1", "2"):
        env = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)}
        done = subprocess.run([sys.executable, "-c", program], env=env, cwd=ROOT, capture_output=True, text=True, check=True)
        seen.add(done.stdout.strip())
    ours = hashlib.sha256()
    for path, content in shelf_site().items():
        ours.update(path.encode())
        ours.update(content.encode() if isinstance(content, str) else content)
    assert seen == {ours.hexdigest()}
