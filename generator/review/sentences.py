"""What a change means, as sentences for whoever reviews it: one a fact, marked better or worse where that can be said."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from generator.anatomy.parts import PartId
from generator.indices.workings import Index
from generator.orders.accounts import Depth, ScrewSize
from generator.orders.guide import Guide, minutes
from generator.orders.hazards import Hazard
from generator.orders.routes import NoRoute
from generator.orders.work import Action, Verb
from generator.review.changes import (
    JOINT,
    DeviceChange,
    FieldChange,
    IndexChange,
    LibraryChange,
    ScrewChange,
    StepChange,
    ThingChange,
    WayChange,
)
from generator.review.wording import Piece
from generator.rules.finding import Reported
from generator.rules.wording import clock, is_plural, listed, number, quoted, step_name
from generator.source.places import Place


class Weight(StrEnum):
    WORSE = "worse"
    BETTER = "better"
    OTHER = "other"


class Section(StrEnum):
    """What a sentence is about, in the order in which a reviewer needs it."""

    FINDINGS = "Findings"
    SAFETY = "Safety"
    WAYS = "Ways to the parts"
    STEPS = "Steps"
    THINGS = "Parts and joints"
    SCREWS = "Screws"
    INDEX = "Index"
    PICTURES = "Photos"
    DEVICE = "The device"


OF_THE_ORDER = ("cell near heat",)
"""Hazards that go because something else is done first, with the work of their step as it was."""


@dataclass(frozen=True, slots=True)
class Told:
    """One sentence. subject: the id of the step, part, joint or rule it is about; place: where the author finds it."""

    section: Section
    weight: Weight
    words: str
    subject: str = ""
    place: Place | None = None


def told_of(change: DeviceChange) -> tuple[Told, ...]:
    """Everything there is to say of one device, by section; within a section in the order of the guide."""
    if change.old is None or change.new is None:
        return (_whole(change), *_findings(change.findings_new, change.findings_gone))
    old, new = change.old, change.new
    told = [
        *_findings(change.findings_new, change.findings_gone),
        *(told for step in change.steps for told in _of_step(old, new, step)),
        *(told for way in change.ways for told in _of_way(old, new, way)),
        *(_of_thing(old, new, thing) for thing in change.things),
        *(_of_screws(screws) for screws in change.screws),
        *(_of_index(change.index) if change.index else ()),
        *(_of_device(change)),
    ]
    ranks = list(Section)
    return tuple(sorted(told, key=lambda each: ranks.index(each.section)))


def told_of_library(change: LibraryChange) -> tuple[Told, ...]:
    """What changed above the devices."""
    fields = (
        Told(Section.DEVICE, Weight.OTHER, _field(field, "The library's"), field.field, Place("library.yaml"))
        for field in change.told
    )
    return (*_findings(change.findings_new, change.findings_gone), *fields)


def is_worse(told: Sequence[Told]) -> bool:
    return any(each.weight is Weight.WORSE for each in told)


def texts_of(change: DeviceChange) -> Iterator[tuple[str, tuple[Piece, ...]]]:
    """The reworded texts of a device that belong to no step, each with its title."""
    for field in change.told:
        if field.pieces:
            yield field.field.replace("_", " ").capitalize(), field.pieces
    for thing in change.things:
        for field in thing.fields:
            if field.pieces:
                yield f"{thing.id}, {field.field.replace('_', ' ')}", field.pieces


def summary_of(change: LibraryChange) -> str:
    """How many devices changed, and whether anything got worse."""
    told = [*told_of_library(change), *(each for device in change.devices for each in told_of(device))]
    if not told and not change.devices:
        return "Nothing changed."
    worse = sum(each.weight is Weight.WORSE for each in told)
    better = sum(each.weight is Weight.BETTER for each in told)
    count = len(change.devices)
    return f"{count} device{'s' if count != 1 else ''} changed, {change.unchanged} not: {worse} worse, {better} better."


# --- the device and its findings -------------------------------------------------------------------------------------


def _whole(change: DeviceChange) -> Told:
    guide = change.guide
    if change.new is None:
        return Told(Section.DEVICE, Weight.WORSE, f"The guide to the {guide.device.name} is gone.", guide.id)
    steps = f"{len(guide.order)} step{'s' if len(guide.order) != 1 else ''}"
    words = f"The guide to the {guide.device.name} is new: {steps}, {len(guide.anatomy.parts)} parts."
    return Told(Section.DEVICE, Weight.OTHER, words, guide.id, guide.device.place)


def _findings(new: Sequence[Reported], gone: Sequence[Reported]) -> Iterator[Told]:
    for found in new:
        weight = Weight.OTHER if found.level == "note" else Weight.WORSE
        words = f"New {found.level}, {found.rule}: {found.finding.message}"
        yield Told(Section.FINDINGS, weight, words, found.rule, found.finding.place)
    for found in gone:
        weight = Weight.OTHER if found.level == "note" else Weight.BETTER
        words = f"No longer, {found.level} {found.rule}: {found.finding.message}"
        yield Told(Section.FINDINGS, weight, words, found.rule)


def _of_device(change: DeviceChange) -> Iterator[Told]:
    guide = change.guide
    if change.was is not None:
        words = f"The device is now called {change.id} in addresses; it was {change.was}."
        yield Told(Section.DEVICE, Weight.OTHER, words, change.id, guide.device.place)
    for field in change.told:
        yield Told(Section.DEVICE, Weight.OTHER, _field(field, "The device's"), field.field, guide.device.place)


def _field(field: FieldChange, whose: str) -> str:
    name = field.field.replace("_", " ")
    if field.pieces:
        return f"{whose} {name} is reworded."
    if field.before is None:
        return f"{whose} {name} is now told: {_short(field.after)}."
    if field.after is None:
        return f"{whose} {name} is no longer told; it was {_short(field.before)}."
    return f"{whose} {name}: {_short(field.before)}, now {_short(field.after)}."


# --- steps -----------------------------------------------------------------------------------------------------------


def _of_step(old: Guide, new: Guide, change: StepChange) -> Iterator[Told]:
    before, after = change.old, change.new

    def say(words: str, section: Section = Section.STEPS, weight: Weight = Weight.OTHER) -> Told:
        return Told(section, weight, words, change.step.id, change.new.place if change.new else None)

    if before is None:
        assert after is not None
        yield say(f"{_named(new, after.id)} is new.")
        for hazard in change.hazards_came:
            yield say(_hazard(_named(new, after.id), hazard, "now warns of"), Section.SAFETY, Weight.OTHER)
        return
    if after is None:
        yield say(f"{_named(old, before.id)} is gone.")
        return
    name = _named(new, after.id)
    if change.is_renamed:
        yield say(f"{name} has a new id: {after.id}, before {before.id}.")
    if change.is_moved:
        yield say(_move(old, new, change))
    if change.title:
        yield say(f"{name} was called {quoted(before.title)}.")
    yield from (say(f"{name} no longer does: {action_words(old, action)}.") for action in change.work_gone)
    yield from (say(f"{name} now does: {action_words(new, action)}.") for action in change.work_came)
    if change.is_reordered:
        work = listed([action_words(new, action) for action in after.actions])
        yield say(f"{name} does the same work in another order: {work}.")
    if change.body:
        yield say(f"{name} is reworded.")
    if change.refitting:
        yield say(f"The refitting text of {_small(name)} is reworded.")
    if before.takes != after.takes:
        yield say(f"{name} takes {_minutes(after.takes)}, before {_minutes(before.takes)}.")
    if before.film != after.film:
        yield say(f"{name} is on film at {_film(after.film)}, before {_film(before.film)}.")
    is_same_work = not (change.work_gone or change.work_came)
    for caution in change.cautions_gone:
        yield say(f"{name} has lost its {caution.level}: {_short(caution.text)}", Section.SAFETY, Weight.WORSE)
    for caution in change.cautions_came:
        yield say(f"{name} has a new {caution.level}: {_short(caution.text)}", Section.SAFETY, Weight.BETTER)
    for hazard in change.hazards_gone:
        weight = Weight.WORSE if is_same_work and hazard.kind not in OF_THE_ORDER else Weight.OTHER
        yield say(_hazard(name, hazard, "no longer warns of"), Section.SAFETY, weight)
    for hazard in change.hazards_came:
        yield say(_hazard(name, hazard, "now warns of"), Section.SAFETY)
    for photo in change.photos_gone:
        is_kept = any(photo.file == other.file for other in change.photos_came)
        if not is_kept:
            yield say(f"{name} has lost the photo {photo.file}.", Section.PICTURES, Weight.WORSE)
    for photo in change.photos_came:
        is_kept = any(photo.file == other.file for other in change.photos_gone)
        words = "shows the photo {} with other words or marks." if is_kept else "has the new photo {}."
        yield say(f"{name} {words.format(photo.file)}", Section.PICTURES)
    for file in change.media:
        yield say(f"{name} shows another picture under the same name, {file}.", Section.PICTURES)


def _move(old: Guide, new: Guide, change: StepChange) -> str:
    assert change.new is not None
    title = quoted(change.new.title)
    if change.number_after is None:
        return f"{title} has left the order; it was step {change.number_before}."
    where = "comes first now"
    if change.number_after > 1:
        where = f"comes after {quoted(new.order[change.number_after - 2].title)}"
    if change.number_before is None:
        return f"{title} has joined the order as step {change.number_after}: it {where}."
    return f"{title} moves from {change.number_before} to {change.number_after}: it {where}."


def _hazard(name: str, hazard: Hazard, verb: str) -> str:
    detail = f" ({_short(hazard.detail)})" if hazard.detail else ""
    return f"{name} {verb} {hazard.kind}: {hazard.subject}{detail}."


def action_words(guide: Guide, action: Action) -> str:
    """One line of work in words: `undo the port screws with the driver PH00`."""
    words: str = action.verb.value
    if action.joint is not None:
        words += f" the {guide.joint(action.joint).name}"
    elif action.part is not None:
        words += f" the {guide.part(action.part).name}"
    elif action.verb is Verb.TURN:
        words += f" the device, {action.face} up"
    if action.words:
        words += f" {_short(action.words)}"
    used = [guide.tools[tool].name for tool in action.tools if tool in guide.tools]
    used += [guide.supplies[supply].name for supply in action.supplies if supply in guide.supplies]
    if used:
        words += f" with {listed([f'the {name}' for name in used])}"
    if action.temperature is not None:
        words += f" at {number(action.temperature)} °C"
    if action.seconds is not None:
        low, high = action.seconds
        words += f" for {_minutes(low)}" + (f" to {_minutes(high)}" if high != low else "")
    return words


# --- ways, things, screws, index -------------------------------------------------------------------------------------


def _of_way(old: Guide, new: Guide, change: WayChange) -> Iterator[Told]:
    guide = new if change.part in new.anatomy.parts else old
    name = guide.part(change.part).name

    def say(words: str, weight: Weight, section: Section = Section.WAYS) -> Told:
        return Told(section, weight, words, change.part)

    before, after = change.before, change.after
    if after is None:
        yield say(f"No way to the {name} is asked for any more.", Weight.OTHER)
    elif before is None:
        reach = "there is no way to it" if isinstance(after, NoRoute) else _reach(after)
        yield say(f"The {name} is now asked for: {reach}.", Weight.OTHER)
    elif isinstance(after, NoRoute):
        was = "" if isinstance(before, NoRoute) else f" It took {_steps(before)}."
        yield say(f"The {name} can no longer be reached.{was}", Weight.WORSE)
    elif isinstance(before, NoRoute):
        yield say(f"The {name} can now be reached: {_reach(after)}.", Weight.BETTER)
    else:
        yield from _of_other_way(old, new, change.part, before, after)


def _of_other_way(old: Guide, new: Guide, part: PartId, before: Depth, after: Depth) -> Iterator[Told]:
    name = new.part(part).name
    lost = [step for step in before.route.safety if step.id not in {each.id for each in after.route.steps}]
    gained = [step for step in after.route.safety if step.id not in {each.id for each in before.route.steps}]
    for step in lost:
        words = f"The way to the {name} no longer goes through {quoted(step.title)}, which was kept for safety."
        yield Told(Section.SAFETY, Weight.OTHER if step.id not in new.step_by_id else Weight.WORSE, words, part)
    for step in gained:
        words = f"The way to the {name} now goes through {quoted(step.title)}, for safety."
        yield Told(Section.SAFETY, Weight.BETTER, words, part)
    earlier, later = _cost(before), _cost(after)
    owed = sum(len(step.actions) for step in gained)
    weight = Weight.OTHER
    if later[0] > earlier[0] + owed:
        weight = Weight.WORSE
    elif later[0] < earlier[0]:
        weight = Weight.BETTER
    figures = _figures(before, after)
    if figures:
        kind = {Weight.WORSE: "longer", Weight.BETTER: "shorter", Weight.OTHER: "another"}[weight]
        if weight is Weight.OTHER and later[0] > earlier[0]:
            kind = "longer, for safety alone"
        yield Told(Section.WAYS, weight, f"The way to the {name} is {kind}: {listed(figures)}.", part)
    else:
        yield Told(Section.WAYS, weight, f"The way to the {name} takes other steps and is as long as before.", part)


def _cost(depth: Depth) -> tuple[int, int]:
    return depth.actions, depth.route.tool_changes


def _figures(before: Depth, after: Depth) -> list[str]:
    pairs = (
        ("steps", before.steps, after.steps),
        ("actions", before.actions, after.actions),
        ("parts out of the way", before.parts, after.parts),
        ("tool changes", before.route.tool_changes, after.route.tool_changes),
        ("turns", before.route.turns, after.route.turns),
    )
    figures = [f"{now} {what} instead of {was}" for what, was, now in pairs if was != now]
    if before.route.seconds != after.route.seconds:
        figures.append(f"{_minutes(after.route.seconds)} instead of {_minutes(before.route.seconds)}")
    return figures


def _reach(depth: Depth) -> str:
    return f"{_steps(depth)}, {depth.actions} actions"


def _steps(depth: Depth) -> str:
    return f"{depth.steps} step{'s' if depth.steps != 1 else ''}"


def _of_thing(old: Guide, new: Guide, change: ThingChange) -> Told:
    guide = new if change.id is not None else old
    shelf = guide.anatomy.joints if change.kind == JOINT else guide.anatomy.parts
    thing = shelf[change.id or change.was]  # type: ignore[index]
    place = thing.place if change.id is not None else None
    is_are = "are" if is_plural(thing.name) else "is"
    if change.was is None:
        words = f"The {thing.name} {is_are} new ({change.kind} {change.id})."
    elif change.id is None:
        words = f"The {thing.name} {is_are} gone ({change.kind} {change.was})."
    else:
        told = [] if change.was == change.id else [f"the id is {change.id}, before {change.was}"]
        told += [_thing_field(field) for field in change.fields]
        words = f"The {thing.name}: {'; '.join(told)}."
    return Told(Section.THINGS, Weight.OTHER, words, change.id or change.was or "", place)


def _thing_field(field: FieldChange) -> str:
    name = field.field.replace("_", " ")
    if field.pieces:
        return f"{name} reworded"
    return f"{name} {_short(field.after or 'not told')}, before {_short(field.before or 'not told')}"


def _of_screws(change: ScrewChange) -> Told:
    size = screw_words(change.size)
    if change.before == 0:
        words = f"{change.after} screws {size} have appeared."
    elif change.after == 0:
        words = f"The {change.before} screws {size} have vanished."
    else:
        words = f"{change.after} screws {size} come out, before {change.before}."
    return Told(Section.SCREWS, Weight.OTHER, words.replace("The 1 screws", "The 1 screw").replace("1 screws", "1 screw"))


def screw_words(size: ScrewSize) -> str:
    """`M1.4 × 3 mm, cross-recess PH00`; what is not told is left out."""
    length = f"{number(size.length)} mm" if size.length is not None else "of unknown length"
    head = f"{size.thread} × {length}" if size.thread and size.length is not None else (size.thread or length)
    return ", ".join(each for each in (head, size.drive, size.head) if each)


def _of_index(change: IndexChange) -> Iterator[Told]:
    before, after = change.before, change.after
    if before is None or after is None:
        words = "A published index is now computed" if after else "No published index is computed any more"
        told = f": {index_words(after)}" if after else ""
        yield Told(Section.INDEX, Weight.OTHER, f"{words}{told}.")
        return
    if (before.low, before.high, before.classes) != (after.low, after.high, after.classes):
        weight = Weight.OTHER
        if None not in (before.low, before.high, after.low, after.high):
            sums = (before.low + before.high, after.low + after.high)  # type: ignore[operator]
            weight = Weight.WORSE if sums[1] < sums[0] else Weight.BETTER if sums[1] > sums[0] else Weight.OTHER
        yield Told(Section.INDEX, weight, f"The index is {index_words(after)}, before {index_words(before)}.")
    for moved in change.difference.moved if change.difference else ():
        cell = moved.after or moved.before
        assert cell is not None
        was, now = (_points(each) for each in (moved.before, moved.after))
        words = f"{cell.name}, {after.criterion_name(cell.criterion).lower()}: {now}, before {was}."
        yield Told(Section.INDEX, Weight.OTHER, words, cell.part or "")


def index_words(index: Index) -> str:
    """`2.13 to 2.41, class D or E`, own estimate; the act's sum as it is, unrounded sums to two decimals."""
    if index.low is None or index.high is None:
        return "not given as one figure"
    low, high = f"{index.low:.2f}", f"{index.high:.2f}"
    classes = listed(list(index.classes), "or")
    return (low if low == high else f"{low} to {high}") + (f", class {classes}" if classes else "")


def _points(cell: object) -> str:
    if cell is None:
        return "not counted"
    low, high = cell.low, cell.high  # type: ignore[attr-defined]
    return f"{low} points" if low == high else f"{low} to {high} points"


# --- small words -----------------------------------------------------------------------------------------------------


def _named(guide: Guide, step: object) -> str:
    name = step_name(guide, step)  # type: ignore[arg-type]
    return name[:1].upper() + name[1:]


def _small(name: str) -> str:
    return name[:1].lower() + name[1:]


def _minutes(seconds: int | None) -> str:
    if seconds is None:
        return "an untold time"
    return f"{seconds} s" if seconds < 60 else f"{number(float(minutes(seconds)))} min"


def _film(film: tuple[int, int | None] | None) -> str:
    if film is None:
        return "no known time"
    start, end = film
    return f"{clock(start)} to {clock(end)}" if end is not None else clock(start)


def _short(text: str | None) -> str:
    text = " ".join((text or "").split())
    return text if len(text) <= 160 else f"{text[:159]}…"
