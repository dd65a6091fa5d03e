"""The page of a device: what can be reached, what is needed, every part and every fastener, what to beware of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.anatomy.joints import Joint
from generator.anatomy.parts import Part, PartId
from generator.figures.glyphs import joint_figure
from generator.figures.stack.drawing import Way, Ways
from generator.figures.trade_words import drive_words, head_words
from generator.indices.scores import Scores, scores_of
from generator.languages import day, say, say_as, say_many
from generator.orders.accounts import accounts_of, depth_on
from generator.orders.guide import Guide
from generator.orders.routes import NoRoute, Route
from generator.orders.work import Step
from generator.pages.addresses import (
    CHANGES,
    DEVICE,
    SEVERAL,
    SEVERAL_DATA,
    TOOLS,
    WHOLE,
    anchor,
    is_web,
    links_from,
    route_page,
    source_address,
)
from generator.pages.bench import BenchView, bench_of
from generator.pages.cautions import Panel, gathered
from generator.pages.credits import CreditsView, credits_of
from generator.pages.depths import DepthView, depths_of
from generator.pages.feed import summary_words
from generator.pages.figures import MapView, StackView, map_of, run_stacks, stack_view
from generator.pages.film import FilmView, film_of_device
from generator.pages.frame import Crumb, Fact, FrameView, frame_of
from generator.pages.howto import first_photo, how_to
from generator.pages.index_card import CardView, card_of
from generator.pages.joints import count_words, held_by, joint_extent, joints_words, size_words, torque_words
from generator.pages.scripts import CHOOSING
from generator.pages.several import reached_parts
from generator.pages.spares import FitLink, also_fits
from generator.pages.steps import numbering_of
from generator.pages.survey import Survey, up_to_stop
from generator.pages.typography import (
    NO_BREAK,
    TIMES,
    about_minutes,
    capital,
    counted,
    exact,
    held,
    listed,
    measure,
    quantity,
    steps_out,
    steps_words,
    times,
)
from generator.pages.wording import foreign_language, prose_html
from generator.source.values import clock

NAMES_LIMIT = 3
"""Names that a line of figures holds; more are counted."""


@dataclass(frozen=True, slots=True)
class WayRow:
    """A line of "I came for the...": a part and what its way takes. Figures are empty where there is no way."""

    part: str
    href: str
    steps: str
    joints: str
    minutes: str
    note: str


@dataclass(frozen=True, slots=True)
class PartRow:
    """A line of the parts table. depth: steps, actions and other parts on the way to it; href: its own page, if any.

    former: ids it had before; fits: other devices that take the same spare, fits_more: how many more.
    """

    id: str
    former: tuple[str, ...]
    number: str
    number_href: str
    name: str
    href: str
    held: str
    size: str
    material: str
    depth: str
    spare: str
    fits: tuple[FitLink, ...]
    fits_more: str


@dataclass(frozen=True, slots=True)
class ScrewRow:
    size: str
    drive: str
    count: str
    steps: str


@dataclass(frozen=True, slots=True)
class JointRow:
    """A joint of the device; step is where it is undone, again what it needs on the way back."""

    id: str
    glyph: Markup
    name: str
    joins: str
    extent: str
    step: str
    step_href: str
    again: str
    note: str


@dataclass(frozen=True, slots=True)
class NoteView:
    id: str
    heading_id: str
    title: str
    prose: Markup


@dataclass(frozen=True, slots=True)
class VerdictView:
    """foreign: the language of the words where that is not the page's."""

    text: str
    author: str
    foreign: str = ""


@dataclass(frozen=True, slots=True)
class DevicePage:
    frame: FrameView
    name: str
    about: str
    about_foreign: str
    block: tuple[Fact, ...]
    guide_href: str
    guide_label: str
    film_href: str
    ways: tuple[WayRow, ...]
    several_href: str
    has_minutes: bool
    stop: str
    verdict: VerdictView | None
    figures: tuple[Fact, ...]
    bench: BenchView
    panels: tuple[Panel, ...]
    parts: tuple[PartRow, ...]
    screws: tuple[ScrewRow, ...]
    screw_total: str
    joints: tuple[JointRow, ...]
    notes: tuple[NoteView, ...]
    map: MapView | None
    stack: StackView | None
    card: CardView
    depths: DepthView | None
    film: FilmView | None
    credits: CreditsView | None
    changes_href: str


def device_page(survey: Survey, film_href: str = "", scores: Scores | None = None) -> DevicePage:
    """film_href: the moving picture of the whole guide, if it was made; scores: those of the guide if known already."""
    guide = survey.guide
    device = guide.device
    count = len(guide.order)
    numbers = numbering_of(guide.order)
    whole = f"{WHOLE}#"
    ways = tuple(_way_row(survey, part) for part in survey.pages)
    has_several = len(reached_parts(survey)) > 1
    return DevicePage(
        frame=frame_of(
            survey.library,
            path=f"{guide.id}/{DEVICE}",
            title=f"{device.name} – {survey.library.title}",
            description=device.about or summary_words(device),
            crumbs=(Crumb(survey.library.title, "../index.html"), Crumb(device.name, "")),
            skip=("#ways", say("Skip to the parts you can come for")),
            scripts=(f"{guide.id}/{SEVERAL_DATA}", *CHOOSING) if has_several else (),
            source_href=source_address(survey.library.sources, f"{guide.id}/device.yaml"),
            image=first_photo(survey, survey.shown),
            structured=how_to(
                survey,
                survey.shown,
                survey.accounts if survey.stop is None else accounts_of(guide, survey.shown),
                path=f"{guide.id}/{DEVICE}",
                steps_page=WHOLE,
                name=say("{device} taken apart", device=device.name),
                description=device.about or "",
            )
            if survey.shown
            else None,
        ),
        name=device.name,
        about=held(device.about or ""),
        about_foreign=foreign_language(guide, "about"),
        block=_block(survey),
        guide_href=WHOLE,
        guide_label=say_many(
            "The whole guide: {n}~step out, {n} back", "The whole guide: {n}~steps out, {n} back", count
        )
        if survey.stop is None
        else say_many(
            "The whole guide: {n}~step, {shown} of them shown",
            "The whole guide: {n}~steps, {shown} of them shown",
            count,
            shown=len(survey.shown),
        ),
        film_href=film_href,
        ways=_with_deepest(survey, ways),
        several_href=SEVERAL if has_several else "",
        has_minutes=any(row.minutes for row in ways),
        stop=_stop(survey),
        verdict=VerdictView(held(device.verdict), device.verdict_author or "", foreign_language(guide, "verdict"))
        if device.verdict
        else None,
        figures=_figures(survey),
        bench=bench_of(survey.accounts, numbers.out, numbers.back, f"../{TOOLS}"),
        panels=_panels(survey),
        parts=tuple(_part_row(survey, part, whole) for part in guide.anatomy.parts.values()),
        screws=_screw_rows(survey),
        screw_total=str(survey.accounts.screw_count),
        joints=tuple(_joint_row(guide, joint, whole) for joint in guide.anatomy.joints.values()),
        notes=_notes(survey),
        stack=stack_view(guide, guide.order, run_stacks(guide, guide.order), _picked(survey)),
        map=None if survey.stop else map_of(guide, guide.order, (), is_route=False),
        card=card_of(guide, scores or scores_of(guide), "index-line"),
        depths=depths_of(survey),
        film=film_of_device(survey),
        credits=credits_of(survey),
        changes_href=CHANGES if device.changes else "",
    )


# --- head -------------------------------------------------------------------------------------------------------


def _block(survey: Survey) -> tuple[Fact, ...]:
    """The title block: what a drawing sheet says about itself."""
    guide, device = survey.guide, survey.guide.device
    facts = [Fact(say("Maker"), device.maker)] if device.maker else []
    if device.size:
        width, height = device.size
        facts.append(Fact(say("Size"), f"{measure(width)}{TIMES}{measure(height)}{NO_BREAK}mm"))
    count = len(guide.order)
    facts.append(Fact(say("Steps"), steps_out(len(survey.shown), count)))
    facts.append(Fact(say("Joints"), joints_words(survey.accounts)))
    cells = (_cell_words(guide, part) for part in guide.anatomy.parts.values())
    facts += [Fact(say_as("battery", "Cell"), words) for words in cells if words]
    if device.film_address and is_web(device.film_address):
        length = clock(device.film_length) if device.film_length else say_as("film", "whole")
        facts.append(Fact(say("Film"), length, device.film_address))
    if device.changed:
        facts.append(Fact(say("Changed"), day(device.changed)))
    return tuple(facts)


def _cell_words(guide: Guide, part: Part) -> str:
    if part.cell is None:
        return ""
    figures = [f"{exact(part.cell.volts)}{NO_BREAK}V" if part.cell.volts is not None else ""]
    figures.append(f"{exact(part.cell.watt_hours)}{NO_BREAK}Wh" if part.cell.watt_hours is not None else "")
    return ", ".join(word for word in (guide.word(part.cell.chemistry), *figures) if word)


def _stop(survey: Survey) -> str:
    if survey.stop is None:
        return ""
    number = survey.guide.number_of[survey.stop.step.id]
    return say("The whole guide ends before step~{number}: from there on it is for licensed practice only.", number=number)


# --- ways -------------------------------------------------------------------------------------------------------


def _way_row(survey: Survey, part: PartId) -> WayRow:
    way = survey.ways[part]
    name = survey.guide.part(part).name
    if isinstance(way, NoRoute):
        return WayRow(name, route_page(part), "", "", "", say("no way in this guide"))
    shown, stop = up_to_stop(survey.guide, way.steps)
    accounts = accounts_of(survey.guide, shown)
    return WayRow(
        part=name,
        href=route_page(part),
        steps=str(len(shown)),
        joints=str(accounts.joint_count),
        minutes=about_minutes(accounts.seconds) if accounts.seconds is not None else "",
        note=say("ends where licensed practice begins") if stop else "",
    )


def _with_deepest(survey: Survey, rows: tuple[WayRow, ...]) -> tuple[WayRow, ...]:
    """Say of the longest way that it is the deepest; of several such that they are among them."""
    lengths = [len(way.steps) if isinstance(way, Route) else 0 for way in (survey.ways[part] for part in survey.pages)]
    most = max(lengths, default=0)
    if not most or min(lengths) == most:
        return rows
    note = say("the deepest") if lengths.count(most) == 1 else say("among the deepest")
    return tuple(
        WayRow(row.part, row.href, row.steps, row.joints, row.minutes, row.note or note) if length == most else row
        for row, length in zip(rows, lengths, strict=True)
    )


def _picked(survey: Survey) -> Ways:
    """Where the parts in the figure lead: to their pages. A name begins with what is written there."""
    named = {part: " ".join([survey.numbers.get(part, ""), capital(survey.guide.part(part).name)]) for part in survey.pages}
    return {
        part: Way(route_page(part), say("{part}: what the way to it takes", part=name.strip()))
        for part, name in named.items()
    }


# --- figures ----------------------------------------------------------------------------------------------------


def _figures(survey: Survey) -> tuple[Fact, ...]:
    """What was counted and worked out, to stand beside the author's own words."""
    guide, accounts = survey.guide, survey.accounts
    reached = [way for way in survey.ways.values() if isinstance(way, Route)]
    undone = {joint for step in guide.order for joint in step.undone}
    renewed = sum(joint.count for joint in guide.anatomy.joints.values() if joint.is_renewed and joint.id in undone)
    drives = {line.size.drive for line in accounts.screws if line.size.drive is not None}
    kinds = [counted(len(accounts.screws), "size", "sizes")]
    kinds += [counted(len(drives), "drive", "drives")] if drives else []
    facts = [
        Fact(say("Parts"), str(len(guide.anatomy.parts))),
        Fact(say("Kinds of screw"), ", ".join(kinds)) if accounts.screws else Fact(say("Screws"), say("none")),
        Fact(say("Tools"), str(len(accounts.tools))),
        Fact(say("Joints made anew on the way back"), str(renewed)),
        Fact(say("Turned over"), times(accounts.turns)),
    ]
    if accounts.seconds is not None:
        facts.append(Fact(say("Taken apart in"), about_minutes(accounts.seconds)))
    if reached:
        most = max(len(way.steps) for way in reached)
        names = [guide.part(way.parts[0]).name for way in reached if len(way.steps) == most]
        deepest = listed(names) if len(names) <= NAMES_LIMIT else counted(len(names), "part", "parts")
        facts.append(Fact(say("Deepest"), f"{deepest}: {counted(most, 'step', 'steps')}"))
    return tuple(facts)


def _panels(survey: Survey) -> tuple[Panel, ...]:
    """Everything that the order can hurt with, collected before the sequence begins."""
    return tuple(
        Panel(
            entry.panel.level,
            entry.panel.signal,
            entry.panel.hazard,
            entry.panel.consequence,
            entry.panel.avoidance,
            capital(steps_words(place + 1 for place in entry.places)),
            entry.panel.has_triangle,
        )
        for entry in gathered(survey.guide, survey.guide.order, has_back=survey.stop is None)
    )


# --- tables -----------------------------------------------------------------------------------------------------


def _part_row(survey: Survey, part: Part, whole: str) -> PartRow:
    guide = survey.guide
    way = survey.ways.get(part.id)
    number, step = _number(survey, part)
    fits, more = also_fits(survey.spares, guide, part)
    return PartRow(
        id=anchor("part", part.id),
        former=tuple(anchor("part", old) for old in part.formerly),
        number=number,
        number_href=f"{whole}{anchor('step', step.id)}" if step else "",
        name=part.name,
        href=route_page(part.id) if part.id in survey.pages else "",
        held=held_by(guide, guide.anatomy.crossing(part.id)) if part.id != guide.anatomy.base else "",
        size=_size(part),
        material=guide.word(part.material or ""),
        depth=_depth(survey, part, way) if isinstance(way, Route) else "",
        spare=", ".join(word for word in (part.spare_number or "", part.spare_price or "") if word),
        fits=fits,
        fits_more=counted(more, "other device", "other devices") if more else "",
    )


def _depth(survey: Survey, part: Part, way: Route) -> str:
    depth = depth_on(survey.guide, part.id, way)
    return f"{depth.steps} / {depth.actions} / {depth.parts}"


def _number(survey: Survey, part: Part) -> tuple[str, Step | None]:
    """The number of a part and the step that takes it out: its own, or that of what it leaves in."""
    guide = survey.guide
    if part.id == guide.anatomy.base:
        return say("stays"), None
    found = survey.numbers.get(part.id)
    if found is not None:
        return found, guide.order[int(found.partition(".")[0]) - 1]
    above = part.inside
    while above is not None:
        carrier = survey.numbers.get(above)
        if carrier is not None:
            return say("with {number}", number=carrier), guide.order[int(carrier.partition(".")[0]) - 1]
        above = guide.part(above).inside
    return say("stays"), None


def _size(part: Part) -> str:
    if part.box is None:
        return say("{length} thick", length=quantity(part.thickness, "mm", 1)) if part.thickness is not None else ""
    sides = [measure(part.box.width), measure(part.box.height)]
    if part.thickness is not None:
        sides.append(measure(part.thickness))
    return f"{TIMES.join(sides)}{NO_BREAK}mm"


def _screw_rows(survey: Survey) -> tuple[ScrewRow, ...]:
    number_of = survey.guide.number_of
    return tuple(
        ScrewRow(
            size=size_words(line.size) or say("no size told"),
            drive=", ".join(word for word in (drive_words(line.size.drive), head_words(line.size.head)) if word),
            count=str(line.count),
            steps=", ".join(
                say("{count} in step~{number}", count=share, number=number_of[step.id]) for step, share in line.steps
            ),
        )
        for line in survey.accounts.screws
    )


def _joint_row(guide: Guide, joint: Joint, whole: str) -> JointRow:
    step = next((step for step in guide.steps if joint.id in step.undone), None)
    number = guide.number_of.get(step.id) if step else None
    return JointRow(
        id=anchor("joint", joint.id),
        glyph=Markup(joint_figure(joint)),
        name=joint.name,
        joins=listed([guide.part(part).name for part in joint.joins]),
        extent="; ".join(
            word for word in (joint_extent(joint) or count_words(joint.kind, joint.count), torque_words(joint)) if word
        ),
        step=str(number) if number else (say("other way") if step else say("stays")),
        step_href=f"{whole}{anchor('step', step.id)}" if step else "",
        again=_again(guide, joint),
        note=held(joint.note or ""),
    )


def _again(guide: Guide, joint: Joint) -> str:
    if not joint.is_renewed:
        return say("the same")
    supplies = listed([supply.name for supply in guide.supplies_for(joint.id)])
    return held(say("new: {supplies}", supplies=supplies)) if supplies else say("new")


def _notes(survey: Survey) -> tuple[NoteView, ...]:
    guide = survey.guide
    here = {anchor("part", part) for part in guide.anatomy.parts}
    here |= {anchor("joint", joint) for joint in guide.anatomy.joints}
    here |= {anchor("tool", use.tool.id) for use in survey.accounts.tools}
    here |= {anchor("supply", use.supply.id) for use in survey.accounts.supplies}
    link_of = links_from(guide, here)
    return tuple(
        NoteView(
            id=anchor("note", note.part),
            heading_id=f"{anchor('note', note.part)}-heading",
            title=capital(guide.part(note.part).name),
            prose=prose_html(note.prose, link_of, foreign_language(guide, f"note:{note.part}")),
        )
        for note in guide.notes
    )


def notes_of(survey: Survey, part: PartId) -> Sequence[str]:
    """Links from a part's own page to what was found out about it."""
    return [f"{DEVICE}#{anchor('note', note.part)}" for note in survey.guide.notes if note.part == part]
