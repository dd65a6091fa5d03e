"""From anatomy.yaml's record to the anatomy: defaults filled in, names that point nowhere set aside."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Drive, Joint, JointKind
from generator.anatomy.parts import CELL_LIMIT, Box, Cell, Charge, Feature, JointId, Part, PartId, Point
from generator.source.places import Place, Places
from generator.source.records import AnatomyRecord, CellRecord, JointRecord, PartMarkRecord, PartRecord

CELL_MATERIAL = "cell"


@dataclass(frozen=True, slots=True)
class Dangling:
    """A name that points to nothing. kind: part, joint, tool, supply, step, face or photo; near: up to three known names."""

    kind: str
    name: str
    near: tuple[str, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class InsideItself:
    """A part whose `inside` chain leads back to it; `chain` starts and ends with the part."""

    chain: tuple[PartId, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class AnatomyRead:
    """The anatomy without what dangles, and what was set aside."""

    anatomy: Anatomy
    dangling: tuple[Dangling, ...]
    inside_itself: tuple[InsideItself, ...]


def dangling(kind: str, name: str, known: Iterable[str], place: Place) -> Dangling:
    """A name that points nowhere, with the names it may have meant."""
    return Dangling(kind, name, tuple(get_close_matches(name, list(known), n=3, cutoff=0.6)), place)


def read_anatomy(record: AnatomyRecord, places: Places, faces: Sequence[str]) -> AnatomyRead:
    """Build the anatomy; `faces` are the device's faces, the first of which is the default."""
    missing: list[Dangling] = []

    def known(kind: str, names: Sequence[str], among: Collection[str], *loc: str | int) -> tuple[str, ...]:
        for index, name in enumerate(names):
            if name not in among:
                place = places.value(*loc, index) if len(names) > 1 else places.value(*loc)
                missing.append(dangling(kind, name, among, place))
        return tuple(dict.fromkeys(name for name in names if name in among))

    def face_of(written: str | None, otherwise: str, *loc: str) -> str:
        if written is None:
            return otherwise
        return written if known("face", [written], faces, *loc) else otherwise

    parts: dict[PartId, Part] = {}
    for name, part in record.parts.items():
        loc = ("parts", name)
        inside = part.inside if part.inside is None or known("part", [part.inside], record.parts, *loc, "inside") else None
        parts[PartId(name)] = _part(
            name,
            part,
            places,
            face_of(part.face, faces[0], *loc, "face"),
            PartId(inside) if inside else None,
            tuple(PartId(p) for p in known("part", part.under, record.parts, *loc, "under")),
        )
    base = PartId(record.base)
    if base not in parts:
        missing.append(dangling("part", base, parts, places.value("base")))
        parts[base] = Part(base, _spoken(base), faces[0], places.value("base"), places)
    parts, cut = _cut_chains(parts)
    joints: dict[JointId, Joint] = {}
    for name, joint in record.joints.items():
        loc = ("joints", name)
        joins = tuple(PartId(p) for p in known("part", joint.joins, parts, *loc, "joins"))
        behind = tuple(PartId(p) for p in known("part", joint.behind, parts, *loc, "behind"))
        if len(joins) < 2:
            if len(set(joint.joins)) < 2:
                missing.append(dangling("part", joint.joins[0], (), places.value(*loc, "joins")))
            continue
        face = face_of(joint.face, parts[joins[0]].face, *loc, "face")
        joints[JointId(name)] = _joint(name, joint, places, joins, behind, face)
    return AnatomyRead(Anatomy(base, parts, joints), tuple(missing), tuple(cut))


def _spoken(identifier: str) -> str:
    return identifier.replace("-", " ")


def _box(values: tuple[float, float, float, float] | None) -> Box | None:
    return Box(*values) if values is not None else None


def _part(
    name: str, record: PartRecord, places: Places, face: str, inside: PartId | None, under: tuple[PartId, ...]
) -> Part:
    return Part(
        id=PartId(name),
        name=record.name or _spoken(name),
        face=face,
        place=places.key("parts", name),
        places=places,
        box=_box(record.box),
        thickness=record.thickness,
        depth=record.depth,
        corner=record.corner or 0.0,
        outline=tuple(record.outline or ()),
        holes=tuple(Box(*hole) for hole in record.holes),
        features=tuple(feature for mark in record.marks for feature in _features(mark)),
        material=record.material or (CELL_MATERIAL if record.cell else None),
        role=record.role,
        replaceable=record.replaceable,
        spare_number=record.spare.number if record.spare else None,
        spare_price=record.spare.price if record.spare else None,
        inside=inside,
        under=under,
        cell=_cell(record.cell) if record.cell else None,
        charge=Charge(record.charge.volts, record.charge.microfarads) if record.charge else None,
        licensed=record.licensed,
        hazards=tuple(record.hazards),
        formerly=tuple(record.formerly),
    )


def _cell(record: CellRecord) -> Cell:
    limit = CELL_LIMIT if record.limit is None else record.limit
    return Cell(record.chemistry, record.volts, record.watt_hours, limit)


def _features(mark: PartMarkRecord) -> Iterable[Feature]:
    across = mark.across or 0.0
    if mark.coil is not None:
        yield Feature("coil", mark.coil, across)
    if mark.lens is not None:
        yield Feature("lens", mark.lens, across)
    if mark.chip is not None:
        box = Box(*mark.chip)
        yield Feature("chip", box.centre, max(box.width, box.height), box)


def _joint(
    name: str, record: JointRecord, places: Places, joins: tuple[PartId, ...], behind: tuple[PartId, ...], face: str
) -> Joint:
    positions: tuple[Point, ...] = tuple(record.at) if isinstance(record.at, list) else ()
    written = tuple(record.lengths)
    count = record.count or (len(written) if len(written) > 1 else 0) or len(positions) or 1
    lengths = written * count if len(written) == 1 else written
    return Joint(
        id=JointId(name),
        kind=JointKind(record.kind),
        name=record.name or _spoken(name),
        joins=joins,
        face=face,
        place=places.key("joints", name),
        places=places,
        behind=behind,
        drive=_drive(record.drive),
        head=record.head,
        thread=record.thread,
        lengths=lengths,
        lengths_written=written,
        count_written=record.count,
        count=count,
        positions=positions,
        run=tuple(record.run or ()),
        torque=record.torque,
        softens=record.softens,
        temperature=record.at if isinstance(record.at, float) else None,
        is_renewed=record.refit == "new",
        reusable=record.reusable,
        tools=tuple(record.tool),
        note=record.note,
    )


def _drive(written: str | None) -> Drive | None:
    if written is None:
        return None
    shape, _, size = written.partition(" ")
    return Drive(shape, size.strip() or None)


def _cut_chains(parts: Mapping[PartId, Part]) -> tuple[dict[PartId, Part], list[InsideItself]]:
    """Cut every `inside` chain that bites its own tail at the part where it was noticed."""
    result = dict(parts)
    cut: list[InsideItself] = []
    ends_well: set[PartId] = set()  # parts whose chain is known to come to an end: long chains are walked once
    for start in parts:
        chain = {start: None}
        above = result[start].inside
        while above is not None and above not in chain and above not in ends_well:
            chain[above] = None
            above = result[above].inside
        if above == start:
            cut.append(InsideItself((*chain, start), result[start].places.value("parts", start, "inside")))
            result[start] = replace(result[start], inside=None)
        if above is None or above == start or above in ends_well:
            ends_well.update(chain)
    return result, cut


