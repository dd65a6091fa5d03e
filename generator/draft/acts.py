"""What a clause asks for: the verb, the things it is done to, with what, how long."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.draft.clauses import Clause
from generator.draft.phrases import Noun, Reader

THINGS = ("part", "joint", "lead", "unknown", "device")


@dataclass(frozen=True, slots=True)
class Act:
    """A clause understood. does: what its verb does (see `lexicon.Verb`), `use` where only a tool is taken up, or empty.

    objects: what it is done to, pronouns not yet resolved; nouns: all nouns of the clause; tools: those among them; lasts,
    degrees, drive: what is measured in it. is_moving: said of what moves by itself ("the lid comes off").
    """

    clause: Clause
    does: str
    objects: tuple[Noun, ...]
    nouns: tuple[Noun, ...]
    tools: tuple[Noun, ...]
    lasts: str = ""
    degrees: int | None = None
    drive: tuple[str, str] | None = None
    is_moving: bool = False


def act_of(reader: Reader, clause: Clause) -> Act:
    """One clause, by itself."""
    call = clause.call
    taken = frozenset((call.index, call.particle)) if call is not None else frozenset()
    nouns = reader.nouns(clause.start, clause.end, taken)
    tools = tuple(noun for noun in nouns if noun.kind == "tool")
    measures = reader.measures
    lasts = next((said for start, _, said in measures.durations if clause.start <= start < clause.end), "")
    degrees = next((value for start, _, value in measures.temperatures if clause.start <= start < clause.end), None)
    drives = [drive for start, _, drive in measures.drives if clause.start <= start < clause.end]
    drive = next((drive for drive in drives if drive[1]), drives[0] if drives else None)
    if call is None:
        return Act(clause, "", (), nouns, tools, lasts, degrees, drive)
    does = _doing(reader, clause)
    objects, is_moving = _objects(reader, clause, nouns)
    return Act(clause, does, objects, nouns, tools, lasts, degrees, drive, is_moving)


def _doing(reader: Reader, clause: Clause) -> str:
    assert clause.call is not None
    does = clause.call.form.verb.does
    words = reader.norms[clause.start : clause.end]
    if does in ("take", "turn") and reader.lexicon.found_in("aside_words", words):
        return "fold"
    return does


def _objects(reader: Reader, clause: Clause, nouns: Sequence[Noun]) -> tuple[tuple[Noun, ...], bool]:
    """What the verb is done to, and whether it is said to move by itself."""
    call = clause.call
    assert call is not None
    if reader.lexicon.language == "de":
        return _german_objects(reader, call.form.verb.only == "itself", nouns)
    passes = reader.lexicon.words["passes"] if call.form.verb.does == "cut" else frozenset()
    free = [noun for noun in nouns if (not noun.prep or noun.prep in passes) and noun.kind not in ("tool", "supply")]
    after = [noun for noun in free if noun.start > call.index]
    before = [noun for noun in free if noun.end <= call.index and not _is_person_between(reader, noun.end, call.index)]
    is_moving = call.form.verb.only == "itself" or call.form.tense == "third" or _is_passive(reader, clause)
    if is_moving:
        return tuple(before[-1:]), True
    if after:
        first = after[0]
        if first.kind == "place" and len(after) > 1 and not _is_lid(reader, first):
            first = after[1]
        chosen = [first]
        for noun in after[after.index(first) + 1 :]:
            between = reader.norms[chosen[-1].end : noun.start]
            if reader.words[chosen[-1].end - 1].end not in ("", ",") or any(
                word not in ("and", "&", "then") for word in between
            ):
                break
            chosen.append(noun)
        return tuple(chosen), False
    return tuple(before[-1:]), bool(before)


def _german_objects(reader: Reader, is_moving: bool, nouns: Sequence[Noun]) -> tuple[tuple[Noun, ...], bool]:
    free = [
        noun for noun in nouns if (not noun.prep and noun.kind not in ("tool", "supply", "place")) or _is_lid(reader, noun)
    ]
    named = [noun for noun in free if noun.kind != "pronoun"]
    if not named:
        return tuple(free[:1]), is_moving
    chosen = [named[0]]
    for noun in named[1:]:
        if all(word in ("und", "sowie") for word in reader.norms[chosen[-1].end : noun.start]):
            chosen.append(noun)
        else:
            break
    return tuple(chosen), is_moving


def _is_lid(reader: Reader, noun: Noun) -> bool:
    return (
        len(noun.core) == 1 and noun.core[0] in reader.lexicon.words["lids"] and not noun.prep and noun.end - noun.start > 1
    )


def _is_person_between(reader: Reader, start: int, end: int) -> bool:
    return any(reader.has("subjects", index) for index in range(start, end))


def _is_passive(reader: Reader, clause: Clause) -> bool:
    """ "the cover can be removed", "is possible to take off"."""
    call = clause.call
    assert call is not None
    if call.form.tense == "past" and "be" in reader.norms[max(clause.start, call.index - 2) : call.index]:
        return True
    lead = reader.norms[clause.start : call.index]
    return "possible" in lead and not any(reader.nouns(call.index + 1, clause.end, frozenset((call.particle,))))
