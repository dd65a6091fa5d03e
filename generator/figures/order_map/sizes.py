"""How large the boxes of a map are and how their titles are set; and which way the flow lies on the sheet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.anatomy.parts import Point
from generator.figures.order_map.boxes import Boxes
from generator.figures.order_map.columns import Columns, Kind, Node
from generator.figures.order_map.lettering import lines_of, width_of
from generator.figures.order_map.shapes import Form
from generator.languages import later, say

TITLE_SIZE = 14.0
"""Units, of the titles in the boxes."""

CAPTION_SIZE = 16.0  # of captions in a map of numbers; in one with titles they are as large as those

LINE_HEIGHT = 16.0
NUMBER_ROOM = 29.0
"""Units at the left of a box with a title, up to the line behind the number."""

TITLE_GAP = 7.0  # between that line and the title, and at least between the title and the border
WIDTHS = (108.0, 118.0, 128.0, 138.0, 148.0, 160.0)
NUMBER_BOX = (42.0, 34.0)  # of a map of numbers
DIAMOND = 8.0
"""Units from the middle of a diamond to its corners."""

CAPTION = later("either one")
CAPTION_GAP = 6.0
GAP_ALONG = 28.0
GAP_ACROSS = 20.0
STRAIGHTER = 4  # weight of a piece of a long line against that of a short one


@dataclass(frozen=True, slots=True)
class Sizes:
    """width and height of every box, in units; lines: the title of every step as it is set; is_cut: one of them in part."""

    form: Form
    width: float
    height: float
    lines: tuple[tuple[str, ...], ...]
    is_cut: bool = False

    def turned(self, point: Point) -> Point:
        """(along, across) as (x, y), or the other way round."""
        return point[::-1] if self.form.runs_down else point

    def half(self, node: Node) -> float:
        """From the middle of a node to its border, along the flow."""
        if node.kind is Kind.PASSING:
            return 0.0
        return self.turned((self.width, self.height))[0] / 2 if node.kind is Kind.STEP else DIAMOND

    def room(self, node: Node) -> Point:
        """What a node takes up along and across the flow, a diamond with its caption."""
        if node.kind is Kind.PASSING:
            return (0.0, 2.0)
        if node.kind is Kind.STEP:
            return self.turned((self.width, self.height))
        caption = width_of(say(CAPTION), TITLE_SIZE)
        if self.form is Form.ACROSS:
            return (caption, 2 * (DIAMOND + LINE_HEIGHT))
        if self.form is Form.DOWN:
            return (2 * DIAMOND, 2 * (DIAMOND + CAPTION_GAP + caption))
        return (2 * DIAMOND, 2 * DIAMOND)

    def caption_at(self, diamond: Point) -> Point | None:
        """Where the caption of a diamond starts, beside the way its lines go; a map of numbers has a key instead."""
        x, y = diamond
        if self.form is Form.ACROSS:
            return (x - width_of(say(CAPTION), TITLE_SIZE) / 2, y + DIAMOND + 13.0)
        return (x + DIAMOND + CAPTION_GAP, y + 5.0) if self.form is Form.DOWN else None


def sizes_of(titles: Sequence[str], form: Form, most_lines: int) -> Sizes:
    """Boxes of one size, the narrowest in which every title fits in `most_lines`; else titles are cut."""
    if not form.is_titled:
        return Sizes(form, *NUMBER_BOX, tuple(() for _ in titles))
    for width in WIDTHS:
        room = width - NUMBER_ROOM - 2 * TITLE_GAP
        lines = tuple(lines_of(title, room, TITLE_SIZE, most_lines) for title in titles)
        is_cut = any(" ".join(line) != " ".join(title.split()) for line, title in zip(lines, titles, strict=True))
        if not is_cut:
            break
    return Sizes(form, width, max(2, *map(len, lines), 0) * LINE_HEIGHT + 14.0, lines, is_cut)


def boxes_of(columns: Columns, sizes: Sizes) -> Boxes:
    """What the layout is given."""
    return Boxes(
        sizes=tuple(sizes.room(node) for node in columns.nodes),
        columns=tuple(node.column for node in columns.nodes),
        links=tuple(
            (link.start, link.end, STRAIGHTER if _is_passing(columns, link.start, link.end) else 1)
            for link in columns.links
        ),
        along=GAP_ALONG,
        across=GAP_ACROSS,
    )


def _is_passing(columns: Columns, *nodes: int) -> bool:
    return any(columns.nodes[node].kind is Kind.PASSING for node in nodes)
