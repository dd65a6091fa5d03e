"""The written part of a label: number, name and what holds the part, broken into lines and put in their places."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from generator.anatomy.parts import PartId
from generator.figures.stack.leaders import Edges, Led, Wish, led
from generator.figures.stack.lettering import MONO, width_of, wrapped
from generator.figures.stack.shapes import Label, Point, State, Variant

_NAME_LINES = 3
_NOTE_LINES = 2


@dataclass(frozen=True, slots=True)
class Lettering:
    """Sizes in units, as the theme sets them for the variant: letters, line heights, widest line, gaps.

    away: from the drawing to the ports; shelf: from the port inward; indent: from the port to the number; reach: how wide
    a label is at least for a finger.
    """

    number: float
    name: float
    note: float
    name_line: float
    note_line: float
    room: float
    away: float
    shelf: float
    indent: float
    between: float
    reach: float = 0


LETTERINGS: Mapping[Variant, Lettering] = {
    Variant.FULL: Lettering(19, 17, 14, 20, 17, 168, 34, 12, 8, 10),
    Variant.STEP: Lettering(27, 24, 20, 28, 24, 236, 26, 10, 8, 14),
    Variant.NARROW: Lettering(34, 0, 0, 0, 0, 0, 26, 0, 7, 4),
    # 80 units from number to number: 26 px on a screen of 360 px, and 24 px are asked for (WCAG 2.2, 2.5.8).
    Variant.PICK: Lettering(34, 0, 0, 0, 0, 0, 26, 0, 7, 46, 80),
    Variant.NUMBERS: Lettering(24, 0, 0, 0, 0, 0, 26, 0, 7, 4),
    Variant.STEP_NARROW: Lettering(34, 0, 0, 0, 0, 0, 26, 0, 7, 4),
}


@dataclass(frozen=True, slots=True)
class Caption:
    """What is written at one part's leader."""

    part: PartId
    state: State
    number: str
    name: tuple[str, ...]
    note: tuple[str, ...]

    def height(self, letters: Lettering) -> float:
        words = len(self.name) * letters.name_line + len(self.note) * letters.note_line
        return max(letters.number, words) + letters.between

    def width(self, letters: Lettering) -> float:
        lines = [width_of(line, letters.name) for line in self.name] + [width_of(line, letters.note) for line in self.note]
        return max(lines, default=0.0)


def caption_of(part: PartId, state: State, number: str, name: str, note: str, variant: Variant) -> Caption:
    letters = LETTERINGS[variant]
    if not variant.has_names:
        return Caption(part, state, number, (), ())
    return Caption(
        part,
        state,
        number,
        wrapped(name, letters.name, letters.room, _NAME_LINES),
        wrapped(note, letters.note, letters.room, _NOTE_LINES) if note else (),
    )


def column_of(captions: Iterable[Caption], letters: Lettering) -> float:
    """How far names stand from the ports: beyond the widest number."""
    digits = max((len(caption.number) for caption in captions), default=0)
    return round(letters.indent + digits * MONO * letters.number + (12 if letters.name and digits else 0), 1)


def labels_of(
    captions: Sequence[Caption],
    anchors: Mapping[PartId, tuple[Point, Point]],
    bounds: tuple[float, float],
    screws: Sequence[Point],
    variant: Variant,
    column: float,
) -> tuple[Label, ...]:
    """Every caption placed beside the drawing, which reaches from bounds[0] to bounds[1]; left side first, top down."""
    letters = LETTERINGS[variant]
    by_part = {caption.part: caption for caption in captions}
    reach = letters.away - letters.shelf
    edges = Edges(round(bounds[0] - reach, 1), round(bounds[1] + reach, 1))
    wishes = [Wish(c.part, *anchors[c.part], c.height(letters)) for c in captions]
    placed = led(wishes, edges, screws, one_side=variant.is_of_step)
    return tuple(_label(by_part[one.part], one, edges, letters, column) for one in placed)


def _label(caption: Caption, placed: Led, edges: Edges, letters: Lettering, column: float) -> Label:
    way = -1 if placed.is_left else 1
    knee = (edges.left if placed.is_left else edges.right, placed.port)
    start = knee[0] + way * letters.shelf
    first = placed.port + letters.number * 0.34
    words_at = start + way * (column if letters.name else 0)
    baselines = [first + index * letters.name_line for index in range(len(caption.name))]
    name = [(line, (round(words_at, 1), round(y, 1))) for line, y in zip(caption.name, baselines, strict=True)]
    after = (baselines[-1] if baselines else first) + letters.note_line * 0.98
    note = [
        (line, (round(words_at, 1), round(after + index * letters.note_line, 1))) for index, line in enumerate(caption.note)
    ]
    digits = letters.indent + len(caption.number) * MONO * letters.number
    outer = start + way * max(digits if caption.number else 0.0, column + caption.width(letters) if caption.name else 0.0)
    top = placed.port - letters.number * 0.45
    bottom = top + caption.height(letters) - letters.between
    far = start + way * max(abs(outer - start), letters.reach)
    return Label(
        part=caption.part,
        state=caption.state,
        is_left=placed.is_left,
        # Without a number the leader runs on to the name.
        port=(round(start if caption.number else words_at - way * 6, 1), placed.port),
        knee=knee,
        anchor=placed.anchor,
        number=caption.number,
        number_at=(round(start + way * letters.indent, 1), round(first, 1)),
        name=tuple(name),
        note=tuple(note),
        box=(
            round(min(start, outer), 1),
            round(top, 1),
            round(max(start, outer), 1),
            round(bottom, 1),
        ),
        target=(
            round(min(start, far), 1),
            round(top - letters.between / 2, 1),
            round(max(start, far), 1),
            round(bottom + letters.between / 2, 1),
        ),
    )
