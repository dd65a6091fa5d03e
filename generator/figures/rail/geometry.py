"""The depth rail in numbers: layers of the steps from the outside in, and the part in hand on a true scale."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.anatomy.parts import Part, PartId
from generator.figures.plan.stacking import Layer as Span
from generator.figures.plan.stacking import layers
from generator.figures.rail.hatches import Hatch, hatch_of
from generator.figures.svg import number as written
from generator.languages import in_digits, say, say_as, say_many
from generator.orders.guide import Guide
from generator.orders.work import Step, Verb

LAYER = 22.0
"""Units, the height of a layer; a unit is a CSS pixel."""

WIDTH = 128.0
TOP = 20.0
CORE = (44.0, 82.0)  # left and right side of the core
SCALE = 26.0  # the line of the depth scale
BAR = 6.0  # width of the bar beside it
BAR_LEAST = 4.0  # height of the bar at least
FOOT = 8.0
WHOLE_LIMIT = 30
"""Steps of which all layers are drawn."""

BESIDE = 12
"""Layers drawn before and after the one in hand where there are more steps than that."""

BREAK = 16.0  # height of a cut
STRIP = (324.0, 32.0)
STRIP_CUT = 10.0  # width of a cut in the lying strip
MARKS_LIMIT = 10  # numbered marks of the depth scale at most
BASE_SIGNS = 6  # letters of the base's name that fit beside the core


@dataclass(frozen=True, slots=True)
class Bed:
    """The layer of one step from `top` down; hatch is None where the step takes no part out."""

    number: int
    top: float
    hatch: Hatch | None


@dataclass(frozen=True, slots=True)
class Scale:
    """The depth of the device along the rail. marks: mm told, fine: marks between them; both with their heights."""

    whole: float
    marks: tuple[tuple[str, float], ...]
    fine: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Rail:
    """The rail of step `now` of `count`, numbered from 1.

    out: layers that are out; left: those below the one in hand; base: top of the bedrock. cuts: middles of the breaks.
    span: where the part in hand lies, mm from the first face, with bar its top and bottom on the rail. height in units.
    """

    now: int
    count: int
    hand: Bed
    out: tuple[Bed, ...]
    left: tuple[Bed, ...]
    base: float
    base_name: str
    cuts: tuple[float, ...]
    scale: Scale | None
    span: tuple[float, float] | None
    bar: tuple[float, float] | None
    height: float
    title: str
    desc: str


def rail_of(guide: Guide, steps: Sequence[Step], now: int) -> Rail:
    """The rail beside step number `now` (from 1) of a run of steps.

    Depths are those of the anatomy, or follow from what lies on what; without any there is no scale, and a part without
    a place has no bar. IndexError for a step the run does not have.
    """
    if not 1 <= now <= len(steps):
        raise IndexError(f"there is no step {now} in a run of {len(steps)}")
    first, last = _window(len(steps), now)
    top = TOP + (BREAK if first > 1 else 0)
    beds = [
        Bed(number, top + (number - first) * LAYER, _hatch(guide, steps[number - 1])) for number in range(first, last + 1)
    ]
    base = beds[-1].top + LAYER + (BREAK if last < len(steps) else 0)
    cuts = [TOP + BREAK / 2] if first > 1 else []
    cuts += [base - BREAK / 2] if last < len(steps) else []
    spans, whole = layers(guide.anatomy, guide.device.faces[1] if len(guide.device.faces) > 1 else None)
    scale = _scale(whole, base + LAYER) if whole > 0 else None
    span = _span(guide, steps[now - 1], spans) if scale else None
    hand = beds[now - first]
    return Rail(
        now=now,
        count=len(steps),
        hand=hand,
        out=tuple(beds[: now - first]),
        left=tuple(beds[now - first + 1 :]),
        base=base,
        base_name=_base_name(guide),
        cuts=tuple(cuts),
        scale=scale,
        span=span,
        bar=None if span is None else _bar(span, whole, base + LAYER),
        height=base + LAYER + FOOT,
        title=say("Depth at step {number} of {all}", number=now, all=len(steps)),
        desc=_desc(now, len(steps), span),
    )


def depth_in_words(rail: Rail) -> str | None:
    """Where the part in hand lies, for the line of facts of a step: "0.8 to 3 mm deep"; None if it is not known."""
    if rail.span is None:
        return None
    return say("{low} to {high} mm deep", low=_mm(rail.span[0]), high=_mm(rail.span[1]))


def strip_cells(rail: Rail) -> tuple[tuple[tuple[Bed, float, float], ...], tuple[float, ...]]:
    """The lying strip: (bed, left, width) of every layer from the outside in, and the middles of the cuts."""
    beds = (*rail.out, rail.hand, *rail.left)
    start = STRIP_CUT if beds[0].number > 1 else 0.0
    end = STRIP[0] - 4 - (STRIP_CUT if beds[-1].number < rail.count else 0.0)
    width = (end - start) / len(beds)
    cuts = [start - STRIP_CUT / 2] if start else []
    cuts += [end + STRIP_CUT / 2] if beds[-1].number < rail.count else []
    return tuple((bed, start + place * width, width) for place, bed in enumerate(beds)), tuple(cuts)


def _window(count: int, now: int) -> tuple[int, int]:
    """First and last number of the layers drawn."""
    if count <= WHOLE_LIMIT:
        return 1, count
    return max(1, now - BESIDE), min(count, now + BESIDE)


def _hatch(guide: Guide, step: Step) -> Hatch | None:
    part = next((guide.anatomy.parts[part] for part in step.lifted if part in guide.anatomy.parts), None)
    return None if part is None else hatch_of(part)


def _span(guide: Guide, step: Step, spans: Mapping[PartId, Span]) -> tuple[float, float] | None:
    """From the top of the shallowest to the foot of the deepest part that is lifted, or else folded, in the step."""
    folded = tuple(action.part for action in step.actions if action.verb is Verb.FOLD and action.part is not None)
    for parts in (step.lifted, folded):
        found = [spans[part] for part in parts if part in spans and part != guide.anatomy.base]
        if found:
            return min(span.start for span in found), max(span.end for span in found)
    return None


def _scale(whole: float, foot: float) -> Scale:
    """Marks at every 1, 2 or 5 mm, or tens of those, so that there are few enough; the first face lies on top."""
    step = 10.0 ** math.floor(math.log10(whole))
    step = next(s for s in (step / 10, step / 5, step / 2, step, 2 * step) if whole / s <= MARKS_LIMIT / 2)
    count = int(whole / step + 1e-9)
    fine = step / 2
    return Scale(
        whole,
        tuple((_mm(index * step), _height(index * step, whole, foot)) for index in range(count + 1)),
        tuple(_height(index * fine, whole, foot) for index in range(1, int(whole / fine + 1e-9) + 1) if index % 2),
    )


def _bar(span: tuple[float, float], whole: float, foot: float) -> tuple[float, float]:
    """The bar kept on the scale and high enough to be seen, its middle in place as far as that goes."""
    top, bottom = (_height(min(max(depth, 0.0), whole), whole, foot) for depth in span)
    if bottom - top < BAR_LEAST:
        top = min(max((top + bottom - BAR_LEAST) / 2, TOP), foot - BAR_LEAST)
        bottom = top + BAR_LEAST
    return top, bottom


def _height(depth: float, whole: float, foot: float) -> float:
    return TOP + depth / whole * (foot - TOP)


def _base_name(guide: Guide) -> str:
    base: Part | None = guide.anatomy.parts.get(guide.anatomy.base)
    return base.name if base is not None and len(base.name) <= BASE_SIGNS else say_as("innermost part", "base")


def _desc(now: int, count: int, span: tuple[float, float] | None) -> str:
    told = [say("{out} out, {below} below.", out=_layers(now - 1), below=_layers(count - now))]
    if span is not None:
        low, high = _mm(span[0]), _mm(span[1])
        told.append(say("The part in hand lies {low} to {high} mm below the first face.", low=low, high=high))
    return " ".join(told)


def _layers(count: int) -> str:
    return say_many("{n} layer", "{n} layers", count)


def _mm(value: float) -> str:
    return in_digits(written(round(value, 1)))
