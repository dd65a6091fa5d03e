"""The words a language is read by, from the lists in `lexicon/<language>.yaml`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

import yaml

LANGUAGES = ("en", "de")


@dataclass(frozen=True, slots=True)
class Verb:
    """A verb of taking apart.

    does: take, undo, unplug, cut, heat, soak, wait, turn or fold. kind: the kind of joint a part is held by, as the verb
    tells, or empty. particles: words of which one has to go with it, unless is_bare. only: `joints` where it is such a verb
    only with a joint, `itself` where what it is said of is what moves ("the lid comes off"), else empty.
    """

    say: str
    does: str
    kind: str
    particles: frozenset[str]
    is_bare: bool
    only: str


@dataclass(frozen=True, slots=True)
class Form:
    """A form of a verb. tense: base, third, past or ing. particle: the one joined to it ("abziehen"), or empty."""

    verb: Verb
    tense: str
    particle: str = ""


@dataclass(frozen=True, slots=True)
class Lexicon:
    """words: single words of each list; phrases: those of several words, longest first; tables: lists with values."""

    language: str
    words: Mapping[str, frozenset[str]]
    phrases: Mapping[str, tuple[tuple[str, ...], ...]]
    tables: Mapping[str, Mapping[str, str]]
    forms: Mapping[str, tuple[Form, ...]]
    joints: Mapping[str, str]  # noun -> kind of joint

    def has(self, group: str, word: str) -> bool:
        return word in self.words[group]

    def phrase_at(self, group: str, norms: Sequence[str], start: int) -> int:
        """How many words from `start` are an entry of the list `group`; 0 for none. The longest wins."""
        for phrase in self.phrases[group]:
            if tuple(norms[start : start + len(phrase)]) == phrase:
                return len(phrase)
        return 1 if start < len(norms) and norms[start] in self.words[group] else 0

    def found_in(self, group: str, norms: Sequence[str]) -> str:
        """The first entry of the list `group` that stands in `norms`, or empty."""
        for start in range(len(norms)):
            size = self.phrase_at(group, norms, start)
            if size:
                return " ".join(norms[start : start + size])
        return ""


@cache
def lexicon(language: str) -> Lexicon:
    """The lexicon of one of LANGUAGES."""
    text = files(__package__).joinpath("lexicon", f"{language}.yaml").read_text("utf-8")
    data: dict[str, Any] = yaml.load(text, Loader=yaml.BaseLoader)
    lists: dict[str, list[str]] = {}
    tables: dict[str, Mapping[str, str]] = {}
    for name, value in data.items():
        if name in ("verbs", "joints", "pronouns"):
            continue
        if isinstance(value, dict):
            tables[name] = MappingProxyType(value)
            lists[name] = list(value)
        elif isinstance(value, list):
            lists[name] = value
    for number, entries in data["pronouns"].items():
        lists[f"pronouns_{number}"] = entries
    joints = {noun: kind for kind, nouns in data["joints"].items() for noun in nouns}
    lists["joints"] = list(joints)
    return Lexicon(
        language,
        MappingProxyType({name: frozenset(each for each in entries if " " not in each) for name, entries in lists.items()}),
        MappingProxyType({name: _phrases(entries) for name, entries in lists.items()}),
        MappingProxyType(tables),
        MappingProxyType(_forms(data["verbs"], language)),
        MappingProxyType(joints),
    )


def likeliest(norms: Iterable[str], told: str = "") -> str:
    """The language of a text: as its file tells, else the one whose small words are met more often."""
    if told[:2] in LANGUAGES:
        return told[:2]
    seen = list(norms)
    counts = {}
    for language in LANGUAGES:
        small = frozenset.union(
            *(lexicon(language).words[name] for name in ("determiners", "prepositions", "auxiliaries", "subjects", "links"))
        )
        counts[language] = sum(word in small for word in seen)
    return max(LANGUAGES, key=lambda language: counts[language])


def _phrases(entries: Iterable[str]) -> tuple[tuple[str, ...], ...]:
    several = {tuple(entry.split()) for entry in entries if " " in entry}
    return tuple(sorted(several, key=lambda phrase: (-len(phrase), phrase)))


def _forms(entries: Sequence[Mapping[str, Any]], language: str) -> dict[str, tuple[Form, ...]]:
    found: dict[str, list[Form]] = {}
    for entry in entries:
        verb = Verb(
            entry["say"],
            entry["does"],
            entry.get("kind", ""),
            frozenset(entry.get("with", ())),
            entry.get("bare", "") == "true" or "with" not in entry,
            entry.get("only", ""),
        )
        made = _german(verb, entry) if language == "de" else _english(verb, entry)
        for word, form in made:
            if form not in found.setdefault(word, []):
                found[word].append(form)
    return {word: tuple(forms) for word, forms in found.items()}


def _english(verb: Verb, entry: Mapping[str, Any]) -> Iterable[tuple[str, Form]]:
    say = verb.say
    yield say, Form(verb, "base")
    irregular = entry.get("forms", ())
    for word in irregular:
        tense = "ing" if word.endswith("ing") else "third" if word.endswith("s") else "past"
        yield word, Form(verb, tense)
    if irregular:
        return
    stem = say[:-1] if say.endswith("e") else say[:-1] + "i" if re.search(r"[^aeiou]y$", say) else say
    doubled = say + say[-1] if re.search(r"[^aeiou][aeiou][bdgklmnprt]$", say) else stem
    yield (stem + "es" if re.search(r"(?:[sxz]|ch|sh|i)$", stem) else say + "s"), Form(verb, "third")
    for root in dict.fromkeys((stem, doubled)):
        yield root + "ed", Form(verb, "past")
    for root in dict.fromkeys((say[:-1] if say.endswith("e") else say, doubled)):
        yield root + "ing", Form(verb, "ing")


def _german(verb: Verb, entry: Mapping[str, Any]) -> Iterable[tuple[str, Form]]:
    plain = list(dict.fromkeys([verb.say, *entry.get("forms", ())]))
    for word in plain:
        tense = "past" if word.startswith("ge") and word != verb.say else "base"
        yield word, Form(verb, tense)
        for particle in verb.particles:
            yield particle.replace(" ", "") + word, Form(verb, tense, particle)
    for particle in verb.particles:
        yield f"{particle}zu{verb.say}", Form(verb, "base", particle)
    if verb.is_bare and not verb.particles:
        match = re.fullmatch(r"(ab|an|ein|aus|weg)(\w+)", verb.say)
        if match is not None:
            yield f"{match[1]}zu{match[2]}", Form(verb, "base")
