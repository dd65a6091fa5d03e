"""Tracks held to the W3C's own parser, which tells every departure from the grammar, and to another that is in wide use."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
import webvtt
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.pages.video.chapters import Chapter, chapter_track, chapters_of_film
from generator.pages.video.files import video_files
from generator.pages.video.overlay import TITLE_LASTS, overlay_track
from generator.pages.video.track import Cue, track_of
from tests.orders.test_stretches import film_of
from tests.pages.video.films import HOSTILE, demo_survey, read_tracks, survey_of_films, surveyed


def kind_of(path: str) -> str:
    return "chapters" if path.endswith("chapters.vtt") else "captions"


def test_every_track_of_the_demo_is_a_webvtt_file_without_a_fault() -> None:
    files = {path: text for path, text in video_files(demo_survey()).items() if path.endswith(".vtt")}
    assert len(files) == 2 * (1 + len(demo_survey().pages))
    for path, read in zip(files, read_tracks([(text, kind_of(path)) for path, text in files.items()]), strict=True):
        assert read.errors == [], path
        assert read.cues, path
        again = webvtt.from_buffer(io.StringIO(files[path]))
        assert [(each.identifier, each.start_in_seconds, each.end_in_seconds) for each in again] == [
            tuple(cue[:3]) for cue in read.cues
        ], path
        names = [cue[0] for cue in read.cues]
        assert len(set(names)) == len(names), path


def test_the_parser_does_see_faults() -> None:
    whole = chapter_track([Chapter("a", 1, 5, "One"), Chapter("b", 5, 9, "Two")])
    broken = [
        whole.replace("WEBVTT\n\n", "WEBVTT\n"),
        whole.replace("00:00:05.000 -->", "00:00:00.000 -->"),
        whole.replace("Two", "Two <b>"),
        whole.replace("-->", "->", 1),
    ]
    assert [bool(read.errors) for read in read_tracks([(text, "chapters") for text in (whole, *broken)])] == [
        False,
        *(True for _ in broken),
    ]


def test_hostile_titles_stay_the_words_of_one_cue() -> None:
    guide = film_of((0, 20), (20, 60), length=90)
    guide = replace(guide, order=tuple(replace(step, title=HOSTILE) for step in guide.order))
    chapters = chapters_of_film(surveyed(guide))
    for text, kind in ((chapter_track(chapters), "chapters"), (overlay_track(chapters), "captions")):
        assert text.count("-->") == len(text.split("\n\n")) - 1
        assert not set(text) & set("\u202e\x00\x0b\u2028")
        (read,) = read_tracks([(text, kind)])
        assert read.errors == []
        titles = [cue[3] for cue in read.cues if not str(cue[0]).endswith("-on")]
        assert len(titles) == 2
        assert all("&lt;script&gt;alert(1)&lt;/script&gt; &amp;" in str(title) for title in titles)


@settings(max_examples=15)
@given(st.lists(st.tuples(st.integers(0, 40), st.none() | st.integers(1, 50), st.text(max_size=12)), max_size=6))
def test_any_words_and_times_make_a_track_without_a_fault(entries: list[tuple[int, int | None, str]]) -> None:
    chapters = [
        Chapter(f"c{place}", start, start + lasts if lasts else None, f"{place}. {words}", str(place))
        for place, (start, lasts, words) in enumerate(sorted(entries, key=lambda entry: entry[0]))
    ]
    tracks = [(chapter_track(chapters), "chapters"), (overlay_track(chapters), "captions")]
    assert [read.errors for read in read_tracks(tracks)] == [[], []]


def test_cues_out_of_time_are_refused() -> None:
    for cues in ([Cue("a", 5, 5, "x")], [Cue("a", 5, 9, "x"), Cue("b", 4, 9, "y")], [Cue("a", -1, 9, "x")]):
        with pytest.raises(ValueError, match="out of time"):
            track_of(cues)


def test_the_overlay_names_the_step_and_then_leaves_its_number_at_the_top() -> None:
    survey = survey_of_films((10, 60), (60, 64), length=90)
    (read,) = read_tracks([(overlay_track(chapters_of_film(survey)), "captions")])
    assert read.cues == [
        ["step-a", 10, 10 + TITLE_LASTS, "1. Step 0", "0"],
        ["step-a-on", 10 + TITLE_LASTS, 60, "Step 1", "0"],
        ["step-b", 60, 64, "2. Step 1", "0"],
    ]
