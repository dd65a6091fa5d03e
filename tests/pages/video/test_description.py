"""The text below a film: hazards before the steps, no longer than its box, and honest about what had no room."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.anatomy.parts import PartId
from generator.orders.routes import Route
from generator.orders.work import Caution
from generator.pages.video.description import LIMIT, Passage, description_of_film, fitted, watch_list
from generator.pages.video.files import film_texts, run_folder, run_texts, video_files
from generator.pages.video.plain import plain, shortened, weight
from generator.source.places import Place
from tests.orders.test_stretches import film_of
from tests.pages.sites import demo, guide, shelf
from tests.pages.test_pages import hostile_library
from tests.pages.video.films import HOSTILE, demo_survey, surveyed

BATTERY = PartId("battery")


def test_it_has_steps_with_times_tools_supplies_parts_cautions_licence_and_the_guide() -> None:
    text = description_of_film(demo_survey())
    assert weight(text) <= LIMIT
    for line in (
        "Veldrun Tarn 5, taken apart in steps.",
        "The guide, with every step drawn and every screw told: https://example.org/kiln-lane/tarn-5/",
        "14:35 5. Unplug the battery",
        "- nylon tweezers",
        "- isopropyl alcohol 99 %",
        "- back glass: 1:15-8:40, spare VT5-BCK-03, € 34, https://example.org/kiln-lane/tarn-5/to-back.html",
        "Written by Orla Tessendahl",
        "Licence: CC BY-SA 4.0",
    ):
        assert line in text.split("\n"), line
    assert text.endswith("\n") and not text.endswith("\n\n")


def test_hazards_stand_before_the_first_step() -> None:
    for text in (description_of_film(demo_survey()), run_texts(demo_survey(), BATTERY)["description.txt"]):
        first_step = min(text.index(f"{time} ") for time in ("\n0:35", "\n1:15") if f"{time} " in text)
        assert text.index("Local codes and licensed practice come before this guide.") < first_step
        assert text.rindex("WARNING:") < first_step


def test_the_battery_needs_no_more_of_the_film_than_its_own_steps() -> None:
    text = run_texts(demo_survey(), BATTERY)["description.txt"]
    assert (
        "For the battery only watch these parts of the film: "
        "1:15-10:20, 1:07:10-1:08:20, 14:35-18:00, 1:08:25-1:09:30, 25:15-31:30" in text
    )
    watched = run_texts(demo_survey(), BATTERY)["watch.txt"]
    assert "14:35-18:00 4. Unplug the battery / 5. Lift out the speaker box" in watched
    assert "10:20-14:35 Take off the upper cover" in watched


def test_a_step_that_the_film_does_not_show_is_warned_of() -> None:
    one = demo().guides[0]
    unfilmed = replace(one, order=tuple(replace(s, film=None) if s.id == "unplug-battery" else s for s in one.order))
    survey = surveyed(unfilmed, demo())
    texts = run_texts(survey, BATTERY)
    assert "Not in the film, only in the guide: 4. Unplug the battery" in texts["watch.txt"]
    assert "Not in the film: 4. Unplug the battery" in texts["description.txt"].split("\n")
    film = film_texts(survey)["description.txt"]
    assert "Not in the film, only in the guide: 5. Unplug the battery" in film
    assert "and more in the guide" in next(line for line in film.split("\n") if line.startswith("- battery"))


def test_a_way_that_stops_says_where() -> None:
    heater = guide("heater")
    filmed = replace(heater, order=tuple(replace(s, film=(60 * n, 60 * n + 60)) for n, s in enumerate(heater.order)))
    survey = surveyed(filmed, shelf())
    assert survey.stop is not None
    part, way = next(
        (part, way) for part, way in survey.ways.items() if isinstance(way, Route) and survey.stop.step in way.steps
    )
    texts = run_texts(survey, part)
    for text in (film_texts(survey)["description.txt"], texts["description.txt"], texts["watch.txt"]):
        assert "from there on it is for licensed practice only." in text
        assert f". {survey.stop.step.title}" not in text
    assert len(way.steps) > texts["watch.txt"].count(". ") - 2


def test_a_film_of_which_nothing_is_known_has_no_files() -> None:
    assert video_files(surveyed(film_of(None, None))) == {}
    assert run_texts(demo_survey(), PartId("frame")) == {}
    assert run_folder(BATTERY) == "video/to-battery"


def test_what_has_no_room_is_left_out_from_the_least_needful_and_named() -> None:
    tools = tuple(f"- tool {n} and what it is for" for n in range(10))
    passages = (
        Passage("", ("Head",)),
        Passage("Hazards", ("Danger A", "Danger B"), "hazards"),
        Passage("Times", tuple(f"{n}:00 step" for n in range(10)), "times", rank=1),
        Passage("Tools", tools, "tools", rank=2, brief=("-",) * 10, brief_at=2, briefly="t"),
    )
    whole = fitted(passages, 1000)
    assert whole.count("step") == 10 and "- tool 9" in whole and "rest of" not in whole
    some = fitted(passages, len(whole) - 1)
    assert "- tool 0" in some and "- tool 9" not in some and some.count("\n-") == 10
    few = fitted(passages, 150)
    assert len(few) <= 150 and "Danger B" in few and "Tools" not in few
    assert few.rstrip().endswith("The space ended here. The guide has the rest of: t, tools, times.")
    with pytest.raises(ValueError, match="more than 10"):
        fitted(passages, 10)


def test_however_much_there_is_the_box_takes_it_and_the_gravest_hazards_stay() -> None:
    one = demo().guides[0]
    long = "Word " * 390
    cautions = tuple(Caution(level, f"{long}{n}.", Place("f")) for n in range(40) for level in ("notice", "danger"))
    crowded = replace(
        one,
        order=tuple(replace(step, title=long, cautions=cautions) for step in one.order),
        device=replace(one.device, name=long, about=long),
    )
    library = replace(demo(), author=long, licence=long, address=f"https://example.org/{'a' * 1900}")
    for path, text in video_files(surveyed(crowded, library)).items():
        if path.endswith("description.txt"):
            assert weight(text) <= LIMIT, path
            assert "The space ended here." in text
            assert "DANGER:" in text and "NOTICE:" not in text


def test_hostile_words_stay_on_their_line() -> None:
    library = hostile_library()
    for each in library.guides:
        filmed = replace(
            each, order=tuple(replace(step, title=HOSTILE, film=(60 * n, 60 * n + 9)) for n, step in enumerate(each.order))
        )
        for path, text in video_files(surveyed(filmed, replace(library, guides=(filmed,)))).items():
            assert not set(text) & set("\u202e\x00\x0b\u2028\r"), path
            assert "javascript:" not in text.replace("javascript:alert", ""), path
            if path.endswith(".txt"):
                assert not [line for line in text.split("\n") if line.startswith("00:00:00.000")], path


def test_the_same_guide_gives_the_same_words() -> None:
    assert video_files(demo_survey()) == video_files(surveyed(demo().guides[0], demo()))
    survey = demo_survey()
    way = survey.ways[BATTERY]
    assert isinstance(way, Route)
    part = survey.guide.part(BATTERY)
    assert watch_list(survey, part, way.steps, None) == run_texts(survey, BATTERY)["watch.txt"]


def test_plain_text_is_one_line_of_signs_that_can_be_seen() -> None:
    assert plain("a\u00a0b\u2060–\u2060c\n\u202ed\x07") == "a b–c d"
    assert shortened("word " * 100, 20) == "word word word word…"
    assert weight("a🔧") == 3
