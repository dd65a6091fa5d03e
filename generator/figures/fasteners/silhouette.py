"""A screw in true size: its side view, its head from above and the drive in it. mm; x from its axis, y down from its top.

Lengths are measured as ISO 225 and ISO 888 have it (memory): from the bearing face to the end; with the head for countersunk
and headless screws.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.anatomy.joints import Drive
from generator.anatomy.parts import Point
from generator.figures.fasteners.drives import DriveFace, drive_face, fitted, slot_across
from generator.figures.fasteners.heads import Head, from_above, half_outline, head_of
from generator.figures.fasteners.threads import THREAD_DEPTH, Thread, thread_of

FAIR_THREAD = Thread(2.0, 0.4, True)
"""What is drawn, dashed, where no thread is told."""

FAIR_LENGTH = 3.0
"""Thread diameters; what is drawn, dashed, where no length is told."""

MOST_TURNS = 160
"""Turns of a thread beyond which it is drawn as two straight edges."""

_WIDEST_DRIVE = 0.86  # of the head; a hexagon socket of ISO 10642 takes no more
_SLOT_DEPTH = 0.45  # of the head's height: ISO 1207, ISO 1580 (memory)


@dataclass(frozen=True, slots=True)
class Silhouette:
    """A screw to scale.

    diameter, pitch: of the thread; length: as told, or as drawn where it was not; height: overall. outline: with the turns
    of its thread; plain: without them, for small scales. top: corners of a head that is not round from above.
    is_guessed: something about its form was not told or is not known, so that it is drawn dashed; desc says what.
    """

    diameter: float
    pitch: float
    length: float
    height: float
    head: Head
    outline: tuple[Point, ...]
    plain: tuple[Point, ...]
    top: tuple[Point, ...]
    drive: DriveFace | None
    is_guessed: bool
    desc: str

    @property
    def across(self) -> float:
        """The greatest width of the side view."""
        return 2 * max(x for x, _ in self.outline)


def screw_silhouette(thread: str | None, length: float | None, head: str | None, drive: Drive | None) -> Silhouette:
    """The screw of that thread (`M1.4`), length in mm, head and drive in words; what is not told is drawn as usual."""
    known = thread_of(thread)
    form = known or FAIR_THREAD
    top = head_of(head, form.diameter)
    drawn_length = length if length and length > 0 else FAIR_LENGTH * form.diameter
    height = max(drawn_length, top.height + form.pitch) if top.is_sunk else top.height + drawn_length
    face = drive_face(drive.shape, drive.size, thread, head) if drive else None
    if face is not None:
        face = slot_across(face, top.across) if face.shape == "slotted" else fitted(face, _widest(face, top))
    is_slotted = face is not None and face.shape == "slotted"
    cut = _SLOT_DEPTH * min(top.height or 0.8 * form.diameter, height) if is_slotted else 0.0
    upper = _notched(half_outline(top, form.diameter), _slot_width(face), cut) if cut else half_outline(top, form.diameter)
    is_guessed = known is None or not top.is_known or drawn_length != length
    return Silhouette(
        diameter=form.diameter,
        pitch=form.pitch,
        length=drawn_length,
        height=height,
        head=top,
        outline=_both_sides(upper, form, top.height, height, (height - top.height) / form.pitch <= MOST_TURNS),
        plain=_both_sides(upper, form, top.height, height, False),
        top=from_above(top),
        drive=face,
        is_guessed=is_guessed,
        desc=_in_words(thread, length, head, drive, form if known else None, top, face),
    )


def _widest(face: DriveFace, head: Head) -> float:
    return head.across if face.shape == "hexagon" else _WIDEST_DRIVE * head.across


def _slot_width(face: DriveFace | None) -> float:
    return max(y for _, y in face.outlines[0]) * 2 if face else 0.0


def _notched(half: tuple[Point, ...], width: float, depth: float) -> tuple[Point, ...]:
    """The half outline with a slot seen from its end."""
    edge = width / 2
    after = [point for point in half if point[0] > edge]
    return ((0.0, depth), (edge, depth), (edge, 0.0), *after)


def _both_sides(upper: tuple[Point, ...], form: Thread, start: float, end: float, is_turned: bool) -> tuple[Point, ...]:
    right = (*upper, *_bolt(form, start, end, 0.0, is_turned))
    left = (*upper, *_bolt(form, start, end, 0.5, is_turned))
    return (*right, *((-x, y) for x, y in reversed(left) if x > 0))


def _bolt(form: Thread, start: float, end: float, shift: float, is_turned: bool) -> tuple[Point, ...]:
    """One edge of the threaded part. shift: 0.5 on the other side, as a helix has it half a turn on."""
    crest = form.diameter / 2
    depth = min(THREAD_DEPTH * form.pitch, 0.6 * crest)
    point = min(1.2 * form.diameter if form.is_tapping else depth, (end - start) / 2)
    blunt = 0.08 * form.diameter if form.is_tapping else crest - depth

    def edge(y: float) -> float:
        """How far out the thread may go: less towards the point."""
        return crest if y <= end - point else blunt + (crest - blunt) * (end - y) / point

    points = [(crest, start)]
    if is_turned:
        turn = 0
        while (y := start + (turn + 0.5 + shift) * form.pitch) < end - 0.25 * form.pitch:
            points.append((max(edge(y) - depth, 0.5 * blunt), y))
            if y + form.pitch / 2 < end - 0.25 * form.pitch:
                points.append((edge(y + form.pitch / 2), y + form.pitch / 2))
            turn += 1
    else:
        points.append((crest, end - point))
    points.append((blunt, end))
    return tuple(points)


def _in_words(
    thread: str | None,
    length: float | None,
    head: str | None,
    drive: Drive | None,
    form: Thread | None,
    top: Head,
    face: DriveFace | None,
) -> str:
    if form is None:
        said = [f"thread {thread}, which is in no table, drawn as 2 mm" if thread else "thread not told, drawn as 2 mm"]
    else:
        said = [f"thread {thread}" + (", pitch nominal" if form.is_nominal else "")]
    said.append(f"length {length:g} mm" if length and length > 0 else "length not told")
    if not top.is_known:
        said.append(f"head {head}, not known here, drawn as a plain pan head" if head else "head not told, drawn as pan")
    else:
        said.append(f"{top.kind} head" if top.kind != "set" else "no head")
    if top.source is None:
        said.append("head size nominal")
    if drive is not None:
        said.append(f"drive {drive}" + (f" ({face.note})" if face and face.note else "" if face else " (not drawn)"))
    return ", ".join(said)
