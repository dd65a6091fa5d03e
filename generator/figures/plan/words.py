"""The plan in words: what a reader who does not see it is told, and the lines below it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import JointKind
from generator.anatomy.parts import PartId
from generator.figures.plan.before import Before
from generator.figures.plan.entries import entries_in_words
from generator.figures.plan.marking import Marked
from generator.figures.plan.marks import Mark, counted, numbers_label
from generator.figures.plan.view import View
from generator.languages import in_digits, later, say
from generator.orders.work import Step, Verb

_NAMES_LIMIT = 12

Called = Callable[[str], str]
"""From a face as the device file names it to what readers call it."""


def title_of(step: Step, number: int) -> str:
    return say("Plan of step {number}: {title}", number=number, title=step.title)


def desc_of(
    anatomy: Anatomy,
    step: Step,
    before: Before,
    view: View,
    marks: Sequence[Mark],
    sideways: Collection[PartId],
    undrawn: Collection[PartId],
    marked: Marked | None = None,
    called: Called = str,
) -> str:
    """What the plan shows, in short sentences, in the order the eye would take it."""
    sentences = []
    if view.field is None:
        sentences.append(say("The parts have no places to draw, so this says in words what is done"))
    elif view.on_bench:
        sentences.append(say("Top view of what was taken out before, at its place in the device"))
    else:
        sentences.append(say("Top view, {face} up", face=called(view.face)) if view.face else say("Top view"))
    sentences += [words for words in (turned(step, called), handled(anatomy, view)) if words]
    if marks:
        sentences.append(say("Joints: {joints}", joints=joints_in_words(marks)))
    if marked is not None:
        sentences += beside_marks(marked)
    sentences += motions(anatomy, view, sideways)
    checks = [action.words for action in step.actions if action.verb is Verb.CHECK and action.words]
    sentences += [say("To check: {words}", words=words) for words in checks]
    for sentence, parts in (
        (later("Already out: {parts}"), [part for part in anatomy.parts if part in before.out]),
        (later("Folded aside: {parts}"), [part for part in anatomy.parts if part in before.folded]),
        (later("Not drawn, because no place is given: {parts}"), [part for part in anatomy.parts if part in undrawn]),
    ):
        if parts:
            sentences.append(say(sentence, parts=names(anatomy, parts)))
    if marked is not None and marked.detail is not None:
        sentences.append(say("Detail A shows the place enlarged {times} times", times=in_digits(marked.detail.enlarged)))
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
        each = ", ".join(f"{length} mm ({', '.join(found)})" for length, found in lengths.items())
        said.append(say("Lengths: {lengths}", lengths=each))
    if marked.unmeasured:
        unmeasured = ", ".join(marked.unmeasured)
        said.append(say("Lengths that stand in the joint table only: {numbers}", numbers=unmeasured))
    hidden = dict.fromkeys(mark.label for mark in marks if mark.is_hidden and mark.label)
    if hidden:
        said.append(say("Hidden under something in place: {numbers}", numbers=", ".join(hidden)))
    return said + entries_in_words((*marked.entries, *(detail.entries if detail else ())))


def handled(anatomy: Anatomy, view: View) -> str:
    if view.lifted or view.folded:
        return say("In hand: {parts}", parts=names(anatomy, view.hand))
    return say("Worked on: {parts}", parts=names(anatomy, view.worked)) if view.worked else ""


def motions(anatomy: Anatomy, view: View, sideways: Collection[PartId]) -> list[str]:
    found = []
    lifted = [part for part in view.lifted if part not in sideways]
    if lifted:
        found.append(say("Lift toward you: {parts}", parts=names(anatomy, lifted)))
    if sideways:
        found.append(say("Draw out sideways: {parts}", parts=names(anatomy, tuple(sideways))))
    if view.folded:
        found.append(say("Fold aside: {parts}", parts=names(anatomy, view.folded)))
    return found


def turned(step: Step, called: Called) -> str:
    faces = [action.face for action in step.actions if action.verb is Verb.TURN and action.face]
    return say("The device is turned over, {face} up", face=called(faces[-1])) if faces else ""


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
    shown = ", ".join(spoken)
    return say("{names} and {number} more", names=shown, number=more) if more > 0 else shown
