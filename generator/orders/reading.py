"""From what was read to guides: steps with their actions, tools and supplies, every name looked up."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint
from generator.anatomy.parts import JointId, Part, PartId
from generator.anatomy.reading import Dangling, InsideItself, dangling, read_anatomy
from generator.orders.guide import Change, Device, Guide, Library, PartNote
from generator.orders.work import (
    Action,
    Caution,
    Photo,
    PhotoMark,
    Step,
    StepId,
    Supply,
    SupplyId,
    Tool,
    ToolId,
    Verb,
)
from generator.source.places import Place
from generator.source.prose import Prose
from generator.source.reading import DeviceSource, LibrarySource, Read, StepSource
from generator.source.records import ActionRecord, AnatomyRecord, DeviceRecord, PhotoRecord, SupplyRecord, ToolRecord
from generator.source.values import Duration

UNTITLED = "Guides"


def read_guides(source: LibrarySource) -> Library:
    """All guides of a content folder; what dangles is set aside in each guide and in the library."""
    tools = _tools(source.tools)
    supplies = _supplies(source.supplies)
    guides = tuple(read_guide(device, tools, supplies) for device in source.devices)
    record = source.library.record
    return Library(
        title=record.title if record else UNTITLED,
        guides=guides,
        texts=source.texts,
        author=record.author if record else None,
        about=record.about if record else None,
        address=record.address if record else None,
        languages=tuple(record.languages) if record else ("en",),
        licence=record.licence if record else None,
        sources=record.sources if record else None,
        contribute=source.contribute,
        asks_for_credits=record is not None and record.credits == "required",
        tools=tools,
        supplies=supplies,
        faults=source.faults,
        dangling=tuple(_supplies_without_joint(source.supplies, guides)),
        translations=source.translations,
    )


def read_guide(source: DeviceSource, tools: Mapping[ToolId, Tool], supplies: Mapping[SupplyId, Supply]) -> Guide:
    """One device. Where a file could not be read its part of the guide is empty and `is_complete` is False."""
    lookup = _Lookup(tools, supplies)
    device = _device(source.id, source.device)
    anatomy = lookup.anatomy(source, device.faces)
    steps = {StepId(step.id): lookup.step(step, device.faces) for step in source.steps}
    record = source.device.record
    places: list[tuple[StepId, Place]] = []
    twice: list[tuple[StepId, Place]] = []

    def named(key: str, names: Sequence[str]) -> tuple[Step, ...]:
        found: list[Step] = []
        for index, name in enumerate(names):
            place = source.device.places.value(key, index)
            if StepId(name) not in steps:
                lookup.miss("step", name, steps, place)
            elif any(known == name for known, _ in places):
                twice.append((StepId(name), place))
            else:
                places.append((StepId(name), place))
                found.append(steps[StepId(name)])
        return tuple(found)

    order = named("order", record.order if record else ())
    alternatives = named("alternatives", record.alternatives if record else ())
    used = {name for name, _ in places}
    lookup.pages_and_pairs(source.device, device)
    structural = tuple(lookup.missing)
    for step in source.steps:
        lookup.prose(step.body, steps)
        lookup.prose(step.refitting, steps)
    notes = []
    for translation in source.translations:
        lookup.prose(translation.body, steps)
        lookup.prose(translation.refitting, steps)
    for note in source.notes:
        if lookup.known_part(note.part, Place(note.file)):
            notes.append(PartNote(PartId(note.part), note.prose, note.file))
        lookup.prose(note.prose, steps)
    return Guide(
        id=source.id,
        device=device,
        anatomy=anatomy,
        order=order,
        alternatives=alternatives,
        unused=tuple(step for name, step in steps.items() if name not in used),
        tools=tools,
        supplies=supplies,
        notes=tuple(notes),
        media=source.media,
        faults=source.faults,
        dangling=tuple(lookup.missing),
        inside_itself=lookup.inside_itself,
        is_complete=source.is_complete and not structural and not twice and not lookup.inside_itself,
        order_places=tuple(places),
        named_twice=tuple(twice),
        translations=source.translations,
    )


def _device(name: str, read: Read[DeviceRecord]) -> Device:
    record = read.record
    if record is None:
        return Device(name.replace("-", " "), Place(read.file), read.places)
    changes = (
        tuple(Change(change.on, change.what) for change in record.changed) if isinstance(record.changed, list) else ()
    )
    return Device(
        name=record.name,
        place=read.places.value("name"),
        places=read.places,
        kind=record.kind,
        maker=record.maker,
        about=record.about,
        faces=tuple(record.faces),
        size=record.size,
        power=record.power,
        film_address=record.video.address if record.video else None,
        film_length=record.video.length if record.video else None,
        film_at=record.video.at if record.video else None,
        pages=tuple(PartId(part) for part in record.pages) if record.pages is not None else None,
        verdict=record.verdict.text if record.verdict else None,
        verdict_author=record.verdict.author if record.verdict else None,
        spare_parts=record.index.spare_parts if record.index else None,
        update_years=record.index.updates if record.index else None,
        information=record.index.information if record.index else None,
        paired=tuple(PartId(part) for part in record.index.paired) if record.index else (),
        absent=tuple(record.index.absent) if record.index else (),
        changed=max((change.day for change in changes), default=record.changed if isinstance(record.changed, str) else None),
        changes=changes,
        formerly=tuple(record.formerly),
    )


def _tools(read: Read[dict[str, ToolRecord]]) -> dict[ToolId, Tool]:
    return {
        ToolId(name): Tool(
            id=ToolId(name),
            name=record.name,
            type=record.type,
            place=read.places.key(name),
            fits=tuple((fit.drive, fit.size) for fit in record.fits if fit.drive is not None),
            undoes=tuple(fit.kind for fit in record.fits if fit.kind is not None),
            supplied=record.supplied,
            sale=record.sale,
            material=record.material,
            hazards=tuple(record.hazards),
            note=record.note,
        )
        for name, record in (read.record or {}).items()
    }


def _supplies(read: Read[dict[str, SupplyRecord]]) -> dict[SupplyId, Supply]:
    return {
        SupplyId(name): Supply(
            id=SupplyId(name),
            name=record.name,
            place=read.places.key(name),
            joints=tuple(JointId(joint) for joint in record.for_),
            hazards=tuple(record.hazards),
            dwell=_pair(record.dwell),
            note=record.note,
        )
        for name, record in (read.record or {}).items()
    }


def _supplies_without_joint(read: Read[dict[str, SupplyRecord]], guides: Sequence[Guide]) -> Iterable[Dangling]:
    """Supplies made for a joint that no device has; not judged when only some of the devices were read."""
    joints = {joint for guide in guides for joint in guide.anatomy.joints}
    if any(not guide.is_complete for guide in guides):
        return
    for name, record in (read.record or {}).items():
        for index, joint in enumerate(record.for_):
            if joint not in joints:
                loc = (name, "for", index) if len(record.for_) > 1 else (name, "for")
                yield dangling("joint", joint, sorted(joints), read.places.value(*loc))


def _pair(duration: Duration | None) -> tuple[int, int] | None:
    return (duration.low, duration.high) if duration is not None else None


class _Lookup:
    """Looks names up and keeps those that point nowhere."""

    def __init__(self, tools: Mapping[ToolId, Tool], supplies: Mapping[SupplyId, Supply]) -> None:
        self.tools = tools
        self.supplies = supplies
        self.parts: Mapping[PartId, Part] = {}
        self.joint_names: tuple[str, ...] = ()
        self.missing: list[Dangling] = []
        self.inside_itself: tuple[InsideItself, ...] = ()
        self.joints: Mapping[JointId, Joint] = {}

    def miss(self, kind: str, name: str, among: Iterable[str], place: Place) -> None:
        self.missing.append(dangling(kind, name, among, place))

    def known(self, kind: str, name: str | None, among: Iterable[str], place: Place) -> bool:
        if name is None:
            return False
        among = tuple(among)
        if name in among:
            return True
        self.miss(kind, name, among, place)
        return False

    def known_part(self, name: str | None, place: Place) -> bool:
        return self.known("part", name, self.parts, place)

    def anatomy(self, source: DeviceSource, faces: Sequence[str]) -> Anatomy:
        record: AnatomyRecord | None = source.anatomy.record
        if record is None:
            base = PartId("base")
            place = Place(source.anatomy.file)
            return Anatomy(base, {base: Part(base, "base", faces[0], place, source.anatomy.places)})
        read = read_anatomy(record, source.anatomy.places, faces)
        self.missing += read.dangling
        self.inside_itself = read.inside_itself
        self.parts = read.anatomy.parts
        self.joint_names = tuple(record.joints)  # a joint that lost an end is still a known name
        for name, joint in read.anatomy.joints.items():
            for index, tool in enumerate(joint.tools):
                loc = ("joints", name, "tool", index) if len(joint.tools) > 1 else ("joints", name, "tool")
                self.known("tool", tool, self.tools, source.anatomy.places.value(*loc))
        self.joints = read.anatomy.joints
        return read.anatomy

    def pages_and_pairs(self, read: Read[DeviceRecord], device: Device) -> None:
        for index, part in enumerate(device.pages or ()):
            self.known_part(part, read.places.value("pages", index))
        for index, part in enumerate(device.paired):
            self.known_part(part, read.places.value("index", "paired", index))

    def step(self, source: StepSource, faces: Sequence[str]) -> Step:
        record = source.record
        places = source.places
        if record is None:
            return Step(StepId(source.id), source.id.replace("-", " "), (), Place(source.file), places)
        actions = (self._action(source, number, entry, faces) for number, entry in enumerate(record.work))
        return Step(
            id=StepId(source.id),
            title=record.title,
            actions=tuple(action for action in actions if action is not None),
            place=places.value("title"),
            places=places,
            film=(record.video.start, record.video.end) if record.video else None,
            takes=(record.takes.low + record.takes.high) // 2 if record.takes else None,
            cautions=tuple(
                Caution(caution.level, caution.text, places.value("cautions", index))
                for index, caution in enumerate(record.cautions)
            ),
            photos=tuple(self._photo(source, index, photo) for index, photo in enumerate(record.photos)),
            body=source.body,
            refitting=source.refitting,
            is_filmed=record.filmed,
            formerly=tuple(record.formerly),
        )

    def _action(self, source: StepSource, number: int, record: ActionRecord, faces: Sequence[str]) -> Action | None:
        verb = next(verb for verb in Verb if getattr(record, verb.value) is not None)
        value = getattr(record, verb.value)
        place = source.places.value("work", number, verb.value)
        joint: str | None = None
        part: str | None = None
        face: str | None = None
        words: str | None = None
        seconds = _pair(record.for_)
        if verb in (Verb.UNDO, Verb.HEAT, Verb.SOAK):
            if not self.known("joint", value, self.joint_names, place) or value not in self.joints:
                return None
            joint = value
        elif verb in (Verb.LIFT, Verb.FOLD):
            if not self.known_part(value, place):
                return None
            part = value
        elif verb is Verb.TURN:
            if not self.known("face", value, faces, place):
                return None
            face = value
        elif isinstance(value, Duration):
            seconds = _pair(value)
        else:
            words = value
        if record.of is not None and self.known_part(record.of, source.places.value("work", number, "of")):
            part = record.of
        return Action(
            step=StepId(source.id),
            number=number,
            verb=verb,
            place=place,
            joint=JointId(joint) if joint else None,
            part=PartId(part) if part else None,
            face=face,
            words=words,
            tools=tuple(ToolId(t) for t in self._listed("tool", record.with_, self.tools, source, number, "with")),
            supplies=tuple(
                SupplyId(s) for s in self._listed("supply", record.supply, self.supplies, source, number, "supply")
            ),
            seconds=seconds,
            temperature=record.to,
            proves=record.proves,
        )

    def _listed(
        self, kind: str, names: Sequence[str], among: Iterable[str], source: StepSource, number: int, key: str
    ) -> Iterable[str]:
        for index, name in enumerate(names):
            loc = ("work", number, key, index) if len(names) > 1 else ("work", number, key)
            if self.known(kind, name, among, source.places.value(*loc)):
                yield name

    def _photo(self, source: StepSource, index: int, record: PhotoRecord) -> Photo:
        marks = []
        for number, mark in enumerate(record.marks):
            place = source.places.value("photos", index, "marks", number)
            joint = mark.joint if mark.joint and self.known("joint", mark.joint, self.joint_names, place) else None
            part = mark.part if mark.part and self.known_part(mark.part, place) else None
            marks.append(
                PhotoMark(*mark.at, JointId(joint) if joint else None, PartId(part) if part else None, mark.text)
            )
        return Photo(
            record.file,
            record.alt,
            record.credit,
            record.licence,
            tuple(marks),
            source.places.value("photos", index, "file"),
            record.focus,
            record.closer or 1.0,
            record.when,
        )

    def prose(self, prose: Prose | None, steps: Mapping[StepId, Step]) -> None:
        among: Mapping[str, Iterable[str]] = {
            "part": self.parts,
            "joint": self.joint_names,
            "tool": self.tools,
            "supply": self.supplies,
            "step": steps,
        }
        for reference in prose.references if prose else ():
            self.known(reference.scheme, reference.target, among[reference.scheme], reference.place)
