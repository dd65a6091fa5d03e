"""shape/outside"""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.parts import Box
from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.wording import listed, number, part_name, sentence

TOLERANCE = 0.05
"""mm; what a rule and a calliper differ by is no fault (common practice)."""


def outside(guide: Guide) -> Iterator[Finding]:
    """A part is drawn off the device.

    Why: every drawing of the device is cut to its outline; the part would stick out, or not be seen at all.
    Bad: `size: [74, 158]` in device.yaml and a part with `box: [60, 10, 20, 8]`, whose right edge is at 80.
    Good: `box: [60, 10, 14, 8]`, or a larger `size` if the part really sticks out.
    Silent when: the device has no `size`, or the part has no `box`; 0.05 mm do not count.
    """
    if guide.device.size is None:
        return
    width, height = guide.device.size
    for part in guide.anatomy.parts.values():
        over = _over(part.box, width, height) if part.box is not None else []
        if over:
            yield Finding(
                place=part.places.value("parts", part.id, "box"),
                message=f"{sentence(part_name(guide, part.id))} cannot be drawn on the device: {listed(over)}.",
                mend=Mend(f"Correct the box (x, y, width, height), or `size` in {guide.device.place.file}."),
            )


def _over(box: Box, width: float, height: float) -> list[str]:
    sides = (
        ("left", -box.x),
        ("top", -box.y),
        ("right", box.right - width),
        ("bottom", box.bottom - height),
    )
    return [f"{number(by)} mm stick out at the {side}" for side, by in sides if by > TOLERANCE]
