"""Two states of a library: which devices are to be held against each other, and what changed above them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.anatomy.joints import Joint
from generator.orders.guide import Guide, Library
from generator.review.changes import DeviceChange, FieldChange, LibraryChange
from generator.review.devices import Media, device_change, field_change, written
from generator.review.matching import renamed
from generator.rules.finding import Reported

OF_ALL_GUIDES = ("ref/unused", "ref/formerly")
"""Rules that no part of the guides can answer."""

TOLD = ("title", "author", "about", "address", "languages", "licence", "sources")
"""What a library says of itself."""


def library_change(
    old: Library,
    new: Library,
    found_before: Sequence[Reported],
    found_after: Sequence[Reported],
    media: tuple[Mapping[str, Media], Mapping[str, Media]],
    unchanged: int = 0,
    is_whole: bool = True,
) -> LibraryChange:
    """What differs between two states, of whose devices those that are byte for byte the same may have been left out.

    media: of each device, the digests of the files below its `media` folder. unchanged: how many were left out; is_whole:
    none was, so that what is asked of all guides together (a tool nobody uses) can be judged.
    """
    before = {guide.id: guide for guide in old.guides}
    after = {guide.id: guide for guide in new.guides}
    was = renamed(
        {name: _traits(guide) for name, guide in before.items() if name not in after},
        {name: _traits(guide) for name, guide in after.items() if name not in before},
        {name: guide.device.formerly for name, guide in after.items()},
    )
    if not is_whole:
        found_before = [found for found in found_before if found.rule not in OF_ALL_GUIDES]
        found_after = [found for found in found_after if found.rule not in OF_ALL_GUIDES]
    changes: dict[str, DeviceChange] = {}
    for name, guide in after.items():
        earlier = was.get(name, name)
        later_found = _of(found_after, name)
        if earlier in before:
            pictures = (media[0].get(earlier, {}), media[1].get(name, {}))
            changes[name] = device_change(before[earlier], guide, _of(found_before, earlier), later_found, pictures)
        else:
            changes[name] = DeviceChange(name, None, None, guide, findings_new=later_found)
    for name, guide in before.items():
        if name not in after and name not in was.values():
            changes[name] = DeviceChange(name, None, guide, None)
    shared_before, shared_after = _of(found_before, ""), _of(found_after, "")
    said_before = {(found.rule, found.finding.message) for found in shared_before}
    said_after = {(found.rule, found.finding.message) for found in shared_after}
    real = {name: change for name, change in changes.items() if change.is_anything}
    return LibraryChange(
        devices=tuple(real[name] for name in sorted(real)),
        told=_told(old, new),
        findings_new=tuple(each for each in shared_after if (each.rule, each.finding.message) not in said_before),
        findings_gone=tuple(each for each in shared_before if (each.rule, each.finding.message) not in said_after),
        unchanged=unchanged + len(changes) - len(real),
    )


def leans_on(guide: Guide) -> frozenset[str]:
    """What a guide takes from the shared files, and the names it answers to: where these change, others are concerned."""
    work = (tool for step in guide.step_by_id.values() for action in step.actions for tool in guide.tools_of(action))
    laid_in = (
        supply for step in guide.step_by_id.values() for action in step.actions for supply in action.supplies
    )
    prose = (text for step in guide.step_by_id.values() for text in (step.body, step.refitting) if text is not None)
    notes = (note.prose for note in guide.notes)
    named = (each.target for text in (*prose, *notes) for each in text.references if each.scheme in ("tool", "supply"))
    hinted = (tool for joint in guide.anatomy.joints.values() for tool in joint.tools)
    return frozenset((guide.id, *guide.device.formerly, *work, *laid_in, *named, *hinted))


def _of(found: Sequence[Reported], device: str) -> tuple[Reported, ...]:
    return tuple(each for each in found if each.device == device)


def _traits(guide: Guide) -> frozenset[object]:
    joints = {("joint", name, _kind(joint)) for name, joint in guide.anatomy.joints.items()}
    parts = {("part", name) for name in guide.anatomy.parts}
    return frozenset([("name", guide.device.name), ("maker", guide.device.maker), *joints, *parts])


def _kind(joint: Joint) -> str:
    return joint.kind.value


def _told(old: Library, new: Library) -> tuple[FieldChange, ...]:
    pairs = ((name, getattr(old, name), getattr(new, name)) for name in TOLD)
    return tuple(field_change(name, written(before), written(after)) for name, before, after in pairs if before != after)
