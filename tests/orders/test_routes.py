"""Routes by example: choices, safety, ties, turns, and what is said when there is no way."""

from __future__ import annotations

from pathlib import Path

from generator.anatomy.parts import JointId, PartId
from generator.orders.guide import Guide
from generator.orders.reasons import Behind, StillJoined, Under
from generator.orders.routes import NoRoute, Route, best_route
from tests.written import guide_of

ANATOMY = """
    base: tub
    parts:
      tub: {}
      lid: {replaceable: true}
      door: {}
      cell: {cell: {chemistry: Li-ion}, replaceable: true}
      board: {material: board}
      fan: {under: board}
      foot: {face: below}
    joints:
      lid-screws: {kind: screws, joins: [lid, tub], drive: cross-recess PH0, count: 2}
      door-clip: {kind: clips, joins: [door, tub]}
      cell-plug: {kind: plug, joins: [cell, board], behind: [lid]}
      cell-tray: {kind: press, joins: [cell, tub]}
      board-screws: {kind: screws, joins: [board, tub], drive: cross-recess PH0, count: 3, behind: lid}
      foot-clip: {kind: clips, joins: [foot, tub], face: below}
"""
STEPS = {
    "open-lid": "work: [{undo: lid-screws}, {lift: lid}]",
    "unplug-cell": "work: [{undo: cell-plug, with: lever}]",
    "take-cell": "work: [{undo: cell-tray}, {lift: cell}]",
    "take-board": "work: [{undo: board-screws}, {lift: board}]",
    "take-fan": "work: [{lift: fan}]",
    "turn-over": "work: [{turn: below}]",
    "take-foot": "work: [{undo: foot-clip, with: lever}, {lift: foot}]",
}
DEVICE = """
    name: Box
    faces: [above, below]
    power: cell
    order: [open-lid, unplug-cell, take-cell, take-board, take-fan, turn-over, take-foot]
"""


def box(folder: Path, device: str = DEVICE, anatomy: str = ANATOMY, **changed: str) -> Guide:
    steps = {**STEPS, **{name.replace("_", "-"): matter for name, matter in changed.items()}}
    return guide_of(folder, device, anatomy, steps)


def way_to(guide: Guide, *parts: str) -> Route:
    way = best_route(guide, tuple(PartId(part) for part in parts))
    assert isinstance(way, Route)
    return way


def ids(steps: tuple) -> list[str]:
    return [step.id for step in steps]


def test_only_what_leads_there_is_done_and_safety_is_marked(tmp_path: Path) -> None:
    way = way_to(box(tmp_path), "fan")
    assert ids(way.steps) == ["open-lid", "unplug-cell", "take-board", "take-fan"]
    assert ids(way.back) == ["take-fan", "take-board", "unplug-cell", "open-lid"]
    # The board is only screwed down: nothing but safety asks for the plug. Yet the plug crosses the board, so it is needed.
    assert ids(way.safety) == []
    assert (way.actions, way.cost, way.seconds, way.is_optimal) == (6, 6, None, True)


def test_a_step_that_only_safety_asks_for_is_kept_and_marked(tmp_path: Path) -> None:
    anatomy = ANATOMY.replace("joins: [cell, board]", "joins: [cell, tub]")
    way = way_to(box(tmp_path, anatomy=anatomy), "fan")
    assert ids(way.steps) == ["open-lid", "unplug-cell", "take-board", "take-fan"]
    assert ids(way.safety) == ["unplug-cell"]


def test_an_alternative_that_only_the_plug_asks_for_is_kept_for_safety_as_well(tmp_path: Path) -> None:
    anatomy = ANATOMY.replace("joins: [cell, board], behind: [lid]", "joins: [cell, tub], behind: [door]")
    device = DEVICE.rstrip() + "\n    alternatives: [open-door]\n"
    way = way_to(box(tmp_path, device, anatomy, open_door="work: [{undo: door-clip, with: lever}, {lift: door}]"), "fan")
    assert ids(way.steps) == ["open-lid", "open-door", "unplug-cell", "take-board", "take-fan"]
    assert ids(way.safety) == ["open-door", "unplug-cell"]


def test_two_parts_share_what_leads_to_both(tmp_path: Path) -> None:
    way = way_to(box(tmp_path), "cell", "fan")
    assert ids(way.steps) == ["open-lid", "unplug-cell", "take-cell", "take-board", "take-fan"]


def test_the_authors_own_turning_step_is_used(tmp_path: Path) -> None:
    way = way_to(box(tmp_path), "foot")
    assert ids(way.steps) == ["turn-over", "take-foot"]
    assert (way.added_turns, way.turns, way.actions, way.cost) == ((), 1, 3, 3)


def test_a_turn_nobody_wrote_is_added_and_counted(tmp_path: Path) -> None:
    guide = box(
        tmp_path,
        DEVICE.replace("turn-over, take-foot", "take-fan-too, take-foot"),
        take_fan_too="work: [{turn: below}, {check: The fan turns.}]",
    )
    way = way_to(guide, "foot")
    assert ids(way.steps) == ["take-foot"]
    assert [(turn.step, turn.number, turn.face) for turn in way.added_turns] == [("take-foot", 0, "below")]
    assert (way.turns, way.actions) == (1, 3)


def test_the_shorter_of_two_ways_wins_and_the_other_is_told(tmp_path: Path) -> None:
    guide = box(
        tmp_path,
        DEVICE + "    alternatives: [open-door]\n",
        ANATOMY.replace("behind: [lid]", "behind: []").replace("cell-tray: {", "cell-tray: {behind: hatch, ")
        .replace("door: {}", "door: {}\n      hatch: {inside: door}"),
        open_door="work: [{undo: door-clip}, {lift: door}, {check: Nothing rattles.}, {check: All is dry.}]",
        open_lid="work: [{undo: lid-screws}, {lift: lid}, {lift: hatch}]",
    )
    way = way_to(guide, "cell")
    assert ids(way.steps) == ["open-lid", "unplug-cell", "take-cell"]
    assert [ids(other.steps) for other in way.alternatives] == [["unplug-cell", "open-door", "take-cell"]]
    assert ids(way.necessary) == ["unplug-cell", "take-cell"]


def test_minutes_decide_where_every_step_has_them(tmp_path: Path) -> None:
    slow = {name.replace("-", "_"): f"{matter}\ntakes: 1 min" for name, matter in STEPS.items()}
    guide = box(
        tmp_path,
        DEVICE + "    alternatives: [pull-lid]\n",
        **slow | {
            "open_lid": "work: [{undo: lid-screws}, {lift: lid}]\ntakes: 9 min",
            "pull_lid": "work: [{check: Ready.}, {check: Steady.}, {undo: lid-screws}, {lift: lid}]\ntakes: 2 min",
        },
    )
    way = way_to(guide, "lid")
    assert ids(way.steps) == ["pull-lid"]
    assert (way.seconds, way.cost) == (120, 120)


def test_equal_cost_goes_to_fewer_tool_changes_then_to_the_authors_order(tmp_path: Path) -> None:
    guide = box(
        tmp_path,
        DEVICE + "    alternatives: [lever-lid, other-lid]\n",
        take_foot="work: [{undo: foot-clip, with: driver}, {lift: foot}]",
        open_lid="work: [{undo: lid-screws, with: driver}, {lift: lid}]",
        lever_lid="work: [{undo: lid-screws, with: lever}, {lift: lid}]",
        other_lid="work: [{undo: lid-screws, with: lever}, {lift: lid}]",
    )
    assert ids(way_to(guide, "lid").steps) == ["open-lid"]
    assert ids(way_to(guide, "cell").steps)[0] == "lever-lid"  # the lever stays in the hand for the plug


def test_no_step_lifts_the_part(tmp_path: Path) -> None:
    way = best_route(box(tmp_path), (PartId("door"),))
    assert isinstance(way, NoRoute)
    assert [(blocked.part, blocked.in_the_way) for blocked in way.blocked] == [("door", ())]


def test_the_smallest_set_that_stands_in_the_way_is_told(tmp_path: Path) -> None:
    device = DEVICE.replace("open-lid, ", "").replace("unplug-cell, ", "")
    way = best_route(box(tmp_path, device), (PartId("fan"),))
    assert isinstance(way, NoRoute)
    (blocked,) = way.blocked
    # Nothing takes the lid away and nothing undoes the plug, which both holds the board and feeds it: two things, not three.
    assert blocked.in_the_way == (
        Behind(JointId("board-screws"), PartId("lid")),
        StillJoined(PartId("board"), JointId("cell-plug")),
    )


def test_a_ring_in_the_way_is_told_by_one_of_its_needs(tmp_path: Path) -> None:
    anatomy = ANATOMY.replace("fan: {under: board}", "fan: {under: board}").replace("board: {", "board: {under: fan, ")
    way = best_route(box(tmp_path, anatomy=anatomy), (PartId("fan"),))
    assert isinstance(way, NoRoute)
    (blocked,) = way.blocked
    assert blocked.in_the_way in ((Under(PartId("fan"), PartId("board")),), (Under(PartId("board"), PartId("fan")),))
