"""Accounts: every screw once, tools and supplies by first use, depth of parts."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.anatomy.parts import PartId
from generator.orders.accounts import ScrewSize, accounts_of, depth_on, pages_of
from generator.orders.guide import Guide, minutes
from generator.orders.routes import Route, best_route
from tests.written import guide_of, library_of

ANATOMY = """
    base: tub
    parts:
      tub: {}
      lid: {replaceable: true}
      grille: {}
      horn: {replaceable: true}
      coil: {inside: horn}
    joints:
      lid-screws: {kind: screws, joins: [lid, tub], drive: cross-recess PH0, thread: M2, lengths: [4, 4, 6]}
      lid-glue: {kind: glue, joins: [lid, tub], softens: heat, refit: new}
      horn-screws:
        {kind: screws, joins: [horn, tub], behind: lid, drive: cross-recess PH0, thread: M1.6, lengths: 4, count: 2}
      horn-plug: {kind: plug, joins: [horn, tub], behind: lid, tool: lever}
      grille-clips: {kind: clips, joins: [grille, tub], count: 3}
"""
STEPS = {
    "open": """
        work: [{heat: lid-glue, with: iron}, {undo: lid-screws}, {undo: lid-glue, with: lever}, {lift: lid}]
        takes: 90 s
    """,
    "take-horn": "work: [{undo: horn-screws}, {undo: horn-plug}, {lift: horn}]\ntakes: 2 min",
    "drop-grille": "work: [{undo: grille-clips}, {lift: grille}, {turn: front}]\ntakes: 30 s",
}


@pytest.fixture
def guide(tmp_path: Path) -> Guide:
    return guide_of(tmp_path, "name: Box\norder: [open, take-horn, drop-grille]", ANATOMY, STEPS)


def test_screws_are_counted_by_size_in_all_and_for_each_step(guide: Guide) -> None:
    accounts = accounts_of(guide, guide.order)
    drive = "cross-recess PH0"
    assert [(line.size, line.count, [(step.id, count) for step, count in line.steps]) for line in accounts.screws] == [
        (ScrewSize("M1.6", 4.0, drive, None), 2, [("take-horn", 2)]),
        (ScrewSize("M2", 4.0, drive, None), 2, [("open", 2)]),
        (ScrewSize("M2", 6.0, drive, None), 1, [("open", 1)]),
    ]
    assert (accounts.screw_count, accounts.joint_count) == (5, 10)


def test_a_joint_undone_twice_is_counted_once(guide: Guide) -> None:
    assert accounts_of(guide, (*guide.order, *guide.order)).screw_count == 5


def test_tools_come_in_the_order_of_first_use_and_the_driver_is_found_by_its_fit(guide: Guide) -> None:
    uses = accounts_of(guide, guide.order).tools
    assert [(use.tool.id, [step.id for step in use.steps]) for use in uses] == [
        ("iron", ["open"]),
        ("driver", ["open", "take-horn"]),
        ("lever", ["open", "take-horn"]),
    ]


def test_new_tape_is_needed_on_the_way_back_only(guide: Guide) -> None:
    (use,) = accounts_of(guide, guide.order).supplies
    assert (use.supply.id, use.out, [step.id for step in use.back]) == ("tape", (), ["open"])


def test_time_turns_and_actions(guide: Guide) -> None:
    accounts = accounts_of(guide, guide.order)
    assert (accounts.seconds, accounts.turns, accounts.actions) == (240, 1, 10)
    assert minutes(240) == 4


def test_depth_counts_steps_actions_and_parts_before_it(guide: Guide) -> None:
    depths = {}
    for part in ("lid", "grille", "horn"):
        route = best_route(guide, (PartId(part),))
        assert isinstance(route, Route)
        depth = depth_on(guide, PartId(part), route)
        depths[part] = (depth.steps, depth.actions, depth.parts)
    assert depths == {"lid": (1, 4, 0), "grille": (1, 3, 0), "horn": (2, 7, 1)}


def test_pages_are_for_replaceable_parts_unless_the_author_names_them(tmp_path: Path, guide: Guide) -> None:
    assert pages_of(guide) == ("lid", "horn")
    named = guide_of(tmp_path / "named", "name: Box\norder: [open]\npages: [grille]", ANATOMY, {"open": STEPS["open"]})
    assert pages_of(named) == ("grille",)


def test_what_the_words_link_to_has_to_lie_ready_too(tmp_path: Path) -> None:
    step = """
    ---
    title: open
    work: [{undo: lid-clips}, {lift: lid}]
    ---
    Hold the lid with the [iron](tool:iron), then with the [iron](tool:iron) again.

    ## Refitting
    Press it home with the [lever](tool:lever). Seal it with [tape](supply:tape).
    """
    (guide,) = library_of(tmp_path, {
        "box/device.yaml": "name: Box\norder: [open]",
        "box/anatomy.yaml": """
            base: tub
            parts: {tub: {}, lid: {}}
            joints: {lid-clips: {kind: clips, joins: [lid, tub]}, lid-glue: {kind: glue, joins: [lid, tub]}}
        """,
        "box/steps/open.md": step,
    }).guides  # fmt: skip
    accounts = accounts_of(guide, guide.order)
    assert [(use.tool.id, len(use.steps), len(use.back)) for use in accounts.tools] == [("iron", 1, 0), ("lever", 0, 1)]
    assert [(use.supply.id, len(use.out), len(use.back)) for use in accounts.supplies] == [("tape", 0, 1)]
