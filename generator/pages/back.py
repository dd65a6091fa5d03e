"""The way back: the steps in reverse with the inverse of what they did, and checks before a cover closes and at the end."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.anatomy.joints import JointKind
from generator.anatomy.parts import JointId, PartId
from generator.figures.trade_words import drive_words
from generator.figures.tray.loose import loose_of
from generator.languages import later, say, say_many
from generator.orders.accounts import Accounts, accounts_of
from generator.orders.faces import face_before
from generator.orders.guide import Guide
from generator.orders.work import Step, StepId, Verb
from generator.pages.actions import ActionLine, Inverses, back_title, device_kind, inverses_of
from generator.pages.addresses import LinkOf, anchor
from generator.pages.cautions import Panel, keys_of, panels_back, panels_of
from generator.pages.figures import RunStacks
from generator.pages.joints import size_words
from generator.pages.steps import Numbering
from generator.pages.typography import counted, listed, numbers
from generator.pages.wording import foreign_language, prose_html

COVER_ROLES = frozenset({"back cover", "display assembly", "cover"})
"""Roles of parts that close a device, as the published indices name them."""


NAMES_LIMIT = 3
"""Names that a check holds; more are counted."""

TRYING = {
    "phone": later("Switch the phone on and try the {part}. Switch it off again."),
    "tablet": later("Switch the tablet on and try the {part}. Switch it off again."),
    "device": later("Switch the device on and try the {part}. Switch it off again."),
}
"""After a repair in which the part came back that was worked at; `TRYING_ALL` where it is not known which."""

TRYING_ALL = {
    "phone": later("Switch the phone on and try what you worked at. Switch it off again."),
    "tablet": later("Switch the tablet on and try what you worked at. Switch it off again."),
    "device": later("Switch the device on and try what you worked at. Switch it off again."),
}


@dataclass(frozen=True, slots=True)
class BackStepView:
    """A step of the way back and its counterpart out.

    panels stand before the work; checks: what to see to before this step closes the device; tray: which cell of the tray
    its screws lie in; former: its ids under the step's old names.
    """

    id: str
    former: tuple[str, ...]
    heading_id: str
    number: str
    title: str
    was: str
    out_href: str
    out_title: str
    panels: tuple[Panel, ...]
    tray: str
    checks: tuple[str, ...]
    work_label: str
    lines: tuple[ActionLine, ...]
    prose: Markup
    stack: Markup


@dataclass(frozen=True, slots=True)
class LeftoverRow:
    """Screws of one size: as many go back as came out."""

    size: str
    drive: str
    out: str
    back: str
    steps: str
    back_steps: str


@dataclass(frozen=True, slots=True)
class LeftoverView:
    """The check at the end of the way back: nothing may lie in the tray."""

    sentence: str
    rows: tuple[LeftoverRow, ...]
    total_out: str
    total_back: str
    others: tuple[str, ...]


def back_views(
    guide: Guide,
    steps: Sequence[Step],
    numbers: Numbering,
    link_of: LinkOf,
    stacks: RunStacks,
    fresh: PartId | None = None,
    only_first: bool = False,
) -> tuple[BackStepView, ...]:
    """The way back of `steps` (given in the order out, turns already added); fresh: the part that goes in new.

    only_first: no more than its first step, the last on the way out.
    """
    found = _inverses(guide, steps, fresh)
    closing = _closing(guide, steps)
    cells = {loose.step.id: (len(loose.screws), loose.number) for loose in loose_of(guide, steps)}
    told: frozenset[str] = frozenset()
    for step in steps:
        told |= keys_of(panels_of(guide, step, told))
    views = []
    for index in range(len(steps) - 1, len(steps) - 2 if only_first else -1, -1):
        step, inverse = steps[index], found[index]
        title = back_title(guide, inverse, fresh)
        panels = panels_back(guide, step, told)
        told |= keys_of(panels)
        views.append(
            BackStepView(
                id=anchor("back", step.id),
                former=tuple(anchor("back", old) for old in step.formerly),
                heading_id=f"heading-{numbers.back[step.id]}",
                number=str(numbers.back[step.id]),
                title=title,
                was=say("was step~{number} out", number=numbers.out[step.id]),
                out_href=f"#{anchor('step', step.id)}",
                out_title=step.title,
                tray=tray_words(*cells.get(step.id, (0, 0))),
                panels=panels,
                checks=_checks(guide, steps[:index], step, fresh) if step.id in closing else (),
                work_label=say("Work of step {number}", number=numbers.back[step.id]),
                lines=() if _says_it_all(title, inverse.lines) else inverse.lines,
                prose=prose_html(step.refitting, link_of, foreign_language(guide, f"step:{step.id}")),
                stack=stacks.back(index),
            )
        )
    return tuple(views)


def tray_words(screws: int, cell: int) -> str:
    """Where the screws of a step lie; cells are numbered by the step out.

    >>> tray_words(5, 7).replace(chr(160), " "), tray_words(0, 3)
    ('5 screws from tray cell 7', '')
    """
    if not screws:
        return ""
    return say_many("{n}~screw from tray cell~{cell}", "{n}~screws from tray cell~{cell}", screws, cell=cell)


def leftover_of(guide: Guide, accounts: Accounts, out_of: Numbering, fresh: PartId | None) -> LeftoverView:
    """What has to be back when the way back is done: every screw by size, and what is left over on purpose."""
    rows = tuple(
        LeftoverRow(
            size=size_words(line.size) or say("no size told"),
            drive=drive_words(line.size.drive),
            out=str(line.count),
            back=str(line.count),
            steps=numbers(out_of.out[step.id] for step, _ in line.steps),
            back_steps=numbers(out_of.back[step.id] for step, _ in line.steps),
        )
        for line in accounts.screws
    )
    total = accounts.screw_count
    others = []
    if fresh is not None:
        part = guide.part(fresh)
        left = say("The old {part} is left over.", part=part.name)
        where = say("Hand it in as a used battery, its contacts taped over.") if part.cell else ""
        others.append(" ".join(sentence for sentence in (left, where) if sentence))
    renewed = [guide.joint(joint).name for joint in _undone(accounts, guide, out_of) if guide.joint(joint).is_renewed]
    if renewed:
        others.append(say("Made anew, so that the old is left over: {joints}.", joints=listed(renewed)))
    return LeftoverView(
        sentence=say_many("{n}~screw out, {n} back.", "{n}~screws out, {n} back.", total)
        if total
        else say("No screw came out."),
        rows=rows,
        total_out=str(total),
        total_back=str(total),
        others=tuple(others),
    )


def _says_it_all(title: str, lines: Sequence[ActionLine]) -> bool:
    """Whether the title of a step leaves nothing for a list of its work to add."""
    return list(lines) in ([], [ActionLine(title)])


def _undone(accounts: Accounts, guide: Guide, out_of: Numbering) -> list[JointId]:
    steps = [guide.step_by_id[step] for step in out_of.out]
    return list(dict.fromkeys(joint for step in steps for joint in step.undone))


def _inverses(guide: Guide, steps: Sequence[Step], fresh: PartId | None) -> tuple[Inverses, ...]:
    """The inverse of every step. What was done twice on the way out is made once, by the step that did it first."""
    joints: set[JointId] = set()
    parts: set[PartId] = set()
    folded: set[PartId] = set()
    found = []
    for step, lying in zip(steps, face_before(guide.device.faces, steps), strict=True):
        before = []
        for action in step.actions:
            if action.verb is Verb.TURN and action.face is not None:
                before.append(lying)
                lying = action.face
        remade = frozenset(step.undone) - joints
        returned = frozenset(step.lifted) - parts
        joints |= remade
        parts |= returned
        found.append(
            inverses_of(guide, step, remade=remade, returned=returned, faces=before, aside=frozenset(folded), fresh=fresh)
        )
        folded |= {action.part for action in step.actions if action.verb is Verb.FOLD and action.part is not None}
    return tuple(found)


def _closing(guide: Guide, steps: Sequence[Step]) -> frozenset[StepId]:
    """The steps whose way back closes the device: every cover held by new glue, and the last cover of each face."""
    sealing: set[StepId] = set()
    last: dict[str, StepId] = {}
    for step in steps:
        for face, is_sealed in covers_of(guide, step):
            last.setdefault(face, step.id)
            if is_sealed:
                sealing.add(step.id)
    return frozenset(sealing | set(last.values()))


def covers_of(guide: Guide, step: Step) -> tuple[tuple[str, bool], ...]:
    """For every cover that a step takes off its face, and whether new glue seals it."""
    return tuple(
        (
            guide.part(name).face,
            any(joint.kind is JointKind.GLUE and joint.is_renewed for joint in guide.anatomy.crossing(name)),
        )
        for name in step.lifted
        if _is_cover(guide, name)
    )


def _is_cover(guide: Guide, name: PartId) -> bool:
    part = guide.part(name)
    return part.role in COVER_ROLES or any(name in joint.behind for joint in guide.anatomy.joints.values())


def _checks(guide: Guide, earlier: Sequence[Step], step: Step, fresh: PartId | None) -> tuple[str, ...]:
    """What to see to before `step` is done backwards; earlier: the steps that come back after it."""
    waiting = accounts_of(guide, (*earlier, step)).screw_count
    checks = [
        say_many(
            "In the tray lie {n}~screw, all for what is still to come.",
            "In the tray lie {n}~screws, all for what is still to come.",
            waiting,
        )
        if waiting
        else say("The tray is empty: no screw is left over."),
        say("Every plug under it is home, and no lead lies where it comes down."),
    ]
    undone = dict.fromkeys(joint for other in (*earlier, step) for joint in other.undone)
    plugs = [guide.joint(joint).name for joint in undone if guide.joint(joint).kind is JointKind.PLUG]
    if plugs:
        if len(plugs) <= NAMES_LIMIT:
            checks.append(
                say_many(
                    "It cannot be tried yet: still to come is the {plugs}.",
                    "It cannot be tried yet: still to come are the {plugs}.",
                    len(plugs),
                    plugs=listed(plugs),
                )
            )
        else:
            count = counted(len(plugs), "plug", "plugs")
            checks.append(say("It cannot be tried yet: still to come are {count}.", count=count))
    elif guide.device.power in ("mains", "both"):
        checks.append(say("Do not put it under voltage while it is open. Try it when it is closed."))
    elif guide.device.power == "cell":
        if fresh is not None and fresh not in step.lifted:
            checks.append(say(TRYING[device_kind(guide)], part=guide.part(fresh).name))
        else:
            checks.append(say(TRYING_ALL[device_kind(guide)]))
    else:
        checks.append(say("Try by hand that everything moves as it did before."))
    return tuple(checks)
