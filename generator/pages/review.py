"""A change laid out for whoever reviews it: what it means in sentences, changed steps as they were and as they are."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.figures.stack.arrangement import Arrangement, arrange
from generator.figures.stack.drawing import stack_figure
from generator.figures.stack.geometry import stack_from
from generator.figures.svg import ident
from generator.orders.guide import Guide
from generator.orders.work import Step
from generator.review.changes import DeviceChange, LibraryChange, StepChange
from generator.review.sentences import Section, Told, Weight, texts_of, texts_of_step, told_of, told_of_library
from generator.review.wording import Fate, Piece

MOST_FIGURES = 60
"""Changed steps of a device that are drawn before and after; of a change of more, the first."""


_LINE_END = re.compile(r"(?<!\n)\n(?!\n)")


@dataclass(frozen=True, slots=True)
class LineView:
    """mark: "worse" or "better", or empty; place: file, line and column."""

    mark: str
    words: str
    place: str


@dataclass(frozen=True, slots=True)
class SectionView:
    title: str
    lines: tuple[LineView, ...]


@dataclass(frozen=True, slots=True)
class TextView:
    """A reworded text: pieces as pairs of what became of them (`kept`, `gone`, `came`) and their words."""

    title: str
    pieces: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class SideView:
    """A changed step as it was or as it is; figure is empty where there is nothing to draw."""

    head: str
    figure: Markup


@dataclass(frozen=True, slots=True)
class ChangedStepView:
    title: str
    lines: tuple[LineView, ...]
    before: SideView | None
    after: SideView | None
    texts: tuple[TextView, ...]


@dataclass(frozen=True, slots=True)
class ChangedDeviceView:
    key: str
    name: str
    worse: int
    better: int
    sections: tuple[SectionView, ...]
    texts: tuple[TextView, ...]
    steps: tuple[ChangedStepView, ...]


@dataclass(frozen=True, slots=True)
class ReviewPage:
    """policy allows the one style sheet that stands in the page."""

    title: str
    old: str
    new: str
    summary: str
    policy: str
    style: Markup
    shared: tuple[SectionView, ...]
    devices: tuple[ChangedDeviceView, ...]


def review_view(change: LibraryChange, old: str, new: str, summary: str, policy: str, style: str) -> ReviewPage:
    """The page for a change from the state named `old` to the one named `new`."""
    return ReviewPage(
        title="What this change means",
        old=old,
        new=new,
        summary=summary,
        policy=policy,
        style=Markup(style),
        shared=_sections(told_of_library(change)),
        devices=tuple(_device(device) for device in change.devices),
    )


def _device(change: DeviceChange) -> ChangedDeviceView:
    told = told_of(change)
    drawn = _Drawn(change)
    steps = [step for step in change.steps if step.step.actions or step.body or step.refitting]
    shown = tuple(_step(change, step, told, drawn, number) for number, step in enumerate(steps[:MOST_FIGURES]))
    in_steps = {step.step.id for step in steps[:MOST_FIGURES]}
    rest = [each for each in told if not (each.section is Section.STEPS and each.subject in in_steps)]
    return ChangedDeviceView(
        key=ident("device", change.id),
        name=change.guide.device.name,
        worse=sum(each.weight is Weight.WORSE for each in told),
        better=sum(each.weight is Weight.BETTER for each in told),
        sections=_sections(rest),
        texts=tuple(TextView(title, _pieces(pieces)) for title, pieces in texts_of(change)),
        steps=shown,
    )


class _Drawn:
    """The stacks of a device before and after, each arranged once."""

    def __init__(self, change: DeviceChange) -> None:
        self.key = ident("device", change.id)
        self.old = _arranged(change.old)
        self.new = _arranged(change.new)

    def side(self, name: str, arranged: Arrangement | None, number: int | None, key: int) -> Markup:
        if arranged is None or number is None:
            return Markup()
        stack = stack_from(arranged, now=number - 1, narrow=True)
        return Markup(stack_figure(stack, ident(self.key, name, str(key))))


def _arranged(guide: Guide | None) -> Arrangement | None:
    return arrange(guide, guide.order) if guide is not None and guide.order else None


def _step(device: DeviceChange, change: StepChange, told: Sequence[Told], drawn: _Drawn, key: int) -> ChangedStepView:
    lines = [each for each in told if each.section is Section.STEPS and each.subject == change.step.id]
    texts = tuple(TextView(title, _pieces(pieces)) for title, pieces in texts_of_step(device, change))
    before = after = None
    if change.old is not None:
        figure = drawn.side("before", drawn.old, change.number_before, key)
        before = SideView(_head("Before", change.number_before, change.old), figure)
    if change.new is not None:
        figure = drawn.side("after", drawn.new, change.number_after, key)
        after = SideView(_head("After", change.number_after, change.new), figure)
    return ChangedStepView(change.step.title, _lines(lines), before, after, texts)


def _head(when: str, number: int | None, step: Step) -> str:
    return f"{when}: step {number}" if number is not None else f"{when}: outside the order"


def _pieces(pieces: Sequence[Piece]) -> tuple[tuple[str, str], ...]:
    """The pieces with the line ends taken out that mean nothing to a reader: a blank line begins a paragraph."""
    return tuple((Fate(piece.fate).value, _LINE_END.sub(" ", piece.text)) for piece in pieces)


def _sections(told: Sequence[Told]) -> tuple[SectionView, ...]:
    return tuple(
        SectionView(section.value, _lines([each for each in told if each.section is section]))
        for section in dict.fromkeys(each.section for each in told)
    )


def _lines(told: Sequence[Told]) -> tuple[LineView, ...]:
    """Lines; where several stand on one place it is told once."""
    marks = {Weight.WORSE: "worse", Weight.BETTER: "better", Weight.OTHER: ""}
    lines = []
    last = ""
    for each in told:
        place = str(each.place) if each.place else ""
        lines.append(LineView(marks[each.weight], each.words, place if place != last else ""))
        last = place
    return tuple(lines)
