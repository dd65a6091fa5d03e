"""The plan in words: what a reader who does not see it is told, and the lines below it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import JointKind
from generator.anatomy.parts import PartId
from generator.figures.plan.before import Before
from generator.figures.plan.entries import entries_in_words
from generator.figures.plan.marking import Marked
from generator.figures.plan.marks import Mark, counted, numbers_label
from generator.figures.plan.view import View
from generator.orders.work import Step, Verb

_NAMES_LIMIT = 12


def title_of(step: Step, number: int) -> str:
    return f"Plan of step {number}: {step.title}"


def desc_of(
    anatomy: Anatomy,
    step: Step,
    before: Before,
    view: View,
    marks: Sequence[Mark],
    sideways: Collection[PartId],
    undrawn: Collection[PartId],
    marked: Marked | None = None,
) -> str:
    """What the plan shows, in short sentences, in the order the eye would take it."""
    sentences = []
    if view.field is None:
        sentences.append("The parts have no places to draw, so this says in words what is done")
    elif view.on_bench:
        sentences.append("Top view of what was taken out before, at its place in the device")
    else:
        sentences.append(f"Top view, {view.face} up" if view.face else "Top view")
    sentences += [words for words in (turned(step), handled(anatomy, view)) if words]
    if marks:
        sentences.append(f"Joints: {joints_in_words(marks)}")
    if marked is not None:
        sentences += beside_marks(marked)
    sentences += motions(anatomy, view, sideways)
    sentences += [f"To check: {action.words}" for action in step.actions if action.verb is Verb.CHECK and action.words]
    for heading, parts in (
        ("Already out", [part for part in anatomy.parts if part in before.out]),
        ("Folded aside", [part for part in anatomy.parts if part in before.folded]),
        ("Not drawn, because no place is given", [part for part in anatomy.parts if part in undrawn]),
    ):
        if parts:
            sentences.append(f"{heading}: {names(anatomy, parts)}")
    if marked is not None and marked.detail is not None:
        sentences.append(f"Detail A shows the place enlarged {marked.detail.enlarged} times")
    return " ".join(sentence.rstrip(". ") + "." for sentence in sentences)


def beside_marks(marked: Marked) -> list[str]:
    """What stands beside the marks of plan and detail: lengths, what hides a joint, tools, the ways of plugs."""
    detail = marked.detail
    marks = (*marked.marks, *(detail.marks if detail else ()))
    said = []
    lengths: dict[str, list[str]] = {}
    for mark in marks:
        if mark.length and mark.label not in lengths.setdefault(mark.length, []):
            lengths[mark.length].append(mark.label)
    if lengths:
        said.append("Lengths: " + ", ".join(f"{length} mm ({', '.join(found)})" for length, found in lengths.items()))
    if marked.unmeasured:
        said.append(f"Lengths that stand in the joint table only: {', '.join(marked.unmeasured)}")
    hidden = dict.fromkeys(mark.label for mark in marks if mark.is_hidden and mark.label)
    if hidden:
        said.append(f"Hidden under something in place: {', '.join(hidden)}")
    return said + entries_in_words((*marked.entries, *(detail.entries if detail else ())))


def handled(anatomy: Anatomy, view: View) -> str:
    if view.lifted or view.folded:
        return f"In hand: {names(anatomy, view.hand)}"
    return f"Worked on: {names(anatomy, view.worked)}" if view.worked else ""


def motions(anatomy: Anatomy, view: View, sideways: Collection[PartId]) -> list[str]:
    found = []
    lifted = [part for part in view.lifted if part not in sideways]
    if lifted:
        found.append(f"Lift toward you: {names(anatomy, lifted)}")
    if sideways:
        found.append(f"Draw out sideways: {names(anatomy, tuple(sideways))}")
    if view.folded:
        found.append(f"Fold aside: {names(anatomy, view.folded)}")
    return found


def turned(step: Step) -> str:
    faces = [action.face for action in step.actions if action.verb is Verb.TURN and action.face]
    return f"The device is turned over, {faces[-1]} up" if faces else ""


def joints_in_words(marks: Iterable[Mark]) -> str:
    """Counts and kinds in undoing order, each with its numbers: 8 screws (1–8), 1 plug (9)."""
    spans: dict[tuple[str, JointKind], list[Mark]] = {}
    for mark in marks:
        spans.setdefault((mark.joint, mark.kind), []).append(mark)
    return ", ".join(
        f"{counted(kind, sum(mark.last - mark.first + 1 for mark in group))} "
        f"({numbers_label((mark.first, mark.last) for mark in group)})"
        for (_, kind), group in spans.items()
    )


def names(anatomy: Anatomy, parts: Sequence[PartId]) -> str:
    spoken = [anatomy.parts[part].name for part in parts[:_NAMES_LIMIT]]
    more = len(parts) - len(spoken)
    return ", ".join(spoken) + (f" and {more} more" if more > 0 else "")
