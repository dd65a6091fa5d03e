"""What a change means, as sentences for whoever reviews it: one a fact, marked better or worse where that can be said."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from generator.anatomy.parts import PartId
from generator.indices.workings import Index
from generator.orders.accounts import Depth, ScrewSize
from generator.orders.guide import Guide, minutes
from generator.orders.hazards import Hazard
from generator.orders.routes import NoRoute
from generator.orders.work import Action, Step, Verb
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
from generator.rules.finding import LEVELS, Reported
from generator.rules.wording import is_plural, listed, number, quoted, step_name
from generator.source.places import Place
from generator.source.values import clock


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
    unread = unread_files(change)
    told = [
        *_findings(change.findings_new, change.findings_gone),
        *(told for step in change.steps for told in _of_step(old, new, step, unread)),
        *_of_safety(new, change.ways),
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
            yield _field_name(field).capitalize(), field.pieces
    for thing in change.things:
        for field in thing.fields:
            if field.pieces:
                yield f"{thing.id}, {_field_name(field)}", field.pieces


def texts_of_step(change: DeviceChange, step: StepChange) -> Iterator[tuple[str, tuple[Piece, ...]]]:
    """The reworded texts of a step that is still there and can be read, each with its title."""
    if step.old is None or step.new is None or _is_unread(step, unread_files(change)):
        return
    for title, pieces in (("Words", step.body), ("Refitting", step.refitting)):
        if pieces:
            yield title, pieces


def unread_files(change: DeviceChange) -> frozenset[str]:
    """Files that could be read before and cannot now."""
    return frozenset(found.finding.place.file for found in change.findings_new if found.rule.startswith("file/"))


def _is_unread(step: StepChange, unread: Collection[str]) -> bool:
    if step.old is None or step.new is None or step.new.place.file not in unread:
        return False
    return bool(step.old.actions) and not step.new.actions


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
    """New ones before those that are gone, the graver first."""
    for found in sorted(new, key=lambda found: LEVELS.index(found.level)):
        weight = Weight.OTHER if found.level == "note" else Weight.WORSE
        words = f"New {found.level}, {found.rule}: {found.finding.message}"
        yield Told(Section.FINDINGS, weight, words, found.rule, found.finding.place)
    for found in sorted(gone, key=lambda found: LEVELS.index(found.level)):
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
    name = _field_name(field)
    if field.pieces:
        return f"{whose} {name} is reworded."
    if field.is_part:
        return f"{whose} {name}: {_parts_of_list(field)}."
    if field.before is None:
        return f"{whose} {name} is now told: {_short(field.after)}."
    if field.after is None:
        return f"{whose} {name} is no longer told; it was {_short(field.before)}."
    return f"{whose} {name}: now {_short(field.after)}, before {_short(field.before)}."


FIELD_NAMES = {
    "paired": "paired parts",
    "film_address": "address of the video",
    "film_length": "length of the video",
    "update_years": "years of updates",
    "verdict_author": "author of the verdict",
    "is_renewed": "refitting with a new one",
    "positions": "places",
    "outline": "corners of the outline",
    "run": "points of the run",
    "features": "marks",
    "spare_number": "number of the spare",
    "spare_price": "price of the spare",
    "about": "text about it",
}
"""Fields whose name alone would not be understood; the others are called what the author writes."""


def _field_name(field: FieldChange) -> str:
    return FIELD_NAMES.get(field.field, field.field.replace("_", " "))


def _parts_of_list(field: FieldChange) -> str:
    told = [f"{word} {_short(names)}" for word, names in (("no longer", field.before), ("now also", field.after)) if names]
    return ", ".join(told)


# --- steps -----------------------------------------------------------------------------------------------------------


def _of_step(old: Guide, new: Guide, change: StepChange, unread: Collection[str]) -> Iterator[Told]:
    """unread: files that can no longer be read, of which there is nothing more to say."""
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
    if _is_unread(change, unread):
        yield say(f"{_named(old, before.id)} can no longer be read.", weight=Weight.WORSE)
        return
    name = _named(new, after.id)
    if change.is_renamed:
        yield say(f"{name} has a new id: {after.id}, before {before.id}.")
    if change.is_moved:
        yield say(_move(old, new, change))
    if change.title:
        yield say(f"{name} was called {quoted(before.title)}.")
    yield from (say(f"{name} {words}.") for words in _work(old, new, change))
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


def _work(old: Guide, new: Guide, change: StepChange) -> Iterator[str]:
    """What is no longer done, what is done in another way, what is done anew."""
    came = list(change.work_came)
    for action in change.work_gone:
        other = next((each for each in came if _is_done_to_the_same(action, each)), None)
        if other is None:
            yield f"no longer does: {action_words(old, action)}"
        else:
            came.remove(other)
            yield f"now does: {action_words(new, other)}; before: {action_words(old, action)}"
    yield from (f"now also does: {action_words(new, action)}" for action in came)


def _is_done_to_the_same(one: Action, other: Action) -> bool:
    return (one.verb, one.joint, one.part, one.face) == (other.verb, other.joint, other.part, other.face)


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
    lost, gained = _kept_for_safety(before, after)
    owed = 0
    if gained and not lost:
        owed = sum(step.takes or 0 if _has_minutes(before, after) else len(step.actions) for step in gained)
    figures = _figures(before, after)
    earlier, later = (_cost(depth, _has_minutes(before, after)) for depth in (before, after))
    is_same_run = [step.id for step in before.route.steps] == [step.id for step in after.route.steps]
    if later > earlier + owed and not (is_same_run and before.actions == after.actions):
        kind, weight = "longer", Weight.WORSE
    elif later > earlier:
        kind, weight = ("longer, for safety alone" if owed else "another"), Weight.OTHER
    elif later < earlier and not is_same_run:
        kind, weight = "shorter", Weight.BETTER
    else:
        kind, weight = "another", Weight.OTHER
    if not figures:
        words = f"The way to the {name} takes other steps and is as long as before."
    elif is_same_run:
        words = f"The way to the {name} has the same steps: {listed(figures)}."
    else:
        words = f"The way to the {name} is {kind}: {listed(figures)}."
    yield Told(Section.WAYS, weight, words, part)


def _kept_for_safety(before: Depth, after: Depth) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
    """Steps that the way before held for safety and the way now does not hold, and the other way round."""
    now, then = ({step.id for step in depth.route.steps} for depth in (after, before))
    lost = tuple(step for step in before.route.safety if step.id not in now)
    return lost, tuple(step for step in after.route.safety if step.id not in then)


def _of_safety(new: Guide, ways: Sequence[WayChange]) -> Iterator[Told]:
    """What ways hold for safety, told once for all that changed alike."""
    alike: dict[tuple[tuple[Step, ...], tuple[Step, ...]], list[PartId]] = {}
    for way in ways:
        if isinstance(way.before, Depth) and isinstance(way.after, Depth):
            alike.setdefault(_kept_for_safety(way.before, way.after), []).append(way.part)
    for (lost, gained), parts in alike.items():
        names = listed([f"the {new.part(part).name}" for part in parts])
        ways_to = f"The way to {names} goes" if len(parts) == 1 else f"The ways to {names} go"
        if lost and gained:
            words = f"{ways_to} through {_titles(gained)} for safety, before through {_titles(lost)}."
            yield Told(Section.SAFETY, Weight.OTHER, words, parts[0])
        elif lost:
            words = f"{ways_to} no longer through {_titles(lost)}, which was kept for safety."
            yield Told(Section.SAFETY, Weight.WORSE, words, parts[0])
        elif gained:
            yield Told(Section.SAFETY, Weight.BETTER, f"{ways_to} through {_titles(gained)} now, for safety.", parts[0])


def _titles(steps: Sequence[Step]) -> str:
    return listed([quoted(step.title) for step in steps])


def _has_minutes(before: Depth, after: Depth) -> bool:
    """Whether both ways can be measured in time, as routes are where every step says how long it takes."""
    return before.route.seconds is not None and after.route.seconds is not None


def _cost(depth: Depth, in_time: bool) -> int:
    return (depth.route.seconds or 0) if in_time else depth.actions


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
    name = _field_name(field)
    if field.pieces:
        return f"{name} reworded"
    if field.is_part:
        return f"{name} {_parts_of_list(field)}"
    if field.before == field.after:
        return f"{name} changed"
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
        weight = _index_weight(before, after)
        yield Told(Section.INDEX, weight, f"The index is {index_words(after)}, before {index_words(before)}.")
    for moved in change.difference.moved if change.difference else ():
        cell = moved.after or moved.before
        assert cell is not None
        was, now = (_points(each) for each in (moved.before, moved.after))
        words = f"{cell.name}, {after.criterion_name(cell.criterion).lower()}: {now}, before {was}."
        yield Told(Section.INDEX, Weight.OTHER, words, cell.part or "")


def _index_weight(before: Index, after: Index) -> Weight:
    """Worse where no end of the range is better and one is worse; a range that only got wider or narrower is neither."""
    if before.low is None or before.high is None or after.low is None or after.high is None:
        return Weight.OTHER
    ends = {(after.low > before.low) - (after.low < before.low), (after.high > before.high) - (after.high < before.high)}
    if 1 in ends and -1 in ends:
        return Weight.OTHER
    return Weight.WORSE if -1 in ends else Weight.BETTER if 1 in ends else Weight.OTHER


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
