"""What lies in front of what, from "behind the plate", "under here" and "to reach the port, remove the speaker"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from generator.draft.acts import Act
from generator.draft.clauses import Clause
from generator.draft.heard import Front, HeardPart
from generator.draft.naming import id_of
from generator.draft.phrases import Noun
from generator.draft.records import Said

if TYPE_CHECKING:
    from generator.draft.drafting import Drafting

_NEXT = 30.0  # s: how long after it was spoken of a joint without a name may be undone


def hear_fronts(film: Drafting, act: Act, acts: Sequence[Act], number: int) -> None:
    """ "Behind the plate is the plug", "to reach the port remove the speaker", "under here": what lies where."""
    lexicon, clause = film.lexicon, act.clause
    words = film.reader.norms[clause.start : clause.end]
    said = film.said(acts[0].clause.start, acts[-1].clause.end)
    over_words = lexicon.words["behind"] | lexicon.words["under"]
    over = next((noun for noun in act.nouns if noun.prep in over_words), None)
    here = lexicon.found_in("here", words)
    things = [noun for noun in act.nouns if not noun.prep and noun.kind in ("part", "lead", "joint")]
    if over is not None and over.kind in ("part", "pronoun", "lead", "joint"):
        part = _aside_part(film, over, act)
        if part is not None:
            for thing in things[:2]:
                film.fronts.append(Front(thing, part, said))
    elif (here or (over is not None and over.kind == "pronoun")) and things and not act.does:
        part = _last_moved(film)
        if part is not None:
            for thing in things[:1]:
                film.fronts.append(Front(thing, part, said))
    reach = lexicon.found_in("reach", words)
    if reach:
        _reached(film, act, acts, number, said)


def _aside_part(film: Drafting, noun: Noun, act: Act) -> HeardPart | None:
    if noun.kind == "pronoun":
        return _last_moved(film)
    if noun.kind == "joint":
        return film.part_of(noun.owner, noun, act) if noun.owner else None
    return film.part_named(noun, act)


def _reached(film: Drafting, act: Act, acts: Sequence[Act], number: int, said: Said) -> None:
    """What is to be reached lies under what is taken off for it, in the same sentence."""
    place = next(
        (
            index
            for index in range(act.clause.start, act.clause.end)
            if film.lexicon.phrase_at("reach", film.reader.norms, index)
        ),
        None,
    )
    if place is None or (
        film.lexicon.language == "de" and act.clause.mood != "condition" and film.reader.norm(act.clause.start) != "um"
    ):
        return
    targets = [
        noun for noun in act.nouns if noun.kind in ("part", "lead") and (noun.start > place or film.lexicon.language == "de")
    ]
    for other in acts[number + 1 :]:
        if other.does in ("take", "fold") and targets:
            for noun in other.objects:
                if noun.kind == "part":
                    part = film.part_named(noun, other)
                    if part is not None:
                        film.fronts.append(Front(targets[0], part, said))
            return


def settle_fronts(film: Drafting) -> None:
    """Turn what was said to lie in front into proposals, once all parts and joints are known."""
    for aside in film.fronts:
        act = Act(Clause(aside.thing.start, aside.thing.end, 0, None, ""), "", (), (), ())
        thing = aside.thing
        if thing.kind == "joint":
            for joint in film.joints:
                same = joint.of is not None and thing.owner and joint.of.id == id_of(" ".join(thing.owner), "part")
                is_it = joint.kind == thing.joint and joint.of is not aside.over
                is_next = abs(joint.said.at - aside.said.at) <= _NEXT and joint.said.at >= aside.said.at
                if is_it and (same or (not thing.owner and is_next)):
                    joint.behind.setdefault(aside.over.id, aside.said)
                    break
            continue
        if thing.owner:
            part = film.part_of(thing.owner, thing, act)
        else:
            part = film.part_named(thing, act)
        if part is not None and part is not aside.over:
            part.under.setdefault(aside.over.id, aside.said)
            if part.said is None or part.said.at == film.at(thing.start):
                part.said = aside.said


def _last_moved(film: Drafting) -> HeardPart | None:
    return next((action.part for action in reversed(film.actions) if action.part is not None), None)
