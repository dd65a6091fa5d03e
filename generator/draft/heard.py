"""What was heard so far: parts, joints and actions as they become known while the film goes on."""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.draft.clauses import Clause
from generator.draft.phrases import Noun
from generator.draft.records import Guess, Said


@dataclass(slots=True)
class HeardPart:
    id: str
    name: str
    said: Said | None
    is_plural: bool = False
    under: dict[str, Said] = field(default_factory=dict)
    lifted: int | None = None  # the number of the action
    moved: int | None = None
    face: str = ""
    guesses: list[Guess] = field(default_factory=list)


@dataclass(slots=True)
class HeardJoint:
    kind: str
    word: str
    said: Said
    of: HeardPart | None = None
    count: int | None = None
    drive: tuple[str, str] | None = None
    softens: str = ""
    behind: dict[str, Said] = field(default_factory=dict)
    face: str = ""
    undone: int | None = None
    guesses: list[Guess] = field(default_factory=list)
    is_spoken: bool = False  # called a joint, not only told by a verb such as "unscrew"
    id: str = ""
    name: str = ""


@dataclass(slots=True)
class Mention:
    """A joint spoken of before it is undone."""

    kind: str
    noun: Noun
    at: float
    sentence: int
    of: HeardPart | None
    drive: tuple[str, str] | None
    is_used: bool = False


@dataclass(slots=True)
class HeardAction:
    verb: str
    said: Said
    clause: Clause
    part: HeardPart | None = None
    joint: HeardJoint | None = None
    text: str = ""
    tools: list[str] = field(default_factory=list)
    lasts: str = ""
    degrees: int | None = None
    proves: str = ""
    is_implied: bool = False


@dataclass(frozen=True, slots=True)
class Memory:
    """A noun that a pronoun may mean, with what it turned out to be."""

    noun: Noun
    at: float
    sentence: int
    part: HeardPart | None = None
    joint: HeardJoint | None = None
    mention: Mention | None = None


@dataclass(frozen=True, slots=True)
class Front:
    """Said to lie under or behind something: `thing` is a part, or words that may become one."""

    thing: Noun
    over: HeardPart
    said: Said
