"""The work: steps as authored, each a short list of actions."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass, field
from enum import StrEnum
from typing import NewType

from generator.anatomy.parts import JointId, PartId
from generator.source.places import Place, Places
from generator.source.prose import Prose

StepId = NewType("StepId", str)
ToolId = NewType("ToolId", str)
SupplyId = NewType("SupplyId", str)


class Verb(StrEnum):
    UNDO = "undo"
    LIFT = "lift"
    FOLD = "fold"
    TURN = "turn"
    HEAT = "heat"
    SOAK = "soak"
    WAIT = "wait"
    CHECK = "check"


@dataclass(frozen=True, slots=True)
class Action:
    """One line of work. `number` counts from 0 within its step; seconds is how long it is kept up, a range.

    `tools` are those the author wrote; what is really taken up is `Guide.tools_of(action)`.
    """

    step: StepId
    number: int
    verb: Verb
    place: Place
    joint: JointId | None = None
    part: PartId | None = None
    face: str | None = None
    words: str | None = None
    tools: tuple[ToolId, ...] = ()
    supplies: tuple[SupplyId, ...] = ()
    seconds: tuple[int, int] | None = None
    temperature: float | None = None
    proves: str | None = None


@dataclass(frozen=True, slots=True)
class Caution:
    level: str
    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class PhotoMark:
    """A numbered mark on a photo; x and y as fractions of its width and height."""

    x: float
    y: float
    joint: JointId | None = None
    part: PartId | None = None
    text: str | None = None


@dataclass(frozen=True, slots=True)
class Photo:
    """focus: the point that matters, in fractions, round which the photo is cut, `closer` times nearer than need be.

    when: "before" or "after" where it is one of a pair.
    """

    file: str
    alt: str | None
    credit: str | None
    licence: str | None
    marks: tuple[PhotoMark, ...]
    place: Place
    focus: tuple[float, float] | None = None
    closer: float = 1.0
    when: str | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One step file. film in seconds from the start of the video (end may be open), takes in seconds.

    is_filmed: what is on film cannot be moved any more; a repair of the order leaves the step where it is.
    """

    id: StepId
    title: str
    actions: tuple[Action, ...]
    place: Place
    places: Places = field(repr=False, compare=False)
    film: tuple[int, int | None] | None = None
    takes: int | None = None
    cautions: tuple[Caution, ...] = ()
    photos: tuple[Photo, ...] = ()
    body: Prose | None = None
    refitting: Prose | None = None
    is_filmed: bool = False
    formerly: tuple[str, ...] = ()

    @property
    def lifted(self) -> tuple[PartId, ...]:
        return tuple(a.part for a in self.actions if a.verb is Verb.LIFT and a.part is not None)

    @property
    def undone(self) -> tuple[JointId, ...]:
        return tuple(a.joint for a in self.actions if a.verb is Verb.UNDO and a.joint is not None)


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool of the library. `fits` pairs a drive shape with a size (None: any), `undoes` names kinds of joint."""

    id: ToolId
    name: str
    type: str
    place: Place
    fits: tuple[tuple[str, str | None], ...] = ()
    undoes: tuple[str, ...] = ()
    supplied: str = "neither"
    sale: str = "public"
    material: str | None = None
    hazards: tuple[str, ...] = ()
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Supply:
    """Something used up. `joints` are the joints it is made for, dwell in seconds as a range."""

    id: SupplyId
    name: str
    place: Place
    joints: tuple[JointId, ...] = ()
    hazards: tuple[str, ...] = ()
    dwell: tuple[int, int] | None = None
    note: str | None = None


def linked(prose: Prose | None, scheme: str, known: Container[str]) -> tuple[str, ...]:
    """The names that prose links to with one scheme, each once; names that point nowhere are left out."""
    references = prose.references if prose is not None else ()
    return tuple(dict.fromkeys(each.target for each in references if each.scheme == scheme and each.target in known))
