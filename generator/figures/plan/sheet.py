"""The sheet a plan is drawn on: scale, places of the views, captions. It follows from the device alone."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Callable
from dataclasses import dataclass, replace

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import Box, Point
from generator.figures.plan.shapes import Caption, Pane
from generator.figures.plan.stacking import layers
from generator.figures.plan.view import View
from generator.figures.svg import number as written
from generator.languages import in_digits, say, say_as

HANDSET_SCALE = 2.8
"""Units per mm of the plan of a handset, so that a hand-sized device is shown near its true size."""

FULL_HEIGHT = 440.0
FULL_WIDTH = 330.0
DEPTH_STRETCH = 2.2
"""How much larger depth is drawn than length in the side view: layers are thin."""

DEPTH_LIMIT = 92.0  # units the side view may take along the depth
LEFT, TOP, RIGHT, GAP = 34.0, 34.0, 34.0, 46.0  # margins, and the gap between the views, units
_LETTER = 8.2  # width of a letter of a caption


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A field marks have to stay in, units."""

    left: float
    top: float
    right: float
    bottom: float

    def fits(self, at: Point, half: Point) -> bool:
        return (
            self.left <= at[0] - half[0]
            and at[0] + half[0] <= self.right
            and self.top <= at[1] - half[1]
            and at[1] + half[1] <= self.bottom
        )


@dataclass(frozen=True, slots=True)
class Layout:
    """Where things go, units. It follows from the device alone, so that every step of a device has the same."""

    pane: Pane
    side: Pane | None
    side_below: bool
    plan_right: float
    plan_bottom: float
    caption_at: Point
    side_caption_at: Point
    scale_y: float
    width: float
    bottom: float

    @property
    def ground(self) -> Rectangle:
        """Where marks may lie."""
        return Rectangle(3, 3, self.plan_right, self.plan_bottom)

    def drawn_in(self, middle: Point, radius: float, most: float) -> Point:
        """The middle of a circle (mm) that leaves the ground, moved toward it by at most `most` mm each way."""
        (x, y), r = self.pane.point(middle), radius * self.pane.across

        def moved(at: float, low: float, high: float) -> float:
            over = max(0.0, low - (at - r)) - max(0.0, at + r - high)
            return max(-most, min(most, over / self.pane.across))

        ground = self.ground
        return middle[0] + moved(x, ground.left, ground.right), middle[1] + moved(y, ground.top, ground.bottom)


def scale_of(width: float, height: float) -> float:
    """Units per mm for a device of that size in mm: the handset's unless it would leave or not nearly fill the sheet."""
    fitting = min(FULL_HEIGHT / height, FULL_WIDTH / width)
    return HANDSET_SCALE if 0.8 <= fitting / HANDSET_SCALE <= 1.25 and width * HANDSET_SCALE <= FULL_WIDTH else fitting


def layout_of(anatomy: Anatomy, view: View, field: Box, faces: tuple[str, ...]) -> Layout:
    """The layout of every plan of a device that takes up `field`, mm; room is kept for the longest name of a face."""
    scale = scale_of(field.width, field.height)
    wide, high = field.width * scale, field.height * scale
    said = min(max((len(face) for face in faces), default=0) + len(" up"), 26) * _LETTER
    overhang = said / 2 - wide / 2 + 6
    left = max(LEFT, overhang)
    right, bottom = left + wide, TOP + high
    alone = Layout(
        pane=Pane(left, TOP, (field.x, field.y), scale, scale),
        side=None,
        side_below=False,
        plan_right=right + max(RIGHT - 3, overhang),
        plan_bottom=bottom + 12,
        caption_at=(left + wide / 2, bottom + 26),
        side_caption_at=(0.0, 0.0),
        scale_y=bottom + 48,
        width=right + max(RIGHT, overhang + 3),
        bottom=bottom + 58,
    )
    _, depth = layers(anatomy, view.second)
    if depth <= 0:
        return alone
    deep = min(DEPTH_STRETCH * scale, DEPTH_LIMIT / depth)
    if field.width > field.height:
        top = bottom + 40 + GAP
        low = top + depth * deep
        return replace(
            alone,
            side=Pane(left, top, (field.x, 0.0), scale, deep),
            side_below=True,
            side_caption_at=(left + wide / 2, low + 22),
            scale_y=low + 62,
            bottom=low + 72,
        )
    start = right + max(GAP, overhang + 44)
    middle = start + depth * deep / 2
    return replace(
        alone,
        side=Pane(start, TOP, (0.0, field.y), deep, scale),
        plan_right=right + 22,
        side_caption_at=(middle, bottom + 26),
        width=max(start + depth * deep + 14, middle + 46),
    )


def captions_of(view: View, layout: Layout, called: Callable[[str], str] = str) -> tuple[Caption, ...]:
    """Which face lies up, by the name that `called` gives it, and how the side is drawn."""
    face = textwrap.shorten(called(view.face), 23, placeholder="…") or "…"
    name = say("on the bench") if view.on_bench else say("{face} up", face=face) if view.face else say_as("drawing", "plan")
    if layout.side is None or view.on_bench:
        return (Caption(name, layout.caption_at),)
    deep = layout.side.down if layout.side_below else layout.side.across
    stretch = deep / layout.pane.across
    if 0.95 < stretch < 1.05:
        scale = say("to scale")
    else:
        scale = say("depth {times}×", times=in_digits(written(round(stretch, 1) or round(stretch, 2))))
    x, y = layout.side_caption_at
    return (
        Caption(name, layout.caption_at),
        Caption(say_as("drawing", "side"), (x, y)),
        Caption(scale, (x, y + 17), "note"),
    )


@dataclass(frozen=True, slots=True)
class ScaleBar:
    """Ends and place of the words in units; length as written, mm."""

    start: Point
    end: Point
    length: str
    words_at: Point


def scale_bar_of(pane: Pane, field: Box, layout: Layout) -> ScaleBar:
    """A bar of 1, 2 or 5 times a power of ten mm, about a third of the width."""
    longest = 0.36 * max(field.width, 90 / pane.across)
    power = 10.0 ** math.floor(math.log10(longest))
    length = max((times * power for times in (1, 2, 5) if times * power <= longest), default=power)
    end = pane.left + length * pane.across
    return ScaleBar((pane.left, layout.scale_y - 4), (end, layout.scale_y - 4), written(length), (end + 7, layout.scale_y))


def ticks_of(pane: Pane, field: Box) -> tuple[tuple[Point, Point], ...]:
    """Short lines at the middles of the outline's sides."""
    x, y = pane.point(field.centre)
    left, top = pane.point((field.x, field.y))
    right, bottom = pane.point((field.right, field.bottom))
    return (
        ((x, top - 12), (x, top - 3)),
        ((x, bottom + 3), (x, bottom + 12)),
        ((left - 12, y), (left - 3, y)),
        ((right + 3, y), (right + 12, y)),
    )
