"""How many findings there are of each level, in numbers and in words."""

from __future__ import annotations

from collections.abc import Sequence

from generator.orders.guide import Library
from generator.rules import is_judged
from generator.rules.finding import LEVELS, Reported
from generator.rules.wording import listed


def tally(findings: Sequence[Reported]) -> dict[str, int]:
    """The number of findings of each level, gravest first."""
    return {level: sum(found.level == level for found in findings) for level in LEVELS}


def tally_words(findings: Sequence[Reported]) -> str:
    """`2 errors, 1 warning and 1 note`, levels without findings left out; `nothing` if there is none."""
    counts = [f"{number} {level}{'s' if number != 1 else ''}" for level, number in tally(findings).items() if number]
    return listed(counts) or "nothing"


def closing_lines(library: Library, findings: Sequence[Reported]) -> list[str]:
    """What stands below the findings: what was counted, and which guides could not be judged to the end."""
    count = len(library.guides)
    guides = f"{count} guide{'s' if count != 1 else ''}"
    lines = [f"{tally_words(findings)} in {guides}." if findings else f"Nothing is wrong in {guides}."]
    if not count:
        lines.append("A guide is a folder with device.yaml, anatomy.yaml and a folder steps; there is none yet.")
    for guide in library.guides:
        if not is_judged(guide):
            lines.append(f"The order of {guide.device.name} is judged once its errors in reading and in names are mended.")
    return lines
