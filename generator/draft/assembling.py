"""What was heard put together as a draft: actions grouped to steps, ids given, every word told where it went."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from generator.draft.captions import Captions
from generator.draft.clauses import Clause
from generator.draft.drafting import Drafting, written_type
from generator.draft.heard import HeardAction, HeardJoint, HeardPart
from generator.draft.lexicon import Lexicon
from generator.draft.naming import id_of, unlike
from generator.draft.records import (
    Draft,
    DraftAction,
    DraftJoint,
    DraftPart,
    DraftStep,
    DraftTool,
    Fate,
    Guess,
    Link,
    Said,
    Sentence,
)

_TITLE_WORDS = 100  # of the film, in which it is said what is taken apart


def draft_of(captions: Captions, lexicon: Lexicon) -> Draft:
    """Everything that can be made of the captions; pure, and the same for the same captions."""
    heard = Drafting(captions, lexicon).read()
    return _Assembly(heard, lexicon).draft()


@dataclass(slots=True)
class _Step:
    actions: list[HeardAction]
    id: str = ""
    title: str = ""
    sentences: list[Sentence] = field(default_factory=list)
    cautions: list[Said] = field(default_factory=list)
    remarks: list[Said] = field(default_factory=list)
    last_word: int = 0

    @property
    def first_word(self) -> int:
        starts = [self.actions[0].clause.start, *(sentence.words[0] for sentence in self.sentences[:1] if sentence.words)]
        return min(starts)


class _Assembly:
    def __init__(self, heard: Drafting, lexicon: Lexicon) -> None:
        self.heard = heard
        self.lexicon = lexicon
        self.reader = heard.reader
        self.words = heard.words
        self.fates: list[Fate] = [Fate.NOTE] * len(heard.words)
        self.fillers: Counter[str] = Counter()
        self.notes: dict[str, list[Said]] = {}
        self.loose: list[Said] = []
        self.chatter: list[Said] = []
        self.stand_ins: list[HeardPart] = []

    def draft(self) -> Draft:
        heard = self.heard
        self._stand_in()
        base = self._base()
        self._name_joints()
        steps = [_Step(actions) for actions in _grouped(heard.actions)]
        by_clause = {action.clause.start: number for number, step in enumerate(steps) for action in step.actions}
        for group in heard.groups:
            self._place(group, steps, by_clause)
        taken: set[str] = set()
        for step in steps:
            step.title = self._title(step)
            step.id = unlike(self._step_id(step), taken)
            taken.add(step.id)
        kind, kind_said = self._kind()
        self._add_drivers()
        parts = tuple(self._part(part) for part in (*heard.parts.values(), *self.stand_ins) if part is not base)
        return Draft(
            language=self.lexicon.language,
            base=self._part(base),
            parts=parts,
            joints=tuple(self._joint(joint, base) for joint in heard.joints),
            tools=tuple(heard.tools.values()),
            steps=tuple(self._step(step, steps[number + 1 :]) for number, step in enumerate(steps)),
            faces=("first-side", "other-side") if heard.is_turned else (),
            links=tuple(self._links()),
            notes=tuple((part, tuple(said)) for part, said in self.notes.items()),
            loose=tuple(self.loose),
            chatter=tuple(self.chatter),
            fillers=tuple(sorted(self.fillers.items(), key=lambda each: (-each[1], each[0]))),
            unread=tuple(heard.unread),
            fates=tuple(self.fates),
            kind=kind,
            kind_said=kind_said,
            is_mains=heard.is_mains,
            supplies=tuple(heard.supplies.values()),
        )

    # --- parts and joints ---

    def _stand_in(self) -> None:
        """A joint joins two parts: where it was not said which, something unnamed stands for the one."""
        taken = set(self.heard.parts)
        for joint in self.heard.joints:
            if joint.of is None:
                name = self.lexicon.tables["unsaid"]["part"]
                part = HeardPart(unlike(id_of(name, "part"), taken), name, None)
                part.guesses.append(Guess("that there is a part, because something has to be held", joint.said))
                taken.add(part.id)
                self.stand_ins.append(part)
                joint.of = part

    def _base(self) -> HeardPart:
        """What all is mounted on: a frame or housing that was named and never taken out, else a stand-in."""
        held = {joint.of.id for joint in self.heard.joints if joint.of is not None}
        for part in self.heard.parts.values():
            is_base = part.id.rpartition("-")[2] in {id_of(word, "") for word in self.lexicon.words["bases"]}
            if is_base and part.moved is None and part.id not in held and not part.under:
                return part
        name = self.lexicon.tables["unsaid"]["base"]
        taken = {*self.heard.parts, *(part.id for part in self.stand_ins)}
        return HeardPart(unlike(id_of(name, "base"), taken), name, None)

    def _add_drivers(self) -> None:
        """A driver for every drive that was said with its size, where none was named."""
        tools = self.heard.tools
        for joint in self.heard.joints:
            if joint.kind != "screws" or joint.drive is None or not joint.drive[1]:
                continue
            if not any(tool.fits == joint.drive for tool in tools.values()):
                name = f"{self.lexicon.tables['unsaid']['driver']} {joint.drive[1]}"
                id = unlike(id_of(name, "driver"), tools)
                fitting = written_type("screwdriver", joint.drive)
                tools[id] = DraftTool(id, name, fitting, joint.said, joint.drive, is_guess=True)

    def _name_joints(self) -> None:
        taken: set[str] = set()
        for joint in self.heard.joints:
            assert joint.of is not None
            word = joint.word
            is_same = id_of(joint.of.name, "").endswith(id_of(word, "joint"))
            bond = "-" if self.lexicon.language == "de" else " "
            joint.name = joint.of.name if is_same else f"{joint.of.name}{bond}{word}"
            joint.id = unlike(id_of(joint.name, joint.kind), taken)
            taken.add(joint.id)

    def _part(self, part: HeardPart) -> DraftPart:
        fits, aside = self._divided(part.under, part.lifted, part.id)
        return DraftPart(
            part.id,
            part.name,
            part.said,
            fits,
            aside,
            part.face if self.heard.is_turned else "",
            bool(part.said) and part.id.rpartition("-")[2] in {id_of(word, "") for word in self.lexicon.words["cells"]},
            part.said is None,
            tuple(part.guesses),
        )

    def _divided(
        self, over: dict[str, Said], done: int | None, id: str
    ) -> tuple[tuple[tuple[str, Said], ...], tuple[tuple[str, Said], ...]]:
        """Proposals the spoken order can keep, and those it cannot: what lies over a thing has to be moved before it."""
        fits: list[tuple[str, Said]] = []
        aside: list[tuple[str, Said]] = []
        for other, said in over.items():
            part = self.heard.parts.get(other)
            can_be = part is not None and (done is None or (part.moved is not None and part.moved < done))
            is_round = part is not None and done is None and id in part.under
            (fits if can_be and not is_round else aside).append((other, said))
        return tuple(fits), tuple(aside)

    def _joint(self, joint: HeardJoint, base: HeardPart) -> DraftJoint:
        assert joint.of is not None
        fits, aside = self._divided(joint.behind, joint.undone, "")
        return DraftJoint(
            joint.id,
            joint.kind,
            joint.name,
            (joint.of.id, base.id),
            joint.said,
            joint.count,
            joint.drive if joint.kind == "screws" else None,
            joint.softens,
            fits,
            aside,
            joint.face,
            tuple(joint.guesses),
        )

    def _links(self) -> Sequence[Link]:
        found = []
        for link in self.heard.links:
            scheme, _, target = link.to.partition(":")
            to = f"joint:{self.heard.joints[int(target)].id}" if scheme == "joint" else link.to
            found.append(Link(link.start, link.end, to))
        return found

    # --- words ---

    def _place(self, group: Sequence[Clause], steps: list[_Step], by_clause: dict[int, int]) -> None:
        """Every word of a sentence: into a step, a note, or left out."""
        start, end = group[0].start, group[-1].end
        said = self.heard.whole(start, end)
        now = self._step_before(start, steps)
        if any(clause.start in self.heard.did for clause in group):
            self._use(group, steps, by_clause, now)
            return
        norms = self.reader.norms[start:end]
        meant_for = self.heard.told.get(group[0].sentence)
        if meant_for in by_clause:
            self._tell(group, steps[by_clause[meant_for]])
            return
        if self.heard.is_chatter(group) and not self.lexicon.found_in("refit", norms):
            self._mark(range(start, end), Fate.CHATTER)
            self.chatter.append(said)
            return
        if all(self.reader.is_lead_in(index) for index in range(start, end)):
            for index in range(start, end):
                self._drop(index)
            return
        step = steps[now] if now is not None else None
        is_warning = bool(self.lexicon.found_in("warnings", norms)) and not self.lexicon.found_in("needless", norms)
        is_warning = is_warning and "?" not in self.words[end - 1].end
        part = self._part_named(group)
        if step is not None and is_warning:
            step.cautions.append(said)
            step.last_word = max(step.last_word, end - 1)
        elif part is not None:
            self.notes.setdefault(part, []).append(said)
        elif step is not None:
            step.remarks.append(said)
            step.last_word = max(step.last_word, end - 1)
        else:
            self.loose.append(said)

    def _step_before(self, word: int, steps: Sequence[_Step]) -> int | None:
        found = None
        for number, step in enumerate(steps):
            if step.actions[0].clause.start <= word:
                found = number
            else:
                break
        return found

    def _part_named(self, group: Sequence[Clause]) -> str | None:
        """The first part of the anatomy that a sentence names."""
        for noun in self.reader.nouns(group[0].start, group[-1].end):
            if noun.kind in ("part", "lead", "joint"):
                names = [" ".join(noun.core[-3:]), noun.core[-1], " ".join(noun.owner)]
                for name in names:
                    if name and id_of(name, "") in self.heard.parts:
                        return id_of(name, "")
        return None

    def _use(self, group: Sequence[Clause], steps: list[_Step], by_clause: dict[int, int], now: int | None) -> None:
        """A sentence that asks for something becomes one sentence for each thing asked for, in the step of that thing."""
        segments: list[tuple[list[Clause], int]] = []
        waiting: list[Clause] = []
        for number, clause in enumerate(group):
            if clause.start in self.heard.did:
                at = by_clause.get(clause.start, segments[-1][1] if segments else now or 0)
                segments.append(([*waiting, clause], at))
                waiting = []
            elif (
                segments
                and not waiting
                and (not self._leads_on(clause) or not any(later.start in self.heard.did for later in group[number + 1 :]))
            ):
                segments[-1][0].append(clause)
            else:
                waiting.append(clause)
        if waiting and segments:
            segments[-1][0].extend(waiting)
        for clauses, at in segments:
            step = steps[min(at, len(steps) - 1)]
            for piece in self._pieces(clauses):
                words = self._sentence(piece)
                if words:
                    step.sentences.append(Sentence(tuple(words)))
                    step.last_word = max(step.last_word, words[-1])

    def _tell(self, group: Sequence[Clause], step: _Step) -> None:
        """A sentence that says what "them" are, in front of the one that asks for something to be done to them."""
        words = self._sentence(group)
        if words:
            step.sentences.append(Sentence(tuple(words)))

    def _pieces(self, clauses: Sequence[Clause]) -> list[list[Clause]]:
        """A clause that tells something before one that asks is a sentence of its own: "those are T5, so undo them"."""
        pieces: list[list[Clause]] = [[]]
        for clause in clauses:
            tells = clause.start not in self.heard.did and clause.mood == "asked" and clause.call is None and not pieces[-1]
            tells = (
                tells
                and any(self.reader.is_verbal(index) for index in range(clause.start, clause.end))
                and self._says_something(clause)
            )
            pieces[-1].append(clause)
            if tells and clause is not clauses[-1]:
                pieces.append([])
        return [piece for piece in pieces if piece]

    def _says_something(self, clause: Clause) -> bool:
        is_measured = any(self.reader.measures.covers(index) for index in range(clause.start, clause.end))
        return is_measured or any(
            noun.kind not in ("place", "pronoun") for noun in self.reader.nouns(clause.start, clause.end)
        )

    def _leads_on(self, clause: Clause) -> bool:
        """Whether a clause that asks for nothing belongs to what follows it: "once that is out, ..."."""
        first = clause.start
        while first < clause.end - 1 and (self.reader.has("links", first) or first in self.reader.fillers):
            first += 1
        if self.lexicon.phrase_at("done", self.reader.norms, first) or self.lexicon.phrase_at(
            "before", self.reader.norms, first
        ):
            return True
        has_tool = any(noun.kind == "tool" for noun in self.reader.nouns(clause.start, clause.end))
        return clause.mood in ("purpose", "asked") and (has_tool or clause.mood == "purpose" or clause.call is None)

    def _sentence(self, clauses: Sequence[Clause]) -> list[int]:
        """The words of a sentence that are kept: without fillers, doubled words, and what only leads up to the verb."""
        start, end = clauses[0].start, clauses[-1].end
        first = self._first_kept(clauses)
        kept: list[int] = []
        for index in range(start, end):
            is_again = (
                bool(kept) and self.reader.norms[index] == self.reader.norms[kept[-1]] and not self.words[kept[-1]].end
            )
            if index < first or index in self.reader.fillers or is_again:
                self._drop(index)
            else:
                self.fates[index] = Fate.USED
                kept.append(index)
        while kept and (self.reader.has("conjunctions", kept[-1]) or self.reader.norms[kept[-1]] in ("so", "because")):
            self._drop(kept.pop())
        return kept

    def _first_kept(self, clauses: Sequence[Clause]) -> int:
        """Where a sentence begins once "so now we're going to" is left out: at its verb if that can stand alone."""
        index = clauses[0].start
        asking = next(
            (number for number, each in enumerate(clauses) if each.call is not None and each.start in self.heard.did), 0
        )
        if all(each.mood == "asked" and each.call is None and not self._says_something(each) for each in clauses[:asking]):
            clauses = clauses[asking:]
        clause = clauses[0]
        call = clause.call
        plain = ("links", "conjunctions")
        if self.lexicon.language == "en" and call is not None and call.form.tense == "base" and clause.mood == "asked":
            lead = range(clause.start, call.index)
            light = ("links", "conjunctions", "subjects", "auxiliaries")
            weak = [
                place in self.reader.fillers
                or self.reader.norms[place] in ("to", "just", "there", "here")
                or any(self.reader.has(group, place) for group in light)
                for place in lead
            ]
            if all(is_weak or self.reader.has("adverbs", place) for is_weak, place in zip(weak, lead, strict=True)):
                kept = [place for place, is_weak in zip(lead, weak, strict=True) if not is_weak]
                return (
                    kept[-1]
                    if kept and all(place >= kept[0] for place in kept) and kept[-1] == call.index - 1
                    else call.index
                )
        last = clauses[-1].end - 1
        while index < last:
            size = self.lexicon.phrase_at("links", self.reader.norms, index)
            if not size and (index in self.reader.fillers or any(self.reader.has(group, index) for group in plain)):
                size = 1
            if (
                not size
                or (self.lexicon.language == "de" and not self._may_open(index + size))
                or self.reader.norms[index] == "well"
            ):
                break
            if self.lexicon.phrase_at("conditions", self.reader.norms, index) > size:
                break
            index += size
        return min(index, last)

    def _may_open(self, index: int) -> bool:
        """German keeps its verb second: without "dann" a sentence may not begin with the verb."""
        return not self.reader.is_verbal(index) and not self.reader.has("subjects", index)

    def _drop(self, index: int) -> None:
        self.fates[index] = Fate.FILLER
        self.fillers[self.reader.norms[index]] += 1

    def _mark(self, indices: range, fate: Fate) -> None:
        for index in indices:
            self.fates[index] = fate

    # --- steps ---

    def _step(self, step: _Step, later: Sequence[_Step]) -> DraftStep:
        start = self.words[step.first_word].at
        last = max(step.last_word, step.actions[-1].clause.end - 1)
        end = self.words[last].until
        if later:
            end = min(end, self.words[later[0].first_word].at)
        return DraftStep(
            step.id,
            step.title,
            start,
            max(end, start),
            tuple(self._action(action, step) for action in step.actions),
            tuple(step.sentences),
            tuple(step.cautions),
            tuple(step.remarks),
        )

    def _action(self, action: HeardAction, step: _Step) -> DraftAction:
        target = self._check_words(step, action) if action.verb == "check" else action.text
        if action.part is not None:
            target = action.part.id
        if action.joint is not None:
            target = action.joint.id
        return DraftAction(
            action.verb,
            target,
            action.said,
            tuple(action.tools),
            action.lasts,
            action.degrees,
            action.proves,
            action.is_implied,
        )

    def _title(self, step: _Step) -> str:
        """What a step is called: the speaker's verb, and the thing it is about."""
        main = next((action for action in reversed(step.actions) if action.verb in ("lift", "fold")), None)
        main = main or next((action for action in step.actions if action.verb == "undo"), step.actions[0])
        unsaid = self.lexicon.tables["unsaid"]
        if main.verb == "turn":
            return _capital(unsaid["turn"])
        if main.verb == "check":
            return _capital(" ".join(self._check_words(step, main).split()[:9]).rstrip(".,;:!?… "))
        if main.verb == "wait":
            return _capital(
                f"{main.text} {unsaid['wait']}" if self.lexicon.language == "de" else f"{unsaid['wait']} {main.text}"
            )
        thing = main.part.name if main.part is not None else ""
        if main.joint is not None:
            by_part = not main.joint.is_spoken or main.verb != "undo"
            thing = main.joint.of.name if by_part and main.joint.of is not None else main.joint.name
        verb, particle = self._spoken_verb(main)
        if self.lexicon.language == "de":
            return _capital(f"{thing} {particle}{verb}")
        if particle in ("free", "apart", "loose", "open", "over"):
            return _capital(f"{verb} the {thing} {particle}")
        return _capital(" ".join(word for word in (verb, particle, "the", thing) if word))

    def _step_id(self, step: _Step) -> str:
        """Short: the verb and the thing, without the small words of the title."""
        small = self.lexicon.words["determiners"] | self.lexicon.words["particles"] | {"it"}
        words = (
            [word for word in step.title.split() if word.lower() not in small]
            if self.lexicon.language == "en"
            else [step.title]
        )
        return id_of(" ".join(words), "step")

    def _check_words(self, step: _Step, action: HeardAction) -> str:
        """The words of a check without what only leads up to them."""
        for sentence in step.sentences:
            if action.clause.start <= sentence.words[-1] < action.clause.end:
                return " ".join(self.words[index].text for index in sentence.words)
        return action.text

    def _spoken_verb(self, action: HeardAction) -> tuple[str, str]:
        """The verb as a request, with its particle; a plain one where it was said of the thing itself."""
        call = action.clause.call
        does = {"lift": "take", "soak": "soak", "heat": "heat", "fold": "fold"}.get(action.verb, "undo")
        if does == "undo" and action.joint is not None and action.joint.kind == "plug":
            does = "unplug"
        if (
            call is None
            or call.form.verb.only == "itself"
            or call.form.verb.does not in (does, "take", "undo", "cut", "unplug", "turn")
        ):
            return self.lexicon.tables["unsaid"][does], ""
        particle = call.form.particle or (self.reader.norms[call.particle] if call.particle != call.index else "")
        if self.lexicon.language == "de":
            return call.form.verb.say, particle.replace(" ", "")
        return call.form.verb.say, particle

    def _kind(self) -> tuple[str, Said | None]:
        """Whether it is a phone or a tablet, where that is said near the start."""
        for index in range(min(_TITLE_WORDS, len(self.words))):
            for group, kind in (("phones", "phone"), ("tablets", "tablet")):
                if self.reader.has(group, index):
                    return kind, self.heard.said(max(index - 8, 0), min(index + 4, len(self.words)))
        return "", None


def _grouped(actions: Sequence[HeardAction]) -> list[list[HeardAction]]:
    """Actions that belong together: all that is done to get one part off, with the turning before it."""
    groups: list[list[HeardAction]] = []
    for action in actions:
        if not groups or _is_new(groups[-1], action):
            groups.append([action])
        else:
            groups[-1].append(action)
    return groups


def _is_new(group: Sequence[HeardAction], action: HeardAction) -> bool:
    last = group[-1]
    if action.verb in ("turn", "check"):
        return True
    if action.verb == "wait":
        return last.verb not in ("heat", "soak", "undo")
    if last.verb == "wait":
        return _about(action) is not _about(group[0])
    if last.verb == "check" or last.verb in ("lift", "fold"):
        return True
    if last.verb == "turn":
        return False
    return _about(action) is not _about(last)


def _about(action: HeardAction) -> HeardPart | None:
    return action.part if action.part is not None else action.joint.of if action.joint is not None else None


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
