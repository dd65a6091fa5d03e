"""The facts that rules look up, against rows read in public sources (`tests/data/trade`, columns in its README).

The rows were gathered apart from the program; `source` in each row says where, and every check below names it again.
"""

from __future__ import annotations

import csv
import re
from functools import cache
from pathlib import Path

import pytest

from generator.anatomy.threads import LEAST_M, STANDARD_THREADS
from generator.rules.trade.drives import ACCEPTED, BY_SHAPE, DRIVES, SAID_INSTEAD
from generator.rules.trade.materials import is_glass, is_metal
from generator.rules.trade.threads import is_tapping, looked_up_as
from generator.rules.trade.torque import BREAKING, TORQUES, torque_range
from generator.rules.trade.writing import INSTRUCTIONS_PER_SENTENCE, WORDS_PER_SENTENCE

TAGS = {"verified", "memory", "common practice"}


@cache
def rows(name: str) -> list[dict[str, str]]:
    path = Path(__file__).parents[1] / "data" / "trade" / f"{name}.csv"
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_coarse_pitches() -> None:
    """Source: ISO 262 coarse series, as in the open fastener data file iso262def.csv and a tap-maker catalogue."""
    published = {row["key"]: float(row["value"]) for row in rows("threads") if row["quantity"] == "thread pitch coarse"}
    embedded = {thread.name: thread.pitch for thread in STANDARD_THREADS if "iso262def.csv" in thread.source}
    assert len(published) == 12
    assert embedded == published


def test_the_miniature_thread_that_authors_write_as_m() -> None:
    """Source: ISO 1501:2009, miniature series S; ISO 261 begins at M1."""
    row = next(row for row in rows("threads") if row["quantity"] == "thread pitch")
    found = looked_up_as("M0.8")
    assert found is not None
    assert (found.name, found.pitch, found.tag) == (row["key"], float(row["value"]), row["tag"])
    published = [float(row["key"].removeprefix("M")) for row in rows("threads") if row["quantity"] == "thread pitch coarse"]
    assert min(published) == LEAST_M


def test_every_published_thread_is_known() -> None:
    """Source: every size that a row of threads.csv (ISO 262, ISO 273, ISO 724, ISO 2306) or torque.csv is about."""
    sizes = {row["key"] for name in ("threads", "torque") for row in rows(name)}
    named = {size for size in sizes if re.fullmatch(r"[MS][0-9.]+", size)}
    assert len(named) > 12
    assert {size for size in named if looked_up_as(size) is None} == set()


def test_pitches_follow_from_basic_diameters() -> None:
    """Source: ISO 724, D1 = D - 1.082532 P, as in a tap-maker table to UNI 4535-64; rounded there to 0.001 mm."""
    for row in rows("threads"):
        thread = looked_up_as(row["key"])
        if row["quantity"] == "basic minor diameter D1" and thread is not None:
            size = float(thread.name.removeprefix("M"))
            assert size - 1.082532 * thread.pitch == pytest.approx(float(row["value"]), abs=0.0006)


def test_torques_are_those_published() -> None:
    """Source: the tables that torque.csv names (T-series chart, tables after ISO 898-1, ISO 898-7, two service manuals)."""
    published = {
        (row["quantity"], row["key"], float(row["value"]), row["source"], row["tag"])
        for row in rows("torque")
        if row["unit"] == "N.m"
    }
    embedded = {
        (table.quantity, thread, value, table.source, table.tag)
        for table in TORQUES
        for thread, value in table.newton_metres
    }
    assert embedded == published


@pytest.mark.parametrize("thread", ["M1", "M1.2", "M1.4", "M1.6", "M2", "M2.5", "M3", "M3.5", "M4", "M5", "M6"])
def test_torque_ranges_hold_every_published_value_that_does_not_break_the_screw(thread: str) -> None:
    """Source: torque.csv; one value for M1.6 (class 8.8, 0.17) lies above the least breaking torque of ISO 898-7 (0.16)."""
    values = [float(row["value"]) for row in rows("torque") if row["key"] == thread and row["quantity"] != BREAKING]
    breaking = [float(row["value"]) for row in rows("torque") if row["key"] == thread and row["quantity"] == BREAKING]
    found = torque_range(thread)
    assert found is not None
    assert found.breaking == (breaking[0] if breaking else None)
    kept = [value for value in values if not breaking or value < breaking[0]]
    assert (found.low, found.high) == (min(kept), max(kept))
    assert len(values) - len(kept) == (1 if thread == "M1.6" else 0)


def test_no_torque_without_a_table() -> None:
    assert torque_range("M10") is None


def test_cross_recess_numbers() -> None:
    """Source: ISO 4757 / ISO 8764-1, numbers 0 to 4; PH00 and PH000 are common practice."""
    numbers = next(row["value"] for row in rows("drives") if row["quantity"] == "cross recess numbers defined")
    sizes = BY_SHAPE["cross-recess"].sizes
    assert sizes is not None
    for number in numbers.split(";"):
        assert sizes.fullmatch(f"PH{number}")
        assert sizes.fullmatch(f"PZ{number}")
    drivers = {row["key"] for row in rows("drives") if row["quantity"] == "driver to thread guide"}
    assert drivers == {"PH000", "PH00", "PH0", "PH1", "PH2", "PH3"}
    assert all(sizes.fullmatch(driver) for driver in drivers)
    assert not any(sizes.fullmatch(wrong) for wrong in ("PH5", "PH0000", "PZ00", "T6", "PH"))


def test_hexalobular_numbers() -> None:
    """Source: ISO 10664 (1 to 100 in the edition of 2014), ISO 14579, ISO 14583; T2 to T5 common practice."""
    sizes = BY_SHAPE["hexalobular"].sizes
    assert sizes is not None
    about = [row for row in rows("drives") if row["quantity"].startswith("hexalobular")]
    numbers = {row["key"] for row in about if row["key"].startswith("T")}
    numbers |= {f"T{row['value']}" for row in about if row["unit"] == "no."}
    assert {"T2", "T6", "T10", "T30"} <= numbers
    assert all(sizes.fullmatch(number) for number in numbers)
    assert sizes.fullmatch("T100")
    assert not any(sizes.fullmatch(wrong) for wrong in ("T0", "T101", "PH0", "6"))


def test_hexagon_keys_and_slots_are_measured_in_millimetres() -> None:
    """Source: ISO 4762, ISO 7380-1, ISO 10642, ISO 4026 (keys); ISO 1207, ISO 1580, ISO 2009 (slots)."""
    for start, shape in (("hexagon key", "hexagon-socket"), ("slot width", "slotted")):
        sizes = BY_SHAPE[shape].sizes
        assert sizes is not None
        values = [row["value"] for row in rows("drives") if row["quantity"].startswith(start)]
        assert len(values) > 5
        assert all(sizes.fullmatch(value) and sizes.fullmatch(f"{value} mm") for value in values)


def test_every_drive_shows_an_example_of_its_own() -> None:
    assert all(drive.sizes is None or drive.sizes.fullmatch(drive.example) for drive in DRIVES)
    assert {drive.tag for drive in DRIVES} <= TAGS
    assert {thread.tag for thread in STANDARD_THREADS} <= TAGS
    assert {table.tag for table in TORQUES} <= TAGS


def test_workshop_names_lead_to_a_name_of_the_standards() -> None:
    assert set(SAID_INSTEAD.values()) <= set(BY_SHAPE)
    assert not set(SAID_INSTEAD) & set(BY_SHAPE)
    assert set(SAID_INSTEAD) >= ACCEPTED


def test_limits_of_sentences() -> None:
    """Source: ASD-STE100 rules 5.1 and 5.2, wording read in public summaries."""
    limits = {(row["quantity"], row["unit"]): int(row["value"]) for row in rows("text") if "STE100" in row["source"]}
    assert limits["words per procedural sentence", "words"] == WORDS_PER_SENTENCE
    assert limits["instructions per sentence", "instructions"] == INSTRUCTIONS_PER_SENTENCE


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("M2", "M2"),
        (" M2 ", "M2"),
        ("M2.50", "M2.5"),
        ("M8x1", "M8"),
        ("M8 × 1.25", "M8"),
        ("S0.80", "S0.8"),
        ("M0.5", "S0.5"),
    ],
)
def test_threads_as_authors_write_them(written: str, name: str) -> None:
    found = looked_up_as(written)
    assert found is not None
    assert found.name == name


@pytest.mark.parametrize("written", ["", "M", "M1.3", "m2", "2", "M2.5.1", "S2", "UNC 4-40", "M-2", "M" + "9" * 400])
def test_what_is_no_thread(written: str) -> None:
    assert looked_up_as(written) is None


def test_tapping_threads() -> None:
    """Source: ISO 1478 writes self-tapping threads ST and the diameter (memory)."""
    assert is_tapping("ST2.9")
    assert not is_tapping("STM2")


def test_materials() -> None:
    assert is_metal("Spring steel")
    assert is_metal("stainless-steel")
    assert not is_metal("glass-filled nylon")
    assert is_glass("tempered glass")
    assert not is_glass(None)
