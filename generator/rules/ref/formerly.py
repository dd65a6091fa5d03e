"""ref/formerly"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.orders.guide import Guide, Library
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted
from generator.source.places import Place

Claim = tuple[str, str, Place]
"""A former id, the id that has it now, and where that is written."""


def formerly(library: Library) -> Iterator[Finding]:
    """A former id is in use now, or two claim it.

    Why: the old address can lead to one place only; readers who kept it would land on the wrong page.
    Bad: `formerly: lamp-mk2` in lamp/device.yaml while another device is in the folder lamp-mk2.
    Good: `formerly: lamp-mk2` after the folder lamp-mk2 was renamed to lamp.
    Silent when: nothing has the former id any more, and one thing claims it.
    """
    devices = [
        (old, guide.id, guide.device.places.value("formerly", index))
        for guide in library.guides
        for index, old in enumerate(guide.device.formerly)
    ]
    yield from _contested("device", devices, {guide.id for guide in library.guides})
    for guide in library.guides:
        yield from _contested("part", _parts(guide), set(guide.anatomy.parts))
        yield from _contested("step", _steps(guide), set(guide.step_by_id))


def _parts(guide: Guide) -> list[Claim]:
    return [
        (old, part.id, part.places.value("parts", part.id, "formerly", index))
        for part in guide.anatomy.parts.values()
        for index, old in enumerate(part.formerly)
    ]


def _steps(guide: Guide) -> list[Claim]:
    return [
        (old, step.id, step.places.value("formerly", index))
        for step in guide.step_by_id.values()
        for index, old in enumerate(step.formerly)
    ]


def _contested(kind: str, claims: Iterable[Claim], used: set[str]) -> Iterator[Finding]:
    first: dict[str, str] = {}
    for old, now, place in claims:
        if old == now:
            yield Finding(
                place=place,
                message=f"The {kind} {quoted(now)} cannot have been {quoted(old)} before: that is its id now.",
                mend=Mend("Take it out of `formerly`."),
            )
        elif old in used:
            yield Finding(
                place=place,
                message=f"The {kind} {quoted(now)} says it was {quoted(old)} before, but a {kind} has that id now.",
                mend=Mend(f"Take it out of `formerly`, or give the {kind} that has the id now another."),
            )
        elif first.setdefault(old, now) != now:
            yield Finding(
                place=place,
                message=f"Two say they were the {kind} {quoted(old)} before: {quoted(first[old])} and {quoted(now)}.",
                mend=Mend("Keep it in `formerly` of the one to which its readers are to be led."),
            )

