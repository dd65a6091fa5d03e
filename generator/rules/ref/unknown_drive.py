"""ref/unknown-drive"""

from __future__ import annotations

from collections.abc import Iterator

from generator.anatomy.joints import Drive, Joint
from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.trade.drives import ACCEPTED, BY_SHAPE, DRIVES, SAID_INSTEAD, DriveName
from generator.rules.wording import joint_name, listed, quoted, sentence


def unknown_drive(guide: Guide) -> Iterator[Finding]:
    """A drive is not named as the standards name it, or has a size its standard does not know.

    Why: tools are found by the name of the drive; two names for one shape leave the reader with the wrong driver.
    Bad: `drive: phillips PH0`, or `drive: cross-recess PH9`.
    Good: `drive: cross-recess PH0`.
    Silent when: the shape is cross-recess, hexalobular, slotted, hexagon-socket, hexagon or square with a size it can have,
    or a described shape without a public standard, such as `five-lobe 0.8 mm`.
    """
    for joint in guide.anatomy.joints.values():
        if joint.drive is not None and joint.drive.shape not in ACCEPTED:
            known = BY_SHAPE.get(joint.drive.shape)
            if known is None:
                yield _shape(joint, joint.drive)
            elif joint.drive.size is not None and known.sizes is not None and not known.sizes.fullmatch(joint.drive.size):
                yield _size(guide, joint, joint.drive, known)


def _shape(joint: Joint, drive: Drive) -> Finding:
    standard = SAID_INSTEAD.get(drive.shape.lower())
    if standard is None and drive.shape.lower() in BY_SHAPE:
        standard = drive.shape.lower()
    sized = next((known for known in DRIVES if known.sizes and _is_size(known, drive)), None) if standard is None else None
    if sized is not None:
        full = f"{sized.shape} {drive.shape}"
        return Finding(
            place=joint.places.value("joints", joint.id, "drive"),
            message=f"The drive {quoted(str(drive))} is a size without its shape.",
            why=(f"{drive.shape} is a size of {sized.shape} ({sized.source}).",),
            mend=Mend(f"Write {quoted(full)}."),
        )
    shapes = listed([known.shape for known in DRIVES], "or")
    advice = f"Write {quoted(standard)} here and at the tools that fit." if standard else "Name the shape of the recess."
    return Finding(
        place=joint.places.value("joints", joint.id, "drive"),
        message=f"The drive {quoted(str(drive))} is not named as the standards name drives.",
        why=(f"They call this shape {quoted(standard)}.",) if standard else (f"Known shapes are {shapes}.",),
        mend=Mend(advice),
    )


def _is_size(known: DriveName, drive: Drive) -> bool:
    """Whether what is written as a shape is a size of this one; a bare number could be one of many."""
    is_told = drive.size is None and drive.shape[:1].isalpha()
    return is_told and known.sizes is not None and known.sizes.fullmatch(drive.shape) is not None


def _size(guide: Guide, joint: Joint, drive: Drive, known: DriveName) -> Finding:
    return Finding(
        place=joint.places.value("joints", joint.id, "drive"),
        message=(
            f"{sentence(joint_name(guide, joint.id))} cannot have the drive {quoted(str(drive))}: there is no such size."
        ),
        why=(f"Sizes of {drive.shape} are written like {quoted(known.example)} ({known.source}).",),
        mend=Mend("Try the driver in the screw again, and write the size that stands on it."),
    )
