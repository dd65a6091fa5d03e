"""Numbering the joints of a step, so that its plan and its joint table say the same."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import JointId
from generator.figures.trade_words import kind_word
from generator.orders.work import Step

SINGLE_LIMIT = 200
"""Fasteners of one joint that still get a mark each; beyond that one mark carries the first and the last number."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One number in the plan of a step, counted from 1 in undoing order; `last` differs only beyond SINGLE_LIMIT.

    index: which fastener of the joint, from 0, None where one mark stands for all. length in mm, of a screw that has one.
    """

    first: int
    last: int
    joint: JointId
    kind: JointKind
    index: int | None
    length: float | None = None

    @property
    def label(self) -> str:
        return span_label(self.first, self.last)


@dataclass(frozen=True, slots=True)
class MarkRow:
    """One line of the joint table: fasteners of one joint and one length. numbers: "1–8", "2, 5–7"."""

    numbers: str
    joint: JointId
    kind: JointKind
    count: int
    length: float | None

    @property
    def count_and_kind(self) -> str:
        return counted(self.kind, self.count)


def marks_of(anatomy: Anatomy, step: Step) -> tuple[Mark, ...]:
    """The marks of a step in undoing order: every undone joint once, every fastener of it a number."""
    marks: list[Mark] = []
    first = 1
    for joint in _undone(anatomy, step):
        count = max(joint.count, 1)
        if count > SINGLE_LIMIT:
            marks.append(Mark(first, first + count - 1, joint.id, joint.kind, None))
        else:
            marks += [
                Mark(first + index, first + index, joint.id, joint.kind, index, _length(joint, index))
                for index in range(count)
            ]
        first += count
    return tuple(marks)


def mark_rows(anatomy: Anatomy, step: Step) -> tuple[MarkRow, ...]:
    """The same marks as table rows: one a joint and length, in order of their first number."""
    rows: dict[tuple[JointId, float | None], list[Mark]] = {}
    for mark in marks_of(anatomy, step):
        rows.setdefault((mark.joint, mark.length), []).append(mark)
    return tuple(
        MarkRow(
            numbers=numbers_label((mark.first, mark.last) for mark in marks),
            joint=joint,
            kind=marks[0].kind,
            count=sum(mark.last - mark.first + 1 for mark in marks),
            length=length,
        )
        for (joint, length), marks in rows.items()
    )


def numbers_label(spans: Iterable[tuple[int, int]]) -> str:
    """Spans of numbers in rising order, neighbours joined.

    >>> numbers_label([(1, 1), (2, 2), (3, 3), (7, 7)])
    '1–3, 7'
    """
    joined: list[tuple[int, int]] = []
    for first, last in spans:
        if joined and joined[-1][1] + 1 == first:
            joined[-1] = (joined[-1][0], last)
        else:
            joined.append((first, last))
    return ", ".join(span_label(first, last) for first, last in joined)


def span_label(first: int, last: int) -> str:
    return str(first) if first == last else f"{first}–{last}"


def counted(kind: JointKind, count: int) -> str:
    """A count with its kind in words: "8 screws", "1 glue run"."""
    return f"{count} {kind_word(kind, count)}"


def _undone(anatomy: Anatomy, step: Step) -> tuple[Joint, ...]:
    once = dict.fromkeys(step.undone)
    return tuple(anatomy.joints[joint] for joint in once if joint in anatomy.joints)


def _length(joint: Joint, index: int) -> float | None:
    return joint.lengths[index] if index < len(joint.lengths) else None
