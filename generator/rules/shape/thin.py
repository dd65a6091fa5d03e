"""shape/thin"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.wording import number, part_name, sentence, verb_for

THINNEST = 0.05
"""mm; thinner than a sheet of film or a strip of tape (common practice)."""


def thin(guide: Guide) -> Iterator[Finding]:
    """A part has a box and no thickness, or a thickness that no part has.

    Why: the section and the exploded drawing need to know how thick it is; without that they guess.
    Bad: `battery: {box: [19, 51, 50, 71]}`, or `thickness: 0.005`.
    Good: `battery: {box: [19, 51, 50, 71], thickness: 4.8}`.
    Silent when: the part has no box, or is the base.
    """
    for part in guide.anatomy.parts.values():
        if part.box is None or part.id == guide.anatomy.base:
            continue
        name = sentence(part_name(guide, part.id))
        if part.thickness is None:
            yield Finding(
                place=part.place,
                message=f"{name} {verb_for(part.name, 'has', 'have')} no thickness: drawings from the side have to guess.",
                mend=Mend("Add `thickness` in millimetres."),
            )
        elif part.thickness < THINNEST:
            yield Finding(
                place=part.places.value("parts", part.id, "thickness"),
                message=f"{name} cannot be {number(part.thickness)} mm thick.",
                mend=Mend("Check the decimal point: lengths are in millimetres."),
            )
