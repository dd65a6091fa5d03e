"""The sizes of screws in a cell: which there are, and each as a piece with its silhouette and its words. mm."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.anatomy.joints import Drive
from generator.anatomy.parts import Box
from generator.figures.fasteners.silhouette import Silhouette, screw_silhouette
from generator.figures.trade_words import drive_words, head_words
from generator.figures.tray.lettering import NAME, SMALL_LEADING, mono_lines, mono_width, serif_width
from generator.figures.tray.loose import LooseScrew
from generator.figures.tray.moving import moved
from generator.figures.tray.shapes import DrawnScrew, Line, Piece, RingKind, Sample
from generator.languages import in_digits, say
from generator.orders.accounts import ScrewSize

_SCALES = (4, 2, 1)  # the largest that has room is drawn
_TALLEST = 46.0  # room for a screw from the side
_WIDEST = 28.0  # room for a head from above
_LEGEND_WORDS = 29.8  # width of the words beside; 18 signs
_GAP = 2.4
_STACK_GAP = 3.0


@dataclass(frozen=True, slots=True)
class SizeInCell:
    """One size of screw in a cell: how its rings are drawn and which numbers they bear."""

    size: ScrewSize
    drive: Drive | None
    kind: RingKind
    numbers: tuple[int, ...]


def sizes_in(screws: Sequence[LooseScrew]) -> tuple[SizeInCell, ...]:
    """The sizes of the screws, in the order of their first numbers; the second is drawn dashed, further ones dotted."""
    numbers: dict[ScrewSize, list[int]] = {}
    drives: dict[ScrewSize, Drive | None] = {}
    for screw in screws:
        numbers.setdefault(screw.size, []).append(screw.number)
        drives.setdefault(screw.size, screw.joint.drive)
    kinds = [RingKind.FIRST, RingKind.SECOND]
    return tuple(
        SizeInCell(size, drives[size], kinds[index] if index < 2 else RingKind.OTHER, tuple(sorted(bearing)))
        for index, (size, bearing) in enumerate(numbers.items())
    )


def size_piece(size: SizeInCell, is_alone: bool) -> Piece:
    """A size in words, with its silhouette large and at 1:1 and its head from above; without drawing if it is too large."""
    silhouette = screw_silhouette(size.size.thread, size.size.length, size.size.head, size.drive)
    scale = next((scale for scale in _SCALES if _has_room(silhouette, scale)), None)
    screws: tuple[DrawnScrew, ...] = ()
    left = height = 0.0
    if scale is not None:
        wide = silhouette.across * scale
        top = _top_across(silhouette) * scale
        second = wide + _GAP
        face = (second + top / 2, top / 2)
        small = (second + top / 2, top + 2.0) if scale > 1 else None
        screws = (DrawnScrew(silhouette, scale, (wide / 2, 0.0), face, small),)
        left = second + max(top, silhouette.across) + _GAP
        height = max(silhouette.height * scale, top + (2.0 + silhouette.height if small else 0.0))
    lines: list[Line] = []
    samples = () if is_alone else (Sample((left + 1.5, NAME / 2 - 0.2), size.kind),)
    lines.append(Line(f"{len(size.numbers)} ×", (left + (0.0 if is_alone else 4.4), NAME - 0.6), "count"))
    y = NAME + SMALL_LEADING
    for words in _size_words(size, scale):
        lines.append(Line(words, (left, y), "small"))
        y += SMALL_LEADING
    height = max(height, y - SMALL_LEADING + 0.8)
    width = max(left + 4.4 + serif_width(lines[0].words), *(left + mono_width(line.words) for line in lines[1:]))
    return Piece(Box(0.0, 0.0, width, height), screws=screws, samples=samples, lines=tuple(lines), is_legend=True)


def stacked(pieces: Sequence[Piece], height: float) -> tuple[Piece, ...]:
    """Sizes one below the other, in as many stacks of at most that height as they need."""
    stacks: list[Piece] = []
    for piece in pieces:
        over = stacks[-1] if stacks else None
        if over is None or over.box.height + _STACK_GAP + piece.box.height > height:
            stacks.append(piece)
        else:
            stacks[-1] = _below(over, piece)
    return tuple(stacks)


def _below(over: Piece, piece: Piece) -> Piece:
    lower = moved(piece, 0.0, over.box.height + _STACK_GAP)
    return Piece(
        Box(0.0, 0.0, max(over.box.width, lower.box.width), lower.box.bottom),
        screws=over.screws + lower.screws,
        samples=over.samples + lower.samples,
        lines=over.lines + lower.lines,
        is_legend=True,
    )


def size_label(size: ScrewSize) -> str:
    """Thread and length: M1.4 × 3.5 mm.

    >>> size_label(ScrewSize("M1.4", 3.5, None, None)), size_label(ScrewSize(None, None, None, None))
    ('M1.4 × 3.5 mm', 'size not told')
    """
    length = f"{in_digits(f'{size.length:g}')} mm" if size.length else ""
    return " × ".join(part for part in (size.thread or "", length) if part) or say("size not told")


def spans(numbers: Iterable[int]) -> str:
    """Numbers as spans: 1–3, 7.

    >>> spans([1, 2, 3, 7])
    '1–3, 7'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return ", ".join(f"{first}–{last}" if last > first else str(first) for first, last in runs)


def _size_words(size: SizeInCell, scale: int | None) -> tuple[str, ...]:
    of = size.size
    head = (of.head or "").strip()
    if not any(word in head.lower() for word in ("none", "set", "grub")):
        head = head_words(head)
    scale_words = "" if scale == _SCALES[0] else say("drawn {scale}:1", scale=scale) if scale else say("too large to draw")
    numbers = say("no. {numbers}", numbers=spans(size.numbers))
    said = (size_label(of), head, drive_words(of.drive), numbers, scale_words)
    return tuple(line for words in said for line in mono_lines(words, _LEGEND_WORDS, 2))


def _has_room(silhouette: Silhouette, scale: int) -> bool:
    return silhouette.height * scale <= _TALLEST and _top_across(silhouette) * scale <= _WIDEST


def _top_across(silhouette: Silhouette) -> float:
    """The head's greatest width from above: over the corners where it has some."""
    return max(silhouette.across, silhouette.head.across)
