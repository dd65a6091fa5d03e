"""The sheets of a run of steps: cells in step order, in rows over the width of the paper, sheet after sheet. mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from generator.anatomy.parts import Box
from generator.figures.code.geometry import QUIET, Code
from generator.figures.tray.cells import PAD, Content, content_of, height_in, placed_cell, split, widest_in
from generator.figures.tray.lettering import NOTE, TITLE, mono_lines, serif_lines
from generator.figures.tray.loose import loose_of
from generator.figures.tray.shapes import MARGIN, Field, Leads, Line, Paper, RingKind, Rule, Sample, TraySheet
from generator.languages import say, say_as
from generator.orders.guide import Guide
from generator.orders.numbering import part_numbers
from generator.orders.work import Step

HEAD = 20.0
"""Height of the heading and the title block."""

FOOT = 20.0
"""Height of the rule below the cells, the line above it, and what is beside it."""

SIDE = 9.0
"""Width kept right of the cells for the upright rule."""

_HEADER_ROOM = 24.0  # the highest header a cell can have, with its share of padding
_BLOCK = (64.0, 15.0)  # the title block
_BESIDE = 0.6  # from the quiet zone of the code to the nearest line
_KEY_LEFT = 112.0  # of the key, from the margin
_FIELDS = ((0.0, 0.0, 0.52), (0.52, 0.0, 0.48), (0.0, 0.5, 0.52), (0.52, 0.5, 0.48))  # left, top, width in shares

NOWHERE = Leads("")

Row = tuple[tuple[Content, float], ...]
"""Contents side by side, each with the width of its cell."""


def tray_sheets(
    guide: Guide, steps: Sequence[Step], paper: Paper, leads: Leads = NOWHERE
) -> tuple[TraySheet, ...]:
    """One cell for each of the steps that frees screws or small parts, on as many sheets as that takes; none, no sheet.

    steps: the guide's order, or a route; they are counted from 1 and bear that number. Screws whose part is too large for
    the paper, or which have no place of their own, stand in a grid instead of on their part. leads: where the steps stand.
    """
    loose = loose_of(guide, steps)
    room = _room(paper, leads.code)
    numbers = part_numbers(steps)
    most = (room.width - 2 * PAD, room.height - _HEADER_ROOM)
    contents = [
        share
        for one in loose
        for share in split(content_of(guide, one, numbers, most), room.width, room.height)
        if share.pieces
    ]
    pages = _paged(_rows(contents, room.width), room.height)
    screws = sum(len(one.screws) for one in loose)
    way = _way(guide, steps)
    return tuple(
        _sheet(rows, paper, room, (index, len(pages)), screws, guide.device.name, way, leads)
        for index, rows in enumerate(pages, 1)
    )


def _room(paper: Paper, code: Code | None) -> Box:
    """What the cells may take of a sheet; the code begins at the margin, its quiet zone reaches into that."""
    head = HEAD if code is None else max(HEAD, code.side + QUIET * code.module + _BESIDE)
    return Box(MARGIN, MARGIN + head, paper.width - 2 * MARGIN - SIDE, paper.height - 2 * MARGIN - head - FOOT)


def _way(guide: Guide, steps: Sequence[Step]) -> str:
    if tuple(steps) == guide.order:
        return ""
    lifted = [part for step in steps for part in step.lifted]
    return say("the way to the {part}", part=guide.part(lifted[-1]).name) if lifted else say("a part of the steps")


def _rows(contents: Sequence[Content], width: float) -> tuple[Row, ...]:
    """Cells side by side while they fit; what is over is shared out among them."""
    rows: list[list[tuple[Content, float]]] = []
    for content in contents:
        wanted = widest_in(content, width)
        if rows and sum(w for _, w in rows[-1]) + wanted <= width:
            rows[-1].append((content, wanted))
        else:
            rows.append([(content, wanted)])
    return tuple(
        tuple((content, wanted + (width - sum(w for _, w in row)) / len(row)) for content, wanted in row) for row in rows
    )


def _height(row: Row) -> float:
    return max(height_in(content, width) for content, width in row)


def _paged(rows: Sequence[Row], height: float) -> tuple[tuple[Row, ...], ...]:
    pages: list[list[Row]] = []
    used = 0.0
    for row in rows:
        needed = _height(row)
        if pages and used + needed <= height:
            pages[-1].append(row)
            used += needed
        else:
            pages.append([row])
            used = needed
    return tuple(tuple(page) for page in pages)


def _sheet(
    rows: Sequence[Row],
    paper: Paper,
    room: Box,
    place: tuple[int, int],
    screws: int,
    device: str,
    way: str,
    leads: Leads,
) -> TraySheet:
    cells = []
    y = room.y
    for row in rows:
        x, height = room.x, _height(row)
        for content, width in row:
            cells.append(placed_cell(content, Box(x, y, width, height)))
            x += width
        y += height
    number, count = place
    of = f"{device}, {way}" if way else device
    foot = paper.height - MARGIN
    said = " ".join(cell.desc for cell in cells if cell.desc)
    quiet = QUIET * leads.code.module if leads.code else 0.0
    taken = leads.code.side + quiet if leads.code else 0.0
    block = Box(room.right - (taken + _BESIDE if taken else 0.0) - _BLOCK[0], MARGIN, *_BLOCK)
    return TraySheet(
        paper=paper,
        number=number,
        count=count,
        title=say("Tray sheet {number} of {all}: {of}", number=number, all=count, of=of),
        desc=say(
            "{paper}, printed at 1:1. Cells in the order of the steps; out reads down, back reads up. {cells}",
            paper=paper.name,
            cells=said,
        ).strip(),
        heading=_heading(of, block.x - room.x - 4.0),
        fields=_fields(screws, place, paper, block),
        frame=Box(room.x, room.y, room.width, y - room.y),
        cells=tuple(cells),
        rules=(Rule((MARGIN, foot - 11.4), 100, False), Rule((room.right + 1.2, foot - 1.0), 50, True)),
        samples=_samples(foot),
        foot=(*_foot(foot), *_leading(leads.words, foot)),
        leads=replace(leads, at=(room.right - taken, MARGIN - quiet)),
    )


def _samples(foot: float) -> tuple[Sample, ...]:
    return tuple(
        Sample((MARGIN + _KEY_LEFT + left, foot - 13.0), kind)
        for left, kind in ((1.5, RingKind.FIRST), (24.5, RingKind.SECOND), (51.0, RingKind.OTHER))
    )


def _foot(foot: float) -> tuple[Line, ...]:
    key = MARGIN + _KEY_LEFT
    said = (
        (MARGIN, 4.4, say("Print at 100 %, without fitting to the page. This rule")),
        (MARGIN, 1.0, say("measures 100 mm then, the upright one 50 mm.")),
        (key + 4.0, 12.2, say("one screw")),
        (key + 27.0, 12.2, say("second size")),
        (key + 53.5, 12.2, say("further")),
        (key, 7.8, say("Parts and heads in rings 1:1. Screws 4:1,")),
        (key, 4.4, say("from the side and from above, and 1:1")),
        (key, 1.0, say("below. Numbers as in the plan of the step.")),
    )
    return tuple(Line(words, (left, foot - up), "small") for left, up, words in said)


def _leading(words: str, foot: float) -> tuple[Line, ...]:
    """Above the rule, where there is room for one line."""
    return tuple(Line(line, (MARGIN, foot - FOOT + 0.4), "small") for line in mono_lines(words, _KEY_LEFT - 2.0, 1))


def _heading(of: str, width: float) -> tuple[Line, ...]:
    what = say("Lay each screw on its own ring.")
    notes = serif_lines(f"{of}. {what}", width, 3, NOTE)
    if len(notes) > 2 or (len(notes) == 2 and len(serif_lines(of, width, 2, NOTE)) == 1):
        notes = (*serif_lines(of, width, 1, NOTE), what)
    return (
        Line(say("Tray sheet"), (MARGIN, MARGIN + TITLE - 1.4), "title"),
        *(Line(words, (MARGIN, MARGIN + TITLE + 4.2 + index * 4.6), "note") for index, words in enumerate(notes)),
    )


def _fields(screws: int, place: tuple[int, int], paper: Paper, block: Box) -> tuple[Field, ...]:
    said = (
        (say_as("direction", "out"), say("read down")),
        (say("screws in all"), str(screws)),
        (say_as("direction", "back"), say("read up")),
        (say("sheet"), say("{number} of {all}, {paper}", number=place[0], all=place[1], paper=paper.name)),
    )
    across, down = block.width, block.height
    return tuple(
        Field(Box(block.x + left * across, block.y + top * down, width * across, down / 2), label, words)
        for (left, top, width), (label, words) in zip(_FIELDS, said, strict=True)
    )
