"""The pages by example: device, route, blocked and stopped ways, tools, library; and hostile words everywhere."""

from __future__ import annotations

import os
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Drive, Joint, JointKind
from generator.anatomy.parts import Part, PartId
from generator.orders.guide import Guide, Library, PartNote
from generator.orders.work import Action, Caution, Step, Supply, Tool
from generator.pages.addresses import film_address, source_address
from generator.pages.cautions import MEANINGS, panels_of, stop_panel
from generator.pages.device import device_page
from generator.pages.library import library_page
from generator.pages.route import BlockedPage, RoutePage, part_page
from generator.pages.site import render_site
from generator.pages.survey import survey_of
from generator.pages.tools import tools_page
from generator.pages.whole import whole_page
from generator.source.prose import read_prose
from tests.pages.reading import Page
from tests.pages.sites import bench_theme, guide, page, shelf, shelf_site
from tests.pages.test_site import broken_links, pages_in
from tests.pages.test_steps import plain

HOSTILE = "<script>alert(1)</script>\"'&amp;{{ 7*7 }}{% raw %}</title><img src=x onerror=alert(1)>"


def test_the_device_page_lists_each_way_with_its_figures() -> None:
    view = device_page(survey_of(shelf(), guide("lamp")))
    rows = [(row.part, row.href, row.steps, row.joints, plain(row.minutes), row.note) for row in view.ways]
    assert rows == [
        ("glass cover", "to-cover.html", "1", "1", "about 5 min", ""),
        ("battery pack", "to-pack.html", "3", "4", "about 7 min", "among the deepest"),
        ("lamp board", "to-board.html", "3", "6", "about 9 min", "among the deepest"),
        ("mirror", "to-mirror.html", "3", "5", "about 8 min", "among the deepest"),
        ("charging coil", "to-coil.html", "", "", "", "no way in this guide"),
    ]


def test_the_parts_table_has_every_part_with_its_number() -> None:
    view = device_page(survey_of(shelf(), guide("lamp")))
    rows = {row.name: row for row in view.parts}
    assert len(rows) == len(guide("lamp").anatomy.parts)
    assert (rows["rubber strap"].number, rows["battery pack"].number) == ("3.1", "3.2")
    assert rows["charging coil"].number == "with 4" and rows["foot"].number == "stays"
    board = rows["lamp board"]
    assert (plain(board.held), plain(board.size), board.depth) == ("3 screws and 2 plugs", "30 × 50 × 1.2 mm", "3 / 10 / 1")
    assert board.number_href == "guide.html#step-lift-board" and board.href == "to-board.html"


def test_screws_are_counted_by_size_in_all_and_in_each_step() -> None:
    view = device_page(survey_of(shelf(), guide("lamp")))
    assert [(plain(row.size), row.drive, row.count, plain(row.steps)) for row in view.screws] == [
        ("M2 × 4.0 mm", "cross recess PH0, pan head", "4", "2 in step 4, 2 in step 6"),
        ("M2 × 6.0 mm", "cross recess PH0, pan head", "1", "1 in step 4"),
    ]
    assert view.screw_total == "5"
    again = {row.name: plain(row.again) for row in view.joints}
    assert again["glue line of the cover"] == "new: adhesive ring, 60 × 2 mm" and again["board screws"] == "the same"


def test_the_verdict_is_the_authors_and_the_figures_are_counted() -> None:
    view = device_page(survey_of(shelf(), guide("lamp")))
    assert view.verdict is not None and view.verdict.author == "Ansgar Quell"
    figures = {fact.label: plain(fact.value) for fact in view.figures}
    assert figures["Kinds of screw"] == "2 sizes, 1 drive" and figures["Joints made anew on the way back"] == "1"
    assert figures["Turned over"] == "twice"


def test_the_bench_has_every_tool_with_the_steps_that_need_it() -> None:
    view = device_page(survey_of(shelf(), guide("lamp")))
    assert {stand.name: plain(stand.steps) for stand in view.bench.tools}["Cross-recess driver PH0"] == "Steps 4, 6"
    assert {plain(stand.name): plain(stand.steps) for stand in view.bench.supplies} == {
        "Cleaning spirit": "Step 1",
        "Adhesive ring, 60 × 2 mm": "Step 12",
    }


def test_cautions_are_collected_before_the_sequence_begins() -> None:
    found = page("lamp/index.html")
    collected = found.inside(found.one("beware"), name="panel")
    met = {panel.hazard for step in guide("lamp").order for panel in panels_of(guide("lamp"), step, frozenset())}
    words = " ".join(panel.words for panel in collected)
    assert all(hazard.partition(":")[0] in words for hazard in met)
    assert "local codes and to licensed practice" in found.words and "read about safety" in found.words


def test_a_way_that_is_blocked_says_why() -> None:
    view = part_page(survey_of(shelf(), guide("lamp")), PartId("coil"))
    assert isinstance(view, BlockedPage)
    assert any("wires of the coil" in reason for reason in view.reasons)
    found = page("lamp/to-coil.html")
    assert "There is no way to the charging coil in this guide." in found.words
    assert all(reason in found.words for reason in view.reasons)


def test_a_part_that_no_step_takes_out_says_so() -> None:
    lamp = guide("lamp")
    without = replace(lamp, order=lamp.order[:2], alternatives=())
    view = part_page(survey_of(shelf(), without), PartId("mirror"))
    assert isinstance(view, BlockedPage) and view.reasons == ("No step of this guide takes the mirror out.",)


def test_a_way_stops_where_licensed_practice_begins() -> None:
    for part in ("filter", "coil"):
        view = part_page(survey_of(shelf(), guide("heater")), PartId(part))
        assert isinstance(view, RoutePage)
        assert [step.title for step in view.steps] == [
            "Pull the plug out of the wall", "Open the case", "Lift out the fan"
        ]  # fmt: skip
        assert view.stop is not None and view.stop.level == "danger"
        assert view.stop.consequence == "It carries mains voltage and stores a charge."
        assert "licensed practice" in view.stop.avoidance and "local codes" in view.stop.avoidance
        assert not view.hand and [step.number for step in view.back] == ["4", "5", "6"]
        assert plain(view.leftover.sentence) == "4 screws out, 4 back."
        assert "3 of the 5 steps" in plain(view.lede) and "ends where licensed practice begins" in view.lede
        figures = {fact.label: plain(fact.value) for fact in view.block}
        assert figures["Joints"] == "6, of them 4 screws" and figures["Tools"] == str(len(view.bench.tools))
    found = page("heater/to-filter.html")
    assert "filter screw" not in found.words and "The guide stops here" in found.words
    fan = part_page(survey_of(shelf(), guide("heater")), PartId("fan"))
    assert isinstance(fan, RoutePage) and fan.stop is None


def test_the_whole_guide_stops_there_too_and_keeps_its_numbers() -> None:
    view = whole_page(survey_of(shelf(), guide("heater")))
    assert [entry.number for entry in view.withheld] == ["4", "5"]
    assert [step.number for step in view.steps] == ["1", "2", "3"] and [step.number for step in view.back] == ["4", "5", "6"]
    found = page("heater/guide.html")
    assert "step-lift-filter" in found.ids and not found.inside(found.one("step-lift-filter"), name="work")


def test_mains_and_stored_charge_are_dangers_that_defer_to_licensed_practice() -> None:
    heater = guide("heater")
    panels = [panel for step in heater.order for panel in panels_of(heater, step, frozenset())]
    dangers = [panel for panel in panels if panel.level == "danger"]
    assert {panel.hazard.partition(":")[0] for panel in dangers} == {
        "Mains voltage", "Stored charge", "For licensed practice only"
    }  # fmt: skip
    assert all("licensed practice" in panel.avoidance and "local codes" in panel.avoidance for panel in dangers)
    assert any("325\u00a0V" in panel.hazard for panel in dangers)


def test_the_way_back_warns_before_its_own_work_and_lays_out_its_own_tools() -> None:
    lamp = guide("lamp")
    prose = read_prose("Wipe the rim with [spirit](supply:cleaner), then press with the [lever](tool:lever).", "f.md")
    first, *rest = lamp.order
    wiped = replace(lamp, order=(replace(first, actions=tuple(replace(a, supplies=()) for a in first.actions),
                                         body=None, refitting=prose), *rest))  # fmt: skip
    view = whole_page(survey_of(shelf(), wiped))
    last = view.back[-1]
    assert "Flammable: cleaning spirit." in [panel.hazard for panel in last.panels]
    stands = {stand.name: stand.steps for stand in (*view.bench.tools, *view.bench.supplies)}
    assert plain(stands["Cleaning spirit"]) == f"Step {last.number}"
    assert last.number in plain(stands["Plastic lever"])
    collected = {panel.hazard: plain(panel.steps) for panel in device_page(survey_of(shelf(), wiped)).panels}
    assert collected["Flammable: cleaning spirit."] == f"Step {last.number}"


def test_a_low_charge_is_no_danger_of_death() -> None:
    heater = guide("heater")
    part = heater.part(PartId("filter"))
    assert part.charge is not None
    parts = {**heater.anatomy.parts, part.id: replace(part, charge=replace(part.charge, volts=Decimal("12")), licensed=None)}
    tame = replace(heater, anatomy=Anatomy(heater.anatomy.base, parts, heater.anatomy.joints))
    panels = panels_of(tame, tame.order[3], frozenset())
    assert [(panel.level, plain(panel.hazard)) for panel in panels] == [("warning", "Stored charge: mains filter (12 V).")]


def test_figures_count_what_is_undone_and_name_no_drive_that_nobody_told() -> None:
    lamp = guide("lamp")
    joints = {
        name: replace(joint, drive=None, is_renewed=True)
        for name, joint in lamp.anatomy.joints.items()
    }
    bare = replace(lamp, order=lamp.order[:1], anatomy=Anatomy(lamp.anatomy.base, lamp.anatomy.parts, joints))
    undone = [bare.joint(name) for step in bare.order for name in step.undone]
    figures = {fact.label: plain(fact.value) for fact in device_page(survey_of(shelf(), bare)).figures}
    assert figures["Joints made anew on the way back"] == str(sum(joint.count for joint in undone if joint.is_renewed))
    whole = replace(lamp, anatomy=bare.anatomy)
    figures = {fact.label: plain(fact.value) for fact in device_page(survey_of(shelf(), whole)).figures}
    assert figures["Kinds of screw"] == "2 sizes"


def test_hands_need_no_count_of_tools() -> None:
    lamp = guide("lamp")
    steps = tuple(replace(step, actions=tuple(replace(a, tools=()) for a in step.actions)) for step in lamp.order)
    joints = {name: replace(joint, tools=(), kind=JointKind.CLIPS) for name, joint in lamp.anatomy.joints.items()}
    bare = replace(lamp, order=steps, anatomy=Anatomy(lamp.anatomy.base, lamp.anatomy.parts, joints), tools={})
    view = part_page(survey_of(shelf(), bare), PartId("pack"))
    assert isinstance(view, RoutePage)
    assert {fact.label: fact.value for fact in view.block}["Tools"] == "none"


def test_the_reason_for_a_permit_is_set_as_a_sentence() -> None:
    assert stop_panel("x", "it kills").consequence == "It kills."


def test_signal_words_rank_from_danger_to_notice() -> None:
    assert list(MEANINGS) == ["danger", "warning", "caution", "notice"]
    assert stop_panel("x", "No reason").consequence == "No reason."


def test_findings_are_not_shown_to_readers() -> None:
    lamp = guide("lamp")
    assert lamp.walk.unmet
    pages = {path: text for path, text in shelf_site().items() if isinstance(text, str) and path != "rules.html"}
    assert [path for path, text in pages.items() if "order/" in text] == []


def test_tools_say_what_they_are_for_and_where_they_are_used() -> None:
    view = tools_page(shelf())
    lever = next(thing for thing in view.tools if thing.id == "tool-lever")
    assert [(use.device, plain(use.steps)) for use in lever.uses] == [("Orrin heater", "1 step"), ("Orrin lamp", "1 step")]
    assert "For plugs and clips" in lever.facts
    cleaner = next(thing for thing in view.supplies if thing.id == "supply-cleaner")
    assert [plain(fact) for fact in cleaner.facts] == ["Acts for 30–60 s", "Beware: flammable and tickling"]


def test_the_library_tells_facts() -> None:
    view = library_page(shelf())
    assert plain(view.about) == (
        "Two invented things, small enough to be read whole. 2 devices, 11 steps, 8 parts with a page of their own. "
        "Written by Ansgar Quell."
    )
    lamp = next(one for kind in view.kinds for maker in kind.makers for one in maker.devices if one.id == "device-lamp")
    figures = {fact.label: plain(fact.value) for fact in lamp.figures}
    assert figures == {"Parts": "8", "Steps": "6 out, 6 back", "Joints": "11", "Screws": "5, of 2 sizes"}


def test_addresses_that_are_not_of_the_web_are_never_linked_to() -> None:
    lamp = guide("lamp")
    for address in ("javascript:alert(1)", "data:text/html,x", "//example.org/x", "file:///etc/passwd"):
        device = replace(lamp.device, film_address=address)
        assert film_address(device, lamp.order[0]) is None
        assert source_address(f"{address}{{path}}", "a") is None
    device = replace(lamp.device, film_address="https://example.org/w#x=1")
    assert film_address(device, lamp.order[0]) == "https://example.org/w#x=1&t=42"
    device = replace(device, film_at="{address}?t={seconds}", film_address="https://example.org/{seconds}")
    assert film_address(device, lamp.order[0]) == "https://example.org/{seconds}?t=42"
    assert film_address(replace(device, film_at="javascript:go({seconds})"), lamp.order[0]) is None
    assert source_address("https://example.org/{path}", "lamp/a b.yaml") == "https://example.org/lamp/a%20b.yaml"


# --- hostile words ------------------------------------------------------------------------------------------------


def hostile_step(step: Step) -> Step:
    prose = read_prose(f"{HOSTILE}\n\n[x](javascript:alert(1)) [y](part:{HOSTILE}) [z](part:cover)\n", "x.md")
    return replace(
        step,
        title=HOSTILE,
        actions=tuple(hostile_action(action) for action in step.actions),
        cautions=(Caution("notice", HOSTILE, step.place), Caution("<level>", HOSTILE, step.place)),
        body=prose,
        refitting=prose,
    )


def hostile_action(action: Action) -> Action:
    return replace(action, words=HOSTILE if action.words else None, face=action.face)


def hostile_part(part: Part) -> Part:
    return replace(
        part, name=HOSTILE, material=HOSTILE, role=HOSTILE, spare_number=HOSTILE, spare_price=HOSTILE, hazards=(HOSTILE,),
        licensed=HOSTILE if part.licensed else None, cell=replace(part.cell, chemistry=HOSTILE) if part.cell else None,
    )  # fmt: skip


def hostile_joint(joint: Joint) -> Joint:
    screwed = joint.drive is not None
    return replace(
        joint, name=HOSTILE, note=HOSTILE, head=HOSTILE if screwed else None, thread=HOSTILE if screwed else None,
        drive=Drive(HOSTILE, HOSTILE) if screwed else None,
    )  # fmt: skip


def hostile_guide(one: Guide) -> Guide:
    parts = {name: hostile_part(part) for name, part in one.anatomy.parts.items()}
    joints = {name: hostile_joint(joint) for name, joint in one.anatomy.joints.items()}
    device = replace(
        one.device, name=HOSTILE, kind=HOSTILE, maker=HOSTILE, about=HOSTILE, film_address=f"javascript:{HOSTILE}",
        verdict=HOSTILE, verdict_author=HOSTILE,
    )  # fmt: skip
    return replace(
        one,
        device=device,
        anatomy=Anatomy(one.anatomy.base, parts, joints),
        order=tuple(hostile_step(step) for step in one.order),
        alternatives=tuple(hostile_step(step) for step in one.alternatives),
        tools={name: hostile_tool(tool) for name, tool in one.tools.items()},
        supplies={name: hostile_supply(supply) for name, supply in one.supplies.items()},
        notes=tuple(PartNote(note.part, read_prose(HOSTILE, "n.md"), note.file) for note in one.notes),
    )


def hostile_tool(tool: Tool) -> Tool:
    return replace(
        tool, name=HOSTILE, type=HOSTILE, material=HOSTILE, hazards=(HOSTILE,), note=HOSTILE, fits=((HOSTILE, HOSTILE),)
    )


def hostile_supply(supply: Supply) -> Supply:
    return replace(supply, name=HOSTILE, hazards=(HOSTILE,), note=HOSTILE)


def hostile_library() -> Library:
    one = shelf()
    return replace(
        one,
        title=HOSTILE,
        author=HOSTILE,
        about=HOSTILE,
        licence=HOSTILE,
        address=f"javascript:{HOSTILE}",
        sources=f"javascript:{HOSTILE}{{path}}",
        languages=("en",),
        guides=tuple(hostile_guide(each) for each in one.guides),
        tools={name: hostile_tool(tool) for name, tool in one.tools.items()},
        supplies={name: hostile_supply(supply) for name, supply in one.supplies.items()},
    )


def test_hostile_words_stay_words() -> None:
    site = render_site(hostile_library(), bench_theme())
    assert broken_links(site) == []
    for path, found in pages_in(site).items():
        assert not found.unclosed, path
        for script in found.all("script"):
            is_data = script.attributes.get("type") == "application/ld+json"
            assert not set("<>&") & set(script.text) if is_data else script.attributes.get("src") and not script.text, path
        assert not found.all("img"), path
        for element in found.elements:
            assert not any(key.startswith("on") for key in element.attributes), path
            assert not element.attributes.get("href", "").lower().startswith(("javascript:", "data:")), path
        assert "49" not in found.all("title")[0].words
        if path not in ("safety.html", "find.html"):
            assert "<script>alert(1)</script>" in found.words, path


def test_the_safety_page_is_ours_and_names_no_guide() -> None:
    assert page("safety.html").all("h1")[0].words == "Safety"


def test_the_text_of_a_small_page() -> None:
    """Stored text: what a reader hears of the page of the fan, from the first heading on."""
    found = page("heater/to-fan.html")
    main = found.all("main")[0]
    stored = Path(__file__).parent / "to-fan.txt"
    if os.environ.get("PARTWAY_ACCEPT"):
        stored.write_text(spoken(found, main), "utf-8")
    assert spoken(found, main) == stored.read_text("utf-8")


def spoken(found: Page, main: object) -> str:
    leaves = ("h1", "h2", "h3", "p", "li", "dt", "dd", "th", "td", "caption")
    lines = []
    for element in found.elements:
        if main not in element.ancestors or element.tag not in leaves:
            continue
        if any(outer.tag in leaves for outer in element.ancestors) or element.attributes.get("aria-hidden") == "true":
            continue
        if element.words:
            lines.append(f"{element.tag}: {plain(element.words)}")
    return "\n".join(lines) + "\n"
