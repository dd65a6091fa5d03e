"""Joints as tables and sentences show them: kinds, counts, sizes, what they need on the way back."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from generator.anatomy.joints import Joint, JointKind
from generator.anatomy.parts import JointId
from generator.figures.glyphs import joint_figure
from generator.figures.plan.marks import mark_rows
from generator.figures.trade_words import drive_words, kind_word
from generator.languages import say_many
from generator.orders.accounts import Accounts, ScrewSize, screw_sizes
from generator.orders.guide import Guide
from generator.orders.work import Step
from generator.pages.addresses import anchor
from generator.pages.typography import NO_BREAK, TIMES, counted, held, listed, quantity


@dataclass(frozen=True, slots=True)
class JointRowView:
    """A line of a step's joint table. id is set on the first line of a joint only; numbers are those of the plan."""

    id: str | None
    glyph: Markup
    numbers: str
    count: str
    name: str
    size: str
    note: str


def joint_rows(guide: Guide, step: Step, anchored: frozenset[JointId]) -> tuple[JointRowView, ...]:
    """The joints a step undoes, a line for each joint and length; `anchored` are those whose id this step carries."""
    seen: set[JointId] = set()
    rows = []
    for row in mark_rows(guide.anatomy, step):
        joint = guide.joint(row.joint)
        first = row.joint not in seen
        seen.add(row.joint)
        size = ScrewSize(joint.thread, row.length, str(joint.drive) if joint.drive else None, joint.head)
        rows.append(
            JointRowView(
                id=anchor("joint", joint.id) if first and joint.id in anchored else None,
                glyph=Markup(joint_figure(joint)),
                numbers=row.numbers,
                count=count_words(joint.kind, row.count),
                name=joint.name,
                size=full_size(size) if joint.kind is JointKind.SCREWS else "",
                note=held(joint.note or "") if first else "",
            )
        )
    return tuple(rows)


def count_words(kind: JointKind, count: int) -> str:
    """`5 screws`, the number held to its word."""
    return f"{count}{NO_BREAK}{kind_word(kind, count)}"


def size_words(size: ScrewSize) -> str:
    """Thread and length: `M1.4 × 3.5 mm`; what is not told is left out."""
    length = quantity(size.length, "mm", 1) if size.length is not None else ""
    return TIMES.join(part for part in (size.thread or "", length) if part)


def full_size(size: ScrewSize) -> str:
    return ", ".join(part for part in (size_words(size), drive_words(size.drive)) if part)


def screws_by_size(joint: Joint) -> str:
    """`6 × M1.4 × 3.5 mm, 3 × M1.4 × 5.0 mm, cross recess PH00`, the sizes in the author's order."""
    counts: dict[ScrewSize, int] = {}
    for size in screw_sizes(joint):
        counts[size] = counts.get(size, 0) + 1
    told = [f"{count_words(JointKind.SCREWS, count)} {size_words(size)}".strip() for size, count in counts.items()]
    drive = drive_words(str(joint.drive) if joint.drive else None)
    return ", ".join(part for part in (*told, drive) if part)


def joints_words(accounts: Accounts) -> str:
    """How many joints a run of steps undoes: `12, of them 6 screws`, or `6 screws` where there are no others."""
    joints, screws = accounts.joint_count, accounts.screw_count
    if screws and screws == joints:
        return counted(screws, "screw", "screws")
    if not screws:
        return str(joints)
    return say_many("{joints}, of them {n}~screw", "{joints}, of them {n}~screws", screws, joints=joints)


def joint_extent(joint: Joint) -> str:
    """How many, and of what size: the screws by size, the number of all others where it is more than one."""
    if joint.kind is JointKind.SCREWS:
        return screws_by_size(joint)
    return count_words(joint.kind, joint.count) if joint.count > 1 else ""


def torque_words(joint: Joint) -> str:
    return quantity(joint.torque, "N·m") if joint.torque is not None else ""


def held_by(guide: Guide, joints: tuple[Joint, ...]) -> str:
    """What holds a part: kinds of joint with their numbers, screws first."""
    counts: dict[JointKind, int] = {}
    for joint in joints:
        counts[joint.kind] = counts.get(joint.kind, 0) + joint.count
    return listed([count_words(kind, counts[kind]) for kind in JointKind if kind in counts])
