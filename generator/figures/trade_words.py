"""What joints, drives and heads are called, in figures and on pages alike."""

from __future__ import annotations

from generator.anatomy.joints import JointKind
from generator.languages import later, say, say_many

SHAPES = {
    "cross-recess": later("cross recess"),
    "five-lobe": later("five lobe"),
    "hexagon": later("hexagon"),
    "hexagon-socket": later("hexagon socket"),
    "hexalobular": later("hexalobular"),
    "slotted": later("slotted"),
    "square": later("square"),
    "three-lobe": later("three lobe"),
    "two-hole": later("two hole"),
}
"""Drives by the names of the standards."""

HEADS = {
    "button": later("button head"),
    "cap": later("cap head"),
    "cheese": later("cheese head"),
    "countersunk": later("countersunk head"),
    "flat": later("flat head"),
    "hexagon": later("hexagon head"),
    "pan": later("pan head"),
    "wafer": later("wafer head"),
}


def kind_word(kind: JointKind, count: int) -> str:
    """What that many joints of a kind are called, without the number: `screws`."""
    match kind:
        case JointKind.SCREWS:
            return say_many("screw", "screws", count)
        case JointKind.PLUG:
            return say_many("plug", "plugs", count)
        case JointKind.GLUE:
            return say_many("glue run", "glue runs", count)
        case JointKind.CLIPS:
            return say_many("clip", "clips", count)
        case JointKind.SOLDER:
            return say_many("solder pad", "solder pads", count)
        case JointKind.PRESS:
            return say_many("press fit", "press fits", count)


def drive_words(drive: str | None) -> str:
    """The drive as read, from its shape and size as written (`cross-recess PH00`): `cross recess PH00`."""
    shape, _, size = (drive or "").partition(" ")
    named = say(SHAPES[shape]) if shape in SHAPES else shape.replace("-", " ")
    return f"{named} {size}" if size else named


def head_words(head: str | None) -> str:
    """The head of a screw as read: `pan head`; a word that is not known is given as it is written."""
    if not head:
        return ""
    if head in HEADS:
        return say(HEADS[head])
    return head if head.endswith("head") else say("{shape} head", shape=head)
