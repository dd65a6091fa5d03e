"""The sides of steps: what is on the bench by then needs no side, and working that out stays quick in long orders."""

from __future__ import annotations

from pathlib import Path
from time import process_time

from generator.orders.chaining import members
from generator.orders.turn_bounds import TurnBounds
from generator.orders.work import Step, StepId
from tests.written import guide_of

ANATOMY = """
    base: tub
    parts:
      tub: {}
      tray: {}
      board: {inside: tray}
      chip: {inside: board}
    joints:
      tray-clips: {kind: clips, joins: [tray, tub], face: bottom}
      board-clips: {kind: clips, joins: [board, tray], face: top}
      chip-plug: {kind: plug, joins: [chip, board], face: top}
"""
STEPS = {
    "chip": "work: [{undo: chip-plug}, {lift: chip}]",
    "board": "work: [{undo: board-clips}, {lift: board}]",
    "tray": "work: [{undo: tray-clips}, {lift: tray}]",
}
LONG = 2000  # steps
SOON = 2.0  # s of the processor


def test_what_carries_a_joint_is_what_holds_all_its_ends(tmp_path: Path) -> None:
    guide = guide_of(tmp_path, "name: Box\nfaces: [top, bottom]\norder: [chip, board, tray]", ANATOMY, STEPS)
    bounds = TurnBounds(guide.anatomy, "top", guide.order, [[] for _ in guide.order])
    assert [[list(members(side.carriers)) for side in sides] for sides in bounds.sides] == [[[1, 2]], [[2]], [[]]]


def test_a_long_order_is_no_trouble(tmp_path: Path) -> None:
    guide = guide_of(tmp_path, "name: Box\nfaces: [top, bottom]\norder: [chip, board, tray]", ANATOMY, STEPS)
    steps = [Step(StepId(f"s{n}"), "s", guide.order[n % 3].actions, guide.order[0].place, guide.order[0].places)
             for n in range(LONG)]  # fmt: skip
    before = process_time()
    bounds = TurnBounds(guide.anatomy, "top", steps, [[] for _ in steps])
    assert len(bounds.sides) == LONG and process_time() - before < SOON
