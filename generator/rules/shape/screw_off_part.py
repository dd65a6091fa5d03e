"""shape/screw-off-part"""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import Box, Point
from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.wording import joint_name, listed, number, part_name

TOLERANCE = 0.05
"""mm; see shape/outside."""


def screw_off_part(guide: Guide) -> Iterator[Finding]:
    """A screw is drawn where none of the parts is that it holds.

    Why: the reader looks for a screw in the wrong place, and the drawing of the tray is wrong too.
    Bad: `at: [[40, 90]]` for screws of a cover with `box: [4, 3, 66, 40]`.
    Good: `at: [[40, 30]]`.
    Silent when: a part that the screws join, other than the base, has no `box`; or the joint is not of screws.
    """
    for joint in guide.anatomy.joints.values():
        if joint.kind is not JointKind.SCREWS:
            continue
        boxes = _boxes(guide, joint)
        for index, position in enumerate(joint.positions):
            if boxes and not any(_is_in(position, box) for box in boxes):
                held = listed([part_name(guide, part) for part in joint.joins if part != guide.anatomy.base], "or")
                yield Finding(
                    place=joint.places.value("joints", joint.id, "at", index),
                    message=(
                        f"One of {joint_name(guide, joint.id)} stands at {number(position[0])}, {number(position[1])}, "
                        f"which is not on {held}."
                    ),
                    mend=Mend("Measure it again: to the right from the left edge, then down from the top edge."),
                )


def _boxes(guide: Guide, joint: Joint) -> list[Box]:
    """The boxes of what is screwed on; empty where one of them is not known."""
    parts = [guide.part(part) for part in joint.joins if part != guide.anatomy.base]
    boxes = [part.box for part in parts if part.box is not None]
    return boxes if len(boxes) == len(parts) else []


def _is_in(point: Point, box: Box) -> bool:
    x, y = point
    return box.x - TOLERANCE <= x <= box.right + TOLERANCE and box.y - TOLERANCE <= y <= box.bottom + TOLERANCE
