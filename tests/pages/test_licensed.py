"""Where licensed practice begins the guide ends: on every page and in every answer, measuring a charge included."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from decimal import Decimal
from functools import cache
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import pytest
from click.testing import CliRunner

from generator.anatomy.parts import PartId
from generator.commands import partway
from generator.orders.guide import Guide, Library
from generator.orders.hazards import SHOCK_FROM, licensed_reason
from generator.orders.reading import read_guides
from generator.orders.routes import Route, best_route
from generator.orders.work import Verb
from generator.pages.several import shippable
from generator.pages.site import render_site
from generator.pages.survey import survey_of, up_to_stop
from generator.rules import findings_of_everything
from generator.source.reading import read_library
from tests.pages.sites import bench_theme, guide
from tests.simulator import bench_for

DRYERS = Path(__file__).parent / "dryers"
PARTS = ("capacitor", "motor")
MEASURING = ("across both blades", "Set one tip of the voltmeter", "Draw off both plugs")


@cache
def dryers() -> Library:
    return read_guides(read_library(DRYERS))


@cache
def dryer() -> Guide:
    return dryers().guides[0]


def with_part(one: Guide, name: str, **changes: object) -> Guide:
    part = replace(one.part(PartId(name)), **changes)  # type: ignore[arg-type]
    return replace(one, anatomy=replace(one.anatomy, parts={**one.anatomy.parts, part.id: part}))


def stop_on(one: Guide, part: str) -> str | None:
    route = best_route(one, (PartId(part),))
    assert isinstance(route, Route)
    stop = up_to_stop(one, route.steps)[1]
    return stop.step.id if stop else None


def test_measuring_is_left_to_licensed_practice_where_the_part_is_or_its_charge_strikes() -> None:
    assert [stop_on(dryer(), part) for part in PARTS] == ["measure", "measure"]
    charge = dryer().part(PartId("capacitor")).charge
    assert charge is not None and charge.volts >= SHOCK_FROM
    unmarked = with_part(dryer(), "capacitor", licensed=None)
    measure = unmarked.step_by_id[next(step.id for step in unmarked.order if step.id == "measure")]
    assert licensed_reason(unmarked, measure) == ("capacitor", "")
    low = replace(charge, volts=SHOCK_FROM - Decimal("0.1"))
    assert licensed_reason(with_part(unmarked, "capacitor", charge=low), measure) is None
    assert licensed_reason(with_part(dryer(), "capacitor", charge=low), measure) is not None
    assert licensed_reason(dryer(), dryer().order[0]) is None, "that the plug is out anybody may see"


@pytest.mark.parametrize("library", ["dryers", "heater"])
def test_what_is_told_can_be_done_and_holds_nothing_of_it(library: str) -> None:
    """The order is possible to the checker, the steps before the stop are possible on the bench, and nothing is measured."""
    one = dryer() if library == "dryers" else guide("heater")
    assert not one.walk.unmet
    for part in one.anatomy.parts:
        route = best_route(one, (part,)) if part != one.anatomy.base else None
        if not isinstance(route, Route):
            continue
        told, _ = up_to_stop(one, route.steps)
        bench = bench_for(one.anatomy, (), one.device.power, one.steps)
        assert bench.perform_all(told) is None
        for action in (action for step in told for action in step.actions):
            assert not (action.verb is Verb.CHECK and action.part is not None and one.part(action.part).licensed)
    numbers = {one.steps[number].id for number in shippable(one)}
    assert numbers.isdisjoint({"measure", "lift-capacitor", "lift-motor", "lift-filter", "lift-coil"})


def test_a_guide_without_the_measuring_is_found_wanting() -> None:
    """The check has to be in the order, though no page shows it."""
    without = replace(dryer(), order=tuple(step for step in dryer().order if step.id != "measure"))
    found = findings_of_everything(replace(dryers(), guides=(without,)))
    assert "power/stored-charge" in {each.rule for each in found}
    assert "power/stored-charge" not in {each.rule for each in findings_of_everything(dryers())}


def test_no_page_and_no_pack_tells_how_to_measure() -> None:
    site = render_site(dryers(), bench_theme())
    texts = {path: text if isinstance(text, str) else text.decode("utf-8", "replace") for path, text in site.items()}
    for path, content in site.items():
        if path.endswith(".zip") and isinstance(content, bytes):
            with ZipFile(BytesIO(content)) as pack:
                texts |= {f"{path}/{name}": pack.read(name).decode("utf-8", "replace") for name in pack.namelist()}
    assert "velm-8/to-motor.html" in texts
    for path, text in texts.items():
        words = " ".join(re.sub(r"<[^>]*>", " ", text).split())
        assert not any(phrase in words for phrase in MEASURING), path
    assert "It keeps a charge that can kill" in texts["velm-8/to-motor.html"]


def test_a_charge_alone_is_given_as_the_reason_where_the_author_gave_none() -> None:
    unmarked = with_part(dryer(), "capacitor", licensed=None)
    site = render_site(replace(dryers(), guides=(unmarked,)), bench_theme())
    page = str(site["velm-8/to-motor.html"])
    assert "A shock can kill." in page and not any(phrase in page for phrase in MEASURING)
    assert survey_of(dryers(), unmarked).stop is not None


@pytest.mark.parametrize("part", PARTS)
def test_the_route_on_the_command_line_stops_there_too(part: str) -> None:
    asked = ["route", "velm-8", part, "--content", str(DRYERS), "--regroup"]
    told = CliRunner().invoke(partway, asked).stdout
    assert 'Stop. The next step, "Measure the capacitor", is for licensed practice only: motor capacitor.' in told
    assert not any(phrase in told for phrase in MEASURING)
    document = json.loads(CliRunner().invoke(partway, [*asked, "--as", "json"]).stdout)
    assert document["licensed"] == {"step": "measure", "part": "capacitor", "reason": "It keeps a charge that can kill"}
