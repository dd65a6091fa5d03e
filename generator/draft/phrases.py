"""Nouns, measures and verbs in a stretch of words: what is there, before it is asked what it means."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.draft.captions import Word
from generator.draft.lexicon import Form, Lexicon

_CODE = re.compile(r"(?:(ph|pz)\s?#?(0{1,3}|[0-4])|tx?\s?([1-9][0-9]?))", re.IGNORECASE)
_DIGITS = re.compile(r"([0-9]{1,3})(?:x|×)?")
_PLAIN_NUMBER = re.compile(r"[0-9]{1,5}(?:[.,][0-9])?")
_CLOSED = (
    "links",
    "subjects",
    "auxiliaries",
    "adverbs",
    "negations",
    "determiners",
    "pronouns_one",
    "pronouns_many",
    "prepositions",
    "particles",
    "be",
    "conditions",
    "subordinators",
    "conjunctions",
    "relatives",
    "other_verbs",
    "openers",
    "units",
    "states",
)
"""Lists whose words are no part of a name, unless they are nouns too and stand in the middle of one."""
_HUGE = 500  # no joint has more


@dataclass(frozen=True, slots=True)
class Noun:
    """A noun with what belongs to it, from word `start` up to `end`.

    kind: part, joint, lead, tool, supply, place, device, unknown, or pronoun. joint: of a joint its kind. core: its words
    without articles, numbers and plain adjectives, as compared; name: the same as they are written. owner: of a joint or a
    lead the words that say of what ("battery" in "battery connector"). prep: the preposition in front, or empty. many:
    whether it is more than one.
    """

    start: int
    end: int
    kind: str
    core: tuple[str, ...] = ()
    name: tuple[str, ...] = ()
    joint: str = ""
    owner: tuple[str, ...] = ()
    count: int | None = None
    prep: str = ""
    many: bool = False


@dataclass(frozen=True, slots=True)
class Measures:
    """What is measured, with the words it was read from: durations as the format writes them, temperatures in °C, drives.

    drive: shape and size, such as ("cross-recess", "PH00"); size empty where only the shape is said.
    """

    durations: tuple[tuple[int, int, str], ...]
    temperatures: tuple[tuple[int, int, int], ...]
    drives: tuple[tuple[int, int, tuple[str, str]], ...]

    def covers(self, index: int) -> bool:
        spans = (*self.durations, *self.temperatures, *self.drives)
        return any(start <= index < end for start, end, _ in spans)


class Reader:
    """The words of a film with the lexicon they are read by, and what is found in them by position.

    norms: the words as they are compared. verbs: by position the forms that a word may be there. nouns_spanned: positions
    inside nouns of several words ("heat gun"), where no verb is looked for.
    """

    def __init__(self, words: Sequence[Word], lexicon: Lexicon) -> None:
        self.words = words
        self.lexicon = lexicon
        self.norms = tuple(word.norm for word in words)
        self.measures = self._measures()
        self._measured = frozenset(
            index
            for spans in (self.measures.durations, self.measures.temperatures, self.measures.drives)
            for start, end, _ in spans
            for index in range(start, end)
        )
        self._compound = self._compounds()
        self.fillers = self._fillers()
        self.verbs = {index: forms for index in range(len(words)) if (forms := self._forms_at(index))}

    # --- single words ---

    def has(self, group: str, index: int) -> bool:
        return 0 <= index < len(self.norms) and self.norms[index] in self.lexicon.words[group]

    def norm(self, index: int) -> str:
        return self.norms[index] if 0 <= index < len(self.norms) else ""

    def before(self, index: int) -> str:
        """The word in front, where no sign stands between."""
        return self.norms[index - 1] if index > 0 and not self.words[index - 1].end else ""

    def after(self, index: int) -> str:
        return self.norms[index + 1] if index + 1 < len(self.norms) and not self.words[index].end else ""

    def is_lead_in(self, index: int) -> bool:
        """Whether a word only leads up to a verb: "so now we're going to"."""
        groups = ("links", "subjects", "auxiliaries", "adverbs", "negations", "conjunctions")
        return index in self.fillers or self.norm(index) == "to" or any(self.has(group, index) for group in groups)

    def is_verbal(self, index: int) -> bool:
        """Whether a word is a verb of any kind here."""
        if index in self.verbs:
            return True
        if index in self._compound or (
            self.is_noun_word(index) and self.norm(index - 1) in self.lexicon.words["determiners"]
        ):
            return False
        return any(self.has(group, index) for group in ("other_verbs", "be", "auxiliaries"))

    def known(self, norm: str) -> str:
        """What kind of noun a single word is known to be: joint, tool, part, lead, place, device, supply, or empty."""
        lexicon = self.lexicon
        for kind, group in (
            ("joint", "joints"),
            ("lead", "leads"),
            ("tool", "tools"),
            ("part", "parts"),
            ("device", "devices"),
        ):
            if norm in lexicon.words[group]:
                return kind
        for kind, group in (("place", "places"), ("supply", "supplies")):
            if norm in lexicon.words[group]:
                return kind
        if lexicon.language == "de":
            return self._known_end(norm)[0]
        return ""

    def _known_end(self, norm: str) -> tuple[str, str]:
        """Kind and last part of a German compound: ("joint", "stecker") of "akkustecker"; empty if not known."""
        for size in range(len(norm) - 2, 2, -1):
            end = norm[-size:]
            for kind, group in (
                ("joint", "joints"),
                ("lead", "leads"),
                ("tool", "tools"),
                ("part", "parts"),
                ("device", "devices"),
            ):
                if end in self.lexicon.words[group] and len(end) >= 4:
                    return kind, end
        return "", ""

    def is_noun_word(self, index: int) -> bool:
        return self.known(self.norm(index)) in ("joint", "tool", "part", "lead")

    # --- measures ---

    def number_at(self, index: int) -> tuple[int | None, int]:
        """A number in words or digits from `index`, and how many words it is; (None, 0) where there is none."""
        norm = self.norm(index)
        digits = _DIGITS.fullmatch(norm)
        if digits is not None:
            return int(digits[1]), 1
        numbers = self.lexicon.tables["numbers"]
        if norm not in numbers:
            return None, 0
        value = int(numbers[norm])
        follows = numbers.get(self.after(index), "") if value >= 20 and value % 10 == 0 else ""
        return (value + int(follows), 2) if follows and int(follows) < 10 else (value, 1)

    def _measures(self) -> Measures:
        durations: list[tuple[int, int, str]] = []
        temperatures: list[tuple[int, int, int]] = []
        drives: list[tuple[int, int, tuple[str, str]]] = []
        index = 0
        while index < len(self.norms):
            found = self._duration_at(index)
            if found is not None:
                durations.append((index, index + found[0], found[1]))
                index += found[0]
                continue
            value, size = self.number_at(index)
            if value is not None and self.has("degrees", index + size):
                temperatures.append((index, index + size + 1, value))
                index += size + 1
                continue
            drive = self._drive_at(index)
            if drive is not None:
                drives.append((index, index + drive[0], drive[1]))
                index += drive[0]
                continue
            index += 1
        return Measures(tuple(durations), tuple(temperatures), tuple(drives))

    def _duration_at(self, index: int) -> tuple[int, str] | None:
        units = self.lexicon.tables["units"]
        half = self.lexicon.phrase_at("halves", self.norms, index)
        if half:
            skip = half + (self.norm(index + half) in ("a", "an"))
            unit = units.get(self.norm(index + skip), "")
            return (skip + 1, {"min": "30 s", "h": "30 min"}[unit]) if unit in ("min", "h") else None
        if self.norm(index) in ("a", "an", "eine", "einer") and self.norm(index + 1) in units:
            return 2, f"1 {units[self.norm(index + 1)]}"
        low, size = self._amount_at(index)
        if not size:
            return None
        between = self.norm(index + size)
        high, more = self._amount_at(index + size + 1) if between in ("to", "or", "bis", "oder") else ("", 0)
        written = low
        if more and float(high) > float(low):
            written, size = f"{low}-{high}", size + 1 + more
        unit = units.get(self.norm(index + size), "")
        whole = not unit or unit != "s" or "." not in written
        return (size + 1, f"{written} {unit}") if unit and float(low) > 0 and whole else None

    def _amount_at(self, index: int) -> tuple[str, int]:
        norm = self.norm(index)
        if _PLAIN_NUMBER.fullmatch(norm):
            return norm.replace(",", "."), 1
        value, size = self.number_at(index)
        return (str(value), size) if value is not None else ("", 0)

    def _drive_at(self, index: int) -> tuple[int, tuple[str, str]] | None:
        norm = self.norm(index)
        shape = self.lexicon.tables["drives"].get(norm, "")
        if not shape:
            code = _code(norm)
            return (1, code) if code is not None else self._code_in_two(index)
        size = 1
        if self.words[index].end:
            return 1, (shape, "")
        following = _code(self.norm(index + 1)) or None
        if following is not None and following[0] == shape:
            return 2, following
        said = self.lexicon.phrase_at("drive_sizes", self.norms, index + 1)
        if said and shape == "cross-recess" and not self.is_noun_word(index + 1 + said):
            return 1 + said, (
                shape,
                "PH" + self.lexicon.tables["drive_sizes"][" ".join(self.norms[index + 1 : index + 1 + said])],
            )
        value, more = self.number_at(index + 1)
        if value is not None and shape == "hexalobular" and value and not self.is_noun_word(index + 1 + more):
            return 1 + more, (shape, f"T{value}")
        return size, (shape, "")

    def _code_in_two(self, index: int) -> tuple[int, tuple[str, str]] | None:
        if self.norm(index) in ("ph", "pz", "tx", "t") and not self.words[index].end:
            code = _code(f"{self.norm(index)} {self.norm(index + 1)}")
            if code is not None:
                return 2, code
        return None

    def _fillers(self) -> frozenset[int]:
        found: set[int] = set()
        index = 0
        while index < len(self.norms):
            size = self.lexicon.phrase_at("fillers", self.norms, index)
            if size == 1 and self.is_noun_word(index):
                size = 0
            found.update(range(index, index + size))
            index += max(size, 1)
        return frozenset(found)

    def _compounds(self) -> frozenset[int]:
        found: set[int] = set()
        for index in range(len(self.norms)):
            for group in ("joints", "tools", "parts"):
                size = self.lexicon.phrase_at(group, self.norms, index)
                if size > 1 and not any(word.end for word in self.words[index : index + size - 1]):
                    found.update(range(index, index + size))
        return frozenset(found)

    # --- verbs ---

    def _forms_at(self, index: int) -> tuple[Form, ...]:
        """The forms of verbs of taking apart that the word may be where it stands."""
        forms = self.lexicon.forms.get(self.norms[index], ())
        if not forms or index in self._compound or index in self._measured:
            return ()
        kept = self._german_forms(index, forms) if self.lexicon.language == "de" else self._english_forms(index, forms)
        return tuple(kept)

    def _english_forms(self, index: int, forms: Sequence[Form]) -> Iterator[Form]:
        before, after, lexicon = self.before(index), self.after(index), self.lexicon
        pointing = ("that", "this", "these", "those", "it's", "all", "both", "each")
        is_noun = self.known(self.norms[index]) in ("joint", "tool", "part", "lead")
        if before in lexicon.words["determiners"] and before not in pointing:
            return
        if before in pointing and (is_noun or self.known(after) in ("joint", "part")):
            return
        if (before in lexicon.words["numbers"] or before in lexicon.words["adjectives"]) and before not in lexicon.words[
            "links"
        ]:
            return
        opens = any(
            after in lexicon.words[group]
            for group in ("determiners", "pronouns_one", "pronouns_many", "numbers", "particles")
        )
        if is_noun and not opens:
            return
        for form in forms:
            if form.tense in ("base", "third") and before in ("of", "with", "from", "in", "on", "into", "for", "at"):
                continue
            tells = before in lexicon.words["be"] or before in ("been", "get", "gets")
            if form.tense == "past" and tells and not self._is_asked_passive(index):
                continue
            yield form

    def _is_asked_passive(self, index: int) -> bool:
        """ "can be removed" and "has to be taken out" ask; "is removed" tells."""
        asks = ("can", "should", "must", "may", "could", "to", "needs")
        return self.norm(index - 1) == "be" and any(self.norm(place) in asks for place in range(index - 4, index - 1))

    def _german_forms(self, index: int, forms: Sequence[Form]) -> Iterator[Form]:
        lexicon = self.lexicon
        is_noun = self.known(self.norms[index]) in ("joint", "tool", "part", "lead")
        faces = (self.before(index), self.after(index))
        is_asked = any(face in lexicon.words["subjects"] for face in faces)
        if is_noun and not is_asked and not any(form.particle for form in forms):
            return
        yield from forms

    def particle_of(self, form: Form, index: int, end: int) -> int | None:
        """Where the particle of a verb at `index` stands before `end`; None where it has none there."""
        if form.particle:
            return index
        found = None
        for place in range(index + 1, end):
            if (
                place != index + 1
                and place in self.verbs
                and self.lexicon.language == "en"
                and not self.has("particles", place)
            ):
                break
            if self.norms[place] not in form.verb.particles:
                continue
            if self.lexicon.language == "de" and self.has("prepositions", place) and place + 1 < end:
                continue
            if self.lexicon.language == "en" and form.verb.does != "turn" and self._is_preposition(place, end):
                continue
            found = place
            break
        return found

    def _is_preposition(self, place: int, end: int) -> bool:
        """Whether "off", "up" or "out" only says where: "up the side", "off its shaft" moves, "over the edge" does not."""
        return (
            self.norms[place] in ("over", "around", "round", "through")
            and place + 1 < end
            and self.has("determiners", place + 1)
        )

    # --- nouns ---

    def nouns(self, start: int, end: int, taken: frozenset[int] = frozenset()) -> tuple[Noun, ...]:
        """The nouns between two positions, in their order; taken: positions of verbs and their particles."""
        found: list[Noun] = []
        prep = ""
        index = start
        while index < end:
            noun = self._noun_at(index, end, prep, taken, found)
            if noun is not None:
                found.append(noun)
                index, prep = noun.end, ""
                continue
            if index in self._measured or index in taken:
                prep = prep if index in self._measured and prep in self.lexicon.words["tool_prepositions"] else ""
            elif self.has("prepositions", index) or self.has("part_of", index):
                prep = self.norms[index]
            elif index not in self.fillers and not (self.has("adverbs", index) and prep):
                prep = ""
            if self.words[index].end:
                prep = ""
            index += 1
        return tuple(found)

    def _noun_at(self, start: int, end: int, prep: str, taken: frozenset[int], found: Sequence[Noun]) -> Noun | None:
        lexicon = self.lexicon
        index, count, first_sign = start, None, ""
        core: list[int] = []
        while index < end and index not in taken:
            norm = self.norms[index]
            if index in self._measured and not core and index + 1 < end and not self.words[index].end:
                if any(low <= index < high for low, high, _ in self.measures.drives):
                    index += 1
                    continue
                break
            if index in self.fillers and not core and index > start and index + 1 < end and not self.words[index].end:
                index += 1
                continue
            if index in self._measured or index in self.fillers:
                break
            quantity = 0 if core else lexicon.phrase_at("quantities", self.norms, index)
            value, size = (None, 0) if core else self.number_at(index)
            if quantity and (quantity > 1 or norm not in lexicon.words["numbers"]):
                said = int(lexicon.tables["quantities"][" ".join(self.norms[index : index + quantity])])
                count = said or count
                first_sign = first_sign or norm
                index += quantity
            elif value is not None and not (norm in lexicon.words["determiners"] and not self._counts(index)):
                count = value if 0 < value <= _HUGE else count
                first_sign = first_sign or norm
                index += size
            elif not core and norm in lexicon.words["determiners"]:
                first_sign = first_sign or norm
                index += 1
            elif self._is_adjective(index, end, core, taken):
                index += 1
            elif self._is_content(index, start, core, taken):
                core.append(index)
                index += 1
            else:
                break
            if self.words[index - 1].end:
                break
        if core:
            return self._named(start, index, core, count, prep, found)
        return self._pronoun(start, index, count, prep, first_sign)

    def _counts(self, index: int) -> bool:
        """Whether a word that is an article too counts: "eine" does so only before "davon" or another."""
        return self.lexicon.tables.get("numbers", {}).get(self.norms[index], "0") != "1"

    def _is_adjective(self, index: int, end: int, core: Sequence[int], taken: frozenset[int]) -> bool:
        if not self.has("adjectives", index) or core or self.words[index].end:
            return False
        follows = index + 1
        return follows < end and follows not in taken

    def _is_content(self, index: int, start: int, core: Sequence[int], taken: frozenset[int]) -> bool:
        """Whether a word can be (part of) the name of a thing here."""
        norm, lexicon = self.norms[index], self.lexicon
        if index in taken or not any(sign.isalpha() for sign in norm):
            return False
        if index in self.verbs and not core and not (index > start and self.is_noun_word(index)):
            return False
        if core and index in self.verbs and not self.is_noun_word(index):
            return False
        if norm in (
            "left",
            "right",
            "back",
            "front",
            "top",
            "bottom",
            "rear",
            "inside",
            "outside",
            "main",
            "upper",
            "lower",
        ):
            begun = index > start or norm in ("main", "upper", "lower")
            follows = index + 1 < len(self.norms) and not self.words[index].end and index + 1 not in taken
            known_next = follows and self.known(self.norms[index + 1]) in ("joint", "part", "lead", "tool")
            return begun or known_next
        if index in self._compound:
            return True
        if core and norm in lexicon.words["particles"]:
            return False
        if any(norm in lexicon.words[group] for group in _CLOSED):
            is_named = self.known(norm) in ("joint", "part", "lead", "tool")
            return is_named and (index > start or bool(core)) and norm not in lexicon.words["particles"]
        return True

    def _named(self, start: int, end: int, core: Sequence[int], count: int | None, prep: str, found: Sequence[Noun]) -> Noun:
        norms = tuple(_bare(self.norms[index]) for index in core)
        texts = tuple(self._written(index, index == core[-1]) for index in core)
        kind, joint, owner = self._kind(norms, prep)
        if self.lexicon.language == "de" and not prep and found and found[-1].end == start and not self.words[start - 1].end:
            prep = "von" if self.norms[start] in ("der", "des", "eines", "einer") else prep
        if count is not None and len(core) > 1 and norms[0] in ("millimeter", "millimetre", "mm", "millimeters"):
            count = None
        many = (count or 0) > 1 or self._is_plural(norms[-1])
        return Noun(start, end, kind, norms, texts, joint, owner, count, prep, many)

    def _written(self, index: int, is_last: bool) -> str:
        """A word of a name as it is written inside a sentence: German nouns with a capital, others without."""
        text = _bare(self.words[index].text.strip(".,;:!?…\"'“”‘’()[]")) or self.norms[index]
        if self.lexicon.language == "de":
            return text[:1].upper() + text[1:] if is_last else text
        opens = (
            index == 0
            or self.words[index - 1].end in (".", "!", "?", ":")
            or self.words[index - 1].cue != self.words[index].cue
        )
        return text.lower() if opens and text[1:].islower() else text

    def _kind(self, core: tuple[str, ...], prep: str) -> tuple[str, str, tuple[str, ...]]:
        lexicon = self.lexicon
        is_tool_place = prep in lexicon.words["tool_prepositions"]
        for size in (2, 1):
            last = core[-size:]
            if len(last) < size:
                continue
            word = " ".join(last)
            is_phrase = size > 1
            in_tools = last in lexicon.phrases["tools"] if is_phrase else word in lexicon.words["tools"]
            in_joints = last in lexicon.phrases["joints"] if is_phrase else word in lexicon.words["joints"]
            if in_tools and (word not in lexicon.words["tools_if_used"] or is_tool_place):
                return "tool", "", ()
            if in_joints:
                before = core[:-size]
                is_lead = bool(before) and lexicon.joints[word] == "plug" and before[-1] in lexicon.words["leads"]
                return "joint", lexicon.joints[word], before if is_lead else self._owner(before)
            if is_phrase and last in lexicon.phrases["parts"]:
                return "part", "", ()
        known, ending = self.known(core[-1]), core[-1]
        if (
            known in ("joint", "lead")
            and lexicon.language == "de"
            and core[-1] not in lexicon.words["joints"] | lexicon.words["leads"]
        ):
            _, ending = self._known_end(core[-1])
            owner = self._owner((re.sub(r"(?<=\w{3})s$", "", core[-1][: -len(ending)]),)) or self._owner(
                (core[-1][: -len(ending)],)
            )
            return known, lexicon.joints.get(ending, ""), owner
        if known == "tool" and core[-1] in lexicon.words["tools_if_used"] and not is_tool_place:
            known = "part" if core[-1] in lexicon.words["parts"] else "unknown"
        if known == "lead":
            return "lead", "", self._owner(core[:-1])
        if core[-1] in lexicon.words["parts"] and (len(core) > 1 or known not in ("place",)):
            return "part", "", ()
        return known or "unknown", "", ()

    def _owner(self, words: tuple[str, ...]) -> tuple[str, ...]:
        """The words in front of "connector" or "cable" that name what it belongs to; none for "ribbon" or "power"."""
        while words and words[0] in self.lexicon.words["lead_kinds"]:
            words = words[1:]
        if not words or words[-1] in self.lexicon.words["lead_kinds"] or words[-1] in self.lexicon.words["places"]:
            return ()
        return words if self.known(words[-1]) in ("part", "device") else ()

    def _is_plural(self, norm: str) -> bool:
        if self.lexicon.language == "de":
            return False  # a German plural cannot be told by its end; pronouns are looked up without it
        return (norm.endswith("s") and not norm.endswith(("ss", "us", "is", "ens", "lens"))) or norm in (
            "feet",
            "double a's",
        )

    def _pronoun(self, start: int, end: int, count: int | None, prep: str, first_sign: str) -> Noun | None:
        lexicon = self.lexicon
        norm = first_sign or self.norms[start]
        if end == start:
            if (
                norm not in lexicon.words["pronouns_one"] | lexicon.words["pronouns_many"]
                or norm in lexicon.words["determiners"]
            ):
                return None
            end = start + 1
        if end - start == 1 and end < len(self.norms) and not self.words[end - 1].end and lexicon.language == "en":
            follows_verb = self.has("be", end) or self.has("other_verbs", end) or self.has("auxiliaries", end)
            if follows_verb and norm in ("that", "this", "one"):
                return None
        is_many = norm in lexicon.words["pronouns_many"] or (count or 0) > 1
        if not is_many and norm not in lexicon.words["pronouns_one"]:
            return None
        return Noun(start, end, "pronoun", count=count, prep=prep, many=is_many)


def _code(norm: str) -> tuple[str, str] | None:
    match = _CODE.fullmatch(norm)
    if match is None:
        return None
    return ("cross-recess", f"{match[1].upper()}{match[2]}") if match[1] else ("hexalobular", f"T{match[3]}")


def _bare(word: str) -> str:
    """Without the ending of a possessive."""
    return re.sub(r"['’]s$", "", word)
