"""Chapters of a film: a list that players take for chapters, numbers as on the pages, nothing that nobody may follow."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from generator.pages.video.chapters import LEAST, Chapter, chapter_list, chapter_track, chapters_of_film, chapters_of_run
from tests.orders.test_stretches import film_of
from tests.pages.sites import guide
from tests.pages.video.films import demo_survey, survey_of_films, surveyed, told

LINE = re.compile(r"(?:(\d+):)?(\d+):([0-5]\d) \S.*")


def seconds(line: str) -> int:
    found = LINE.fullmatch(line)
    assert found is not None, line
    return int(found[1] or 0) * 3600 + int(found[2]) * 60 + int(found[3])


def test_a_list_begins_with_the_film_and_says_what_the_film_is_when_no_step_is_seen() -> None:
    survey = survey_of_films((30, 60), (65, 100), length=200, alternatives=[(150, 170)])
    assert chapter_list(chapters_of_film(survey), 200) == (
        "0:00 Before the first step",
        "0:30 1. Step 0",
        "1:05 2. Step 1",
        "2:30 Another way: Step 2",
        "2:50 After the last step",
    )


def test_what_is_shorter_than_players_take_is_told_with_the_chapter_before() -> None:
    survey = survey_of_films((4, 8), (8, 13), (13, 40), (95, 99), length=100)
    assert chapter_list(chapters_of_film(survey), 100) == ("0:00 1. Step 0 / 2. Step 1", "0:13 3. Step 2 / 4. Step 3")


def test_chapters_stand_in_the_order_of_the_film() -> None:
    survey = survey_of_films((60, 90), (0, 30), length=90)
    assert told(chapters_of_film(survey)) == [(0, 30, "2. Step 1"), (60, 90, "1. Step 0")]
    assert told(chapters_of_run(survey, survey.guide.order[1:])) == [(0, 30, "1. Step 1")]


def test_steps_that_share_a_second_share_a_chapter_and_none_reaches_into_the_next() -> None:
    track = chapter_track([Chapter("a", 5, 90, "A"), Chapter("b", 5, 20, "B"), Chapter("c", 60, 80, "C")])
    assert re.findall(r"(\S+) --> (\S+)\n(.*)", track) == [
        ("00:00:05.000", "00:01:00.000", "A / B"),
        ("00:01:00.000", "00:01:20.000", "C"),
    ]


def test_a_film_of_nothing_has_no_chapters() -> None:
    assert chapters_of_film(survey_of_films(None, None, length=60)) == ()
    assert chapter_list((), 60) == ()


def test_what_is_for_licensed_practice_is_no_chapter() -> None:
    heater = guide("heater")
    filmed = replace(heater, order=tuple(replace(s, film=(30 * n, 30 * n + 30)) for n, s in enumerate(heater.order)))
    survey = surveyed(filmed)
    assert survey.stop is not None
    titles = {chapter.title.partition(" ")[2] for chapter in chapters_of_film(survey)}
    assert titles == {step.title for step in survey.shown}
    assert survey.stop.step.title not in titles


@given(
    st.lists(st.tuples(st.integers(0, 500), st.none() | st.integers(0, 600)), min_size=1, max_size=9),
    st.none() | st.integers(1, 600),
)
def test_a_list_is_always_one_that_players_take(films: list[tuple[int, int | None]], length: int | None) -> None:
    survey = surveyed(film_of(*films, length=length))
    times = [seconds(line) for line in chapter_list(chapters_of_film(survey), length)]
    if times:
        assert times[0] == 0
        assert all(after - before >= LEAST for before, after in pairwise(times))
        assert length is None or len(times) == 1 or length - times[-1] >= LEAST


def test_the_demo_names_every_step_with_the_number_of_its_page() -> None:
    survey = demo_survey()
    lines = chapter_list(chapters_of_film(survey), survey.guide.device.film_length)
    assert [line.partition(" ")[2] for line in lines if ". " in line] == [
        f"{number}. {step.title}" for number, step in enumerate(survey.guide.order, 1)
    ]
    assert lines[2] == "1:15 2. Warm and lift the back glass"
