"""The copy beside each guide, unpacked and opened from disk with the network off: every link leads to what is there."""

from __future__ import annotations

import json
import re
import shutil
from io import BytesIO
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit
from xml.etree import ElementTree
from zipfile import ZipFile

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser

from generator.commands import partway
from tests.pages.reading import Page
from tests.reading.built import Built

SHELF = Path(__file__).parents[1] / "pages" / "shelf"
NAME = """"Lamp" 'x' & </title><script>document.title = 1</script> ../../up \u0627\u0644"""
"""Of a device, by somebody who means ill or writes from the other side."""


def two_heaters(folder: Path, name: str) -> Path:
    """A library of two guides that are fit to be published; name: of the first, as it is to stand in its file."""
    content = Path(shutil.copytree(SHELF, folder / "content", ignore=shutil.ignore_patterns("lamp")))
    supplies = content / "supplies.yaml"
    supplies.write_text(re.sub(r"\n *for: cover-glue", "", supplies.read_text("utf-8")), "utf-8")
    shutil.copytree(content / "heater", content / "stove")
    device = content / "heater" / "device.yaml"
    named = re.sub("^name: .*", lambda _: f"name: {name}\nchanged: 2026-03-12", device.read_text("utf-8"), count=1)
    device.write_text(named, "utf-8")
    return content


def shelf_built(folder: Path, languages: str) -> Path:
    content = two_heaters(folder, json.dumps(NAME))
    library = content / "library.yaml"
    library.write_text(library.read_text("utf-8").replace("languages: [en]", f"languages: {languages}"), "utf-8")
    result = CliRunner().invoke(partway, ["build", str(content), "--to", str(folder / "site")])
    assert result.exit_code == 0, result.output
    return folder


@pytest.fixture(scope="module", params=["[en]", "[en, de]"])
def made(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return shelf_built(tmp_path_factory.mktemp("copied"), request.param)


def copies(made: Path) -> list[Path]:
    return sorted((made / "site").rglob("*.zip"))


def test_every_copy_works_with_the_network_off(browser: Browser, made: Path, tmp_path: Path) -> None:
    assert len(copies(made)) == 2 * (2 if (made / "site/de").is_dir() else 1)
    follow(browser, copies(made), tmp_path)


def test_the_copies_of_a_long_guide_with_photos_work_in_both_languages(
    browser: Browser, built: Built, tmp_path: Path
) -> None:
    found = [built.root / "demo/tarn-5/tarn-5.zip", built.root / "demo/de/tarn-5/tarn-5.zip"]
    follow(browser, found, tmp_path)


def follow(browser: Browser, found: list[Path], tmp_path: Path) -> None:
    """Unpacks copies, opens every page of them offline and looks where each of its links leads."""
    for number, copy in enumerate(found):
        root = tmp_path / str(number)
        with ZipFile(copy) as archive:
            for name in archive.namelist():
                assert (root / name).resolve().is_relative_to(root.resolve()) and name.isascii(), name
            archive.extractall(root)
        pages = sorted(root.rglob("*.html"))
        assert pages
        ids = {page.resolve(): set(Page(page.read_text("utf-8")).ids) for page in pages}
        context = browser.new_context(reduced_motion="reduce")
        context.set_offline(True)
        tab = context.new_page()
        heard: list[str] = []
        tab.on("requestfailed", lambda request, heard=heard: heard.append(f"failed: {request.url}"))
        tab.on("console", lambda message, heard=heard: heard.append(message.text))
        tab.on("pageerror", lambda error, heard=heard: heard.append(str(error)))
        for page in pages:
            tab.goto(page.as_uri())
            assert heard == [], page
            for element in Page(page.read_text("utf-8")).elements:
                if element.tag not in ("a", "link", "script", "img"):
                    continue
                address = urlsplit(element.attributes.get("href") or element.attributes.get("src") or "")
                if address.scheme or not (address.path or address.fragment):
                    continue
                target = (page.parent / unquote(address.path)).resolve() if address.path else page.resolve()
                assert target.is_file() and target.is_relative_to(root.resolve()), f"{page}: {address.geturl()}"
                if address.fragment and target in ids:
                    assert unquote(address.fragment) in ids[target], f"{page}: {address.geturl()}"
        context.close()


def test_a_name_stays_a_name_wherever_it_stands(browser: Browser, made: Path, tmp_path: Path) -> None:
    site = made / "site"
    for copy in copies(made):
        assert copy.stem in ("heater", "stove")
    for manifest in site.rglob("*.webmanifest"):
        told: dict[str, Any] = json.loads(manifest.read_text("utf-8"))
        assert told["name"] == "The small shelf"
    feed = ElementTree.parse(site / "feed.xml").getroot()
    atom = "{http://www.w3.org/2005/Atom}"
    assert [entry.findtext(f"{atom}title") for entry in feed.findall(f"{atom}entry")] == [NAME]
    context = browser.new_context(offline=True, reduced_motion="reduce")
    tab = context.new_page()
    for folder in (site, *([site / "de"] if (site / "de").is_dir() else [])):
        tab.goto((folder / "heater/index.html").as_uri())
        assert NAME in tab.evaluate("document.title") and tab.locator("h1").inner_text().endswith(NAME)
        assert tab.locator("title + script, body > script, h1 script").count() == 0
        tab.goto((folder / "index.html").as_uri())
        assert NAME in [link.inner_text() for link in tab.locator("a[href='heater/index.html']").all()]
    context.close()
    target = tmp_path / "heater.epub"
    words = ["pack", "heater", "--content", str(made / "content"), "--as", "epub", "--to", str(target)]
    result = CliRunner().invoke(partway, words)
    assert result.exit_code == 0, result.output
    with ZipFile(target) as archive:
        package = ElementTree.parse(BytesIO(archive.read("book/package.opf"))).getroot()
        assert package.findtext(".//{http://purl.org/dc/elements/1.1/}title") == NAME
        for name in archive.namelist():
            assert ".." not in name and not name.startswith("/")
            if name.endswith((".xhtml", ".svg")):
                tree = ElementTree.fromstring(archive.read(name))
                assert not [one for one in tree.iter() if str(one.tag).endswith("}script")], name


@pytest.mark.parametrize("sign", ["\\0", "\\a", "\\e", "\\u202e", "\\u0085"])
def test_control_characters_in_a_name_are_refused_and_the_other_guides_published(tmp_path: Path, sign: str) -> None:
    content = two_heaters(tmp_path, f'"Orrin{sign} heater"')
    result = CliRunner().invoke(partway, ["build", str(content), "--to", str(tmp_path / "site")])
    assert result.exit_code == 1 and "heater/device.yaml:1:" in result.output
    assert not (tmp_path / "site/heater").exists() and list((tmp_path / "site/stove").glob("*.zip"))
