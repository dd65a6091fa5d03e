"""Yes or no checks, the own measure, motion times and the list of basic tools."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from generator.anatomy.parts import PartId
from generator.indices.basic_tools import BASIC_TOOLS, basic_tool
from generator.indices.battery_2023_1542 import battery_checks
from generator.indices.checks import Answer, Check
from generator.indices.motion_times import GRASP_PART, GRASP_SCREW, TOOL_CHANGE, handling_of, seconds_of
from generator.indices.own_measure import efforts, measured_parts
from generator.indices.replacement_2023_1670 import BY_END_USER, BY_PROFESSIONAL, replacement_checks
from generator.indices.scores import scores_of
from generator.orders.guide import Guide
from generator.orders.routes import Route, best_route
from tests.indices.phones import phone
from tests.indices.tables import rows


def found(check: Check) -> list[tuple[Answer, str]]:
    return [(entry.answer, entry.words) for entry in check.found]


# --- basic tools -----------------------------------------------------------------------------------------------------


def test_the_basic_tools_are_the_list() -> None:
    assert [(str(tool.number), tool.name) for tool in BASIC_TOOLS] == [
        (row["id"], row["short_name"]) for row in rows("basic_tools")
    ]
    assert all(basic_tool(tool.name) is tool for tool in BASIC_TOOLS)


@pytest.mark.parametrize(
    ("written", "number"),
    [("screwdriver, cross recess", 2), ("Screwdriver, hexalobular", 3), ("half-round nose pliers", 8), ("spudger", 15)],
)
def test_types_as_authors_write_them(written: str, number: int) -> None:
    tool = basic_tool(written)
    assert tool is not None and tool.number == number


@pytest.mark.parametrize("written", ["other", "suction cup", "soldering iron", "screwdriver", "nut driver", ""])
def test_what_is_not_on_the_list(written: str) -> None:
    assert basic_tool(written) is None


# --- battery ---------------------------------------------------------------------------------------------------------


def battery(guide: Guide) -> Check:
    (check,) = battery_checks(guide)
    return check


def test_a_battery_behind_clips_comes_out(tmp_path: Path) -> None:
    check = battery(phone(tmp_path))
    assert (check.answer, check.found) == (Answer.YES, ())
    assert check.not_known and check.basis.tag == "secondary"


def test_heat_solvent_and_proprietary_tools_speak_against_it(tmp_path: Path) -> None:
    warm = phone(
        tmp_path,
        steps={"open-lid": "work: [{heat: lid-clips, with: pad}, {undo: lid-clips, with: lever}, {lift: lid}]"},
    )
    assert found(battery(warm))[0] == (Answer.NO, "heat for the lid clips"), "the guide warms them, needed or not"
    soaked = phone(
        tmp_path,
        ("behind: lid, refit: new, reusable: supplied with spare}", "behind: lid, softens: solvent, refit: new}"),
        steps={"take-cell": "work: [{soak: cell-strip}, {undo: cell-strip}, {lift: cell}]"},
    )
    assert found(battery(soaked)) == [(Answer.NO, "a solvent for the cell strip")]
    secret = phone(tmp_path, ("type: spudger}", "type: other, sale: proprietary}"))
    assert found(battery(secret)) == [(Answer.NO, "plastic lever: proprietary")]


def test_a_tool_that_may_be_special_leaves_it_open(tmp_path: Path) -> None:
    bought = phone(tmp_path, ("type: spudger}", "type: other}"))
    assert battery(bought).answer is Answer.OPEN
    given = phone(tmp_path, ("type: spudger}", "type: other, supplied: product}"))
    assert battery(given).answer is Answer.YES


def test_a_battery_that_stays_in_is_open(tmp_path: Path) -> None:
    assert battery(phone(tmp_path, ("take-cell, ", ""))).answer is Answer.OPEN


# --- replacement -----------------------------------------------------------------------------------------------------


def answers(guide: Guide) -> dict[tuple[str, str], Answer]:
    return {(check.part, check.name): check.answer for check in replacement_checks(guide)}


def test_replacement_by_professionals_and_end_users(tmp_path: Path) -> None:
    told = answers(phone(tmp_path))
    assert told["screen", BY_PROFESSIONAL] is Answer.YES and ("screen", BY_END_USER) not in told
    assert told["cell", BY_END_USER] is Answer.YES, "strips come with the spare, the lever is basic"
    assert told["horn", BY_END_USER] is Answer.YES
    assert told["mic", BY_PROFESSIONAL] is Answer.OPEN, "it comes out with the board"


def test_a_merely_removable_fastener_speaks_against_the_battery_only(tmp_path: Path) -> None:
    told = answers(phone(tmp_path, ("reusable: supplied with spare", 'reusable: "no"')))
    assert (told["cell", BY_END_USER], told["cell", BY_PROFESSIONAL]) == (Answer.NO, Answer.YES)
    unsaid = answers(phone(tmp_path, ("reusable: supplied with spare", "note: unsaid")))
    assert unsaid["cell", BY_END_USER] is Answer.OPEN


def test_a_tool_on_sale_speaks_against_end_users_only(tmp_path: Path) -> None:
    told = answers(phone(tmp_path, ("type: spudger}", "type: other}")))
    assert (told["horn", BY_END_USER], told["horn", BY_PROFESSIONAL]) == (Answer.NO, Answer.YES)


def test_other_devices_get_no_index_and_a_reason(tmp_path: Path) -> None:
    guide = phone(tmp_path, ("kind: phone", "kind: other"))
    scores = scores_of(guide)
    assert scores.index is None and scores.no_index is not None and "`kind` in device.yaml" in scores.no_index
    assert {check.name for check in scores.checks} == {"battery removable by the end user"}
    assert len(scores.efforts) == 9


# --- own measure and motion times ------------------------------------------------------------------------------------


def test_the_own_measure_counts_the_route_whole(tmp_path: Path) -> None:
    guide = phone(tmp_path)
    assert measured_parts(guide) == tuple(part.id for part in guide.anatomy.parts.values() if part.role)
    display, battery_effort, board = efforts(guide, (PartId("screen"), PartId("cell"), PartId("tub")))
    assert (display.steps, display.actions, display.tool_changes, display.seconds) == (4, 8, 2, None)
    assert display.not_reusable == (("screen-glue", 1),)
    assert (battery_effort.steps, battery_effort.not_reusable) == (3, (("cell-strip", 1),))
    assert not board.is_reached


def test_minutes_are_the_authors_or_none(tmp_path: Path) -> None:
    timed = {
        "open-lid": "work: [{undo: lid-clips, with: lever}, {lift: lid}]\ntakes: 90 s",
        "take-horn": "work: [{undo: horn-screws}, {lift: horn}]\ntakes: 2 min",
    }
    (effort,) = efforts(phone(tmp_path, steps=timed), (PartId("horn"),))
    assert effort.seconds == 210


def test_motion_times_are_counts_times_published_times(tmp_path: Path) -> None:
    guide = phone(tmp_path)
    way = best_route(guide, (PartId("horn"),))
    assert isinstance(way, Route)
    handling = handling_of(guide, way.steps)
    assert [(entry.motion, entry.times) for entry in handling] == [(TOOL_CHANGE, 1), (GRASP_SCREW, 2), (GRASP_PART, 2)]
    # 40 + 2 x 3.5 + 2 x 2.0 = 51 TMU of 0.036 s
    assert seconds_of(handling) == Decimal("1.836")
