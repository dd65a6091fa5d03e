"""Still frames of a run for a video editor: the stack of each step beside its number, title and parts, 1920 by 1080."""

from __future__ import annotations

from dataclasses import dataclass

from generator.figures.stack.arrangement import Arrangement
from generator.figures.stack.drawing import stack_figure
from generator.figures.stack.geometry import stack_from
from generator.figures.stack.lettering import wrapped
from generator.figures.stack.shapes import Point, Stack
from generator.figures.stack.words import held_by
from generator.figures.svg import NAMESPACE, element, escaped, number, text
from generator.languages import say

WIDTH, HEIGHT = 1920.0, 1080.0
MARGIN = 72.0
COLUMN = 820.0
"""Units, which are pixels: the sheet, its margin, the room words have on the left of the picture."""

TITLE_SIZE, TITLE_LINE, TITLE_LINES = 68.0, 82.0, 4
PART_SIZE, PART_LINE = 36.0, 54.0
PARTS_LIMIT = 6
_NUMBER_AT, _TITLE_AT, _FOOT_AT = 250.0, 370.0, HEIGHT - MARGIN
_PART_INDENT = 96.0


@dataclass(frozen=True, slots=True)
class Line:
    """A line of words at its baseline; kind is the variant of its class."""

    words: str
    at: Point
    kind: str


@dataclass(frozen=True, slots=True)
class Frame:
    """One still. stack is drawn `scale` times its size with its upper left corner at `at`."""

    title: str
    lines: tuple[Line, ...]
    stack: Stack
    at: Point
    scale: float


def frames_of(arranged: Arrangement, name: str) -> tuple[Frame, ...]:
    """The frame of every step of a run; the device stands at the same place in all of them. name: of the device."""
    leaving = arranged.leaving
    count = len(leaving.steps)
    frames = []
    stacks = [stack_from(arranged, now=now, narrow=True) for now in range(count)]
    left, right = min(s.corner[0] for s in stacks), max(s.corner[0] + s.width for s in stacks)
    top, bottom = min(s.corner[1] for s in stacks), max(s.corner[1] + s.height for s in stacks)
    scale = min((HEIGHT - MARGIN) / (bottom - top), (WIDTH - COLUMN - 2.5 * MARGIN) / (right - left))
    edge = MARGIN + COLUMN + (WIDTH - MARGIN - COLUMN - (right - left) * scale) / 2
    roof = (HEIGHT - (bottom - top) * scale) / 2
    for now, (step, stack) in enumerate(zip(leaving.steps, stacks, strict=True)):
        lines = [Line(str(now + 1), (MARGIN, _NUMBER_AT), "number")]
        y = _TITLE_AT
        for words in wrapped(step.title, TITLE_SIZE, COLUMN, TITLE_LINES):
            lines.append(Line(words, (MARGIN, y), "title"))
            y += TITLE_LINE
        y += PART_LINE / 2
        hand = leaving.hand(now)
        for part in hand[:PARTS_LIMIT]:
            held = held_by(leaving, part, part in arranged.sideways)
            label = f"{leaving.anatomy.parts[part].name}, {held}"
            own = leaving.numbers.get(part, "")
            lines.append(Line(own or "–", (MARGIN, y), "item"))
            for words in wrapped(label, PART_SIZE, COLUMN - _PART_INDENT, 2):
                lines.append(Line(words, (MARGIN + _PART_INDENT, y), "part"))
                y += PART_LINE
        if len(hand) > PARTS_LIMIT:
            more = say("and {number} more", number=len(hand) - PARTS_LIMIT)
            lines.append(Line(more, (MARGIN + _PART_INDENT, y), "part"))
        of_all = say("{device}, step {number} of {all}", device=name, number=now + 1, all=count)
        foot = wrapped(of_all, PART_SIZE, COLUMN, 1)[0]
        lines.append(Line(foot, (MARGIN, _FOOT_AT), "foot"))
        u, v = stack.corner
        at = (round(edge + (u - left) * scale, 1), round(roof + (v - top) * scale, 1))
        title = say("Step {number} of {all}: {title}", number=now + 1, all=count, title=step.title)
        frames.append(Frame(title, tuple(lines), stack, at, round(scale, 4)))
    return tuple(frames)


def frame_figure(frame: Frame, ident: str, style: str) -> str:
    """One still as a document. style: rules without custom properties, so that any program can draw it."""
    x, y = frame.at
    return element(
        "svg",
        {
            "xmlns": NAMESPACE,
            "class": "frame",
            "viewBox": f"0 0 {number(WIDTH)} {number(HEIGHT)}",
            "width": WIDTH,
            "height": HEIGHT,
            "role": "img",
            "aria-labelledby": f"{ident}-of",
        },
        element("title", {"id": f"{ident}-of"}, escaped(frame.title)),
        element("style", {}, escaped(style)),
        element("rect", {"class": "frame__ground", "width": WIDTH, "height": HEIGHT}),
        element(
            "g",
            {"transform": f"translate({number(x)} {number(y)}) scale({frame.scale:.4f})"},
            stack_figure(frame.stack, ident),
        ),
        *(text(line.words, {"class": f"frame__{line.kind}", "x": line.at[0], "y": line.at[1]}) for line in frame.lines),
    )
