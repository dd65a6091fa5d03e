"""The cell of a step: a number, words, and its pieces laid into rows. mm."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from generator.anatomy.parts import Box, Part, PartId
from generator.figures.tray.lettering import (
    NAME_LEADING,
    NUMBER,
    SMALL_LEADING,
    mono_lines,
    mono_width,
    serif_lines,
    serif_width,
)
from generator.figures.tray.loose import Loose, is_seen_from_second
from generator.figures.tray.moving import moved
from generator.figures.tray.pieces import holding_pieces, outline_of, part_piece
from generator.figures.tray.shapes import Cell, Line, Piece
from generator.figures.tray.sizes import size_label, size_piece, sizes_in, spans, stacked
from generator.languages import list_of, say, say_many
from generator.orders.guide import Guide

PAD = 3.0
"""Ground between the border of a cell and what is in it."""

GAP_ACROSS = 6.0
GAP_DOWN = 4.0

_HEAD = 12.4  # height of a header whose name has one line
_NARROWEST = 42.0
_LEAST_STACK = 46.0  # height that sizes may stand in one below the other, whatever is beside them
_NAME_LINES = 2


@dataclass(frozen=True, slots=True)
class Content:
    """What stands in a cell before it has a place. share: which of how many cells of its step, from 1."""

    loose: Loose
    name: str
    facts: str
    desc: str
    pieces: tuple[Piece, ...]
    share: tuple[int, int] = (1, 1)


def content_of(guide: Guide, loose: Loose, numbers: Mapping[PartId, str], most: tuple[float, float]) -> Content:
    """The pieces of a step. numbers: of the parts, as everywhere; most: width and height a piece can have on the sheet."""
    sizes = sizes_in(loose.screws)
    kinds = {size.size: size.kind for size in sizes}
    parts = [holding.part for holding in loose.holdings if holding.part] + list(loose.small)
    parts = list({part.id: part for part in parts}.values())
    is_one = len(parts) < 2
    pieces: list[Piece] = []
    for holding in loose.holdings:
        caption = "" if is_one or holding.part is None else _caption(holding.part, numbers)
        pieces += holding_pieces(holding, kinds, caption, most)
    for part in loose.small:
        outline = outline_of(part, is_seen_from_second(guide, part.face))
        if outline is not None:
            pieces.append(part_piece(outline, "" if is_one else _caption(part, numbers)))
    tallest = max((piece.box.height for piece in pieces), default=0.0)
    pieces += stacked([size_piece(size, len(sizes) == 1) for size in sizes], max(tallest, _LEAST_STACK))
    name = _name_of(loose, parts)
    count = len(loose.screws)
    screws = say_many("{n} screw", "{n} screws", count) if count else say("no screw")
    desc = say(
        "Step {number}, back as {back}: {name}, {screws}", number=loose.number, back=loose.back, name=name, screws=screws
    )
    if sizes:
        told = [
            say("{count} of {size}, no. {numbers}", count=len(size.numbers), size=size_label(size.size), numbers=span)
            for size in sizes
            for span in (spans(size.numbers),)
        ]
        desc += f" ({'; '.join(told)})"
    facts = say("{screws} · back {number}", screws=screws, number=loose.back)
    return Content(loose, name[:1].upper() + name[1:], facts, f"{desc}.", tuple(pieces))


def widest_in(content: Content, room: float) -> float:
    """The width in which all pieces stand in one row and the name on one line, if there is that much room."""
    row = sum(piece.box.width for piece in content.pieces) + GAP_ACROSS * (len(content.pieces) - 1) + 2 * PAD
    name = _words_left(content) + max(serif_width(content.name), mono_width(_facts(content))) + PAD
    return min(room, max(row, min(name, 70.0), _NARROWEST))


def height_in(content: Content, width: float) -> float:
    _, height = _flowed(content.pieces, width - 2 * PAD)
    return _head_height(content, width) + height + PAD


def split(content: Content, width: float, height: float) -> tuple[Content, ...]:
    """The content in as many cells as it needs for none to be higher than `height`."""
    if height_in(content, width) <= height:
        return (content,)
    shares: list[list[Piece]] = [[]]
    for piece in content.pieces:
        trial = replace(content, pieces=(*shares[-1], piece), share=(9, 99))
        if shares[-1] and height_in(trial, width) > height:
            shares.append([])
        shares[-1].append(piece)
    return tuple(
        replace(content, pieces=tuple(pieces), share=(index, len(shares)), desc=content.desc if index == 1 else "")
        for index, pieces in enumerate(shares, 1)
    )


def placed_cell(content: Content, box: Box) -> Cell:
    """The content in that box; what is over in height goes above and below the pieces."""
    pieces, height = _flowed(content.pieces, box.width - 2 * PAD)
    head = _head_height(content, box.width)
    top = box.y + head + max(0.0, (box.height - head - PAD - height) / 2)
    left = box.x + _words_left(content)
    name = enumerate(_name(content, box.width))
    lines = [Line(words, (left, box.y + 5.4 + index * NAME_LEADING), "name") for index, words in name]
    facts_at = (left, box.y + 5.4 + (len(lines) - 1) * NAME_LEADING + SMALL_LEADING + 0.6)
    facts = mono_lines(_facts(content), box.width - _words_left(content) - 1.0, 1)
    return Cell(
        box=box,
        number=content.loose.number,
        back=content.loose.back,
        header=(*lines, *(Line(words, facts_at, "small") for words in facts)),
        pieces=tuple(moved(piece, box.x + PAD, top) for piece in pieces),
        desc=content.desc,
    )


def _name_of(loose: Loose, parts: Sequence[Part]) -> str:
    """The parts that leave in the step, then those of which only the screws do."""
    leaving = [part.name for part in parts if part.id in loose.step.lifted]
    staying = [say("screws of the {part}", part=part.name) for part in parts if part.id not in loose.step.lifted]
    return list_of([*leaving, *staying]) or list_of([screw.joint.name for screw in loose.screws[:1]])


def _facts(content: Content) -> str:
    index, count = content.share
    return say("{facts} · {number} of {all}", facts=content.facts, number=index, all=count) if count > 1 else content.facts


def _words_left(content: Content) -> float:
    """Where the words begin, right of the number."""
    return 2.5 + mono_width(str(content.loose.number), NUMBER) + 2.0


def _name(content: Content, width: float) -> tuple[str, ...]:
    return serif_lines(content.name, width - _words_left(content) - 1.0, _NAME_LINES)


def _head_height(content: Content, width: float) -> float:
    return _HEAD + (len(_name(content, width)) - 1) * NAME_LEADING


def _flowed(pieces: Sequence[Piece], width: float) -> tuple[tuple[Piece, ...], float]:
    """The pieces in rows from left to right, and the height they take. In a row the sizes stand at the right, the rest is
    spread over the room that is left; each is in the middle of its row.
    """
    rows: list[list[Piece]] = []
    used = 0.0
    for piece in pieces:
        if rows and used + GAP_ACROSS + piece.box.width <= width:
            rows[-1].append(piece)
            used += GAP_ACROSS + piece.box.width
        else:
            rows.append([piece])
            used = piece.box.width
    placed: list[Piece] = []
    top = 0.0
    for row in rows:
        height = max(piece.box.height for piece in row)
        spare = max(0.0, width - sum(piece.box.width for piece in row) - GAP_ACROSS * (len(row) - 1))
        spread = len([piece for piece in row if not piece.is_legend]) or len(row)
        share = spare / (spread + (1 if spread == len(row) else 0.5))
        left = 0.0
        for index, piece in enumerate(row):
            if index < spread:
                left += share * (0.5 if index == 0 and spread != len(row) else 1.0)
            elif index == spread and spread != len(row):
                left = width - sum(p.box.width + GAP_ACROSS for p in row[index:]) + GAP_ACROSS
            placed.append(moved(piece, left, top + (height - piece.box.height) / 2))
            left += piece.box.width + GAP_ACROSS
        top += height + GAP_DOWN
    return tuple(placed), max(0.0, top - GAP_DOWN)


def _caption(part: Part, numbers: Mapping[PartId, str]) -> str:
    number = numbers.get(part.id, "")
    return f"{number} {part.name}".strip()



