"""What class of the act a joint of the guide is in, and the points of the fasteners met on the way to a part."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.anatomy.joints import Joint, JointKind
from generator.indices.naming import same_words
from generator.indices.operations import Operation
from generator.indices.phones_2023_1669.tables import (
    FASTENER_POINTS,
    FASTENER_TABLE,
    MOST,
    REMOVABLE,
    REMOVABLE_MEANS,
    RESUPPLIED,
    RESUPPLIED_MEANS,
    REUSABLE,
    REUSABLE_MEANS,
)
from generator.indices.workings import Line
from generator.indices.worst import Classed, Met, Worst, worst_of
from generator.languages import say
from generator.orders.guide import Guide

HOLDS_AGAIN = (JointKind.SCREWS, JointKind.PLUG, JointKind.CLIPS, JointKind.PRESS)
"""Kinds that survive being undone, unless something new goes back in: Annex I (8) of (EU) 2023/1670 applied to them."""



def fastener_class(joint: Joint) -> Classed:
    """The class of one joint; what the author did not say is left open."""
    match joint.reusable:
        case "yes":
            return Classed((REUSABLE,), say("reusable, as declared"), REUSABLE_MEANS)
        case "supplied with spare":
            return Classed((RESUPPLIED,), say("resupplied with the spare part"), RESUPPLIED_MEANS)
        case "no":
            return Classed((REMOVABLE,), say("removable, not reusable, not supplied"), REMOVABLE_MEANS)
    if joint.kind in HOLDS_AGAIN and not joint.is_renewed:
        return Classed((REUSABLE,), same_words(joint), REUSABLE_MEANS)
    if joint.is_renewed or joint.kind is JointKind.SOLDER:
        words = say("made anew: resupplied or removable, not known whether it comes with the spare part")
        return Classed((REMOVABLE, RESUPPLIED), words, RESUPPLIED_MEANS)
    return Classed(FASTENER_POINTS, say("glue that may hold again: `reusable` is not said"), REUSABLE_MEANS)


def worst_fastener(guide: Guide, operations: Sequence[Operation], first: int) -> Worst:
    """The worst class among what is undone from operation `first` on; what is undone before is listed, not counted."""
    return worst_of(_met(guide, operations, first), MOST, REMOVABLE, Line(say("no fastener"), (MOST,), FASTENER_TABLE))


def _met(guide: Guide, operations: Sequence[Operation], first: int) -> Iterator[Met]:
    undone = {operation.undoes: number for number, operation in reversed(list(enumerate(operations)))}
    for name, number in sorted(((name, number) for name, number in undone.items() if name), key=lambda entry: entry[1]):
        joint = guide.joint(name)
        yield Met(f"joint:{name}", joint.name, fastener_class(joint), operations[number].step, number >= first)
