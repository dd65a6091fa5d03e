"""Values: what is read into what, and what is refused with which wanted form."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter
from pydantic_core import PydanticCustomError

from generator.source import values
from generator.source.values import Duration, FilmSpan
from generator.source.yaml_tree import RawFloat, RawInt, resolved


@pytest.mark.parametrize(
    ("written", "seconds"),
    [
        ("45 s", (45, 45)),
        ("2 min", (120, 120)),
        ("1 h", (3600, 3600)),
        ("30-60 s", (30, 60)),
        ("30–60 s", (30, 60)),
        ("1.5 min", (90, 90)),
        ("2min", (120, 120)),
    ],
)
def test_durations(written: str, seconds: tuple[int, int]) -> None:
    assert Duration.read(written) == seconds


@pytest.mark.parametrize(
    "written", ["45", "45 sec", "2 m", "0.5 s", "60-30 s", "0 s", "-3 s", "1:30", "", "2 min\n3", "٣ s"]
)
def test_what_is_no_duration(written: str) -> None:
    assert refused(Duration.read, written) == ("kind", values.WANTED_DURATION)


@pytest.mark.parametrize(("written", "seconds"), [("0:42", 42), ("14:20", 860), ("120:00", 7200), ("1:02:30", 3750)])
def test_lengths_of_films(written: str, seconds: int) -> None:
    assert values.read_film_length(written) == seconds


@pytest.mark.parametrize(
    "written", ["0:60", "1:2", "1:60:00", "1000:00", "1:02:3", "0:00", "42", "1:30:00:00", "a", "-1:30"]
)
def test_what_is_no_length_of_a_film(written: str) -> None:
    assert refused(values.read_film_length, written) == ("time", values.WANTED_LENGTH)


def test_stretches_of_film() -> None:
    assert FilmSpan.read("0:42-1:55") == (42, 115)
    assert FilmSpan.read("0:42–1:02:03") == (42, 3723)
    assert FilmSpan.read("0:42") == (42, None)
    assert refused(FilmSpan.read, "0:42-") == ("time", values.WANTED_SPAN)
    assert refused(FilmSpan.read, RawInt("42")) == ("time", values.WANTED_SPAN)


@given(st.integers(0, 59), st.integers(0, 59), st.integers(0, 99))
def test_every_clock_time_is_read_to_the_second(seconds: int, minutes: int, hours: int) -> None:
    total = hours * 3600 + minutes * 60 + seconds
    assert FilmSpan.read(f"{hours}:{minutes:02}:{seconds:02}").start == total


@pytest.mark.parametrize("written", ["upper-cover", "a", "3", "ph00", "007", "a" * 64])
def test_ids_are_kept_as_written(written: str) -> None:
    assert values.read_id(resolved(written)) == written


@pytest.mark.parametrize(
    "written", ["Upper", "a--b", "-a", "a-", "a_b", "é", "a b", "", "a" * 65, "a\n", "1.10", "true", "ａ"]
)
def test_what_is_no_id(written: str) -> None:
    assert refused(values.read_id, resolved(written))[0] == "kind"


def test_texts_keep_the_written_form_of_numbers() -> None:
    assert values.read_line(RawFloat("1.10")) == "1.10"
    assert values.read_line(RawInt("+3")) == "+3"
    assert values.read_line("  a folded\n  text\t here ") == "a folded text here"


@pytest.mark.parametrize(
    "value", [True, None, [], {}, "", "  ", "a\x07b", "a\u202eb", "a\u2066b", "a\u2028b", "a" * 2001, "\ud800"]
)
def test_what_is_no_text_on_a_line(value: Any) -> None:
    assert refused(values.read_line, value)[0] == "kind"


def test_numbers() -> None:
    assert values.read_measure(RawInt("-3")) == -3.0
    assert values.read_positive(RawFloat(".5")) == 0.5
    assert values.read_exact(RawFloat("3.870")) == Decimal("3.870")
    for value in (True, "3", None, 5001, -5001, float("nan"), float("inf")):
        assert refused(values.read_measure, value)[0] == "kind"
    for value in (0, -1, RawFloat("-0.0")):
        assert refused(values.read_positive, value)[0] == "kind"
        assert refused(values.read_exact, value)[0] == "kind"


def test_points_and_boxes() -> None:
    assert values.read_point([RawInt("1"), RawFloat("2.5")]) == (1.0, 2.5)
    assert values.read_spot([0, 1]) == (0.0, 1.0)
    assert values.read_box([0, 0, 74, 158]) == (0.0, 0.0, 74.0, 158.0)
    assert values.read_size([74, 158]) == (74.0, 158.0)
    assert refused(values.read_point, [1]) == ("kind", values.WANTED_POINT)
    assert refused(values.read_spot, [0.5, 1.1]) == ("kind", values.WANTED_SPOT)
    assert refused(values.read_box, [0, 0, 74, 0]) == ("kind", values.WANTED_BOX)
    assert refused(values.read_size, [74, 0]) == ("kind", values.WANTED_SIZE)


def test_temperatures() -> None:
    assert values.read_temperature("80 °C") == 80.0
    assert values.read_temperature("−5.5 °C") == -5.5
    for written in ("80 C", "80 degC", "80", "80 °F", "80 º C"):
        assert refused(values.read_temperature, written) == ("kind", "a temperature such as 80 °C")


def test_torques() -> None:
    for written in ("0.06 N·m", "0.06 N.m", "0.06 N m", "0.06 Nm", "0.06 N⋅m"):
        assert values.read_torque(written) == 0.06
    for written in ("0.06", "6 Ncm", "0 N·m", "6 mN·m"):
        assert refused(values.read_torque, written) == ("kind", "a torque such as 0.06 N·m")


def test_days_are_kept_as_they_are_written() -> None:
    assert values.read_date("2026-03-12") == "2026-03-12"
    assert values.read_date("2024-02-29") == "2024-02-29"


@pytest.mark.parametrize(
    "written",
    ["2025-02-29", "2026-13-01", "2026-04-31", "2026-00-10", "2026-01-00", "0000-01-01", "12.3.2026", "2026-3-12", "2026"],
)
def test_what_is_no_day_of_the_calendar(written: str) -> None:
    assert refused(values.read_date, written) == ("kind", values.WANTED_DATE)


def test_years() -> None:
    assert values.read_years("5 years") == 5
    assert values.read_years("1 year") == 1
    assert refused(values.read_years, RawInt("5")) == ("kind", "a number of years such as 5 years")


def test_waiting_is_a_duration_or_words() -> None:
    assert values.read_wait("2 min") == Duration(120, 120)
    assert values.read_wait("until the lamp goes out") == "until the lamp goes out"
    assert values.read_wait("3 lamps go out") == "3 lamps go out"
    assert refused(values.read_wait, "2 minutes") == ("kind", values.WANTED_DURATION)
    assert refused(values.read_wait, RawInt("2")) == ("kind", values.WANTED_DURATION)


@pytest.mark.parametrize(
    "path",
    [
        "../x",
        "a/../x",
        "/etc/passwd",
        "C:\\x",
        "c:x",
        "a\\b",
        "file:x",
        "//host/x",
        "a\0b",
        "",
        " ",
        "a//b",
        "a/",
        ".git/x",
        "a\nb",
    ],
)
def test_paths_that_leave_the_folder(path: str) -> None:
    assert refused(values.read_path, path) == ("path", values.WANTED_PATH)


def test_paths_inside_the_folder() -> None:
    assert values.read_path("close-ups/offen é.jpg") == "close-ups/offen é.jpg"


@given(st.text(st.sampled_from("./\\:a \0%"), max_size=12))
def test_no_accepted_path_leads_out(path: str) -> None:
    if values.path_refusal(path) is None:
        assert not path.startswith(("/", "\\"))
        assert all(piece not in ("", ".", "..") for piece in path.split("/"))
        assert not set("\\:\0") & set(path)


def test_web_addresses() -> None:
    assert values.read_address("https://example.org/watch/tarn-5?a=b#c") == "https://example.org/watch/tarn-5?a=b#c"
    assert values.read_sources("https://example.org/{path}") == "https://example.org/{path}"
    for address in (
        "javascript:alert(1)",
        "ftp://a/b",
        "//a/b",
        "https:a",
        "https://",
        "https://u:p@h/",
        "https://[a",
        "https://h:x/",
    ):
        assert refused(values.read_address, address) == ("path", values.WANTED_ADDRESS)
    for address in ("https://a/b c", 'https://a/"b', "https://a/<b", "https://a/\u202eb"):
        assert refused(values.read_address, address) == ("path", values.WANTED_ADDRESS)
    for address in ("https://example.org/{file}", "https://example.org/{path}{", "https://example.org/{path}}", "https://a/"):
        assert refused(values.read_sources, address) == ("path", values.WANTED_SOURCES)
    assert values.read_sources("https://example.org/{path}#L{line}") == "https://example.org/{path}#L{line}"


def test_how_a_film_opens_at_a_second() -> None:
    for written in ("{address}?t={seconds}", "{address}#t={seconds}s", "https://example.org/play?from={seconds}&id=4"):
        assert values.read_seconds_address(written) == written
    for written in (
        "javascript:go({seconds})",
        "{address}",
        "{address}?t={second}",
        "https://example.org/{address}?t={seconds}",
        "?t={seconds}",
        "{address} ?t={seconds}",
        "{address}?t={seconds}\n",
        "{address}?t={seconds}}",
        "{address}\u202e?t={seconds}",
    ):
        assert refused(values.read_seconds_address, written) == ("path", values.WANTED_SECONDS)
    assert refused(values.read_seconds_address, 3) == ("kind", values.WANTED_SECONDS)


def test_one_or_many_gives_a_list() -> None:
    ids: TypeAdapter[list[str]] = TypeAdapter(values.OneOrMany[values.Id])
    assert ids.validate_python("a") == ["a"]
    assert ids.validate_python(["a", "b"]) == ["a", "b"]


def refused(read: Any, value: Any) -> tuple[str, str]:
    with pytest.raises(PydanticCustomError) as caught:
        read(value)
    context = caught.value.context
    assert context is not None
    return caught.value.type, context["wanted"]
