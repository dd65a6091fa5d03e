"""The page for several parts at once, and the data it and the device's page choose a way by.

Ways to one part and to two are worked out here; to more, the script of the page works them out by the same clauses. The
steps stand in the page ready to be laid out in the order of the way, each as it looks with only what it needs done before.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from markupsafe import Markup

from generator.anatomy.joints import JointKind
from generator.anatomy.parts import PartId
from generator.figures.trade_words import drive_words
from generator.languages import say
from generator.orders.accounts import ScrewSize, accounts_of, by_size, screw_sizes
from generator.orders.chaining import members, saturate
from generator.orders.guide import Guide
from generator.orders.hazards import licensed_reason
from generator.orders.necessity import gates_of
from generator.orders.problems import problem_of
from generator.orders.routes import NoRoute, Route, best_route
from generator.orders.work import Step, Verb
from generator.pages.actions import TURNING, ActionLine, back_title, device_kind, inverses_of
from generator.pages.addresses import (
    DEVICE,
    SEVERAL,
    SEVERAL_DATA,
    WHOLE,
    LinkOf,
    anchor,
    links_from,
    route_page,
    source_address,
)
from generator.pages.back import TRYING_ALL, BackStepView, back_views, covers_of
from generator.pages.cautions import Panel, gathered, stop_panel
from generator.pages.figures import RailView, RunStacks
from generator.pages.frame import Crumb, FrameView, frame_of
from generator.pages.joints import size_words
from generator.pages.leaves import Leaf, LeafLink
from generator.pages.scripts import SEVERAL_PARTS, data_script
from generator.pages.steps import Numbering, StepView, step_views
from generator.pages.survey import Survey, Way, up_to_stop
from generator.pages.typography import listed, numbers, quoted

MOST_PAIRED = 24
"""Parts with a page up to which every pair is worked out beforehand; with more the script finds pairs too."""

OUT_FROM, BACK_FROM = 10_000, 20_000
"""Where the numbers of steps begin that stand for those the script sets, out and back; no device has as many steps."""

FACE = "{face}"
"""Stands for the side that the script sets."""


@dataclass(frozen=True, slots=True)
class PairRow:
    parts: str
    count: str
    steps: str


@dataclass(frozen=True, slots=True)
class ReadyStep:
    """A step ready to be laid out: `number` and `back_number` stand for those of the way."""

    id: str
    number: str
    back_number: str
    out: StepView
    back: BackStepView


@dataclass(frozen=True, slots=True)
class ReadyStop:
    id: str
    panel: Panel
    sentence: str


@dataclass(frozen=True, slots=True)
class SeveralPage:
    frame: FrameView
    device: str
    device_href: str
    guide_href: str
    pairs: tuple[PairRow, ...]
    steps: tuple[ReadyStep, ...]
    stops: tuple[ReadyStop, ...]
    leaf: Leaf


Ways = dict[tuple[PartId, ...], Way]


def ways_of(survey: Survey) -> Ways:
    """The ways to every part with a page and to every two of them, parts in the order of the pages."""
    reached = reached_parts(survey)
    found: Ways = {(part,): survey.ways[part] for part in reached}
    if len(reached) <= MOST_PAIRED:
        found.update((pair, best_route(survey.guide, pair)) for pair in combinations(reached, 2))
    return found


def reached_parts(survey: Survey) -> tuple[PartId, ...]:
    """The parts with a page that the guide has a way to, and one that does not stop before."""
    return tuple(
        part
        for part in survey.pages
        if isinstance(way := survey.ways[part], Route) and up_to_stop(survey.guide, way.steps)[1] is None
    )


def several_page(survey: Survey, ways: Ways) -> SeveralPage:
    guide = survey.guide
    ready = shippable(guide)
    gates = gates_of(guide.stepwise.needs, saturate(guide.stepwise.needs, (1 << len(guide.steps)) - 1))
    ids = frozenset(anchor("joint", joint) for number in ready for joint in guide.steps[number].undone)
    link_of = links_from(guide, frozenset(anchor("step", guide.steps[number].id) for number in ready) | ids)
    return SeveralPage(
        frame=frame_of(
            survey.library,
            path=f"{guide.id}/{SEVERAL}",
            title=f"{say('Several parts')} – {guide.device.name}",
            description=say("One way to several parts of the {device}, out and back.", device=guide.device.name),
            crumbs=(
                Crumb(survey.library.title, "../index.html"),
                Crumb(guide.device.name, DEVICE),
                Crumb(say("Several parts"), ""),
            ),
            skip=("#top", say("Skip to the guide")),
            source_href=source_address(survey.library.sources, f"{guide.id}/device.yaml"),
            scripts=(f"{guide.id}/{SEVERAL_DATA}", *SEVERAL_PARTS),
        ),
        device=guide.device.name,
        device_href=DEVICE,
        guide_href=WHOLE,
        pairs=tuple(_pair_rows(guide, ways)),
        steps=_with_joints_once(_ready(survey, number, gates[number], link_of) for number in ready),
        stops=tuple(
            ReadyStop(
                anchor("stop", step.id),
                stop_panel(guide.part(found[0]).name, found[1]),
                say("The next step would be “{step}”. It is not shown.", step=step.title),
            )
            for step in guide.steps
            if (found := licensed_reason(guide, step)) is not None
        ),
        leaf=Leaf("only-", "#", "", LeafLink("", "#", "#"), LeafLink("", "#", "#")),
    )


def shippable(guide: Guide) -> list[int]:
    """The numbers of the steps that can be done with no step before them that only licensed practice may do."""
    free = sum(1 << number for number, step in enumerate(guide.steps) if licensed_reason(guide, step) is None)
    return list(members(saturate(guide.stepwise.needs, free)))


def _with_joints_once(steps: Iterable[ReadyStep]) -> tuple[ReadyStep, ...]:
    """A joint that several steps undo keeps its id in the first alone, so that an id stands once on the page."""
    taken: set[str] = set()
    found = []
    for ready in steps:
        rows = tuple(replace(row, id=None) if row.id in taken else row for row in ready.out.joints)
        taken |= {row.id for row in rows if row.id}
        found.append(replace(ready, out=replace(ready.out, joints=rows)))
    return tuple(found)


def _pair_rows(guide: Guide, ways: Ways) -> Iterable[PairRow]:
    for pair, way in ways.items():
        if len(pair) == 2 and isinstance(way, Route):
            shown = up_to_stop(guide, way.steps)[0]
            own = numbers(guide.number_of[step.id] for step in shown if step.id in guide.number_of)
            other = [quoted(step.title) for step in shown if step.id not in guide.number_of]
            yield PairRow(
                listed([guide.part(part).name for part in pair]),
                str(len(shown)),
                ", ".join(word for word in (own, *other) if word),
            )


def _run_before(guide: Guide, number: int, gates: int) -> tuple[Step, ...]:
    """The step and before it all that every way to it does."""
    return (*(guide.steps[gate] for gate in members(gates)), guide.steps[number])


def _ready(survey: Survey, number: int, gates: int, link_of: LinkOf) -> ReadyStep:
    guide = survey.guide
    run = _run_before(guide, number, gates)
    own = {step.id: index for index, step in enumerate(guide.steps)}
    numbering = Numbering(
        {step.id: OUT_FROM + own[step.id] for step in run},
        {step.id: BACK_FROM + own[step.id] for step in run},
        {part: str(OUT_FROM + own[step.id]) for step in run for part in step.lifted},
    )
    unstacked = RunStacks(None)
    out = step_views(survey, run, numbering, link_of, is_whole=False, stacks=unstacked, only=run[-1].id)[-1]
    out = replace(out, rail=RailView(Markup(), Markup()))
    back = back_views(guide, run, numbering, link_of, unstacked, only_first=True)[0]
    back = replace(back, tray="", checks=(), lines=())
    return ReadyStep(run[-1].id, str(OUT_FROM + number), str(BACK_FROM + number), out, back)


# --- data -------------------------------------------------------------------------------------------------------


def several_data(survey: Survey, ways: Ways) -> str:
    """What the scripts of a device know, as a script file; sentences stay in the page, facts are here."""
    guide = survey.guide
    reached = reached_parts(survey)
    sizes = _sizes(guide)
    number_of = guide.stepwise.numbers()
    return data_script(
        "partwayDevice",
        {
            "name": guide.device.name,
            "turning": say(TURNING[device_kind(guide)], face=FACE),
            "trying": say(TRYING_ALL[device_kind(guide)]),
            "faces": {face: guide.word(face) for face in guide.device.faces},
            "power": guide.device.power,
            "problem": problem_of(guide),
            "parts": [
                {
                    "id": part,
                    "name": guide.part(part).name,
                    "href": route_page(part),
                    "hasCell": guide.part(part).cell is not None,
                }
                for part in reached
            ],
            "ways": {
                "+".join(parts): {
                    "steps": [number_of[step.id] for step in way.steps],
                    "turns": [
                        {"step": number_of[turn.step], "action": turn.number, "face": turn.face} for turn in way.added_turns
                    ],
                    "seconds": way.seconds,
                    "isOptimal": way.is_optimal,
                }
                for parts, way in ways.items()
                if not isinstance(way, NoRoute)
            },
            "sizes": [[size_words(size) or say("no size told"), drive_words(size.drive)] for size in sizes],
            "steps": [_step_facts(guide, step, sizes) for step in guide.steps],
        },
    )


def _sizes(guide: Guide) -> list[ScrewSize]:
    return sorted({size for joint in guide.anatomy.joints.values() for size in screw_sizes(joint)}, key=by_size)


def _step_facts(guide: Guide, step: Step, sizes: Sequence[ScrewSize]) -> dict[str, object]:
    accounts = accounts_of(guide, (step,))
    met = [(entry.panel, place) for entry in gathered(guide, (step,)) for place in entry.places]
    joints = [guide.joint(joint) for joint in dict.fromkeys(step.undone)]
    folded = frozenset(action.part for action in step.actions if action.verb is Verb.FOLD and action.part is not None)
    turns = [FACE for action in step.actions if action.verb is Verb.TURN]

    def inverse(fresh: PartId | None) -> tuple[str, list[dict[str, object]]]:
        found = inverses_of(guide, step, remade=step.undone, returned=step.lifted, faces=turns, fresh=fresh)
        lines: list[dict[str, object]] = [
            {"verb": about.verb.value, "target": about.target, "number": about.number, **_line(line)}
            for about, line in zip(found.about, found.lines, strict=True)
        ]
        return back_title(guide, found, fresh), lines

    title, lines = inverse(None)
    pages = [part for part in dict.fromkeys(step.lifted) if part in guide.anatomy.parts]
    return {
        "title": step.title,
        "isLicensed": licensed_reason(guide, step) is not None,
        "tools": [use.tool.name for use in accounts.tools],
        "supplies": [use.supply.name for use in accounts.supplies],
        "risks": [[panel.level, panel.signal, panel.hazard, place == 1] for panel, place in met],
        "joints": [
            {
                "id": joint.id,
                "name": joint.name,
                "count": joint.count,
                "isPlug": joint.kind is JointKind.PLUG,
                "isRenewed": joint.is_renewed,
                "screws": [sizes.index(size) for size in screw_sizes(joint)],
            }
            for joint in joints
        ],
        "folds": sorted(folded),
        "covers": covers_of(guide, step),
        "backTitle": title,
        "newTitles": {part: inverse(part)[0] for part in pages},
        "lines": lines,
    }


def _line(line: ActionLine) -> dict[str, str]:
    told = {"words": line.words, "extent": line.extent, "aid": line.aid, "note": line.note}
    return {name: words for name, words in told.items() if words}
