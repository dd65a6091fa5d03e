"""What can be wrong with authored text before its meaning is asked: typed facts, without words.

The words stand in the rules of the family `file` (and `time/bad`, `ref/...` where the table in `rules` says so).
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.source.places import Place


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong at one place."""

    place: Place


@dataclass(frozen=True, slots=True)
class BrokenYaml(Fault):
    """The text is no YAML that this format allows; `problem` says what, `hint` what to write instead."""

    problem: str
    hint: str


@dataclass(frozen=True, slots=True)
class UnknownKey(Fault):
    """A key that the format does not have; `near` holds up to three keys that may be meant, `known` all there are."""

    key: str
    near: tuple[str, ...]
    inside: str
    known: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class MissingKey(Fault):
    """A key that has to be there; `inside` names what it is missing from."""

    key: str
    inside: str


@dataclass(frozen=True, slots=True)
class KeyTwice(Fault):
    """A key given a second time; `first` is where it stood first."""

    key: str
    first: Place


@dataclass(frozen=True, slots=True)
class WrongKind(Fault):
    """A value of the wrong kind or unit; `written` is what stands there, `wanted` what belongs there.

    is_key: what does not belong there is a known key, by what stands beside it; `written` is that key.
    """

    key: str
    written: str
    wanted: str
    is_key: bool = False


@dataclass(frozen=True, slots=True)
class BadTime(Fault):
    """A film time that is none; `written` is what stands there."""

    written: str
    wanted: str


@dataclass(frozen=True, slots=True)
class BadPath(Fault):
    """A path or link that may not be used: it leaves the folder or has a scheme that is not allowed."""

    written: str
    reason: str


@dataclass(frozen=True, slots=True)
class MissingFile(Fault):
    """A file that has to be there and is not."""

    path: str


@dataclass(frozen=True, slots=True)
class TooBig(Fault):
    """A file, a nesting or a count over its limit; `what` names it, `limit` gives the bound."""

    what: str
    limit: str


@dataclass(frozen=True, slots=True)
class RawHtml(Fault):
    """HTML in prose, which is shown as text and not as what it says; `tag` is its name, or `comment`."""

    tag: str


@dataclass(frozen=True, slots=True)
class NotWords(Fault):
    """A key of a translation that belongs into the original: a translation holds words only."""

    key: str


@dataclass(frozen=True, slots=True)
class UnreadableFile(Fault):
    """A file or folder that is there and cannot be read; `reason` says why in plain words."""

    path: str
    reason: str
