"""Lines of words below a plan, for what has no place in it; or instead of it."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from dataclasses import replace

from generator.anatomy.joints import Joint, JointKind
from generator.figures.glyphs import PLAIN_SIGN, screw_sign
from generator.figures.plan.marks import counted, span_label
from generator.figures.plan.shapes import Row
from generator.languages import say

ROWS_LIMIT = 14


def rows_of(heading: str, told: Sequence[Row], width: float, top: float) -> tuple[Row, ...]:
    """The lines one below the other under a heading; words that do not fit go on below, cut after the second line."""
    rows = [Row(top, heading, is_heading=True)]
    y = top + 12
    for line in told[:ROWS_LIMIT]:
        room = max(12, int((width - (30 if line.kind is None else 76)) / 7.6))
        first, *more = textwrap.wrap(line.words, room, max_lines=2, placeholder=" …") or [""]
        y += 18
        rows.append(replace(line, y=y, words=first))
        for words_on in more:
            y += 18
            rows.append(Row(y, words_on, None if line.kind is None else ""))
        y += 4 if line.kind is None else 12
    if len(told) > ROWS_LIMIT:
        rows.append(Row(y + 18, say("and {number} more", number=len(told) - ROWS_LIMIT)))
    return tuple(rows)


def joint_row(joint: Joint, start: int | None) -> Row:
    """A joint with its numbers from `start` on, count, kind and name; it has no y yet."""
    count = max(joint.count, 1)
    said = f"{counted(joint.kind, count)} ({joint.name})"
    sign = screw_sign(joint) if joint.kind is JointKind.SCREWS else PLAIN_SIGN
    return Row(0, f"{span_label(start, start + count - 1)}: {said}" if start else said, joint.kind, sign=sign)
