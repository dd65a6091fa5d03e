"""The whole guide of a device on one page: every step out, then the way back."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from generator.figures.rail.hatches import rail_patterns
from generator.languages import say, say_many
from generator.orders.accounts import accounts_of
from generator.orders.guide import Guide
from generator.orders.routes import Route
from generator.orders.work import Step
from generator.pages.addresses import DEVICE, TOOLS, WHOLE, anchor, links_from, route_page, source_address
from generator.pages.back import BackStepView, LeftoverView, back_views, leftover_of
from generator.pages.bench import BenchView, bench_of
from generator.pages.cautions import Panel, stop_panel
from generator.pages.codes import CodeLine, code_line
from generator.pages.figures import MapView, StackView, map_of, run_stacks, stack_view
from generator.pages.frame import Crumb, Fact, FrameView, frame_of
from generator.pages.joints import joints_words
from generator.pages.leaves import Leaves, leaves_of
from generator.pages.library import PartLink
from generator.pages.scripts import READING
from generator.pages.steps import Numbering, StepView, ids_of, numbering_of, step_views
from generator.pages.survey import Survey
from generator.pages.tray import tray_links
from generator.pages.typography import about_minutes, listed, steps_out


@dataclass(frozen=True, slots=True)
class OtherWayView:
    """A step outside the order that ways to single parts use."""

    id: str
    title: str
    words: str
    uses: tuple[PartLink, ...]


@dataclass(frozen=True, slots=True)
class WithheldView:
    """A step that is named, but not shown."""

    id: str
    number: str
    title: str


@dataclass(frozen=True, slots=True)
class WholePage:
    frame: FrameView
    name: str
    device_href: str
    lede: str
    block: tuple[Fact, ...]
    bench: BenchView
    steps: tuple[StepView, ...]
    stop: Panel | None
    withheld: tuple[WithheldView, ...]
    back: tuple[BackStepView, ...]
    leftover: LeftoverView
    others: tuple[OtherWayView, ...]
    leaves: Leaves
    patterns: Markup
    map: MapView | None
    stack: StackView | None
    trays: tuple[Crumb, ...]
    code: CodeLine


def whole_page(survey: Survey) -> WholePage:
    guide = survey.guide
    steps = survey.shown
    numbers = numbering_of(steps)
    accounts = accounts_of(guide, steps)
    ids = ids_of(guide, steps, numbers)
    ids |= {anchor("tool", use.tool.id) for use in accounts.tools}
    ids |= {anchor("supply", use.supply.id) for use in accounts.supplies}
    ids |= {anchor("step", step.id) for step in guide.steps}
    link_of = links_from(guide, ids)
    count = len(steps)
    stacks = run_stacks(guide, steps)
    seconds = accounts.seconds
    minutes = [Fact(say("Minutes"), say("{time} out", time=about_minutes(seconds)))] if seconds is not None else []
    return WholePage(
        frame=frame_of(
            survey.library,
            path=f"{guide.id}/{WHOLE}",
            title=f"{say('{device}, the whole guide', device=guide.device.name)} – {survey.library.title}",
            description=say_many(
                "{device} taken apart and put back, {n}~step each way.",
                "{device} taken apart and put back, {n}~steps each way.",
                count,
                device=guide.device.name,
            ),
            crumbs=(
                Crumb(survey.library.title, "../index.html"),
                Crumb(guide.device.name, DEVICE),
                Crumb(say("The whole guide"), ""),
            ),
            skip=("#out", say("Skip to the steps")) if steps else ("#top", say("Skip to the guide")),
            source_href=source_address(survey.library.sources, f"{guide.id}/device.yaml"),
            scripts=READING if steps else (),
        ),
        name=guide.device.name,
        device_href=DEVICE,
        lede=_lede(guide, steps, numbers),
        block=(
            Fact(say("Sheet"), say("whole device")),
            Fact(say("Steps"), steps_out(count, len(guide.order))),
            Fact(say("Joints"), joints_words(accounts)),
            *minutes,
        ),
        bench=bench_of(accounts, numbers.out, numbers.back, f"../{TOOLS}"),
        steps=step_views(survey, steps, numbers, link_of, is_whole=True, stacks=stacks),
        stop=stop_panel(guide.part(survey.stop.part).name, survey.stop.reason) if survey.stop else None,
        withheld=tuple(
            WithheldView(anchor("step", step.id), str(guide.number_of[step.id]), step.title)
            for step in guide.order[len(steps) :]
        ),
        back=back_views(guide, steps, numbers, link_of, stacks),
        leftover=leftover_of(guide, accounts, numbers, None),
        others=tuple(_other_way(survey, step) for step in guide.alternatives),
        leaves=leaves_of(steps, numbers, "", has_hand=False),
        patterns=Markup(rail_patterns()),
        stack=stack_view(guide, steps, stacks),
        trays=tray_links(guide, steps, None),
        code=code_line(survey.library, f"{guide.id}/{WHOLE}"),
        map=None if survey.stop else map_of(guide, guide.order, [step.id for step in guide.steps], is_route=False),
    )


def _lede(guide: Guide, steps: tuple[Step, ...], numbers: Numbering) -> str:
    if not steps:
        return say("No step of this guide can be shown.")
    last = len(steps)
    middle = steps[last // 2]
    return say(
        "One number holds everywhere: a part has the number of the step that takes it out, and the count runs on into "
        "the way back, so that step {out} out is step {back} back.",
        out=numbers.out[middle.id],
        back=numbers.back[middle.id],
    )


def _other_way(survey: Survey, step: Step) -> OtherWayView:
    guide = survey.guide
    parts = [guide.part(part).name for part in step.lifted]
    uses = [
        PartLink(guide.part(part).name, route_page(part))
        for part in survey.pages
        if isinstance(way := survey.ways[part], Route) and any(other.id == step.id for other in way.steps)
    ]
    words = say("It takes out the {parts}.", parts=listed(parts)) if parts else ""
    used = say("Used on the way") if uses else ""
    return OtherWayView(anchor("step", step.id), step.title, " ".join(word for word in (words, used) if word), tuple(uses))
