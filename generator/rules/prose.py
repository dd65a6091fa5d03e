"""What is written in words: the prose of a guide with its references, and the instructions in a sentence."""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.orders.work import Step
from generator.source.prose import Prose, Reference, Sentence

_VERBS = (
    "add align apply attach bend blow bring brush catch check clamp clean clear click clip close connect cool cover cut "
    "dab disconnect draw drive drop ease fasten feed find fit flip fold follow free give glue go grip guide hang heat hold "
    "hook insert join keep lay lead leave let lever lift line loosen lower make mark measure mount move note open part "
    "peel pick pinch place pop position press prise prop pry pull push put raise reach reconnect refit release remove "
    "replace rest ring rinse rock roll rotate route rub run scrape screw seal seat separate set shake shift shut slacken "
    "slide slip slit snap soak solder spread squeeze stand start steady stick stop stretch suck swing switch take tap tape "
    "tease test thread throw tie tighten tilt tip touch tuck turn twist undo unclip unfold unhook unlock unplug unscrew "
    "unsolder untie use wait warm wash watch wear wedge wiggle wind wipe withdraw work wrap"
)
VERBS = frozenset(_VERBS.split())
"""Verbs an instruction starts with, in the plain form."""

_LEAD_IN = r"(?:then|now|next|first|finally|again|also|carefully|gently|slowly|firmly|lightly|only|just|do not|never)"
_PIECES = re.compile(r"(?P<joint>;|:|,?\s+and\s+then\b|,?\s+then\b|,?\s+and\b|,)\s+", re.IGNORECASE)
_START = re.compile(rf"[\"'“‘(]*(?:{_LEAD_IN}\s+)*([A-Za-z-]+)", re.IGNORECASE)


def prose_of(step: Step) -> Iterator[Prose]:
    """The stretches of prose of a step: what is done, then how it goes back."""
    yield from (prose for prose in (step.body, step.refitting) if prose is not None)


def all_prose_of(guide: Guide) -> Iterator[Prose]:
    """Every stretch of prose of a guide: steps in their order, then notes."""
    for step in (*guide.steps, *guide.unused):
        yield from prose_of(step)
    yield from (note.prose for note in guide.notes)


def references_of(guide: Guide) -> Iterator[Reference]:
    """Every link into the guide that its prose holds: steps in their order, then notes."""
    for step in (*guide.steps, *guide.unused):
        for prose in prose_of(step):
            yield from prose.references
    for note in guide.notes:
        yield from note.prose.references


def sentences_of(guide: Guide) -> Iterator[Sentence]:
    """Every sentence of every step, in order."""
    for step in (*guide.steps, *guide.unused):
        for prose in prose_of(step):
            yield from prose.sentences


def instructions(text: str) -> tuple[str, ...]:
    """The verbs of the instructions in a sentence, each with what joins it to the piece before.

    An instruction is a piece of the sentence, between commas, `and`, `then` and semicolons, that starts with a plain verb.

    >>> instructions("Warm the edge, slide the pick in and lift the glass.")
    ('warm', ', slide', 'and lift')
    >>> instructions("When the glue is warm, lift the back and front edge.")
    (', lift',)
    """
    found = []
    joints = ["", *(match["joint"].strip().lower() for match in _PIECES.finditer(text))]
    for joint, piece in zip(joints, _PIECES.split(text)[::2], strict=True):
        match = _START.match(piece)
        if match is not None and match[1].lower() in VERBS and not (joint and _is_thing(piece, match)):
            found.append(f"{joint} {match[1].lower()}".strip())
    return tuple(found)


def _is_thing(piece: str, match: re.Match[str]) -> bool:
    """Whether the word that looks like a verb is one of a list of things: `front edge`, `clamp.`"""
    return not piece[match.end() :].strip(" .!?)\"'”’")
