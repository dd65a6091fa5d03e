"""An invented phone, small enough to score by hand, with all nine priority parts; tests change one thing at a time."""

from __future__ import annotations

from pathlib import Path
from textwrap import dedent

from generator.orders.guide import Guide
from tests.written import library_of

DEVICE = """
    name: Plume 2
    kind: phone
    faces: [back, front]
    power: cell
    order: [open-lid, unplug-cell, take-cell, take-horn, take-lens, take-eye, take-port, unplug-screen, take-board,
            take-key, part-screen]
    index:
      spare_parts: all priority parts
      updates: 6 years
      information: open to everyone
      paired: []
"""

TOOLS = """
    driver: {name: driver PH0, type: "screwdriver, cross recess", fits: {drive: cross-recess, size: PH0}}
    lever: {name: plastic lever, type: spudger}
    pad: {name: heating pad}
    card: {name: flat card}
"""

ANATOMY = """
    base: tub
    parts:
      tub: {}
      lid: {role: back cover}
      cell: {role: battery, cell: {chemistry: Li-ion}}
      board: {material: board}
      eye: {role: front-facing camera}
      lens: {role: rear-facing camera}
      port: {role: external charging port}
      key: {role: mechanical button}
      mic: {role: main microphone, inside: board}
      horn: {role: speaker}
      screen: {role: display assembly, face: front}
    joints:
      lid-clips: {kind: clips, joins: [lid, tub], count: 8}
      cell-plug: {kind: plug, joins: [cell, board], behind: lid}
      cell-strip: {kind: glue, joins: [cell, tub], behind: lid, refit: new, reusable: supplied with spare}
      horn-screws: {kind: screws, joins: [horn, tub], behind: lid, drive: cross-recess PH0, count: 2}
      lens-plug: {kind: plug, joins: [lens, board], behind: lid}
      eye-plug: {kind: plug, joins: [eye, board], behind: lid}
      port-plug: {kind: plug, joins: [port, board], behind: lid}
      port-screw: {kind: screws, joins: [port, tub], behind: lid, drive: cross-recess PH0}
      screen-plug: {kind: plug, joins: [screen, board], behind: lid, face: back}
      board-screws: {kind: screws, joins: [board, tub], behind: lid, drive: cross-recess PH0, count: 3}
      key-clip: {kind: clips, joins: [key, tub], behind: [lid, board]}
      screen-glue: {kind: glue, joins: [screen, tub], softens: heat, refit: new, reusable: "no"}
"""

STEPS = {
    "open-lid": "work: [{undo: lid-clips, with: lever}, {lift: lid}]",
    "unplug-cell": "work: [{undo: cell-plug, with: lever}]",
    "take-cell": "work: [{undo: cell-strip}, {lift: cell}]",
    "take-horn": "work: [{undo: horn-screws}, {lift: horn}]",
    "take-lens": "work: [{undo: lens-plug, with: lever}, {lift: lens}]",
    "take-eye": "work: [{undo: eye-plug, with: lever}, {lift: eye}]",
    "take-port": "work: [{undo: port-plug, with: lever}, {undo: port-screw}, {lift: port}]",
    "unplug-screen": "work: [{undo: screen-plug, with: lever}]",
    "take-board": "work: [{undo: board-screws}, {lift: board}]",
    "take-key": "work: [{undo: key-clip, with: lever}, {lift: key}]",
    "part-screen": "work: [{turn: front}, {heat: screen-glue, with: pad}, {undo: screen-glue, with: card}, {lift: screen}]",
}


def phone(
    folder: Path,
    *changes: tuple[str, str],
    steps: dict[str, str] | None = None,
    supplies: str = "",
) -> Guide:
    """The phone with each (old, new) put in its device, anatomy or tools; old has to stand there exactly once."""
    texts = {"plume-2/device.yaml": DEVICE, "plume-2/anatomy.yaml": ANATOMY, "tools.yaml": TOOLS}
    for old, new in changes:
        assert sum(text.count(old) for text in texts.values()) == 1, old
        texts = {name: text.replace(old, new) for name, text in texts.items()}
    for name, matter in {**STEPS, **(steps or {})}.items():
        texts[f"plume-2/steps/{name}.md"] = f"---\ntitle: {name.replace('-', ' ')}\n{dedent(matter).strip()}\n---\nDo it.\n"
    (guide,) = library_of(folder, {**texts, "supplies.yaml": supplies}).guides
    assert guide.is_complete, (guide.faults, guide.dangling)
    return guide
