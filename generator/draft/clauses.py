"""Words cut into sentences, and sentences into clauses that ask for at most one thing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.draft.lexicon import Form
from generator.draft.phrases import Reader

_LONG_PAUSE = 4.0  # s: a new sentence, whatever the signs say
_PAUSE = 1.2  # s: a new sentence where there are no signs
_REACH = 9  # words that may stand between a verb and its particle
_MOST_WORDS = 80  # of a sentence; longer ones are cut, so that no work grows with the square of a film


@dataclass(frozen=True, slots=True)
class Call:
    """The verb of a clause: where it stands, what it is, and where its particle stands (at the verb where it needs none)."""

    index: int
    form: Form
    particle: int


@dataclass(frozen=True, slots=True)
class Clause:
    """Words from `start` up to `end`. call: its verb of taking apart, if it has one.

    mood: what the words in front make of the verb: `asked`, or `condition`, `purpose`, `aside` (of a relative clause),
    `forbidden`, `needless`, `question`, `past` (done before). sentence: its number, from 0.
    """

    start: int
    end: int
    sentence: int
    call: Call | None
    mood: str


def sentences(reader: Reader, is_punctuated: bool) -> tuple[tuple[int, int], ...]:
    """The sentences of a film as stretches of words: by their signs, or by pauses and the words that open one."""
    cuts = [0]
    words = reader.words
    for index in range(1, len(words)):
        gap = words[index].at - words[index - 1].until
        if words[index - 1].end in (".", "!", "?", ";"):
            is_new = not _is_abbreviation(reader, index - 1)
        elif gap >= _LONG_PAUSE or index - cuts[-1] >= _MOST_WORDS:
            is_new = True
        elif is_punctuated:
            is_new = False
        else:
            is_new = _may_break(reader, index) and (gap >= _PAUSE or _starts(reader, index, cuts[-1]))
        if is_new:
            cuts.append(index)
    return tuple(zip(cuts, [*cuts[1:], len(words)], strict=True))


def clauses(reader: Reader, is_punctuated: bool) -> tuple[Clause, ...]:
    """Every sentence cut where what is asked for changes."""
    found: list[Clause] = []
    for number, (start, end) in enumerate(sentences(reader, is_punctuated)):
        found.extend(_clauses_of(reader, number, start, end))
    return tuple(found)


def _is_abbreviation(reader: Reader, index: int) -> bool:
    word = reader.words[index]
    return (
        word.end == "."
        and word.norm in ("ca", "approx", "no", "nr", "z.b", "e.g", "i.e", "bzw", "ggf")
        and index + 1 < len(reader.words)
    )


def _may_break(reader: Reader, index: int) -> bool:
    """Whether a sentence can end before a word: not after "the", not before "off" or "glued", not inside a measure."""
    unfinished = (
        "determiners",
        "auxiliaries",
        "subjects",
        "adjectives",
        "numbers",
        "conjunctions",
        "relatives",
        "lead_kinds",
        "negations",
    )
    before = index - 1
    is_particle = reader.has("particles", before)
    if reader.norms[before] == "to" or (any(reader.has(group, before) for group in unfinished) and not is_particle):
        return False
    if reader.has("prepositions", before) and not is_particle and reader.lexicon.language == "en":
        return False  # in German the last word of a verb may be one: "die zeigt nichts an"
    if reader.has("particles", index) or reader.has("states", index):
        return False
    if reader.norms[index] in ("so", "then", "ca") and (
        reader.number_at(index + 1)[1] or reader.norm(index + 1) in ("far", "that")
    ):
        return False
    spans = (*reader.measures.durations, *reader.measures.drives, *reader.measures.temperatures)
    return not any(start < index < end for start, end, _ in spans) and not any(start == index for start, _, _ in spans)


def _starts(reader: Reader, index: int, begun: int) -> bool:
    """Whether a word opens a sentence where there are no signs."""
    if not reader.lexicon.phrase_at("starters", reader.norms, index):
        return False
    before = reader.norms[index - 1]
    links = ("links", "conjunctions", "fillers", "negations")
    is_led_in = any(before in reader.lexicon.words[group] for group in links) or before in (
        "just",
        "right",
        "to",
        "einfach",
        "of",
    )
    return not is_led_in and index - begun >= 2


def _clauses_of(reader: Reader, number: int, start: int, end: int) -> Iterator[Clause]:
    calls = _calls(reader, start, end)
    cuts = _cuts(reader, start, end, calls)
    spans = list(zip(cuts, [*cuts[1:], end], strict=True))
    earlier_asks = False
    previous: tuple[int, int] | None = None
    for low, high in spans:
        inside = [call for call in calls if low <= call.index < high]
        call = _best(reader, inside, low, high)
        mood = _mood(reader, low, high, call, end)
        if mood == "purpose" and call is not None and previous is not None and not earlier_asks:
            # "use a lever to raise the lid" asks for the lid
            mood = "asked" if _is_means(reader, *previous) else mood
        if call is not None and mood == "asked" and not _only_takes_up(reader, call, high):
            earlier_asks = True
        yield Clause(low, high, number, call, mood)
        previous = (low, high)


def _only_takes_up(reader: Reader, call: Call, high: int) -> bool:
    """Whether the verb is only done with a tool: "slide a pick along the edge"."""
    nouns = reader.nouns(call.index + 1, high, frozenset((call.particle,)))
    return bool(nouns) and nouns[0].kind == "tool"


def _calls(reader: Reader, start: int, end: int) -> list[Call]:
    """The verbs of taking apart in a sentence that have the particle they need."""
    found: list[Call] = []
    for index in range(start, end):
        for form in reader.verbs.get(index, ()):
            particle = reader.particle_of(form, index, _reach(reader, index, end))
            if particle is not None or form.verb.is_bare:
                found.append(Call(index, form, index if particle is None else particle))
    return found


def _reach(reader: Reader, index: int, end: int) -> int:
    """How far a particle may stand from its verb: to the next sign, or, in German, to the end of what is said of it."""
    limit = min(end, index + (2 * _REACH if reader.lexicon.language == "de" else _REACH))
    for place in range(index, limit):
        if reader.words[place].end in (",", ";", ":"):
            return place + 1
        is_far = place > index + 1 and place + 1 < end and reader.lexicon.language == "de"
        if is_far and reader.norms[place] in ("und", "dann", "weil", "bis"):
            return place
    return limit


def _cuts(reader: Reader, start: int, end: int, calls: Sequence[Call]) -> list[int]:
    at_calls = {call.index for call in calls}
    particles = {call.particle for call in calls}
    cuts = [start]
    for index in range(start + 1, end):
        here = cuts[-1]
        if reader.words[index - 1].end in (",", ";", ":"):
            cuts.append(index)
        elif reader.lexicon.phrase_at("subordinators", reader.norms, index) and not _is_link(reader, index):
            cuts.append(_led_in(reader, index, here))
        elif reader.has("conjunctions", index) and _parts_verbs(reader, here, index, end):
            cuts.append(index)
        elif reader.lexicon.language == "en" and _opens_english(reader, index, here, at_calls, particles):
            cuts.append(_led_in(reader, index, here))
        elif (reader.lexicon.language == "de" and _opens_german(reader, index, here)) or (
            reader.lexicon.phrase_at("openers", reader.norms, index) > 1 and index - here >= 3
        ):
            cuts.append(index)
    return sorted(set(cuts))


def _is_link(reader: Reader, index: int) -> bool:
    """ "after that" opens, "after you" depends."""
    return reader.lexicon.phrase_at("links", reader.norms, index) > 1


def _led_in(reader: Reader, index: int, here: int) -> int:
    """Where the words that lead up to `index` begin, at `here` at the earliest."""
    while index - 1 > here and reader.is_lead_in(index - 1) and not reader.words[index - 2].end:
        index -= 1
    return index


def _parts_verbs(reader: Reader, here: int, index: int, end: int) -> bool:
    """Whether "and" joins two things to do, not two nouns: there is a verb on both sides of it."""
    if not any(reader.is_verbal(place) for place in range(here, index)):
        return False
    for place in range(index + 1, end):
        if reader.is_verbal(place):
            return True
        if reader.words[place].end or reader.norms[place] in ("and", "und"):
            return False
    return False


def _opens_english(reader: Reader, index: int, here: int, at_calls: set[int], particles: set[int]) -> bool:
    before = reader.norms[index - 1]
    lexicon = reader.lexicon
    if index - here < 2 or (index in particles and index not in at_calls):
        return False
    if index in at_calls:
        return _asks_anew(reader, index, here, at_calls)
    if reader.norms[index] == "to" and index + 1 in at_calls and before not in lexicon.words["wishes"]:
        return not reader.is_lead_in(index - 1) or before in lexicon.words["particles"]
    if reader.norms[index] in ("that", "which", "who") and reader.is_verbal(index + 1) and not reader.is_verbal(index - 1):
        return True
    if not reader.has("openers", index) or (reader.is_lead_in(index - 1) and before not in lexicon.words["adverbs"]):
        return False
    opener = reader.norms[index]
    if opener in ("it", "they", "these", "here", "there") and not _is_followed_by_verb(reader, index):
        return False
    if opener in ("it", "these", "they") and (
        index - 1 in at_calls or before in ("let", "make", "get", "use", "of", "with", "see")
    ):
        return False
    return before not in (
        "to",
        "that",
        "what",
        "as",
        "how",
        "because",
        "so",
        "if",
        "when",
        "once",
        "where",
        "until",
        "than",
        "after",
        "before",
        "sure",
    )


def _opens_german(reader: Reader, index: int, here: int) -> bool:
    """ "... Schrauben, die machen wir raus" without its comma: a pronoun, a verb, and who does it."""
    if index - here < 2 or (not reader.has("relatives", index) and reader.norms[index] not in ("den", "ihn", "es")):
        return False
    return reader.is_verbal(index + 1) and reader.has("subjects", index + 2) and not reader.has("prepositions", index - 1)


def _is_followed_by_verb(reader: Reader, index: int) -> bool:
    follows = index + 1
    while reader.has("adverbs", follows) or follows in reader.fillers:
        follows += 1
    return (
        reader.is_verbal(follows)
        and (reader.has("be", follows) or reader.has("auxiliaries", follows) or reader.has("other_verbs", follows))
    ) or any(form.verb.only == "itself" or form.tense == "third" for form in reader.verbs.get(follows, ()))


def _asks_anew(reader: Reader, index: int, here: int, at_calls: set[int]) -> bool:
    """Whether a verb begins a request of its own though nothing stands in front of it: "four screws take those out"."""
    lead = index
    while lead - 1 > here and reader.is_lead_in(lead - 1):
        lead -= 1
    if lead == here or lead - here < 1:
        return False
    before = reader.norms[index - 1]
    if before == "to":
        return False
    forms = reader.verbs[index]
    if all(form.tense in ("third", "past") or form.verb.only == "itself" for form in forms):
        return False
    after = reader.after(index)
    has_object = any(
        after in reader.lexicon.words[group] for group in ("determiners", "pronouns_one", "pronouns_many", "numbers")
    )
    has_verb = any(reader.is_verbal(place) for place in range(here, lead))
    is_subject = lead == index and not has_verb and not has_object
    return not is_subject and (has_object or has_verb)


def _best(reader: Reader, calls: Sequence[Call], low: int, high: int) -> Call | None:
    """The verb a clause is about: in German the one with a particle, the last; in English the first that is asked for."""
    if not calls:
        return None
    if reader.lexicon.language == "de":
        return max(
            calls,
            key=lambda call: (
                bool(call.form.verb.particles) and call.form.verb.is_bare is False,
                bool(call.form.particle),
                call.index,
            ),
        )
    first = min(call.index for call in calls)
    same = [call for call in calls if call.index == first]
    with_particle = [call for call in same if call.form.verb.particles and call.particle != call.index]
    return (with_particle or same)[0]


def _mood(reader: Reader, low: int, high: int, call: Call | None, end: int) -> str:
    norms, lexicon = reader.norms, reader.lexicon
    lead_end = call.index if call is not None else high
    begin = low
    while begin < lead_end:
        size = lexicon.phrase_at("links", norms, begin)
        if not size and (begin in reader.fillers or reader.has("conjunctions", begin)):
            size = 1
        if not size or lexicon.phrase_at("conditions", norms, begin) > size:
            break
        begin += size
    lead = norms[begin:lead_end]
    clause = norms[low:high]
    if lexicon.found_in("needless", clause):
        return "needless"
    if lexicon.phrase_at("conditions", norms, begin) and begin < lead_end:
        return "condition"
    if any(word in lexicon.words["negations"] for word in (clause if lexicon.language == "de" else lead)):
        return "forbidden"
    if reader.words[end - 1].end == "?" or (
        lead and lead[0] in ("how", "what", "wie", "was") and call is not None and reader.words[high - 1].end == "?"
    ):
        return "question"
    if lead and lead[0] in ("that", "which", "who") and reader.is_verbal(begin + 1):
        return "aside"
    if call is None and lexicon.language == "en" and reader.norm(begin) == "to":
        return "purpose"
    if call is not None and _is_purpose(reader, begin, call.index):
        return "purpose"
    if lexicon.language == "en" and any(word in lexicon.words["already"] for word in lead):
        return "past"
    if call is not None and call.form.tense == "ing" and lead and lead[-1] in ("by", "without", "before", "after", "when"):
        return "asked" if any(word in ("start", "begin", "starting") for word in lead) else "condition"
    return "asked"


def _is_purpose(reader: Reader, begin: int, verb: int) -> bool:
    """ "to lift the lid, undo ..." speaks of what for; "we need to lift" asks."""
    if reader.lexicon.language == "de":
        return reader.norm(begin) == "um"
    place = verb - 1
    while place > begin and (reader.has("adverbs", place) or place in reader.fillers):
        place -= 1
    if reader.norm(place) != "to" or place < begin:
        return False
    return place == begin or reader.norm(place - 1) not in reader.lexicon.words["wishes"]


def _is_means(reader: Reader, low: int, high: int) -> bool:
    """Whether a clause only speaks of what something is done with, or of what is left to be done to."""
    has_call = any(reader.verbs.get(index) for index in range(low, high))
    nouns = reader.nouns(low, high)
    uses = any(reader.has("use", index) for index in range(low, high))
    return (
        any(noun.kind == "tool" for noun in nouns)
        or (uses and not has_call)
        or any(reader.norm(index) in ("leave", "let") for index in range(low, high))
    )
