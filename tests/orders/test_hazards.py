"""Hazards follow from the work: nobody has to write down that solder smokes or that a cell lies beside the heat."""

from __future__ import annotations

from pathlib import Path

from generator.orders.guide import Guide
from generator.orders.hazards import hazards_back, hazards_of, licensed_reason
from generator.orders.work import StepId
from tests.written import guide_of, library_of

ANATOMY = """
    base: tub
    parts:
      tub: {}
      pane: {material: glass}
      cell: {cell: {chemistry: Li-ion, limit: 45 °C}, under: pane}
      lamp: {charge: {volts: 320}, under: pane, licensed: It holds a charge that kills.}
    joints:
      pane-glue: {kind: glue, joins: [pane, tub], softens: heat}
      cell-glue: {kind: glue, joins: [cell, tub]}
      lamp-wires: {kind: solder, joins: [lamp, tub]}
      lamp-plug: {kind: plug, joins: [lamp, tub]}
"""
STEPS = {
    "open": "work: [{heat: pane-glue, with: iron}, {undo: pane-glue, with: lever}, {lift: pane}]",
    "measure": "work: [{check: No voltage., proves: discharged, of: lamp}]",
    "cell": "work: [{undo: cell-glue, with: lever}, {lift: cell}]",
    "lamp": "work: [{undo: lamp-wires, with: iron}, {undo: lamp-plug}, {lift: lamp}]",
}


def box(folder: Path, order: str) -> Guide:
    return guide_of(folder, f"name: Box\npower: cell\norder: [{order}]", ANATOMY, STEPS)


def kinds(guide: Guide, step: str) -> list[tuple[str, str]]:
    return [(hazard.kind, hazard.subject) for hazard in hazards_of(guide, guide.step_by_id[StepId(step)])]


def test_each_hazard_once_in_the_order_the_work_meets_it(tmp_path: Path) -> None:
    guide = box(tmp_path, "open, measure, cell, lamp")
    assert kinds(guide, "open") == [
        ("hot surface", "soldering iron"),
        ("cell near heat", "cell"),
        ("glass", "pane"),
        ("stored charge", "lamp"),
    ]
    assert kinds(guide, "measure") == [("stored charge", "lamp")]
    assert kinds(guide, "cell") == [("cell", "cell")]
    assert ("fume", "lamp wires") in kinds(guide, "lamp")


def test_a_cell_that_is_out_is_no_hazard_beside_the_heat(tmp_path: Path) -> None:
    guide = box(tmp_path, "cell, open, measure, lamp")
    assert "cell near heat" not in [kind for kind, _ in kinds(guide, "open")]


def test_only_work_on_the_part_itself_and_measuring_it_are_left_to_licensed_practice(tmp_path: Path) -> None:
    guide = box(tmp_path, "open, measure, cell, lamp")
    reasons = {step.id: licensed_reason(guide, step) for step in guide.order}
    assert {step for step, reason in reasons.items() if reason} == {"measure", "lamp"}
    assert reasons[StepId("measure")] == reasons[StepId("lamp")]
    assert reasons[StepId("lamp")] == ("lamp", "It holds a charge that kills.")


WORDS = """
---
title: lid
work: [{undo: lid-wires, with: iron}, {lift: lid}]
---
Wipe the pads with [spirit](supply:spirit), never with a [rag](tool:rag).

## Refitting
Sweep the rim with the [brush](tool:brush). Wipe it with [spirit](supply:spirit).
"""


def test_what_the_words_take_up_is_a_hazard_and_so_is_making_a_joint_anew(tmp_path: Path) -> None:
    (guide,) = library_of(tmp_path, {
        "tools.yaml": """
            iron: {name: iron, fits: {kind: solder}, hazards: hot surface}
            brush: {name: brush, hazards: dust}
        """,
        "supplies.yaml": """
            spirit: {name: spirit, hazards: flammable}
            flux: {name: flux, for: lid-wires, hazards: irritant}
        """,
        "box/device.yaml": "name: Box\norder: [lid]",
        "box/anatomy.yaml": """
            base: tub
            parts: {tub: {}, lid: {}}
            joints: {lid-wires: {kind: solder, joins: [lid, tub], refit: new}}
        """,
        "box/steps/lid.md": WORDS,
    }).guides  # fmt: skip
    assert kinds(guide, "lid") == [("hot surface", "iron"), ("fume", "lid wires"), ("flammable", "spirit")]
    back = [(hazard.kind, hazard.subject) for hazard in hazards_back(guide, guide.step_by_id[StepId("lid")])]
    assert back == [
        ("hot surface", "iron"), ("fume", "lid wires"), ("irritant", "flux"), ("dust", "brush"), ("flammable", "spirit")
    ]  # fmt: skip
