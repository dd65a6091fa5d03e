"""The plan of a step, put together: what is seen, its sheet, the marks, the motion, the side and the words."""

from __future__ import annotations

from collections.abc import Sequence

from generator.anatomy.device import Anatomy
from generator.anatomy.parts import Point
from generator.figures.plan import words
from generator.figures.plan.before import Before
from generator.figures.plan.elevation import elevation_of
from generator.figures.plan.entries import wishes_of
from generator.figures.plan.marking import MARKS_LIMITS, Marked, Scene, mark, numbered_joints, shared
from generator.figures.plan.marks import Mark, marks_of
from generator.figures.plan.motion import ground_of, ground_of_turn, motion_of, slides_of, turn_of
from generator.figures.plan.rows import joint_row, rows_of
from generator.figures.plan.shapes import Caption, Motion, Pane, Plan, Row
from generator.figures.plan.sheet import captions_of, layout_of, scale_bar_of, ticks_of
from generator.figures.plan.stacking import box_of
from generator.figures.plan.view import View, device_shape, drawn_out, shapes_of, view_of
from generator.languages import in_digits, say
from generator.orders.work import Step, Verb

WORDS_WIDTH = 345.0  # units, of a plan that is told in words only


def plan_of(
    anatomy: Anatomy,
    step: Step,
    before: Before,
    *,
    number: int,
    faces: tuple[str, ...],
    size: tuple[float, float] | None = None,
    called: words.Called = str,
) -> Plan:
    """The plan of one step.

    before: what is out and folded aside, and the face up, when the step begins. number: of the step, for its title.
    faces: the device's, and what readers call them by `called`; size: its width and height in mm, worked out from the
    boxes if absent. There is a plan for any content: what has no place is told in words below the drawing, or instead.
    """
    view = view_of(anatomy, step, before, faces, size)
    marks = marks_of(anatomy, step)
    title = words.title_of(step, number)
    if view.field is None:
        return _plan_in_words(anatomy, step, before, view, marks, title, called)
    field = view.box(view.field)
    layout = layout_of(anatomy, view, field, faces)
    shapes, over = shapes_of(anatomy, view, before)
    sideways = drawn_out(view, over)
    scene = Scene(layout, device_shape(anatomy, view, view.field), shapes, over, _runs(anatomy, step, view))
    numbered = numbered_joints(anatomy, step, view, marks, layout.pane, shapes)
    slides = slides_of(anatomy, view, layout.pane, sideways)
    turn = turn_of(step, view, layout)
    arrows = (*(ground_of(arrow) for arrow in slides.values()), *ground_of_turn(*turn))
    said = (title, words.joints_in_words(marks))

    def attempt(limit: int) -> Marked:
        """Marks that share one number plate leave dots at their places: done where the page would be all leaders."""
        spots, dots = shared(numbered.spots, limit)
        wishes = wishes_of(anatomy, step, view, [(spot.joint, spot.label, spot.at) for spot in spots])
        return mark(scene, view, spots, dots, wishes, arrows, said)

    marked = next((found for limit in MARKS_LIMITS if (found := attempt(limit)).is_calm), None) or attempt(MARKS_LIMITS[-1])
    detail = marked.detail
    placeless = [
        *(Row(0, anatomy.parts[part].name) for part in view.hand if box_of(anatomy, part) is None),
        *numbered.placeless,
        *(
            Row(0, say("{number}: see the joint table", number=mark.label), mark.kind, sign=mark.sign)
            for mark in marked.homeless
        ),
    ]
    heading = say("without a place in the drawing")
    rows = rows_of(heading, placeless, layout.width, layout.bottom + 14) if placeless else ()
    bar = scale_bar_of(layout.pane, field, layout)
    undrawn = {part for part in (*view.present, *view.hand) if anatomy.parts[part].box is None}
    return Plan(
        title=title,
        desc=words.desc_of(anatomy, step, before, view, marks, sideways, undrawn, marked, called),
        width=layout.width,
        height=(rows[-1].y + 18) if rows else layout.bottom,
        pane=layout.pane,
        device=scene.device,
        is_on_bench=view.on_bench,
        shapes=shapes,
        over=over,
        runs=scene.runs,
        dots=marked.dots,
        ticks=ticks_of(layout.pane, field),
        marks=marked.marks,
        lengths=marked.lengths,
        entries=marked.entries,
        motion=motion_of(anatomy, step, view, layout, marked.taken, detail, slides, turn),
        elevation=elevation_of(anatomy, view, layout, field, (*shapes, *over), sideways, marked.taken),
        detail=detail,
        captions=(*captions_of(view, layout, called), Caption(f"{in_digits(bar.length)} mm", bar.words_at, "scale")),
        scale_bar=(bar.start, bar.end),
        rows=rows,
    )


def _runs(anatomy: Anatomy, step: Step, view: View) -> tuple[tuple[Point, ...], ...]:
    """Runs of glue the author drew, of the joints undone or softened in the step."""
    named = dict.fromkeys(action.joint for action in step.actions if action.joint in anatomy.joints)
    joints = [anatomy.joints[joint] for joint in named if joint is not None]
    return tuple(tuple(view.point(point) for point in joint.run) for joint in joints if len(joint.run) > 1)


def _plan_in_words(
    anatomy: Anatomy,
    step: Step,
    before: Before,
    view: View,
    marks: Sequence[Mark],
    title: str,
    called: words.Called,
) -> Plan:
    """The plan of a device that has no boxes: parts in hand, joints and motions, each with its mark."""
    first = {mark.joint: mark.first for mark in reversed(marks)}
    turned = words.turned(step, called)
    told = [
        *([Row(0, turned, "turn")] if turned else []),
        *(joint_row(anatomy.joints[joint], first[joint]) for joint in dict.fromkeys(mark.joint for mark in marks)),
        *(Row(0, anatomy.parts[part].name, "lift") for part in view.lifted),
        *(Row(0, anatomy.parts[part].name, "fold") for part in view.folded),
        *(Row(0, action.words) for action in step.actions if action.verb is Verb.CHECK and action.words),
    ]
    told = told or [Row(0, anatomy.parts[part].name) for part in view.worked] or [Row(0, step.title)]
    heading = say("{face} up", face=called(view.face)) if view.face else say("what is done")
    rows = rows_of(heading, told, WORDS_WIDTH, 30)
    return Plan(
        title=title,
        desc=words.desc_of(anatomy, step, before, view, marks, (), (), called=called),
        width=WORDS_WIDTH,
        height=rows[-1].y + 26,
        pane=Pane(0.0, 0.0, (0.0, 0.0), 1.0, 1.0),
        device=None,
        is_on_bench=view.on_bench,
        shapes=(),
        over=(),
        runs=(),
        dots=(),
        ticks=(),
        marks=(),
        lengths=(),
        entries=(),
        motion=Motion(),
        elevation=None,
        detail=None,
        captions=(),
        scale_bar=None,
        rows=rows,
    )
