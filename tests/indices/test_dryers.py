"""The tumble-dryer index as far as its text carries: bands, points of parts, class bounds; no sum."""

from __future__ import annotations

import re
from decimal import Decimal
from pathlib import Path

from generator.indices.dryers_2023_2534.index import dryer_index
from generator.indices.dryers_2023_2534.tables import PARTS, class_of, depth_points
from generator.indices.phones_2023_1669.formula import class_of as phone_class_of
from generator.indices.scores import scores_of
from generator.indices.workings import Cell, Index
from generator.orders.guide import Guide
from tests.indices.tables import rows
from tests.written import guide_of

COLUMNS = {10: "steps_for_10", 7: "steps_for_7", 4: "steps_for_4", 1: "steps_for_1", 0: "steps_for_0"}


def band(written: str) -> set[int]:
    """`12-14`, `6`, `21 or more` (up to 99) or `none` as whole numbers."""
    if written == "none":
        return set()
    first, last = re.fullmatch(r"(\d+)(?:-(\d+)| or more)?", written).groups()  # type: ignore[union-attr]
    end = 99 if "more" in written else int(last or first)
    return set(range(int(first), end + 1))


def test_the_bands_are_the_tables() -> None:
    table = {row["code"]: row for row in rows("dryer_step_bands")}
    assert [part.code for part in PARTS] == list(table)
    for part in PARTS:
        row = table[part.code]
        assert part.mean_steps == Decimal(row["mean_steps"]) and part.name == row["part"]
        for points, column in COLUMNS.items():
            found = {steps for steps in range(100) if depth_points(part.mean_steps, steps) == points}
            assert found == band(row[column]), (part.code, points)


def test_class_bounds_are_not_those_of_phones() -> None:
    """9.00 itself is B; the sum is rounded first."""
    values = ("10", "9.01", "9.005", "9.004", "9.00", "7.00", "6.995", "6.99", "5.00", "4.99", "3.00", "2.99", "0")
    assert [class_of(Decimal(value)) for value in values] == list("AAABBBBCCDDEE")
    assert phone_class_of(Decimal("4.00")) == "A", "where the bound belongs to the better class"


ANATOMY = """
    base: drum-base
    parts:
      drum-base: {}
      panel: {}
      belt: {role: drum belt}
      pump: {role: water pump}
    joints:
      panel-screws: {kind: screws, joins: [panel, drum-base], drive: cross-recess PH0, count: 6}
      belt-seat: {kind: press, joins: [belt, drum-base], behind: panel}
      pump-glue: {kind: glue, joins: [pump, drum-base], behind: panel, refit: new, reusable: supplied with spare}
"""
DEVICE = """
    name: Dryer
    power: mains
    order: [unplug, open-panel, take-belt, take-pump]
    index: {paired: [PAIRED], information: free for professionals}
"""
STEPS = {
    "unplug": "work: [{check: The plug lies in view., proves: unplugged}]",
    "open-panel": "work: [{undo: panel-screws}, {lift: panel}]",
    "take-belt": "work: [{undo: belt-seat}, {lift: belt}]",
    "take-pump": "work: [{undo: pump-glue, with: iron}, {lift: pump}]",
}


def dryer(folder: Path, paired: str = "") -> Guide:
    return guide_of(folder, DEVICE.replace("PAIRED", paired), ANATOMY, STEPS)


def cell(index: Index, criterion: str, code: str) -> Cell:
    return next(cell for cell in index.cells if (cell.criterion, cell.code) == (criterion, code))


def test_points_of_parts_and_no_sum(tmp_path: Path) -> None:
    index = dryer_index(dryer(tmp_path))
    assert (index.low, index.high, index.classes) == (None, None, ())
    assert index.withheld is not None and "weights" in index.withheld
    # belt: driver and panel, hand and belt: 2 steps of a mean of 40.9
    assert (cell(index, "SDD", "DB").steps, cell(index, "SDD", "DB").low) == ((2,), 10)
    assert (cell(index, "SF", "DB").low, cell(index, "ST", "DB").low) == (10, 10)
    # pump: glue that comes with the spare, free or not is not known; the iron is on sale
    assert (cell(index, "SF", "WP").low, cell(index, "SF", "WP").high) == (4, 7)
    assert cell(index, "ST", "WP").low == 0
    assert cell(index, "SRI", "SRI").low == 10
    assert {each.code for each in index.cells if each.criterion == "SDD"} == {"DB", "WP"}, "what is not named is dropped"
    assert any("door" in note for note in index.notes)


def test_a_serial_number_takes_all_points_instead_of_adding_steps(tmp_path: Path) -> None:
    index = dryer_index(dryer(tmp_path, "belt"))
    assert (cell(index, "SDD", "DB").steps, cell(index, "SDD", "DB").high) == ((2,), 0)


def test_every_fastener_and_tool_of_the_whole_way_counts(tmp_path: Path) -> None:
    index = dryer_index(dryer(tmp_path))
    assert all(line.is_counted for each in index.cells for line in each.lines)


def test_what_is_declared_absent_is_dropped_and_said(tmp_path: Path) -> None:
    device = DEVICE.replace("[PAIRED]", "[], absent: [door, fan, drum belt, rotor]")
    notes = " ".join(dryer_index(guide_of(tmp_path, device, ANATOMY, STEPS)).notes)
    assert "Not in the device, as declared: door, fan." in notes and "the weights are scaled up" in notes
    assert '"drum belt" stands under index.absent in device.yaml, yet the belt has that role' in notes
    assert '"rotor" under index.absent' in notes
    assert "Not named by any role in the guide: drum bearing, motor," in notes


def test_a_dryer_is_known_by_its_parts(tmp_path: Path) -> None:
    scores = scores_of(dryer(tmp_path))
    assert scores.index is not None and scores.index.act.endswith("2023/2534")
    assert [check.name for check in scores.checks] == []
