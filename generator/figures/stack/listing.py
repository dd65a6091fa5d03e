"""The parts list: the equal of the stack in words, for every device and every reader."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.anatomy.parts import Part
from generator.figures.stack.leaving import leaving_of
from generator.figures.stack.sideways import sideways_of
from generator.figures.stack.words import held_by
from generator.figures.svg import number as length
from generator.languages import in_digits
from generator.orders.guide import Guide
from generator.orders.work import Step


@dataclass(frozen=True, slots=True)
class PartLine:
    """One line: the number of the part (None if it stays or leaves inside another), what holds it, its size in mm."""

    part: Part
    number: str | None
    held_by: str
    size: tuple[float, ...] | None

    @property
    def size_in_words(self) -> str:
        """Width, height and thickness in mm: "50 × 71 × 4.8"; empty without a box."""
        return " × ".join(in_digits(length(side)) for side in self.size) if self.size is not None else ""


def parts_list(guide: Guide, steps: Sequence[Step]) -> tuple[PartLine, ...]:
    """The parts a run of steps is about: those with a number in the order of removal, then the others as authored.

    A run that holds the guide's whole order lists every part; a shorter one those it touches, what they carry, and the base.
    """
    leaving = leaving_of(guide, steps)
    slides = sideways_of(guide, leaving)
    numbered = [part for part in leaving.numbers if part in guide.anatomy.parts]
    others = [part for part in leaving.shown if part not in leaving.numbers]
    return tuple(
        PartLine(
            part=guide.part(part),
            number=leaving.numbers.get(part),
            held_by=held_by(leaving, part, part in slides),
            size=_size(guide.part(part)),
        )
        for part in (*numbered, *others)
    )


def _size(part: Part) -> tuple[float, ...] | None:
    if part.box is None:
        return None
    flat = (part.box.width, part.box.height)
    return flat if part.thickness is None else (*flat, part.thickness)
