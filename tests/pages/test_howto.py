"""What pages say to machines, read back by a JSON-LD processor and held to the vocabulary it is written in."""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from rdflib import Graph, Literal, Namespace, URIRef
from rdflib.namespace import RDF, SDO
from rdflib.term import Node

from generator.pages.licences import licence_address
from generator.pages.photos import PhotoView
from generator.pages.site import render_device, render_site
from generator.pages.structured import data_block, iso_duration
from tests.pages.reading import Page
from tests.pages.sites import bench_theme, demo, demo_site, guide, shelf, shelf_site
from tests.pages.test_pages import hostile_library

DATA = Path(__file__).parents[1] / "data" / "schema-org"
SCHEMA = "http://schema.org/"
THING = Namespace(SCHEMA)
HERE = "https://example.org/somewhere/page.html"
VALUES = {
    "Text": lambda o: isinstance(o, Literal) and isinstance(o.value, str) and o.value.strip() != "",
    "URL": lambda o: isinstance(o, URIRef) and re.fullmatch(r"https://[^\s<>\"]+", str(o)) is not None,
    "Duration": lambda o: re.fullmatch(r"PT(?=\d)(\d+H)?(\d+M)?(\d+S)?", str(o)) is not None,
    "Date": lambda o: re.fullmatch(r"\d{4}-\d\d-\d\d", str(o)) is not None,
    "Integer": lambda o: isinstance(o, Literal) and isinstance(o.value, int),
    "Number": lambda o: isinstance(o, Literal) and isinstance(o.value, (int, float)),
}


@cache
def vocabulary() -> tuple[Mapping[str, frozenset[str]], Mapping[str, tuple[frozenset[str], tuple[str, ...]]]]:
    """Each class with all that it is one of; each property with its classes and what it takes."""
    rows = list(csv.DictReader((DATA / "vocabulary.csv").read_text("utf-8").splitlines()))
    above = {row["name"]: row["of"].split() for row in rows if row["kind"] == "class"}

    def all_of(name: str) -> frozenset[str]:
        return frozenset({name}).union(*(all_of(other) for other in above[name]))

    return {name: all_of(name) for name in above}, {
        row["name"]: (frozenset(row["of"].split()), tuple(row["takes"].split())) for row in rows if row["kind"] == "property"
    }


def data_of(page: str) -> dict[str, Any] | None:
    scripts = [e for e in Page(page).all("script") if e.attributes.get("type") == "application/ld+json"]
    assert len(scripts) <= 1
    return json.loads(scripts[0].text) if scripts else None


def graph_of(data: Mapping[str, Any]) -> Graph:
    """The triples; the context is our copy, since a test asks nobody."""
    assert data["@context"] == "https://schema.org"
    context = json.loads((DATA / "context.json").read_text("utf-8"))["@context"]
    return Graph().parse(data=json.dumps({**data, "@context": context}), format="json-ld", publicID=HERE)


def kind_of(graph: Graph, node: Node) -> str:
    kinds = [str(kind).removeprefix(SCHEMA) for kind in graph.objects(node, RDF.type)]
    return kinds[0] if len(kinds) == 1 else ""


def faults_in(graph: Graph) -> Iterator[str]:
    classes, properties = vocabulary()
    known = set(SDO.__annotations__)
    for subject, predicate, value in graph:
        name = str(predicate).removeprefix(SCHEMA)
        kind = kind_of(graph, subject)
        if predicate == RDF.type:
            if kind not in known or kind not in classes:
                yield f"{value} is no class"
            continue
        if name not in known or name not in properties:
            yield f"{predicate} is no property"
            continue
        domains, takes = properties[name]
        if not domains & classes.get(kind, frozenset()):
            yield f"{kind} has no {name}"
        told = classes.get(kind_of(graph, value), frozenset())
        if not any(take in told or (take in VALUES and not told and VALUES[take](value)) for take in takes):
            yield f"{name} of {kind} does not take {value!r}"


def test_the_vocabulary_names_what_is_there() -> None:
    known = set(SDO.__annotations__)
    classes, properties = vocabulary()
    assert set(classes) | set(properties) <= known


@pytest.mark.parametrize("site", [shelf_site, demo_site], ids=["shelf", "demo"])
def test_every_device_and_every_way_is_a_how_to_without_a_fault(site: Any) -> None:
    found = {path: data for path, text in site().items() if path.endswith(".html") and (data := data_of(str(text)))}
    assert {path.split("/")[-1].split("-")[0] for path in found} == {"index.html", "to"}
    for path, data in found.items():
        graph = graph_of(data)
        assert list(faults_in(graph)) == [], path
        (top,) = graph.subjects(RDF.type, THING.HowTo)
        steps_page = path if "/to-" in path else path.replace("index.html", "guide.html")
        shown = Page(str(site()[steps_page])).all("article", "step")
        told = graph.objects(top, THING.step)
        steps = sorted((int(str(graph.value(s, THING.position))), str(graph.value(s, THING.url))) for s in told)
        assert [number for number, _ in steps] == list(range(1, len(shown) + 1)), path
        assert [address.partition("#")[2] for _, address in steps] == [step.attributes["id"] for step in shown], path


def test_wrong_things_are_seen() -> None:
    whole = data_of(str(demo_site()["tarn-5/to-battery.html"]))
    assert whole is not None
    for spoilt in (
        {"totalTime": "27 min"},
        {"@type": "Recipe"},
        {"step": [{"@type": "HowToTool", "name": "x"}]},
        {"startOffset": 4},
        {"speed": "fast"},
        {"author": "Orla"},
        {"license": "javascript:alert(1)"},
    ):
        assert list(faults_in(graph_of({**whole, **spoilt}))), spoilt


def test_the_way_to_the_battery_as_machines_read_it() -> None:
    graph = graph_of(data_of(str(demo_site()["tarn-5/to-battery.html"])) or {})
    (top,) = graph.subjects(RDF.type, THING.HowTo)
    assert str(graph.value(top, THING.totalTime)) == "PT27M"
    assert str(graph.value(top, THING.license)) == "https://creativecommons.org/licenses/by-sa/4.0/"
    assert str(graph.value(top, THING.inLanguage)) == "en"
    author = graph.value(top, THING.author)
    assert author is not None and str(graph.value(author, THING.name)) == "Orla Tessendahl"
    tools = {str(graph.value(tool, THING.name)) for tool in graph.objects(top, THING.tool)}
    assert {"opening pick, 0.6 mm", "plastic lever"} <= tools
    supplies = {str(graph.value(each, THING.name)) for each in graph.objects(top, THING.supply)}
    assert {"isopropyl alcohol 99 %", "battery"} <= supplies
    film = graph.value(top, THING.video)
    assert film is not None and str(graph.value(film, THING.duration)) == "PT1H10M40S"
    parts = graph.objects(film, THING.hasPart)
    clips = {(int(str(graph.value(clip, THING.startOffset))), str(graph.value(clip, THING.url))) for clip in parts}
    assert (875, "https://example.org/watch/tarn-5#t=875") in clips and len(clips) == 7


def test_hazards_are_said_before_what_is_done() -> None:
    data = data_of(str(demo_site()["tarn-5/to-battery.html"]))
    assert data is not None
    first = [direction["text"] for direction in data["step"][0]["itemListElement"]]
    warned = [place for place, text in enumerate(first) if re.match(r"(DANGER|WARNING|CAUTION|NOTICE): ", text)]
    assert warned == [0, 1, 2] and len(first) > 3


def test_time_is_told_only_where_all_of_it_is_known() -> None:
    lamp = guide("lamp")
    steps = tuple(replace(step, takes=60 if number else None) for number, step in enumerate(lamp.order))
    for order, known in ((steps, False), (tuple(replace(step, takes=60) for step in lamp.order), True)):
        pages = render_device(shelf(), replace(lamp, order=order), bench_theme())
        data = data_of(str(pages["lamp/index.html"]))
        assert data is not None and ("totalTime" in data) is known


def test_what_is_for_licensed_practice_is_not_told_to_machines_either() -> None:
    data = data_of(str(shelf_site()["heater/index.html"]))
    assert data is not None
    assert "Lift out the coil" not in {step["name"] for step in data["step"]} or not guide("heater").order


def test_pictures_are_told_where_there_are_photos() -> None:
    lamp = guide("lamp")
    photo = PhotoView("media/open%20lid.jpg", 800, 600, "The lid lies beside the lamp.")
    for library, start in ((shelf(), "https://example.org/shelf/lamp/"), (replace(shelf(), address=None), "")):
        pages = render_device(library, lamp, bench_theme(), {lamp.order[0].id: (photo,)})
        page = str(pages["lamp/to-cover.html"])
        data = data_of(page)
        assert data is not None and data["image"] == data["step"][0]["image"] == f"{start}media/open%20lid.jpg"
        assert list(faults_in(graph_of(data))) == []
        metas = [element.attributes for element in Page(page).all("meta")]
        cards = {each["property"]: each["content"] for each in metas if "property" in each}
        assert cards["og:title"] == "To the glass cover – Orrin lamp" and cards["og:type"] == "article"
        assert cards.get("og:image", "") == (f"{start}media/open%20lid.jpg" if start else "")
        assert ("og:url" in cards) is bool(start)
        assert cards.get("og:image:alt", "The lid lies beside the lamp.") == photo.alt


def test_hostile_words_end_nothing_and_stay_words() -> None:
    for path, text in render_site(hostile_library(), bench_theme()).items():
        if path.endswith(".html") and (data := data_of(str(text))):
            assert [fault for fault in faults_in(graph_of(data)) if "is no" in fault] == [], path
            assert "javascript:alert" not in json.dumps([value for key, value in data.items() if key in ("url", "license")])
    block = data_block({"name": "</script><script>alert(1)//<!-- ]]> & \u2028"})
    assert not set("<>&\u2028") & set(block)
    assert json.loads(block)["name"] == "</script><script>alert(1)//<!-- ]]> & \u2028"


def test_times_and_licences() -> None:
    assert [iso_duration(seconds) for seconds in (1, 60, 3600, 86_399)] == ["PT1S", "PT1M", "PT1H", "PT23H59M59S"]
    assert licence_address("cc by 4.0 International") == "https://creativecommons.org/licenses/by/4.0/"
    assert licence_address("CC-BY-NC-SA-3.0") == "https://creativecommons.org/licenses/by-nc-sa/3.0/"
    assert licence_address("CC0") == "https://creativecommons.org/publicdomain/zero/1.0/"
    assert licence_address("Apache-2.0") == "https://spdx.org/licenses/Apache-2.0.html"
    assert licence_address("https://example.org/terms") == "https://example.org/terms"
    for unknown in ("CC BY-SA", "CC BY 9.0", "javascript:alert(1)", "https://example.org/a b", "mine"):
        assert licence_address(unknown) is None
    assert demo().licence == "CC BY-SA 4.0"


def test_photos_of_another_language_stand_where_those_of_the_first_do() -> None:
    """Every language has a folder of its own, and all of them the photos of the first."""
    lamp = guide("lamp")
    photo = PhotoView("media/lid.jpg", 800, 600, "Der Deckel.")
    site = render_site(replace(shelf(), languages=("en", "de")), bench_theme(), {"de/lamp": {lamp.order[0].id: (photo,)}})
    page = str(site["de/lamp/to-cover.html"])
    data = data_of(page)
    assert data is not None and data["inLanguage"] == "de"
    assert data["image"] == "https://example.org/shelf/lamp/media/lid.jpg"
    assert data["url"] == "https://example.org/shelf/de/lamp/to-cover.html"
    assert '<meta property="og:image" content="https://example.org/shelf/lamp/media/lid.jpg">' in page
    assert list(faults_in(graph_of(data))) == []
