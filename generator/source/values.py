"""Values as authors write them, read into plain numbers and texts: times, lengths, temperatures, ids, paths.

Every type here refuses with an error of kind `time`, `path` or `kind`, whose `wanted` says in plain words what belongs
there. Numbers come in with their written form (`raw`, see `yaml_tree`), so that `1.10` can still be a text.
"""

from __future__ import annotations

import math
import re
from calendar import monthrange
from collections.abc import Callable
from decimal import Decimal
from typing import Annotated, Any, NamedTuple, TypeVar
from urllib.parse import urlsplit

from pydantic import BeforeValidator, Discriminator, GetCoreSchemaHandler, PlainValidator, Tag
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from generator.source.characters import UNSEEN

WANTED_DURATION = "a duration such as 45 s, 2 min or 30-60 s"
WANTED_LENGTH = "the length of a film such as 14:20 or 1:02:30"
WANTED_SPAN = "a time in the film such as 0:42, or a stretch of it such as 0:42-1:55"
WANTED_ID = "an id: lower-case letters and digits, words joined by single hyphens, such as upper-cover"
WANTED_LINE = "a text on one line"
WANTED_LANGUAGE = "a language tag such as en or pt-BR"
WANTED_REASON = "the reason as a text, such as: The mains comes in here"
WANTED_MEASURE = "a plain number of millimetres such as 2.5"
WANTED_POSITIVE = "a plain number above zero, in millimetres, such as 2.5"
WANTED_POINT = "a point such as [37, 60]: millimetres to the right, millimetres down"
WANTED_SPOT = "a point on the photo such as [0.42, 0.31]: shares of its width and height, from 0 to 1"
WANTED_CLOSER = "how many times closer, from 1 to 8, such as 2.5"
WANTED_BOX = "four numbers in millimetres: x, y, width, height, such as [4, 12, 66, 52]"
WANTED_SIZE = "width and height in millimetres, such as [74, 158]"
WANTED_NUMBER = "a plain number above zero such as 3.87"
WANTED_PATH = "a path inside the folder such as back-open.jpg, with forward slashes"
WANTED_TEMPERATURE = "a temperature such as 80 °C"
WANTED_TORQUE = "a torque such as 0.06 N·m"
WANTED_ADDRESS = "a web address that starts with https:// or http://"
WANTED_SOURCES = "a web address with {path} in it, such as https://example.org/sources/{path}"
WANTED_SECONDS = "a web address with {seconds} in it, such as {address}?t={seconds}"
WANTED_DATE = "a day of the calendar written as year-month-day, such as 2026-03-12"
WANTED_YEARS = "a number of years such as 5 years"
WANTED_WAIT = "a duration such as 2 min, or words that say what to wait for"

LONGEST_LINE = 2000  # characters
LONGEST_ID = 64  # characters
CLOSEST = 8.0  # times; beyond that few photos have the pixels
FARTHEST = 5000.0  # mm; nothing on a bench is larger

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_AMOUNT = r"([0-9]{1,6}(?:\.[0-9]{1,3})?)"
_DURATION = re.compile(rf"{_AMOUNT}(?:\s?[-–]\s?{_AMOUNT})?\s?(s|min|h)")
_LIKE_DURATION = re.compile(r"[0-9][0-9.,:\s–-]*[^\W\d_]*\.?")
_SECONDS_IN = {"s": 1, "min": 60, "h": 3600}
_CLOCK = r"(?:[0-9]{1,2}:[0-5][0-9]|[0-9]{1,3}):[0-5][0-9]"
_FILM_LENGTH = re.compile(_CLOCK)
_FILM_SPAN = re.compile(rf"({_CLOCK})(?:\s?[-–]\s?({_CLOCK}))?")
_TEMPERATURE = re.compile(r"([-−]?[0-9]{1,4}(?:\.[0-9]{1,2})?)\s?°C")
_TORQUE = re.compile(r"([0-9]{1,3}(?:\.[0-9]{1,4})?)\s?N(?:[·⋅. ])?m")
_LANGUAGE = re.compile(r"[A-Za-z]{2,8}(?:-[A-Za-z0-9]{1,8}){0,5}")
_DATE = re.compile(r"([0-9]{4})-(0[1-9]|1[0-2])-([0-9]{2})")
_YEARS = re.compile(r"([0-9]{1,2})\s?years?")
_BREAK = re.compile(r"[ \t]*[\t\n\r][ \t\n\r]*")

T = TypeVar("T")


def refuse(kind: str, wanted: str, reason: str = "") -> PydanticCustomError:
    """The error every value here raises; kind: `time`, `path` or `kind`."""
    # The template has no fields on purpose: the words are made from `ctx` by the rules.
    return PydanticCustomError(kind, "not what belongs here", {"wanted": wanted, "reason": reason})


def clock(seconds: int) -> str:
    """Film time as authors write it and pages show it: `m:ss` or `h:mm:ss`.

    >>> clock(115), clock(3750)
    ('1:55', '1:02:30')
    """
    minutes, rest = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"


def is_id(text: str) -> bool:
    """Whether `text` can name a part, joint, tool, supply, step or device."""
    return len(text) <= LONGEST_ID and _ID.fullmatch(text) is not None


def written_text(value: Any) -> str | None:
    """The text an author wrote for a text or a number; None for anything else (a list, true, nothing)."""
    raw = getattr(value, "raw", value)
    return raw if isinstance(raw, str) else None


# --- texts -----------------------------------------------------------------------------------------------------


def read_line(value: Any) -> str:
    text = written_text(value)
    if text is None:
        raise refuse("kind", WANTED_LINE)
    line = _BREAK.sub(" ", text.strip())
    if not line:
        raise refuse("kind", WANTED_LINE, "there is nothing in it")
    if len(line) > LONGEST_LINE:
        raise refuse("kind", f"{WANTED_LINE} of at most {LONGEST_LINE} characters", f"it has {len(line)} characters")
    unseen = UNSEEN.search(line)
    if unseen is not None:
        sign = f"U+{ord(unseen.group()):04X}"
        raise refuse("kind", f"{WANTED_LINE}, without control characters", f"it holds the unseen character {sign}")
    return line


def read_id(value: Any) -> str:
    text = written_text(value)
    if text is None or not is_id(text):
        long = text is not None and len(text) > LONGEST_ID
        raise refuse("kind", f"{WANTED_ID}, at most {LONGEST_ID} characters" if long else WANTED_ID)
    return text


def read_reason(value: Any) -> str:
    """A text on one line; `true` is none, because the reader is told the reason."""
    if written_text(value) is None:
        raise refuse("kind", WANTED_REASON)
    return read_line(value)


def read_date(value: Any) -> str:
    """A day as it is written (ISO 8601, year-month-day), kept as text; only days that the calendar has.

    >>> read_date("2024-02-29")
    '2024-02-29'
    """
    found = _match(_DATE, written_text(value))
    if found is None:
        raise refuse("kind", WANTED_DATE)
    year, month, day = int(found[1]), int(found[2]), int(found[3])
    if year < 1 or not 1 <= day <= monthrange(year, month)[1]:
        raise refuse("kind", WANTED_DATE)
    return found[0]


def read_language(value: Any) -> str:
    """A language tag, by its form (RFC 5646: subtags of letters and digits, the first of letters)."""
    text = written_text(value)
    if text is None or _LANGUAGE.fullmatch(text) is None:
        raise refuse("kind", WANTED_LANGUAGE)
    return text


Language = Annotated[str, BeforeValidator(read_language, json_schema_input_type=str)]
Reason = Annotated[str, BeforeValidator(read_reason, json_schema_input_type=str)]
Date = Annotated[str, BeforeValidator(read_date, json_schema_input_type=str)]
Line = Annotated[str, BeforeValidator(read_line, json_schema_input_type=str | int | float)]
Id = Annotated[str, BeforeValidator(read_id, json_schema_input_type=str | int)]


# --- times -----------------------------------------------------------------------------------------------------


class Duration(NamedTuple):
    """How long something takes, in whole seconds; low == high unless a range was written.

    >>> Duration.read("30-60 s")
    Duration(low=30, high=60)
    >>> Duration.read("1.5 min")
    Duration(low=90, high=90)
    """

    low: int
    high: int

    @classmethod
    def read(cls, value: Any) -> Duration:
        match = _match(_DURATION, value)
        if match is None:
            raise refuse("kind", WANTED_DURATION)
        unit = _SECONDS_IN[match[3]]
        low, high = (Decimal(part) * unit for part in (match[1], match[2] or match[1]))
        if low % 1 or high % 1:
            raise refuse("kind", WANTED_DURATION, "it does not come to whole seconds")
        if high == 0:
            raise refuse("kind", WANTED_DURATION, "it is no time at all")
        if low > high:
            raise refuse("kind", WANTED_DURATION, "the longer time stands first")
        return cls(int(low), int(high))

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return _read_by(cls.read)


class FilmSpan(NamedTuple):
    """A stretch of the film in seconds from its start; end is None where only a start was written.

    >>> FilmSpan.read("0:42-1:55")
    FilmSpan(start=42, end=115)
    """

    start: int
    end: int | None

    @classmethod
    def read(cls, value: Any) -> FilmSpan:
        match = _match(_FILM_SPAN, value)
        if match is None:
            raise refuse("time", WANTED_SPAN)
        return cls(_seconds(match[1]), _seconds(match[2]) if match[2] else None)

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return _read_by(cls.read)


def read_film_length(value: Any) -> int:
    """Seconds from `m:ss` (up to three digits of minutes) or `h:mm:ss`.

    >>> read_film_length("1:02:30")
    3750
    """
    match = _match(_FILM_LENGTH, value)
    if match is None or not _seconds(match[0]):
        raise refuse("time", WANTED_LENGTH)
    return _seconds(match[0])


def read_years(value: Any) -> int:
    match = _match(_YEARS, value)
    if match is None:
        raise refuse("kind", WANTED_YEARS)
    return int(match[1])


def read_wait(value: Any) -> str | Duration:
    """A duration, or words for what to wait for; what looks like a duration has to be one."""
    text = written_text(value)
    if text is None:
        raise refuse("kind", WANTED_WAIT)
    return Duration.read(value) if _LIKE_DURATION.fullmatch(text.strip()) else read_line(value)


FilmLength = Annotated[int, BeforeValidator(read_film_length, json_schema_input_type=str)]
Years = Annotated[int, BeforeValidator(read_years, json_schema_input_type=str)]
Wait = Annotated[str | Duration, PlainValidator(read_wait, json_schema_input_type=str)]


def _seconds(clock: str) -> int:
    total = 0
    for digits in clock.split(":"):
        total = total * 60 + int(digits)
    return total


# --- measures --------------------------------------------------------------------------------------------------


def read_measure(value: Any) -> float:
    return _number(value, WANTED_MEASURE, -FARTHEST, FARTHEST)


def read_positive(value: Any) -> float:
    number = _number(value, WANTED_POSITIVE, 0.0, FARTHEST)
    if number == 0:
        raise refuse("kind", WANTED_POSITIVE)
    return number


def read_exact(value: Any) -> Decimal:
    """A number above zero as it was written, without the rounding of binary fractions."""
    if _number(value, WANTED_NUMBER, 0.0, 1e6) == 0:
        raise refuse("kind", WANTED_NUMBER)
    return Decimal(getattr(value, "raw", None) or str(value))


def read_point(value: Any) -> tuple[float, float]:
    return _pair(value, WANTED_POINT, -FARTHEST, FARTHEST)


def read_spot(value: Any) -> tuple[float, float]:
    return _pair(value, WANTED_SPOT, 0.0, 1.0)


def read_closer(value: Any) -> float:
    return _number(value, WANTED_CLOSER, 1.0, CLOSEST)


def read_size(value: Any) -> tuple[float, float]:
    width, height = _pair(value, WANTED_SIZE, 0.0, FARTHEST)
    if not width or not height:
        raise refuse("kind", WANTED_SIZE)
    return width, height


def read_box(value: Any) -> tuple[float, float, float, float]:
    if not isinstance(value, list) or len(value) != 4:
        raise refuse("kind", WANTED_BOX)
    x, y, width, height = (_number(each, WANTED_BOX, -FARTHEST, FARTHEST) for each in value)
    if width <= 0 or height <= 0:
        raise refuse("kind", WANTED_BOX, "its width and height have to be above zero")
    return x, y, width, height


def read_temperature(value: Any) -> float:
    match = _match(_TEMPERATURE, value)
    if match is None:
        raise refuse("kind", WANTED_TEMPERATURE)
    return float(match[1].replace("−", "-"))


def read_torque(value: Any) -> float:
    match = _match(_TORQUE, value)
    if match is None or not float(match[1]):
        raise refuse("kind", WANTED_TORQUE)
    return float(match[1])


Measure = Annotated[float, BeforeValidator(read_measure)]
Positive = Annotated[float, BeforeValidator(read_positive)]
Exact = Annotated[Decimal, BeforeValidator(read_exact, json_schema_input_type=float)]
Point = Annotated[tuple[float, float], BeforeValidator(read_point)]
Spot = Annotated[tuple[float, float], BeforeValidator(read_spot)]
Closer = Annotated[float, BeforeValidator(read_closer)]
Size = Annotated[tuple[float, float], BeforeValidator(read_size)]
Box = Annotated[tuple[float, float, float, float], BeforeValidator(read_box)]
Temperature = Annotated[float, BeforeValidator(read_temperature, json_schema_input_type=str)]
Torque = Annotated[float, BeforeValidator(read_torque, json_schema_input_type=str)]
TemperatureOrPoints = Annotated[
    Annotated[Temperature, Tag("temperature")] | Annotated[list[Point], Tag("points")],
    Discriminator(lambda value: "points" if isinstance(value, list) else "temperature"),
]


def _number(value: Any, wanted: str, least: float, most: float) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise refuse("kind", wanted)
    if not math.isfinite(value) or not least <= value <= most:
        raise refuse("kind", wanted, f"it has to lie between {least:g} and {most:g}")
    return float(value)


def _pair(value: Any, wanted: str, least: float, most: float) -> tuple[float, float]:
    if not isinstance(value, list) or len(value) != 2:
        raise refuse("kind", wanted)
    x, y = (_number(each, wanted, least, most) for each in value)
    return x, y


# --- paths and addresses -----------------------------------------------------------------------------------------


def path_refusal(path: str) -> str | None:
    """Why `path` may not be followed from the folder it belongs to; None where it may.

    >>> path_refusal("../secrets.txt")
    'it leaves the folder with ..'
    """
    parts = path.split("/")
    reasons = (
        (not path.strip(), "it is empty"),
        (UNSEEN.search(path) is not None, "it holds a control character"),
        ("\\" in path, "it is written with a backslash; paths here have forward slashes"),
        (path.startswith("/"), "it starts at the root of the disk"),
        (":" in path, "it has a scheme or a drive letter"),
        (".." in parts, "it leaves the folder with .."),
        ("" in parts, "it has an empty piece between two slashes or at its end"),
        (any(part.startswith(".") for part in parts), "it has a piece that starts with a full stop"),
        (len(path) > LONGEST_LINE, "it is too long"),
    )
    return next((reason for is_so, reason in reasons if is_so), None)


def address_refusal(address: str) -> str | None:
    """Why `address` is no web address that a page may link to; None where it is one."""
    if len(address) > LONGEST_LINE:
        return "it is too long"
    if UNSEEN.search(address) or re.search(r"[\s<>\"\\]", address):
        return "it holds a blank or a sign that no web address has"
    try:
        pieces = urlsplit(address)
        host = pieces.hostname
        pieces.port  # noqa: B018 - reading it is what checks it
    except ValueError:
        return "its host cannot be read"
    if pieces.scheme not in ("http", "https"):
        return "it does not start with https:// or http://"
    if not host:
        return "it names no host"
    return "it carries a name or password" if "@" in pieces.netloc else None


def read_path(value: Any) -> str:
    path = written_text(value)
    if path is None:
        raise refuse("kind", WANTED_PATH)
    reason = path_refusal(path)
    if reason is not None:
        raise refuse("path", WANTED_PATH, reason)
    return path


def read_address(value: Any) -> str:
    address = written_text(value)
    if address is None:
        raise refuse("kind", WANTED_ADDRESS)
    reason = address_refusal(address)
    if reason is not None:
        raise refuse("path", WANTED_ADDRESS, reason)
    return address


def read_sources(value: Any) -> str:
    address = read_address(value)
    if "{path}" not in address or re.search("[{}]", address.replace("{path}", "").replace("{line}", "")):
        reason = "it needs {path} where the path of a file goes; no braces but {path} and {line}"
        raise refuse("path", WANTED_SOURCES, reason)
    return address


def read_seconds_address(value: Any) -> str:
    """How the film is opened at a second: a web address, or `{address}` and what follows it, with `{seconds}` in it.

    >>> read_seconds_address("{address}?t={seconds}")
    '{address}?t={seconds}'
    """
    written = written_text(value)
    if written is None:
        raise refuse("kind", WANTED_SECONDS)
    filled = re.sub(r"^\{address\}", "https://example.org/film", written)
    reason = address_refusal(filled)
    if reason is not None:
        raise refuse("path", WANTED_SECONDS, reason)
    if "{seconds}" not in written or re.search("[{}]", filled.replace("{seconds}", "")):
        raise refuse("path", WANTED_SECONDS, "it needs {seconds} where the second goes; {address} may stand at the start")
    return written


RelativePath = Annotated[str, BeforeValidator(read_path)]
WebAddress = Annotated[str, BeforeValidator(read_address)]
SourcesAddress = Annotated[str, BeforeValidator(read_sources)]
SecondsAddress = Annotated[str, BeforeValidator(read_seconds_address)]


# --- one or many -------------------------------------------------------------------------------------------------


def as_list(value: Any) -> Any:
    return value if isinstance(value, list) else [value]


OneOrMany = Annotated[list[T], BeforeValidator(as_list)]


def _match(pattern: re.Pattern[str], value: Any) -> re.Match[str] | None:
    text = value if isinstance(value, str) else ""
    return pattern.fullmatch(text.strip())


def _read_by(read: Callable[[Any], Any]) -> CoreSchema:
    return core_schema.no_info_plain_validator_function(
        read, json_schema_input_schema=core_schema.str_schema(), serialization=core_schema.to_string_ser_schema()
    )
