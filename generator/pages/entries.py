"""What can be looked up in a library: every device, part, step, joint, tool, supply and note, and where each stands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.languages import later, say
from generator.orders.accounts import pages_of
from generator.orders.guide import Guide, Library
from generator.orders.numbering import part_numbers
from generator.orders.work import StepId
from generator.pages.addresses import DEVICE, TOOLS, WHOLE, anchor, route_page
from generator.pages.joints import joint_extent
from generator.pages.survey import up_to_stop
from generator.pages.typography import capital, held
from generator.source.prose import Prose

KINDS = {
    "device": later("device"),
    "part": later("part"),
    "step": later("step"),
    "joint": later("joint"),
    "tool": later("tool"),
    "supply": later("supply"),
    "note": later("note"),
}

SORTS = {"phone": later("phone"), "foldable phone": later("foldable phone"), "tablet": later("tablet")}
"""Kinds of device, as device files have them."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing to find. where: its device and its place there; href: from the site's folder; text: more to find it by."""

    kind: str
    name: str
    where: str
    href: str
    text: str = ""


def kind_words(kind: str) -> str:
    return say(KINDS[kind])


def entries_of(library: Library) -> Iterator[Entry]:
    """Everything in the order of the library: its devices one by one, then what they share."""
    for guide in library.guides:
        yield from _of_guide(guide)
    for tool in library.tools.values():
        href = f"{TOOLS}#{anchor('tool', tool.id)}"
        sort = capital(library.word(tool.type)) if tool.type != "other" else ""
        yield Entry("tool", held(capital(tool.name)), sort, href, tool.note or "")
    for supply in library.supplies.values():
        yield Entry("supply", held(capital(supply.name)), "", f"{TOOLS}#{anchor('supply', supply.id)}", supply.note or "")


def _of_guide(guide: Guide) -> Iterator[Entry]:
    device = guide.device
    page = f"{guide.id}/{DEVICE}"
    kind = say(SORTS[device.kind]) if device.kind in SORTS else ""
    sort = ", ".join(word for word in (device.maker or "", kind) if word)
    yield Entry("device", device.name, sort, page, device.about or "")
    numbers = part_numbers(guide.order)
    own_pages = frozenset(pages_of(guide))
    for part in guide.anatomy.parts.values():
        number = numbers.get(part.id)
        yield Entry(
            "part",
            part.name,
            say("{device}, no.~{number}", device=device.name, number=number) if number else device.name,
            f"{guide.id}/{route_page(part.id)}" if part.id in own_pages else f"{page}#{anchor('part', part.id)}",
            " ".join(guide.word(word) for word in (part.role, part.material, part.spare_number) if word),
        )
    shown = {step.id for step in up_to_stop(guide, guide.order)[0]}
    for step in guide.steps:
        yield Entry(
            "step",
            step.title,
            _step_place(guide, step.id),
            f"{guide.id}/{WHOLE}#{anchor('step', step.id)}",
            _words(step.body) if step.id in shown else "",
        )
    for joint in guide.anatomy.joints.values():
        yield Entry("joint", joint.name, device.name, f"{page}#{anchor('joint', joint.id)}", joint_extent(joint))
    for note in guide.notes:
        name = guide.part(note.part).name
        yield Entry("note", capital(name), device.name, f"{page}#{anchor('note', note.part)}", _words(note.prose))


def _step_place(guide: Guide, step: StepId) -> str:
    number = guide.number_of.get(step)
    if not number:
        return say("{device}, a shorter way", device=guide.device.name)
    return say("{device}, step~{number}", device=guide.device.name, number=number)


def _words(prose: Prose | None) -> str:
    return " ".join(sentence.text for sentence in prose.sentences) if prose is not None else ""
