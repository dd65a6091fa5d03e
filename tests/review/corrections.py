"""Thirty corrections as viewers and contributors send them, each an edit or two in a library made for it."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path

LIBRARY = Path(__file__).parent / "library"
DEVICE = "tarn-5"


@dataclass(frozen=True)
class Edit:
    """`old`, which stands once in the file, becomes `new`; old None writes the file anew; new None deletes it."""

    file: str
    old: str | None
    new: str | None


@dataclass(frozen=True)
class Correction:
    says: str
    edits: tuple[Edit, ...]
    is_worse: bool


def step(name: str, old: str | None, new: str | None) -> Edit:
    return Edit(f"{DEVICE}/steps/{name}.md", old, new)


def device(old: str, new: str) -> Edit:
    return Edit(f"{DEVICE}/device.yaml", old, new)


def anatomy(old: str, new: str) -> Edit:
    return Edit(f"{DEVICE}/anatomy.yaml", old, new)


DISCHARGE = """---
title: Run the battery down
work:
  - check: The battery is charged to no more than a quarter.
takes: 2 min
---
Play the picture until the display shows a quarter.
"""

CORRECTIONS: dict[str, Correction] = {
    "unplug-later": Correction(
        "Do the speaker box before the battery plug, as in the film.",
        (device("  - unplug-battery\n  - lift-speaker-box\n", "  - lift-speaker-box\n  - unplug-battery\n"),),
        is_worse=True,
    ),
    "motor-earlier": Correction(
        "The motor can come out before the screen is unplugged.",
        (device("  - unplug-screen\n  - ease-out-motor\n", "  - ease-out-motor\n  - unplug-screen\n"),),
        is_worse=False,
    ),
    "keys-to-the-end": Correction(
        "Take the keys out last.",
        (
            device("  - take-out-keys\n", ""),
            device("  - part-display\n\n", "  - part-display\n  - take-out-keys\n\n"),
        ),
        is_worse=True,
    ),
    "typing-error": Correction(
        "A word is wrong.", (step("unplug-screen", "at the left end", "at the left edge"),), is_worse=False
    ),
    "refitting-said": Correction(
        "Say how long to press.",
        (step("ease-out-motor", "Press it down for ten seconds.", "Press it down for twenty seconds."),),
        is_worse=False,
    ),
    "title": Correction(
        "Call the step what it does.",
        (step("unplug-screen", "title: Unplug the screen", "title: Unplug the display"),),
        is_worse=False,
    ),
    "caution-lost": Correction(
        "Shorten the step.",
        (
            step(
                "lift-upper-cover",
                "cautions:\n  - level: notice\n    text: >-\n      A 5.0 mm screw in a short post breaks through the frame"
                " to the display. Lay the screws out in the pattern of\n      the cover.\n",
                "",
            ),
        ),
        is_worse=True,
    ),
    "caution-new": Correction(
        "Warn of the sharp shield.",
        (
            step(
                "unplug-screen",
                "takes: 1 min\n",
                "takes: 1 min\ncautions:\n  - {level: caution, text: The edge of the shield is sharp.}\n",
            ),
        ),
        is_worse=False,
    ),
    "one-screw-less": Correction(
        "There are four screws in the speaker box, not five.",
        (
            anatomy("lengths: [4.0, 4.0, 4.0, 4.0, 4.0]", "lengths: [4.0, 4.0, 4.0, 4.0]"),
            anatomy("[8.5, 152.5], [27, 152.5], [49.5, 152.5]]", "[8.5, 152.5], [49.5, 152.5]]"),
            step("lift-speaker-box", "Take out the [five screws]", "Take out the [four screws]"),
            step("lift-speaker-box", "Start all five screws", "Start all four screws"),
        ),
        is_worse=False,
    ),
    "one-screw-less-half": Correction(
        "The same, with the positions forgotten.",
        (anatomy("lengths: [4.0, 4.0, 4.0, 4.0, 4.0]", "lengths: [4.0, 4.0, 4.0, 4.0]"),),
        is_worse=True,
    ),
    "screw-length": Correction(
        "The screws of the port are 3.5 mm long.",
        (
            anatomy("lengths: [3.0, 3.0]", "lengths: [3.5, 3.5]"),
            step("take-out-port", "of the port, 3.0 mm long", "of the port, 3.5 mm long"),
        ),
        is_worse=False,
    ),
    "drive": Correction(
        "The speaker box has hexalobular screws.",
        (
            anatomy(
                "joins: [speaker-box, frame]\n    behind: back\n    drive: cross-recess PH00",
                "joins: [speaker-box, frame]\n    behind: back\n    drive: hexalobular 5",
            ),
        ),
        is_worse=True,
    ),
    "not-behind": Correction(
        "The speaker plug can be reached with the box in place.",
        (anatomy("behind: [back, speaker-box]\n    at: [[33, 126.5]]", "behind: back\n    at: [[33, 126.5]]"),),
        is_worse=False,
    ),
    "behind-another": Correction(
        "The upper plug of the coax lead hides below the upper cover.",
        (
            anatomy(
                "joins: [coax-lead, main-board]\n    behind: [back, antenna]",
                "joins: [coax-lead, main-board]\n    behind: [back, antenna, upper-cover]",
            ),
        ),
        is_worse=True,
    ),
    "ring": Correction(
        "The speaker box lies under the sub-board.",
        (anatomy("    name: speaker box\n", "    name: speaker box\n    under: sub-board\n"),),
        is_worse=True,
    ),
    "no-other-way": Correction(
        "Leave out the short cut; it is fiddly.",
        (
            device("  - lift-plug-plate\n", ""),
            step("lift-plug-plate", None, None),
        ),
        is_worse=True,
    ),
    "step-gone": Correction(
        "Nobody needs the earpiece.",
        (
            device("  - unsolder-earpiece\n", ""),
            step("unsolder-earpiece", None, None),
        ),
        is_worse=True,
    ),
    "step-new": Correction(
        "Run the battery down first.",
        (
            device("order:\n", "order:\n  - run-down\n"),
            step("run-down", None, DISCHARGE),
        ),
        is_worse=False,
    ),
    "step-renamed": Correction(
        "The file should be called as the part is.",
        (
            device("  - ease-out-motor\n", "  - take-out-vibrator\n"),
            Edit(f"{DEVICE}/steps/ease-out-motor.md", "MOVE", f"{DEVICE}/steps/take-out-vibrator.md"),
        ),
        is_worse=False,
    ),
    "part-renamed": Correction(
        "It is the bottom board.",
        tuple(
            Edit(f"{DEVICE}/{file}", "ALL sub-board", "bottom-board")
            for file in (
                *("device.yaml", "anatomy.yaml"),
                *(f"steps/{step}.md" for step in ("lift-sub-board", "take-out-port", "unplug-screen")),
            )
        ),
        is_worse=True,
    ),
    "part-name": Correction(
        "Call the motor what the shops call it.",
        (anatomy("name: vibration motor", "name: vibrator"),),
        is_worse=False,
    ),
    "tool": Correction(
        "Tweezers are enough for the speaker plug.",
        (
            step(
                "lift-speaker-box",
                "  - undo: speaker-plug\n    with: plastic-lever\n",
                "  - undo: speaker-plug\n    with: nylon-tweezers\n",
            ),
        ),
        is_worse=False,
    ),
    "too-hot": Correction(
        "It takes 95 °C.", (step("open-back", "to: 70 °C", "to: 95 °C"),), is_worse=False
    ),
    "longer-heat": Correction(
        "Six minutes, with my pad.", (step("open-back", "for: 3-4 min", "for: 5-6 min"),), is_worse=False
    ),
    "takes": Correction(
        "It took me half an hour.", (step("part-display", "takes: 14 min", "takes: 30 min"),), is_worse=False
    ),
    "film": Correction(
        "The film starts later.", (step("part-display", '"57:25-1:06:50"', '"57:45-1:06:50"'),), is_worse=False
    ),
    "order-within": Correction(
        "Undo the board first.",
        (
            step(
                "take-out-port",
                "  - undo: port-screws\n  - undo: sub-screws\n",
                "  - undo: sub-screws\n  - undo: port-screws\n",
            ),
        ),
        is_worse=False,
    ),
    "forgotten": Correction(
        "The seal comes off by itself.",
        (step("take-out-port", "  - undo: port-seal\n    with: nylon-tweezers\n", ""),),
        is_worse=True,
    ),
    "broken-file": Correction(
        "A tab slipped in.", (step("part-display", "work:\n", "work:\n\t- oh\n"),), is_worse=True
    ),
    "verdict": Correction(
        "Say it more kindly.",
        (device("Two things spoil it: the front", "Two things are a pity: the front"),),
        is_worse=False,
    ),
    "paired": Correction(
        "The battery has to be registered as well.",
        (device("paired: [display]", "paired: [display, battery]"),),
        is_worse=True,
    ),
    "hazard-lost": Correction(
        "The pad is not that hot.",
        (
            Edit(
                "tools.yaml",
                "  material: silicone\n  hazards: [hot surface]\n",
                "  material: silicone\n",
            ),
        ),
        is_worse=True,
    ),
    "licence": Correction(
        "Another licence.", (Edit("library.yaml", "LICENCE", "licence: CC0-1.0"),), is_worse=False
    ),
}


def corrected(to: Path, name: str) -> Path:
    """The library with one correction made, below `to`; as it is where no correction is called so."""
    shutil.copytree(LIBRARY, to)
    for edit in CORRECTIONS[name].edits if name in CORRECTIONS else ():
        path = to / edit.file
        if edit.old is None:
            if edit.new is None:
                path.unlink()
            else:
                path.write_text(edit.new, "utf-8")
        elif edit.old == "MOVE" and edit.new is not None:
            path.rename(to / edit.new)
        else:
            path.write_text(_changed(path.read_text("utf-8"), edit), "utf-8")
    return to


def _changed(text: str, edit: Edit) -> str:
    assert edit.old is not None and edit.new is not None
    if edit.old.startswith("ALL "):
        return text.replace(edit.old.removeprefix("ALL "), edit.new)
    if edit.old == "LICENCE":
        return "\n".join(edit.new if line.startswith("licence:") else line for line in text.split("\n"))
    assert text.count(edit.old) == 1, f"{edit.file} has {text.count(edit.old)} of {edit.old!r}"
    return text.replace(edit.old, edit.new)


