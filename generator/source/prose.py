"""Markdown as authors write it: sentences and references with their places, refused links and HTML as faults."""

from __future__ import annotations

from dataclasses import dataclass

from generator.source.faults import Fault
from generator.source.places import Place


@dataclass(frozen=True, slots=True)
class Reference:
    """A link into the guide: `[the pick](tool:opening-pick)`. scheme: part, joint, tool, supply or step."""

    scheme: str
    target: str
    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence as read aloud, without markup. words after ASD-STE100 counting (see `sentences`)."""

    text: str
    words: int
    place: Place


@dataclass(frozen=True, slots=True)
class Prose:
    """A stretch of Markdown and what was found in it."""

    markdown: str
    place: Place
    sentences: tuple[Sentence, ...] = ()
    references: tuple[Reference, ...] = ()
    faults: tuple[Fault, ...] = ()
