"""Which joints of a step lie hidden under something that is in place."""

from __future__ import annotations

from collections.abc import Sequence

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint
from generator.anatomy.parts import Point
from generator.figures.plan.shapes import Shape, State
from generator.figures.plan.view import View, covers

_SOLID = (State.PLACE, State.HAND, State.WORKED)


def is_covered(anatomy: Anatomy, view: View, shapes: Sequence[Shape], joint: Joint, at: Point) -> bool:
    """Whether a place of the joint, mm on the view, cannot be seen as the device lies before the step.

    shapes: as painted, deepest first. A part that the joint is `behind` covers it; so does one painted over all its ends,
    unless it is carried by one of them.
    """
    ends = set(joint.joins)
    last = max((index for index, shape in enumerate(shapes) if shape.part in ends), default=-1)
    # An end that has a box and is in, but is not painted, lies under what is.
    is_under = any(end in view.present and anatomy.parts[end].box is not None for end in ends)
    carried = set().union(*(anatomy.assemblies[end] for end in ends if end != anatomy.base))
    for index, shape in enumerate(shapes):
        if shape.part is None or shape.part not in view.present or shape.state not in _SOLID or not covers(shape, at):
            continue
        if shape.part in joint.behind:
            return True
        if index > last and (last >= 0 or is_under) and shape.part not in carried:
            return True
    return False
