"""Two states of one guide held against each other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from typing import Any, TypeVar

from generator.anatomy.joints import Joint
from generator.anatomy.parts import JointId, Part, PartId
from generator.indices.differences import difference
from generator.indices.scores import scores_of
from generator.orders.accounts import Depth, accounts_of, depth_on, pages_of
from generator.orders.guide import Guide
from generator.orders.hazards import hazards_back, hazards_of
from generator.orders.routes import NoRoute, Route, best_route
from generator.orders.work import Action, Step, StepId
from generator.review.changes import (
    JOINT,
    PART,
    DeviceChange,
    FieldChange,
    IndexChange,
    ScrewChange,
    StepChange,
    ThingChange,
    WayChange,
)
from generator.review.matching import Traits, renamed
from generator.review.moves import moved
from generator.review.wording import reworded
from generator.rules.finding import Reported
from generator.source.prose import Prose

T = TypeVar("T")

OF_THE_AUTHOR = {"place", "places"}
"""Fields that say where something stands in a file and nothing about the device."""

SAID_TWICE = {"lengths_written", "count_written"}
"""Fields that follow what another says."""

TEXT_WORDS = 6
"""Words from which the value of a field is a text, of which only what changed is worth reading."""

Media = Mapping[str, str]
"""The files below a device's `media` folder: a digest of the bytes of each, by path."""


def device_change(
    old: Guide,
    new: Guide,
    found_before: Sequence[Reported] = (),
    found_after: Sequence[Reported] = (),
    media: tuple[Media, Media] = ({}, {}),
) -> DeviceChange:
    """What differs between `old` and `new`. Cost: one route search a part and one index for each of the two."""
    names = _Names(old, new)
    return DeviceChange(
        id=new.id,
        was=old.id if old.id != new.id else None,
        old=old,
        new=new,
        told=_fields(old.device, new.device, {"formerly", "changed"}),
        things=(*_parts(old, new, names), *_joints(old, new, names)),
        steps=tuple(_steps(old, new, names, media)),
        ways=tuple(_ways(old, new, names)),
        screws=tuple(_screws(old, new)),
        index=_index(old, new),
        findings_new=_only_in(found_after, found_before, new, old),
        findings_gone=_only_in(found_before, found_after, old, new),
    )


class _Names:
    """Old names of what has a new one: parts, then joints by their parts, then steps by their work."""

    def __init__(self, old: Guide, new: Guide) -> None:
        self.parts: dict[PartId, PartId] = _renamed(
            old.anatomy.parts, new.anatomy.parts, lambda part, _: _part_traits(part), {}
        )
        self.joints: dict[JointId, JointId] = _renamed(
            old.anatomy.joints, new.anatomy.joints, self._joint_traits, self.parts
        )
        things: dict[Any, Any] = {**self.parts, **self.joints}
        self.steps: dict[StepId, StepId] = _renamed(old.step_by_id, new.step_by_id, self._step_traits, things)

    def part(self, new: PartId) -> PartId:
        return self.parts.get(new, new)

    def joint(self, new: JointId) -> JointId:
        return self.joints.get(new, new)

    def step(self, new: StepId) -> StepId:
        return self.steps.get(new, new)

    @staticmethod
    def _joint_traits(joint: Joint, was: Mapping[Any, Any]) -> Traits:
        ends = [("joins", was.get(part, part)) for part in joint.joins]
        behind = [("behind", was.get(part, part)) for part in joint.behind]
        own = [(name, str(getattr(joint, name))) for name in ("kind", "drive", "thread", "lengths", "count", "positions")]
        return frozenset([*ends, *behind, *own, *(("word", word) for word in joint.name.lower().split())])

    @staticmethod
    def _step_traits(step: Step, was: Mapping[Any, Any]) -> Traits:
        work = [("work", *_done(action, was)) for action in step.actions]
        return frozenset([*work, *(("word", word) for word in step.title.lower().split())])


def _part_traits(part: Part) -> Traits:
    names = ("face", "box", "thickness", "depth", "material", "role", "replaceable", "spare_number", "inside")
    told = [(name, str(value)) for name in names if (value := getattr(part, name)) not in (None, False)]
    return frozenset([*told, *(("word", word) for word in part.name.lower().split())])


def _renamed(
    old: Mapping[Any, T], new: Mapping[Any, T], traits: Callable[[T, Mapping[Any, Any]], Traits], was: Mapping[Any, Any]
) -> dict[Any, Any]:
    gone = {name: traits(thing, {}) for name, thing in old.items() if name not in new}
    came = {name: traits(thing, was) for name, thing in new.items() if name not in old}
    formerly = {name: getattr(new[name], "formerly", ()) for name in came}
    return renamed(gone, came, formerly)


# --- parts and joints ----------------------------------------------------------------------------------------------


def _parts(old: Guide, new: Guide, names: _Names) -> Iterator[ThingChange]:
    def as_before(part: Part) -> dict[str, Any]:
        return {
            "inside": names.part(part.inside) if part.inside else None,
            "under": tuple(names.part(over) for over in part.under),
        }

    yield from _things(PART, old.anatomy.parts, new.anatomy.parts, names.parts, as_before)


def _joints(old: Guide, new: Guide, names: _Names) -> Iterator[ThingChange]:
    def as_before(joint: Joint) -> dict[str, Any]:
        return {
            "joins": tuple(names.part(part) for part in joint.joins),
            "behind": tuple(names.part(part) for part in joint.behind),
        }

    yield from _things(JOINT, old.anatomy.joints, new.anatomy.joints, names.joints, as_before)


def _things(
    kind: str,
    old: Mapping[Any, T],
    new: Mapping[Any, T],
    was: Mapping[Any, Any],
    as_before: Callable[[T], dict[str, Any]],
) -> Iterator[ThingChange]:
    kept = set()
    for name, thing in new.items():
        before = was.get(name, name)
        if before not in old:
            yield ThingChange(kind, None, name)
            continue
        kept.add(before)
        changed = _fields(old[before], thing, {"id", "formerly"}, as_before(thing))
        if changed or before != name:
            yield ThingChange(kind, before, name, changed)
    for name in old:
        if name not in kept:
            yield ThingChange(kind, name, None)


def _fields(
    old: Any, new: Any, without: set[str], as_before: Mapping[str, Any] | None = None
) -> tuple[FieldChange, ...]:
    """The fields that differ; `as_before` has those of `new` in the names that `old` uses."""
    changed = []
    for each in fields(old):
        if each.name in OF_THE_AUTHOR | SAID_TWICE | without:
            continue
        before, after = getattr(old, each.name), getattr(new, each.name)
        if before != (as_before or {}).get(each.name, after):
            changed.append(_changed(each.name, before, after))
    return tuple(changed)


def _changed(name: str, before: Any, after: Any) -> FieldChange:
    if before and after and _is_list(before) and _is_list(after):
        gone = tuple(each for each in before if each not in after)
        came = tuple(each for each in after if each not in before)
        if gone or came:
            return FieldChange(name, written(gone), written(came), is_part=True)
    return field_change(name, written(before), written(after))


def _is_list(value: Any) -> bool:
    """A list of names, of which only those that differ are worth telling."""
    return isinstance(value, tuple) and all(isinstance(each, str) for each in value)


def field_change(name: str, before: str | None, after: str | None) -> FieldChange:
    """The change of one field; of two texts of several words, word by word."""
    is_text = before is not None and after is not None and min(len(before.split()), len(after.split())) >= TEXT_WORDS
    return FieldChange(name, before, after, reworded(before or "", after or "") if is_text else ())


def written(value: Any) -> str | None:
    """A value as an author would write it; None for what is not told. Points and boxes are counted, not listed."""
    if value is None or value == () or value is False:
        return None
    if value is True:
        return "yes"
    if isinstance(value, tuple):
        if all(isinstance(each, str | int | float) for each in value):
            return ", ".join(written(each) or "none" for each in value)
        return str(len(value))
    if isinstance(value, float):
        return f"{value:g}"
    if is_dataclass(value) and "__str__" not in vars(type(value)):
        return ", ".join(f"{each.name} {written(getattr(value, each.name))}" for each in fields(value))
    return str(value)


# --- steps ---------------------------------------------------------------------------------------------------------


def _steps(old: Guide, new: Guide, names: _Names, media: tuple[Media, Media]) -> Iterator[StepChange]:
    """Steps that changed, in the new order; then those outside it, then those that are gone."""
    order_before = [step.id for step in old.order]
    went_elsewhere = set(moved(order_before, [names.step(step.id) for step in new.order]))
    kept = set()
    things: dict[Any, Any] = {**names.parts, **names.joints, **names.steps}
    ranked = [*new.order, *(step for step in new.step_by_id.values() if step.id not in new.number_of)]
    for step in ranked:
        before = old.step_by_id.get(names.step(step.id))
        if before is None:
            yield StepChange(None, step, None, new.number_of.get(step.id))
            continue
        kept.add(before.id)
        change = _step_change(old, new, before, step, before.id in went_elsewhere, things, media)
        if change is not None:
            yield change
    for step in (*old.order, *(step for step in old.step_by_id.values() if step.id not in old.number_of)):
        if step.id not in kept:
            yield StepChange(step, None, old.number_of.get(step.id), None)


def _step_change(
    old: Guide, new: Guide, before: Step, after: Step, is_moved: bool, was: Mapping[Any, Any], media: tuple[Media, Media]
) -> StepChange | None:
    done_before = [_done(action, {}) for action in before.actions]
    done_after = [_done(action, was) for action in after.actions]
    hazards = [(*hazards_of(old, before), *hazards_back(old, before)), (*hazards_of(new, after), *hazards_back(new, after))]
    left, right = old.number_of.get(before.id), new.number_of.get(after.id)
    change = StepChange(
        old=before,
        new=after,
        number_before=left,
        number_after=right,
        is_moved=is_moved or (left is None) != (right is None),
        title=reworded(before.title, after.title),
        body=reworded(_markdown(before.body), _markdown(after.body)),
        refitting=reworded(_markdown(before.refitting), _markdown(after.refitting)),
        work_gone=_missing(before.actions, done_before, done_after),
        work_came=_missing(after.actions, done_after, done_before),
        is_reordered=done_before != done_after and Counter(done_before) == Counter(done_after),
        cautions_gone=_without(before.cautions, after.cautions, lambda caution: (caution.level, caution.text)),
        cautions_came=_without(after.cautions, before.cautions, lambda caution: (caution.level, caution.text)),
        hazards_gone=tuple(dict.fromkeys(hazard for hazard in hazards[0] if hazard not in hazards[1])),
        hazards_came=tuple(dict.fromkeys(hazard for hazard in hazards[1] if hazard not in hazards[0])),
        photos_gone=_without(before.photos, after.photos, _shown),
        photos_came=_without(after.photos, before.photos, _shown),
        media=_redone(before, after, media),
    )
    as_it_was = StepChange(before, after, left, right)
    is_same = change == as_it_was and before.id == after.id and (before.film, before.takes) == (after.film, after.takes)
    return None if is_same else change


def _done(action: Action, was: Mapping[Any, Any]) -> tuple[Any, ...]:
    """What an action does, in old names, without where it stands."""
    return (
        action.verb.value,
        was.get(action.joint, action.joint),
        was.get(action.part, action.part),
        action.face,
        action.words,
        action.tools,
        action.supplies,
        action.seconds,
        action.temperature,
        was.get(action.proves, action.proves),
    )


def _missing(
    actions: Sequence[Action], done: Sequence[tuple[Any, ...]], elsewhere: Sequence[tuple[Any, ...]]
) -> tuple[Action, ...]:
    left = Counter(elsewhere)
    found = []
    for action, key in zip(actions, done, strict=True):
        if left[key]:
            left[key] -= 1
        else:
            found.append(action)
    return tuple(found)


def _without(these: Sequence[T], others: Sequence[T], key: Callable[[T], Any]) -> tuple[T, ...]:
    known = {key(other) for other in others}
    return tuple(each for each in these if key(each) not in known)


def _shown(photo: Any) -> tuple[Any, ...]:
    return tuple(getattr(photo, each.name) for each in fields(photo) if each.name not in OF_THE_AUTHOR)


def _redone(before: Step, after: Step, media: tuple[Media, Media]) -> tuple[str, ...]:
    names = {photo.file for photo in before.photos} & {photo.file for photo in after.photos}
    return tuple(sorted(name for name in names if _digest(media[0], name) != _digest(media[1], name)))


def _digest(media: Media, name: str) -> str | None:
    return media.get(name.removeprefix("media/"))


def _markdown(prose: Prose | None) -> str:
    return prose.markdown.strip() if prose is not None else ""


# --- what follows from it ------------------------------------------------------------------------------------------


def _ways(old: Guide, new: Guide, names: _Names) -> Iterator[WayChange]:
    kept = set()
    for part in _asked_for(new):
        before = names.part(part)
        kept.add(before)
        earlier = _way(old, before) if before in _asked_for(old) else None
        later = _way(new, part)
        if _told(earlier, {}) != _told(later, names.steps):
            yield WayChange(part, earlier, later)
    for part in _asked_for(old):
        if part not in kept:
            yield WayChange(part, _way(old, part), None)


def _asked_for(guide: Guide) -> tuple[PartId, ...]:
    lifted = (part for step in guide.steps for part in step.lifted if part != guide.anatomy.base)
    return tuple(dict.fromkeys((*pages_of(guide), *lifted)))


def _way(guide: Guide, part: PartId) -> Depth | NoRoute:
    way = best_route(guide, (part,), tells_others=False)
    return depth_on(guide, part, way) if isinstance(way, Route) else way


def _told(way: Depth | NoRoute | None, was: Mapping[Any, Any]) -> object:
    """What a way comes to, in old names of its steps; why there is none is told by the findings."""
    if way is None or isinstance(way, NoRoute):
        return type(way)
    route = way.route
    steps = frozenset(was.get(step.id, step.id) for step in route.steps)
    safety = frozenset(was.get(step.id, step.id) for step in route.safety)
    return steps, safety, way.actions, way.parts, route.seconds, route.tool_changes, route.turns


def _screws(old: Guide, new: Guide) -> Iterator[ScrewChange]:
    before = {line.size: line.count for line in accounts_of(old, old.order).screws}
    after = {line.size: line.count for line in accounts_of(new, new.order).screws}
    for size in dict.fromkeys((*before, *after)):
        if before.get(size, 0) != after.get(size, 0):
            yield ScrewChange(size, before.get(size, 0), after.get(size, 0))


def _index(old: Guide, new: Guide) -> IndexChange | None:
    before, after = scores_of(old).index, scores_of(new).index
    if before is None and after is None:
        return None
    if before is None or after is None:
        return IndexChange(before, after, None)
    told = difference(before, after)
    is_same = (before.low, before.high, before.classes) == (after.low, after.high, after.classes) and not told.moved
    return None if is_same else IndexChange(before, after, told)


def _only_in(these: Sequence[Reported], others: Sequence[Reported], guide: Guide, other: Guide) -> tuple[Reported, ...]:
    """What `these` say and `others` do not; a finding is the same wherever its line now stands."""
    left = Counter(_said(found, other) for found in others)
    result = []
    for found in these:
        key = _said(found, guide)
        if left[key]:
            left[key] -= 1
        else:
            result.append(found)
    return tuple(result)


def _said(found: Reported, guide: Guide) -> tuple[str, str, str]:
    """A finding without its line, and without the numbers of steps, which change whenever one is put in."""
    message = found.finding.message
    for step in sorted(guide.order, key=lambda step: -guide.number_of[step.id]):
        message = message.replace(f'step {guide.number_of[step.id]} "', 'step "')
    return found.rule, found.level, message
