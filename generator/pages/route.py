"""The page of one part: the way to it, the part in the hand, and the way back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from generator.anatomy.parts import PartId
from generator.figures.rail.hatches import rail_patterns
from generator.languages import say, say_many
from generator.orders.accounts import Accounts, accounts_of
from generator.orders.guide import Guide
from generator.orders.routes import NoRoute, Route
from generator.orders.work import Step
from generator.pages.addresses import DEVICE, TOOLS, anchor, links_from, route_page, source_address
from generator.pages.back import BackStepView, LeftoverView, back_views, leftover_of
from generator.pages.beforehand import BeforeView, beforehand
from generator.pages.bench import BenchView, bench_of
from generator.pages.cautions import Panel, stop_panel
from generator.pages.codes import CodeLine, code_line
from generator.pages.device import notes_of
from generator.pages.figures import MapView, StackView, map_of, run_stacks, stack_view
from generator.pages.film import FilmView, film_of_run
from generator.pages.frame import Crumb, Fact, FrameView, frame_of
from generator.pages.howto import first_photo, how_to
from generator.pages.joints import joints_words
from generator.pages.leaves import Leaves, leaves_of
from generator.pages.scripts import READING
from generator.pages.steps import StepView, ids_of, numbering_of, step_views
from generator.pages.survey import Survey, up_to_stop, with_turns
from generator.pages.tray import tray_links
from generator.pages.typography import about_minutes, capital, listed, quoted, steps_out, times
from generator.rules.sentences import reason_sentence


@dataclass(frozen=True, slots=True)
class RoutePage:
    """hand: what to do with the part once it is out, empty where the page stops before. stop is set where it does."""

    frame: FrameView
    part: str
    device: str
    device_href: str
    lede: str
    block: tuple[Fact, ...]
    facts: tuple[str, ...]
    note_href: str
    alternatives: tuple[str, ...]
    safety: str
    before: BeforeView
    bench: BenchView
    steps: tuple[StepView, ...]
    stop: Panel | None
    stop_at: str
    hand: str
    hand_text: tuple[str, ...]
    back: tuple[BackStepView, ...]
    leftover: LeftoverView
    leaves: Leaves
    patterns: Markup
    map: MapView | None
    stack: StackView | None
    trays: tuple[Crumb, ...]
    film: FilmView | None
    code: CodeLine


@dataclass(frozen=True, slots=True)
class BlockedPage:
    """The page of a part to which the guide has no way: why not, in sentences."""

    frame: FrameView
    part: str
    device: str
    device_href: str
    reasons: tuple[str, ...]
    facts: tuple[str, ...]
    note_href: str


def part_page(survey: Survey, part: PartId) -> RoutePage | BlockedPage:
    """The page of `part`, whose way is in the survey."""
    way = survey.ways[part]
    return _blocked_page(survey, part, way) if isinstance(way, NoRoute) else _route_page(survey, part, way)


def _route_page(survey: Survey, part: PartId, route: Route) -> RoutePage:
    guide = survey.guide
    name = guide.part(part).name
    shown, stop = up_to_stop(guide, with_turns(route.steps, route.added_turns))
    numbers = numbering_of(shown)
    accounts = accounts_of(guide, shown)
    ids = ids_of(guide, shown, numbers)
    ids |= {anchor("tool", use.tool.id) for use in accounts.tools}
    ids |= {anchor("supply", use.supply.id) for use in accounts.supplies}
    link_of = links_from(guide, ids)
    fresh = None if stop else part
    stacks = run_stacks(guide, shown)
    kept = frozenset(step.id for step in route.safety)
    path = f"{guide.id}/{route_page(part)}"
    stop_step = say("The next step would be “{step}”. It is not shown.", step=stop.step.title) if stop else ""
    about = say_many(
        "The way to the {part} and back: {n}~step out.",
        "The way to the {part} and back: {n}~steps out.",
        len(shown),
        part=name,
    )
    return RoutePage(
        frame=_frame(survey, part, about, bool(shown)),
        part=name,
        device=guide.device.name,
        device_href=DEVICE,
        lede=_lede(survey, part, route, shown),
        block=_block(route, accounts, shown),
        facts=_facts(guide, part),
        note_href=next(iter(notes_of(survey, part)), ""),
        alternatives=tuple(_alternative(guide, route, other) for other in route.alternatives),
        safety=_safety(route),
        before=beforehand(survey, shown, part),
        bench=bench_of(accounts, numbers.out, numbers.back, f"../{TOOLS}"),
        steps=step_views(survey, shown, numbers, link_of, is_whole=False, stacks=stacks, safety=kept, coded=path),
        stop=stop_panel(guide.part(stop.part).name, stop.reason) if stop else None,
        stop_at=stop_step,
        hand="" if stop else capital(say("Now the {part} is in your hand", part=name)),
        hand_text=() if stop else _hand_text(guide, part),
        back=back_views(guide, shown, numbers, link_of, stacks, fresh),
        leftover=leftover_of(guide, accounts, numbers, fresh),
        leaves=leaves_of(shown, numbers, name, has_hand=not stop),
        patterns=Markup(rail_patterns()),
        stack=stack_view(guide, shown, stacks),
        trays=tray_links(guide, shown, part),
        film=film_of_run(survey, part, shown),
        code=code_line(survey.library, path),
        map=None if stop else map_of(guide, shown, [step.id for step in shown], is_route=True),
    )


def _blocked_page(survey: Survey, part: PartId, way: NoRoute) -> BlockedPage:
    guide = survey.guide
    name = guide.part(part).name
    reasons = [
        capital(reason_sentence(guide, reason))
        for blocked in way.blocked
        if blocked.part == part
        for reason in blocked.in_the_way
    ]
    return BlockedPage(
        frame=_frame(survey, part, say("There is no way to the {part} in this guide.", part=name), False),
        part=name,
        device=guide.device.name,
        device_href=DEVICE,
        reasons=tuple(reasons) or (say("No step of this guide takes the {part} out.", part=name),),
        facts=_facts(guide, part),
        note_href=next(iter(notes_of(survey, part)), ""),
    )


def _frame(survey: Survey, part: PartId, description: str, has_steps: bool = True) -> FrameView:
    guide = survey.guide
    name = guide.part(part).name
    return frame_of(
        survey.library,
        path=f"{guide.id}/{route_page(part)}",
        title=f"{say('To the {part}', part=name)} – {guide.device.name}",
        description=description,
        crumbs=(
            Crumb(survey.library.title, "../index.html"),
            Crumb(guide.device.name, DEVICE),
            Crumb(say("To the {part}", part=name), ""),
        ),
        skip=("#out", say("Skip to the steps")) if has_steps else ("#top", say("Skip to the text")),
        source_href=source_address(survey.library.sources, f"{guide.id}/device.yaml"),
        scripts=READING if has_steps else (),
        image=first_photo(survey, _shown(survey, part)),
        structured=_how_to(survey, part, description) if has_steps else None,
    )


def _shown(survey: Survey, part: PartId) -> tuple[Step, ...]:
    """The steps that the page of a part shows."""
    way = survey.ways[part]
    return up_to_stop(survey.guide, with_turns(way.steps, way.added_turns))[0] if isinstance(way, Route) else ()


def _how_to(survey: Survey, part: PartId, description: str) -> Mapping[str, Any]:
    guide, page = survey.guide, route_page(part)
    steps = _shown(survey, part)
    return how_to(
        survey,
        steps,
        accounts_of(guide, steps),
        path=f"{guide.id}/{page}",
        steps_page=page,
        name=say("{device}: the way to the {part}", device=guide.device.name, part=guide.part(part).name),
        description=description,
        part=guide.part(part),
    )


def _lede(survey: Survey, part: PartId, route: Route, shown: Sequence[Step]) -> str:
    """What this page has; shown: the steps of the route up to where it stops."""
    guide = survey.guide
    name = guide.part(part).name
    own = sum(step.id in guide.number_of for step in shown)
    kept = say_many(
        "This page has {own} of the {n}~step of the whole guide",
        "This page has {own} of the {n}~steps of the whole guide",
        len(guide.order),
        own=own,
    )
    if own < len(shown):
        kept = say_many(
            "{steps} and {n}~step of a shorter way", "{steps} and {n}~steps of a shorter way", len(shown) - own, steps=kept
        )
    if len(shown) < len(route.steps):
        return say("{steps}. It ends where licensed practice begins, before the {part} is out.", steps=kept, part=name)
    lede = say("{steps}: only what stands between you and the {part}.", steps=kept, part=name)
    if route.seconds is not None and route.cost == route.seconds:
        proven = say("No way through this guide is quicker.") if route.is_optimal else say("A quicker way may exist.")
    else:
        proven = say("No way through this guide is shorter.") if route.is_optimal else say("A shorter way may exist.")
    return f"{lede} {proven}"


def _block(route: Route, accounts: Accounts, shown: Sequence[Step]) -> tuple[Fact, ...]:
    """The figures of the page. accounts: of the steps shown, so that they count what stands on the page."""
    is_stopped = len(shown) < len(route.steps)
    facts = [
        Fact(say("Steps"), steps_out(len(shown), len(route.steps))),
        Fact(say("Joints"), joints_words(accounts)),
    ]
    if accounts.seconds is not None:
        facts.append(Fact(say("Minutes"), say("{time} out", time=about_minutes(accounts.seconds))))
    facts.append(Fact(say("Turned over"), times(accounts.turns)))
    facts.append(Fact(say("Tools"), _tools_words(len(accounts.tools), route.tool_changes, is_stopped)))
    return tuple(facts)


def _tools_words(tools: int, changes: int, is_stopped: bool) -> str:
    if not tools:
        return say("none")
    if is_stopped or not changes:
        return str(tools)
    return say("{tools}, changed {times}", tools=tools, times=times(changes))


def _facts(guide: Guide, name: PartId) -> tuple[str, ...]:
    """What is known about the part itself."""
    part = guide.part(name)
    facts = []
    if part.spare_number or part.spare_price:
        told = [say("number {number}", number=part.spare_number) if part.spare_number else "", part.spare_price or ""]
        facts.append(say("Spare part: {words}.", words=", ".join(word for word in told if word)))
    if name in guide.device.paired:
        facts.append(
            say("It is tied to the device by its serial number. A new one may not work fully unless the maker lets it.")
        )
    return tuple(facts)


def _alternative(guide: Guide, best: Route, other: Route) -> str:
    """A near-best way in words: what is done instead of what, and what that costs."""
    ours, theirs = {step.id for step in best.steps}, {step.id for step in other.steps}
    added = listed([quoted(step.title) for step in other.steps if step.id not in ours])
    spared = listed([quoted(step.title) for step in best.steps if step.id not in theirs])
    if added and spared:
        done = say("Do {steps} instead of {others}", steps=added, others=spared)
    else:
        done = say("Do {steps} as well", steps=added) if added else say("Leave out {steps}", steps=spared)
    cost = say_many("{n}~step out", "{n}~steps out", len(other.steps))
    if other.seconds is not None:
        cost = f"{cost}, {about_minutes(other.seconds)}"
    return f"{done}: {cost}."


def _safety(route: Route) -> str:
    if not route.safety:
        return ""
    return say("Kept for safety: {steps}.", steps=listed([quoted(step.title) for step in route.safety]))


def _hand_text(guide: Guide, name: PartId) -> tuple[str, ...]:
    part = guide.part(name)
    text = [say("Put in the new one. The way back begins here; its numbers run on.")]
    if part.cell is not None:
        text.append(say("Tape over the contacts of the old one and hand it in as a used battery."))
    return tuple(text)
