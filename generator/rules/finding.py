"""What a rule finds: a place, one sentence, why, and what to do."""

from __future__ import annotations

from dataclasses import dataclass

from generator.source.places import Place

LEVELS = ("error", "warning", "note")
"""From what keeps a guide from being published to what is only worth knowing."""


@dataclass(frozen=True, slots=True)
class Edit:
    """Put `text` in place of what stands at `place`; an empty place (end is start) inserts."""

    place: Place
    text: str


@dataclass(frozen=True, slots=True)
class Mend:
    """What to do, in words; `edits` only where they really put it right, to be made together."""

    text: str
    edits: tuple[Edit, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """What is wrong at the bench, in one sentence that makes sense alone; then why, then what to do.

    level: overrides the level of the rule's table where one rule finds graver and lighter things.
    """

    place: Place
    message: str
    why: tuple[str, ...] = ()
    mend: Mend | None = None
    level: str | None = None


@dataclass(frozen=True, slots=True)
class Reported:
    """A finding with the rule that made it; device is the id of its guide, empty for the shared files."""

    rule: str
    level: str
    device: str
    finding: Finding
