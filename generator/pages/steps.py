"""The steps of the way out, each as a finished view."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.anatomy.parts import JointId, PartId
from generator.figures.plan.before import before_each
from generator.figures.plan.drawing import plan_figure
from generator.figures.plan.geometry import plan_of
from generator.figures.svg import ident
from generator.figures.tools.drawing import tool_drawing
from generator.languages import say
from generator.orders.guide import Guide
from generator.orders.numbering import back_number, part_numbers
from generator.orders.work import Step, StepId, ToolId, linked
from generator.pages.actions import ActionLine, out_lines
from generator.pages.addresses import CORRECTION, LinkOf, anchor, film_address, source_address
from generator.pages.cautions import Panel, keys_of, panels_of
from generator.pages.codes import code_for_step
from generator.pages.figures import RailView, RunStacks, rail_view
from generator.pages.joints import JointRowView, joint_rows
from generator.pages.photos import PhotoView
from generator.pages.survey import Survey
from generator.pages.typography import DASH, NO_BREAK, about_minutes, capital, held, measure
from generator.pages.wording import foreign_language, prose_html
from generator.source.values import clock


@dataclass(frozen=True, slots=True)
class ToolView:
    name: str
    href: str
    drawing: Markup


@dataclass(frozen=True, slots=True)
class PartOutView:
    """A part that a step takes out, for the list of steps; id is that of the part on this page."""

    id: str
    number: str
    name: str
    href: str


@dataclass(frozen=True, slots=True)
class StepView:
    """A step of the way out. guide_number: its number in the whole guide, where this page counts anew; former: old ids.

    foreign: the language of its title where that is not the page's.

    panels stand before the work; lines is the work in words, prose the author's text; plan and photos show it.
    """

    id: str
    former: tuple[str, ...]
    heading_id: str
    number: str
    title: str
    foreign: str
    back_number: str
    back_href: str
    guide_number: str
    guide_href: str
    depth: str
    film: str
    film_href: str
    source_href: str
    form_href: str
    minutes: str
    safety: str
    panels: tuple[Panel, ...]
    tools: tuple[ToolView, ...]
    work_label: str
    lines: tuple[ActionLine, ...]
    prose: Markup
    joints_label: str
    joints: tuple[JointRowView, ...]
    parts: tuple[PartOutView, ...]
    plan: Markup
    rail: RailView
    stack: Markup
    photos: tuple[PhotoView, ...]
    code: Markup


@dataclass(frozen=True, slots=True)
class Numbering:
    """The numbers of one page: of its steps out, of the same steps back, and of the parts they take out."""

    out: Mapping[StepId, int]
    back: Mapping[StepId, int]
    parts: Mapping[PartId, str]


def numbering_of(steps: Sequence[Step], has_back: bool = True) -> Numbering:
    """With N steps out, step n comes back as 2N+1-n."""
    out = {step.id: number for number, step in enumerate(steps, 1)}
    back = {step: back_number(number, len(steps)) for step, number in out.items()} if has_back else {}
    return Numbering(out, back, part_numbers(steps))


def step_views(
    survey: Survey,
    steps: Sequence[Step],
    numbers: Numbering,
    link_of: LinkOf,
    *,
    is_whole: bool,
    stacks: RunStacks,
    safety: frozenset[StepId] = frozenset(),
    coded: str = "",
    only: StepId | None = None,
) -> tuple[StepView, ...]:
    """The steps in the order given, turns already added. is_whole: this page is the whole guide, its numbers are those.

    coded: the path of the page from the site's folder where every step of it has a code on paper. only: the one step that is
    wanted, as it is after those before it.
    """
    guide = survey.guide
    faces = guide.device.faces
    gone: frozenset[PartId] = frozenset()
    anchored: set[JointId] = set()
    told: frozenset[str] = frozenset()
    views = []
    for place, (step, before) in enumerate(zip(steps, before_each(steps, faces), strict=True), 1):
        number = numbers.out[step.id]
        panels = panels_of(guide, step, told)
        told |= keys_of(panels)
        fresh = frozenset(step.undone) - anchored
        anchored |= fresh
        if only not in (None, step.id):
            gone |= _taken(guide, step)
            continue
        plan = plan_of(
            guide.anatomy, step, before, number=number, faces=faces, size=guide.device.size, called=guide.word
        )
        address = film_address(guide.device, step)
        source = source_address(survey.library.sources, step.place.file, step.place.line)
        back = numbers.back.get(step.id)
        whole = guide.number_of.get(step.id)
        views.append(
            StepView(
                id=anchor("step", step.id),
                former=tuple(anchor("step", old) for old in step.formerly),
                heading_id=f"heading-{number}",
                number=str(number),
                title=step.title,
                foreign=foreign_language(guide, f"step:{step.id}"),
                back_number=str(back) if back else "",
                back_href=f"#{anchor('back', step.id)}" if back else "",
                guide_number="" if is_whole else guide_number(whole),
                guide_href="" if is_whole else link_to_whole(step),
                depth=depth_words(guide, step),
                film=film_words(step),
                film_href=address or "",
                source_href=source or "",
                form_href="" if source else CORRECTION,
                minutes=about_minutes(step.takes) if step.takes is not None else "",
                safety=say("Kept for safety: the part could be reached without it, but not without danger.")
                if step.id in safety
                else "",
                panels=panels,
                tools=_tools(guide, step, link_of),
                work_label=say("Work of step {number}", number=number),
                lines=out_lines(guide, step, gone),
                prose=prose_html(step.body, link_of, foreign_language(guide, f"step:{step.id}")),
                joints_label=say("Joints of step {number}, numbered as in its plan", number=number),
                joints=joint_rows(guide, step, fresh),
                parts=_parts(guide, step, numbers, gone),
                plan=Markup(plan_figure(plan, ident("plan", str(number)))),
                rail=rail_view(guide, steps, place),
                stack=stacks.out(number - 1),
                photos=survey.photos.get(step.id, ()),
                code=code_for_step(survey.library, coded, anchor("step", step.id)) if coded else Markup(),
            )
        )
        gone |= _taken(guide, step)
    return tuple(views)


def _taken(guide: Guide, step: Step) -> frozenset[PartId]:
    return frozenset(part for lifted in step.lifted for part in guide.anatomy.assembly(lifted))


def ids_of(guide: Guide, steps: Sequence[Step], numbers: Numbering) -> frozenset[str]:
    """The ids that the steps of a page, and the list of them, carry."""
    found = {anchor("step", step.id) for step in steps}
    found |= {anchor("joint", joint) for step in steps for joint in step.undone}
    found |= {anchor("part", part) for part in numbers.parts}
    return frozenset(found)


def guide_number(number: int | None) -> str:
    if number is None:
        return say("a shorter way, not in the whole guide")
    return say("step~{number} of the whole guide", number=number)


def link_to_whole(step: Step) -> str:
    return f"guide.html#{anchor('step', step.id)}"


def depth_words(guide: Guide, step: Step) -> str:
    """How deep the parts of a step lie: mm from the face they are told from; empty where no depth is written."""
    spans: dict[str, list[float]] = {}
    for name in step.lifted:
        part = guide.part(name)
        if part.depth is not None and part.thickness is not None:
            spans.setdefault(part.face, []).extend((part.depth, part.depth + part.thickness))
    told = []
    for face, depths in spans.items():
        depth = f"{measure(min(depths), 1)}{DASH}{measure(max(depths), 1)}{NO_BREAK}mm"
        if face == guide.device.faces[0]:
            told.append(say("{depth} deep", depth=depth))
        else:
            told.append(say("{depth} deep from the {face}", depth=depth, face=guide.word(face)))
    return ", ".join(told)


def film_words(step: Step) -> str:
    if step.film is None:
        return ""
    return say("film~{time}", time=clock(step.film[0]))


def _tools(guide: Guide, step: Step, link_of: LinkOf) -> tuple[ToolView, ...]:
    used = dict.fromkeys(tool for action in step.actions for tool in guide.tools_of(action))
    used |= dict.fromkeys(ToolId(tool) for tool in linked(step.body, "tool", guide.tools))
    return tuple(
        ToolView(held(capital(guide.tools[tool].name)), link_of("tool", tool) or "", Markup(tool_drawing(guide.tools[tool])))
        for tool in used
    )


def _parts(guide: Guide, step: Step, numbers: Numbering, gone: frozenset[PartId]) -> tuple[PartOutView, ...]:
    fresh = [part for part in dict.fromkeys(step.lifted) if part not in gone or guide.part(part).inside is not None]
    own = str(numbers.out[step.id])
    return tuple(
        PartOutView(anchor("part", part), numbers.parts[part], guide.part(part).name, f"index.html#{anchor('part', part)}")
        for part in fresh
        if numbers.parts[part].partition(".")[0] == own
    )
