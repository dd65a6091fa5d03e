"""A draft: steps, parts, joints and tools as they were understood, and what became of every word of the captions."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Fate(StrEnum):
    """What became of a word."""

    USED = "used"
    NOTE = "note"
    FILLER = "filler"
    CHATTER = "chatter"


@dataclass(frozen=True, slots=True)
class Said:
    """Words of the captions with the time, in seconds, at which they are spoken."""

    at: float
    words: str


@dataclass(frozen=True, slots=True)
class Guess:
    """Something that follows from what was said without having been said; about: what of, in words."""

    about: str
    said: Said


@dataclass(frozen=True, slots=True)
class DraftPart:
    """under: parts that lie over it, as was said, with the words; is_set_aside: those that do not fit the order spoken."""

    id: str
    name: str
    said: Said | None
    under: tuple[tuple[str, Said], ...] = ()
    set_aside: tuple[tuple[str, Said], ...] = ()
    face: str = ""
    is_cell: bool = False
    is_stand_in: bool = False
    guesses: tuple[Guess, ...] = ()


@dataclass(frozen=True, slots=True)
class DraftJoint:
    """drive: shape and size, the size empty where it was not said."""

    id: str
    kind: str
    name: str
    joins: tuple[str, str]
    said: Said
    count: int | None = None
    drive: tuple[str, str] | None = None
    softens: str = ""
    behind: tuple[tuple[str, Said], ...] = ()
    set_aside: tuple[tuple[str, Said], ...] = ()
    face: str = ""
    guesses: tuple[Guess, ...] = ()


@dataclass(frozen=True, slots=True)
class DraftTool:
    """type: among the published basic ones, or other. fits: shape and size of a driver, if it is one that says so.

    is_guess: nobody named it; it drives what was said to be the drive of some screws.
    """

    id: str
    name: str
    type: str
    said: Said
    fits: tuple[str, str] | None = None
    is_guess: bool = False


@dataclass(frozen=True, slots=True)
class DraftAction:
    """One line of work. target: a part, a joint, a face, or the words of a check; seconds as the format writes durations."""

    verb: str
    target: str
    said: Said
    tools: tuple[str, ...] = ()
    lasts: str = ""
    degrees: int | None = None
    proves: str = ""
    is_implied: bool = False


@dataclass(frozen=True, slots=True)
class Link:
    """Words from `start` up to `end` that name a joint, a part or a tool. to: as a reference is written, `part:battery`."""

    start: int
    end: int
    to: str


@dataclass(frozen=True, slots=True)
class Sentence:
    """Words of the captions, by position, that become a sentence of a step."""

    words: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class DraftStep:
    """start, end: seconds in the film. remarks: what was said meanwhile and is no part of the work."""

    id: str
    title: str
    start: float
    end: float
    actions: tuple[DraftAction, ...]
    sentences: tuple[Sentence, ...]
    cautions: tuple[Said, ...]
    remarks: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class Draft:
    """fates: of each word of the captions, by its position. notes: remarks about a part. loose: said before any step.

    chatter, fillers: what was left out, and how often. unread: requests that were heard and could not be made into
    work, with why.
    """

    language: str
    base: DraftPart
    parts: tuple[DraftPart, ...]
    joints: tuple[DraftJoint, ...]
    tools: tuple[DraftTool, ...]
    steps: tuple[DraftStep, ...]
    faces: tuple[str, ...]
    links: tuple[Link, ...]
    notes: tuple[tuple[str, tuple[Said, ...]], ...]
    loose: tuple[Said, ...]
    chatter: tuple[Said, ...]
    fillers: tuple[tuple[str, int], ...]
    unread: tuple[Guess, ...]
    fates: tuple[Fate, ...]
    kind: str = ""
    kind_said: Said | None = None
    is_mains: bool = False
    supplies: tuple[Said, ...] = ()
