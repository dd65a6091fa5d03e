"""Regulation (EU) 2023/1670: can a professional, and can an end user, replace the parts of a phone or tablet."""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.parts import PartId
from generator.indices.basic_tools import ED, READ
from generator.indices.checks import Answer, Check, Found, Sort, answered, tools_met
from generator.indices.operations import NoPath, Operation, Path, path_to
from generator.indices.phones_2023_1669.fasteners import fastener_class
from generator.indices.phones_2023_1669.parts import codes_of
from generator.indices.phones_2023_1669.tables import REMOVABLE
from generator.indices.workings import Basis
from generator.languages import later, say
from generator.orders.guide import Guide

BY_PROFESSIONAL = later("replaceable by a professional")
BY_END_USER = later("replaceable by an end user")

CLAUSE = later("Annex II B 1.1(5)(a) to (c), and D likewise")

PROFESSIONAL = Basis(
    ED, CLAUSE,
    later("fasteners reusable, resupplied or removable; tools none, supplied, basic or on public sale; workshop; "
    "generalist"), READ, "verified",
)  # fmt: skip
END_USER = Basis(
    ED, CLAUSE, later("as for professionals, but no tool that is merely on public sale; where the device is used; layman"),
    READ, "verified",
)  # fmt: skip
BATTERY = Basis(ED, CLAUSE, later("as for end users, and no fastener that is merely removable"), READ, "verified")

PLACE_AND_PERSON = later("whether the place and the skill that the act allows are enough")
ALTERNATIVE = later(
    "whether the battery keeps its capacity and the device keeps water out long enough for the act's other way"
)
OFFERED = later("whether the part has to be offered to end users at all")


def replacement_checks(guide: Guide) -> tuple[Check, ...]:
    """Two checks for every part with the role of a priority part, one for the display; none for other kinds of device."""
    if guide.device.kind == "other":
        return ()
    checks: list[Check] = []
    for part in guide.anatomy.parts.values():
        codes = codes_of(part.role)
        if not codes:
            continue
        path = path_to(guide, part.id)
        checks.append(
            answered(BY_PROFESSIONAL, part.id, _against(guide, part.id, path, ()), (PLACE_AND_PERSON,), PROFESSIONAL)
        )
        if "BAT" in codes:
            found = _against(guide, part.id, path, (Sort.ON_SALE, Sort.APPLIED), is_battery=True)
            checks.append(answered(BY_END_USER, part.id, found, (PLACE_AND_PERSON, ALTERNATIVE), BATTERY))
        elif "DA" not in codes:
            found = _against(guide, part.id, path, (Sort.ON_SALE, Sort.APPLIED))
            checks.append(answered(BY_END_USER, part.id, found, (PLACE_AND_PERSON, OFFERED), END_USER))
    return tuple(checks)


def _against(
    guide: Guide, part: PartId, path: Path | NoPath, not_allowed: tuple[Sort, ...], is_battery: bool = False
) -> Iterator[Found]:
    if isinstance(path, NoPath):
        yield Found(Answer.OPEN, say("no way in this guide takes out the {part}", part=guide.part(part).name))
        return
    if path.taken != part:
        taken = guide.part(path.taken).name
        yield Found(Answer.OPEN, say("it comes out with the {part}: lawful only for some parts", part=taken))
    for name, sort, step in tools_met(guide, path.operations):
        if sort is Sort.PROPRIETARY or sort in not_allowed:
            yield Found(Answer.NO, f"{name}: {say(sort.value)}", step)
        elif sort is Sort.UNNAMED:
            yield Found(Answer.OPEN, f"{name}: {say(sort.value)}", step)
    if is_battery:
        yield from _merely_removable(guide, path.operations)


def _merely_removable(guide: Guide, operations: tuple[Operation, ...]) -> Iterator[Found]:
    for name, step in {operation.undoes: operation.step for operation in operations if operation.undoes}.items():
        classed = fastener_class(guide.joint(name))
        if classed.points == (REMOVABLE,):
            yield Found(Answer.NO, f"{guide.joint(name).name}: {classed.words}", step)
        elif REMOVABLE in classed.points:
            yield Found(Answer.OPEN, f"{guide.joint(name).name}: {classed.words}", step)
