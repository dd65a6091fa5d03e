"""Steps out and back by example: what stands before what, the numbers, the words of the work and of its inverse."""

from __future__ import annotations

from dataclasses import replace

from generator.anatomy.parts import PartId
from generator.orders.accounts import accounts_of
from generator.orders.numbering import part_numbers
from generator.orders.routes import Route
from generator.pages.actions import ActionLine
from generator.pages.photos import KeyView, PhotoMarkView, PhotoView
from generator.pages.route import RoutePage, part_page
from generator.pages.site import render_device
from generator.pages.survey import survey_of
from generator.pages.whole import WholePage, whole_page
from generator.source.prose import read_prose
from tests.pages.reading import Page
from tests.pages.sites import bench_theme, demo, guide, page, shelf

NO_BREAK = "\u00a0"


def whole(name: str = "lamp") -> WholePage:
    return whole_page(survey_of(shelf(), guide(name)))


def route(part: str, name: str = "lamp") -> RoutePage:
    found = part_page(survey_of(shelf(), guide(name)), PartId(part))
    assert isinstance(found, RoutePage)
    return found


def plain(text: str) -> str:
    return text.replace(NO_BREAK, " ").replace("\u2060", "")


def told(lines: tuple[ActionLine, ...]) -> list[str]:
    return [plain("; ".join(word for word in (line.words, line.extent, line.aid, line.note) if word)) for line in lines]


def test_a_part_has_the_number_of_its_step_and_two_share_it() -> None:
    assert part_numbers(guide("lamp").order) == {
        "cover": "1", "strap": "3.1", "pack": "3.2", "board": "4", "knob": "5", "mirror": "6"
    }  # fmt: skip


def test_the_work_of_a_step_in_words() -> None:
    steps = {step.title: step for step in whole().steps}
    assert told(steps["Warm and lift the cover"].lines) == [
        "Check; The lamp is dark.",
        "Warm the glue line of the cover to 55 °C for 2–3 min; heating mat",
        "Separate the glue line of the cover; opening pick, 0.6 mm; cleaning spirit",
        "Lift out the glass cover",
    ]
    assert told(steps["Lift the board"].lines) == [
        "Disconnect the lamp plug",
        "Turn the device over: top up",
        "Undo the board screws; 2 screws M2 × 4.0 mm, 1 screw M2 × 6.0 mm, cross recess PH0; cross-recess driver PH0",
        "Lift out the lamp board; With it comes the charging coil.",
    ]


def test_the_count_runs_on_into_the_way_back() -> None:
    page_of = whole()
    out = {step.id.removeprefix("step-"): int(step.number) for step in page_of.steps}
    count = len(out)
    assert list(out.values()) == list(range(1, count + 1))
    back = {step.id.removeprefix("back-"): int(step.number) for step in page_of.back}
    assert list(back.values()) == list(range(count + 1, 2 * count + 1))
    assert all(back[step] == 2 * count + 1 - number for step, number in out.items())
    for step in page_of.steps:
        assert step.back_number == str(back[step.id.removeprefix("step-")])
    for step in page_of.back:
        assert plain(step.was) == f"was step {out[step.id.removeprefix('back-')]} out"


def test_the_way_back_is_the_inverse_of_the_way_out() -> None:
    back = {step.out_title: step for step in whole().back}
    cover = back["Warm and lift the cover"]
    assert cover.title == "Put back the glass cover"
    assert told(cover.lines) == [
        "Clean both sides and lay new adhesive for the glue line of the cover; adhesive ring, 60 × 2 mm",
        "Put back the glass cover",
        "Press down along the glue line of the cover",
    ]
    assert "Lay the " in cover.prose and "#supply-cover-tape" in cover.prose
    board = back["Lift the board"]
    assert told(board.lines) == [
        "Put back the lamp board",
        "Drive in the board screws; 2 screws M2 × 4.0 mm, 1 screw M2 × 6.0 mm, cross recess PH0; Tighten to 0.2 N·m.",
        "Connect the lamp plug",
    ]
    knob = back["Turn the lamp and draw off the knob"]
    assert told(knob.lines)[-1] == "Turn the device over: top up"
    unplugged = back["Unplug the pack"]
    assert unplugged.title == "Connect the pack plug" and unplugged.lines == ()


def test_a_joint_undone_twice_is_made_once() -> None:
    lines = [line for step in whole().back for line in told(step.lines)]
    titles = [step.title for step in whole().back]
    assert sum("lamp plug" in line for line in lines) + sum("lamp plug" in title for title in titles) == 1


def test_what_was_folded_aside_is_brought_and_then_folded_into_place() -> None:
    from generator.orders.work import Action, Verb

    lamp = guide("lamp")
    step = lamp.order[2]
    fold = Action(step.id, 9, Verb.FOLD, step.place, part=PartId("strap"))
    folded = replace(step, actions=(step.actions[0], fold, *step.actions[1:]))
    changed = replace(lamp, order=tuple(folded if each is step else each for each in lamp.order))
    back = whole_page(survey_of(shelf(), changed)).back
    assert told(next(each for each in back if each.out_title == step.title).lines) == [
        "Put back the battery pack",
        "Bring the rubber strap, still to one side",
        "Fold the rubber strap into place",
        "Press home the ends of the strap; 2 clips",
    ]


def test_before_a_glued_cover_closes_it_is_tried() -> None:
    checks = {step.title: [plain(check) for check in step.checks] for step in route("board").back if step.checks}
    assert list(checks) == ["Put back the glass cover"]
    assert checks["Put back the glass cover"] == [
        "The tray is empty: no screw is left over.",
        "Every plug under it is home, and no lead lies where it comes down.",
        "Switch the device on and try the lamp board. Switch it off again.",
    ]


def test_the_leftover_check_is_that_of_the_accounts() -> None:
    lamp = guide("lamp")
    for part in ("board", "mirror", "pack"):
        view = route(part)
        way = survey_of(shelf(), lamp).ways[PartId(part)]
        assert isinstance(way, Route)
        accounts = accounts_of(lamp, way.steps)
        rows = [(row.out, row.back) for row in view.leftover.rows]
        assert rows == [(str(line.count), str(line.count)) for line in accounts.screws]
        assert view.leftover.total_out == view.leftover.total_back == str(accounts.screw_count)
    assert plain(route("board").leftover.sentence) == "3 screws out, 3 back."
    assert route("pack").leftover.sentence == "No screw came out."
    assert (
        "The old battery pack is left over. Hand it in as a used battery, its contacts taped over."
        in route("pack").leftover.others
    )


def test_a_route_counts_anew_and_gives_the_number_of_the_whole_guide() -> None:
    view = route("mirror")
    assert [(step.number, plain(step.guide_number)) for step in view.steps] == [
        ("1", "step 1 of the whole guide"),
        ("2", "step 2 of the whole guide"),
        ("3", "step 6 of the whole guide"),
    ]
    assert view.steps[2].guide_href == "guide.html#step-lift-mirror"
    assert [part.number for part in view.steps[2].parts] == ["3"]
    assert [step.number for step in view.back] == ["4", "5", "6"]
    assert view.back[0].title == "Put in the new mirror"


def test_steps_kept_for_safety_are_marked() -> None:
    view = route("mirror")
    assert [bool(step.safety) for step in view.steps] == [True, True, False]
    assert view.safety == "Kept for safety: “Warm and lift the cover” and “Unplug the pack”."
    assert not route("pack").safety


def test_an_added_turn_stands_where_it_is_needed_and_is_turned_back() -> None:
    view = route("mirror")
    assert told(view.steps[2].lines)[0] == (
        "Turn the device over: bottom up; Not a step of the whole guide: this way needs it."
    )
    assert told(view.back[0].lines)[-1] == "Turn the device over: top up"


def test_near_best_ways_are_told_in_words() -> None:
    assert [plain(line) for line in route("pack").alternatives] == [
        "Do “Slip the pack out under its strap” instead of “Take out strap and pack”: 3 steps out, about 10 min."
    ]


def test_a_film_time_links_to_its_second() -> None:
    steps = whole().steps
    assert (plain(steps[0].film), steps[0].film_href) == ("film 0:42", "https://example.org/watch/lamp#t=42")
    assert (steps[2].film, steps[2].film_href) == ("", "")


def test_panels_stand_before_tools_work_and_words() -> None:
    for path in ("lamp/guide.html", "lamp/to-mirror.html", "heater/to-fan.html"):
        found = page(path)
        steps = found.all("article", "step")
        assert steps
        for step in steps:
            panels = found.inside(step, name="panel")
            action = min(e.place for name in ("step__tools", "work") for e in found.inside(step, name=name))
            assert all(panel.place < action for panel in panels)


def test_the_gravest_panel_comes_first_and_the_same_light_one_is_short_the_second_time() -> None:
    steps = whole().steps
    assert [panel.level for panel in steps[0].panels] == ["warning", "warning", "warning", "caution", "caution", "notice"]
    first, second = steps[0].panels[-1], steps[2].panels[-1]
    assert (first.hazard, first.consequence) == ("Scratches on the cover stay.", "Lay it on a cloth.")
    assert (second.hazard, second.consequence, second.avoidance) == ("Scratches on the cover stay.", "", "")
    assert not first.has_triangle and steps[0].panels[0].has_triangle


def test_a_grave_panel_is_never_shortened() -> None:
    from generator.pages.cautions import keys_of, panels_of

    lamp = guide("lamp")
    told_before = keys_of(panels_of(lamp, lamp.order[0], frozenset()))
    again = panels_of(lamp, lamp.order[0], told_before)
    assert all(panel.avoidance for panel in again if panel.level == "warning")
    assert not any(panel.avoidance for panel in again if panel.level in ("caution", "notice"))


def test_a_hazard_word_of_the_author_is_passed_on() -> None:
    hazards = {panel.hazard for panel in whole().steps[0].panels}
    assert "Tickling: cleaning spirit." in hazards and "Flammable: cleaning spirit." in hazards


def test_references_lead_to_the_same_page_where_it_has_them() -> None:
    steps = {step.title: step.prose for step in whole().steps}
    assert 'href="#tool-pick"' in steps["Warm and lift the cover"]
    assert 'href="#joint-cover-glue"' in steps["Warm and lift the cover"]
    assert 'href="#step-open-cover"' in steps["Unplug the pack"]
    mirror = {step.title: step.prose for step in route("mirror").steps}["Unscrew the mirror"]
    assert 'href="#part-mirror"' in mirror and 'href="index.html#part-knob"' in mirror


def test_a_photo_stands_in_its_step_with_its_marks() -> None:
    lamp = guide("lamp")
    mark, key = PhotoMarkView("1", "40%", "50%", width="24"), KeyView("1", "glue")
    view = PhotoView("media/a.jpg", 800, 600, "The <open> lamp", "A. Quell", (mark,), (key,))
    files = render_device(shelf(), lamp, bench_theme(), {lamp.order[0].id: (view,)})
    text = files["lamp/guide.html"]
    assert isinstance(text, str)
    found = Page(text)
    picture = found.inside(found.one("step-open-cover"), "img")[0]
    assert picture.attributes["alt"] == "The <open> lamp" and picture.attributes["src"] == "media/a.jpg"
    assert '<svg class="photo__mark" x="40%" y="50%">' in text and '<span class="photo__key">1</span> glue' in text


def test_headings_in_prose_stand_below_those_of_the_page() -> None:
    lamp = guide("lamp")
    step = replace(lamp.order[1], body=read_prose("# Big\n\n### Small\n\nText.\n", "x.md"))
    changed = replace(lamp, order=(lamp.order[0], step, *lamp.order[2:]))
    prose = whole_page(survey_of(shelf(), changed)).steps[1].prose
    assert "<h4>Big</h4>" in prose and "<h5>Small</h5>" in prose


def test_a_mains_device_is_not_tried_while_it_is_open() -> None:
    checks = {step.title: step.checks for step in route("fan", "heater").back if step.checks}
    assert list(checks) == ["Put back the case"]
    assert plain(checks["Put back the case"][0]) == "In the tray lie 4 screws, all for what is still to come."
    assert checks["Put back the case"][2] == "Do not put it under voltage while it is open. Try it when it is closed."


def test_what_still_waits_for_a_plug_cannot_be_tried() -> None:
    handset = next(each for each in demo().guides if each.id == "tarn-5")
    checks = {step.title: step.checks for step in whole_page(survey_of(demo(), handset)).back if step.checks}
    assert any(check.startswith("It cannot be tried yet: still to come") for check in checks["Put back the display"])
    assert any(check.startswith("Switch the phone on") for check in checks["Put back the back glass"])
