"""From clauses to a draft: what is asked for becomes actions of steps, with the parts and joints they need."""

from __future__ import annotations

from collections.abc import Sequence

from generator.draft.acts import THINGS, Act, act_of
from generator.draft.captions import Captions
from generator.draft.clauses import Clause, clauses
from generator.draft.fronts import hear_fronts, settle_fronts
from generator.draft.heard import Front, HeardAction, HeardJoint, HeardPart, Memory, Mention
from generator.draft.lexicon import Lexicon
from generator.draft.naming import id_of, unlike
from generator.draft.phrases import Noun, Reader
from generator.draft.records import (
    DraftTool,
    Guess,
    Link,
    Said,
)

MOST_ACTIONS = 600
MOST_THINGS = 800  # parts and joints
LONGEST_QUOTE = 160  # characters
_REMEMBERED = 75.0  # s: how long "it" may speak of something
_CLOSE = 60.0  # s: how long after its screws a part may come off
_FIRST_FACE, _OTHER_FACE = "first-side", "other-side"


class Drafting:
    """The film as it goes on: what has been named, what is still held by what, which side is up."""

    def __init__(self, captions: Captions, lexicon: Lexicon) -> None:
        self.words = captions.words
        self.lexicon = lexicon
        self.reader = Reader(captions.words, lexicon)
        self.clauses = clauses(self.reader, captions.is_punctuated)
        self.is_punctuated = captions.is_punctuated
        self.parts: dict[str, HeardPart] = {}
        self.joints: list[HeardJoint] = []
        self.tools: dict[str, DraftTool] = {}
        self.actions: list[HeardAction] = []
        self.mentions: list[Mention] = []
        self.memory: list[Memory] = []
        self.fronts: list[Front] = []
        self.unread: list[Guess] = []
        self.supplies: dict[str, Said] = {}
        self.pending_tools: list[Noun] = []
        self.pending_drive: tuple[str, str] | None = None
        self.face = _FIRST_FACE
        self.is_turned = False
        self.is_mains = False
        self.told: dict[int, int] = {}  # sentences that say what a pronoun means, with the clause it stands in
        self.glued: tuple[HeardPart, int] | None = None
        self.links: list[Link] = []
        self.did: set[int] = set()  # clauses that asked for something, again or anew

    # --- reading ---

    def read(self) -> Drafting:
        """Go through the film once; everything found is in the fields afterwards."""
        groups: list[list[Clause]] = []
        for clause in self.clauses:
            if groups and groups[-1][0].sentence == clause.sentence:
                groups[-1].append(clause)
            else:
                groups.append([clause])
        self.groups = groups
        for group in groups:
            self._sentence(group)
        settle_fronts(self)
        return self

    def _sentence(self, group: Sequence[Clause]) -> None:
        acts = [act_of(self.reader, clause) for clause in group]
        begun = len(self.actions)
        words = self.reader.norms[group[0].start : group[-1].end]
        if self.lexicon.found_in("refit", words):
            return
        if self.is_chatter(group) and not any(act.does and act.clause.mood == "asked" and act.objects for act in acts):
            return
        has_call = False
        for number, act in enumerate(acts):
            earlier = acts[:number]
            if self._is_check(act, earlier):
                has_call = True
            elif act.does and act.clause.mood == "asked":
                has_call = self._act(act, earlier) or has_call
            elif act.clause.mood in ("forbidden", "needless", "past", "question"):
                self._mention(act, is_talk=True)
            else:
                self._mention(act)
            hear_fronts(self, act, acts, number)
        if has_call:
            self._trailing(acts, begun)
        else:
            has_call = self._spoken_short(group, acts)
        if not has_call:
            self._attach(group, acts, begun)

    def is_chatter(self, group: Sequence[Clause]) -> bool:
        return bool(self.lexicon.found_in("chatter", self.reader.norms[group[0].start : group[-1].end]))

    def said(self, start: int, end: int) -> Said:
        """The words between two positions, cut where they are too many, with the time of the first."""
        text = " ".join(word.text for word in self.words[start:end])
        return Said(self.words[start].at, text if len(text) <= LONGEST_QUOTE else f"{text[: LONGEST_QUOTE - 2].rstrip()} …")

    def whole(self, start: int, end: int) -> Said:
        """All the words between two positions."""
        return Said(self.words[start].at, " ".join(word.text for word in self.words[start:end]))

    def at(self, index: int) -> float:
        return self.words[index].at

    def _trailing(self, acts: Sequence[Act], begun: int) -> None:
        """Clauses after the last thing asked for may say with what, how long or how warm."""
        if len(self.actions) == begun:
            return
        last_asked = max((number for number, act in enumerate(acts) if act.clause.start in self.did), default=len(acts))
        last = self.actions[-1]
        for act in acts[last_asked + 1 :]:
            if act.does or act.clause.mood not in ("asked", "aside"):
                continue
            for noun in act.tools:
                if last.verb not in ("turn", "wait", "check"):
                    self._take_up(last, noun, act.drive)
            if last.verb in ("heat", "soak"):
                last.lasts = last.lasts or act.lasts
                last.degrees = last.degrees if last.degrees is not None or last.verb == "soak" else act.degrees
            if last.joint is not None and last.joint.kind == "screws" and last.joint.drive is None:
                last.joint.drive = act.drive

    # --- acts ---

    def _is_check(self, act: Act, earlier: Sequence[Act]) -> bool:
        """Unplugging from the mains, or making sure of it: a check that proves it."""
        clause = act.clause
        words = self.reader.norms[clause.start : clause.end]
        found = self.lexicon.found_in("unplugged", words)
        if not found or clause.mood in ("condition", "needless", "past", "question", "forbidden"):
            return False
        if not act.does and not any(self.reader.is_verbal(index) for index in range(clause.start, clause.end)):
            return False
        if act.does and act.does not in ("unplug", "take"):
            return False
        if not any(action.proves for action in self.actions):
            self.is_mains = True
            start = earlier[0].clause.start if earlier and not earlier[0].does else clause.start
            said = self.said(start, clause.end)
            self.actions.insert(len(self.actions), HeardAction("check", said, clause, text=said.words, proves="unplugged"))
        self.did.add(clause.start)
        return True

    def _act(self, act: Act, earlier: Sequence[Act]) -> bool:
        """Make actions of one clause; False where it asks for nothing that can be done to a thing."""
        if len(self.actions) >= MOST_ACTIONS or len(self.parts) + len(self.joints) >= MOST_THINGS:
            return False
        call = act.clause.call
        assert call is not None
        if act.does == "wait":
            return self._wait(act, earlier)
        objects = self._objects(act, earlier)
        if act.does == "turn":
            return self._turn(act, objects)
        if act.does == "heat":
            done = self._heat(act, objects)
        elif act.does == "soak":
            done = self._soak(act, objects)
        else:
            done = False
            for noun, known in objects:
                done = self._one(act, noun, known) or done
        if done:
            self.did.add(act.clause.start)
            for action in self.actions:
                if action.clause is act.clause and not action.is_implied:
                    self._equip(action, act, earlier)
            self._remember_others(act, objects)
        else:
            self._mention(act)
            self.pending_tools.extend(act.tools)
        return done

    def _objects(self, act: Act, earlier: Sequence[Act]) -> list[tuple[Noun, Memory | None]]:
        """What a verb is done to, each with what a pronoun stands for."""
        call = act.clause.call
        assert call is not None
        nouns = list(act.objects)
        if (
            not nouns
            and earlier
            and not earlier[-1].clause.call
            and act.does in ("take", "undo", "heat", "unplug", "soak", "cut")
        ):
            nouns = [noun for noun in earlier[-1].nouns if not noun.prep and noun.kind in THINGS][-1:]
        found: list[tuple[Noun, Memory | None]] = []
        for noun in nouns:
            if noun.kind == "pronoun":
                memory = self.meant(noun, act)
                if memory is not None:
                    found.append((noun, memory))
                    if memory.part is None and memory.joint is None and memory.sentence < act.clause.sentence:
                        self.told[memory.sentence] = act.clause.start
            else:
                found.append((noun, None))
        if not found and act.is_moving and not nouns:
            memory = self._last_thing(act)
            if memory is not None and earlier:
                found.append((memory.noun, memory))
        return found

    def meant(self, pronoun: Noun, act: Act) -> Memory | None:
        """The last thing spoken of that a pronoun fits."""
        now, sentence = self.at(pronoun.start), act.clause.sentence
        verb = act.clause.call.form.verb if act.clause.call is not None else None
        for memory in reversed(self.memory):
            if now - memory.at > _REMEMBERED or sentence - memory.sentence > 8:
                return None
            noun = memory.noun
            if self.lexicon.language == "en" and noun.many != pronoun.many:
                continue
            if pronoun.count is not None and noun.count is not None and pronoun.count != noun.count:
                continue
            if verb is not None and verb.only == "joints" and noun.kind != "joint":
                continue
            if (
                memory.part is not None
                and memory.part.lifted is not None
                and verb is not None
                and verb.does in ("take", "unplug")
            ):
                continue
            return memory
        return None

    def _last_thing(self, act: Act) -> Memory | None:
        for memory in reversed(self.memory):
            is_recent = self.at(act.clause.start) - memory.at <= _REMEMBERED / 3
            return memory if is_recent else None
        return None

    def _one(self, act: Act, noun: Noun, memory: Memory | None) -> bool:
        """One verb done to one thing: undo, lift or fold."""
        call = act.clause.call
        assert call is not None
        verb = call.form.verb
        thing = memory.noun if memory is not None else noun
        kind = thing.kind
        if kind == "place" and self._is_lid(thing):
            kind = "part"
        if kind in ("tool", "supply", "place", "pronoun") or (kind == "device" and act.does not in ("unplug",)):
            if kind == "device" and act.does == "take" and not self._is_whole(thing):
                kind = "part"
            else:
                return False
        if kind == "device" and not self._is_whole(thing):
            kind = "part"
        if kind == "unknown" and not self._is_plausible(act, thing):
            return False
        if kind == "joint":
            is_told = verb.kind in ("solder", "plug") and act.does in ("undo", "unplug")
            return self._undo(act, noun, memory, verb.kind if is_told else thing.joint)
        if verb.only == "joints":
            return False
        if act.does == "unplug":
            return self._undo(act, noun, memory, "plug")
        if act.does == "undo":
            return self._undo(act, noun, memory, verb.kind or "screws")
        if act.does == "cut":
            self.unread.append(
                Guess(
                    "cut: only glue, clips and ties are joints that can be cut", self.said(act.clause.start, act.clause.end)
                )
            )
            return False
        if kind == "lead" and act.does == "take" and verb.say in self.lexicon.words["pulls"]:
            return self._undo(act, noun, memory, "plug")
        part = memory.part if memory is not None and memory.part is not None else self.part_named(thing, act, is_taken=True)
        if part is None:
            return False
        self._remember(noun if memory is None else memory.noun, act, part=part)
        if act.does == "fold":
            return self._move(act, part, "fold", noun)
        return self._move(act, part, "lift", noun)

    def _is_lid(self, noun: Noun) -> bool:
        return len(noun.core) == 1 and noun.core[0] in self.lexicon.words["lids"] and noun.end - noun.start > 1

    def _is_whole(self, noun: Noun) -> bool:
        """Whether a noun speaks of the device itself; a word that can be a part too does not once it stands with others."""
        return len(noun.core) == 1 and noun.core[0] not in self.lexicon.words["parts"]

    def _is_plausible(self, act: Act, noun: Noun) -> bool:
        """An unknown noun is a part where the verb cannot mean anything else, and where it is not a row of words."""
        call = act.clause.call
        assert call is not None
        if any(word in self.lexicon.words["chatter"] for word in noun.core):
            return False
        return len(noun.core) <= 4 and act.does in ("take", "undo", "unplug", "fold")

    def _move(self, act: Act, part: HeardPart, verb: str, noun: Noun) -> bool:
        if verb == "fold" and part.moved is not None:
            return True
        if part.lifted is not None and not self._retake(part):
            return True  # asked for again: nothing more to do
        for joint in self.joints:
            # What was warmed or wetted to come off, and is not said to be undone, is undone by lifting.
            if joint.kind == "glue" and joint.of in (part, None) and joint.undone is None and self._is_near(joint, act):
                self._hold(joint, part, act)
                self._add(act, "undo", joint=joint, is_implied=True)
                joint.undone = len(self.actions) - 1
        self._claim(part, act)
        self._add(act, verb, part=part)
        number = len(self.actions) - 1
        part.lifted = number if verb == "lift" else part.lifted
        part.moved = number
        self._link(noun, f"part:{part.id}")
        return True

    def _retake(self, part: HeardPart) -> bool:
        """A part taken again, after work on what holds it: the first time was announced, or it stayed on its leads."""
        assert part.lifted is not None
        between = self.actions[part.lifted + 1 :]
        held = [
            action
            for action in between
            if action.verb == "undo" and action.joint is not None and action.joint.of in (part, None)
        ]
        if not held:
            return False
        first = self.actions[part.lifted]
        if all(action.joint is not None and action.joint.kind == "plug" for action in held):
            first.verb = "fold"
        else:
            self._forget(part.lifted)
        part.lifted = None
        return True

    def _forget(self, number: int) -> None:
        """Take back an action; those after it move up by one."""
        self.did.discard(self.actions[number].clause.start)
        del self.actions[number]
        for joint in self.joints:
            if joint.undone is not None and joint.undone > number:
                joint.undone -= 1
        for part in self.parts.values():
            part.lifted = part.lifted - 1 if part.lifted is not None and part.lifted > number else part.lifted
            part.moved = part.moved - 1 if part.moved is not None and part.moved > number else part.moved

    def _is_near(self, joint: HeardJoint, act: Act) -> bool:
        return self.at(act.clause.start) - joint.said.at <= 4 * _CLOSE

    def _claim(self, part: HeardPart, act: Act) -> None:
        """Joints undone just before, of which it was not said what they hold: the part that comes off next."""
        since = max(
            (
                number
                for number, action in enumerate(self.actions)
                if action.verb in ("lift", "fold") and action.joint is None
            ),
            default=-1,
        )
        for joint in self.joints:
            if joint.of is not None or joint.undone is None:
                continue
            is_close = self.at(act.clause.start) - joint.said.at <= 2 * _CLOSE
            is_next = not any(action.verb in ("lift", "fold") for action in self.actions[joint.undone + 1 :])
            if is_close and (joint.undone > since or is_next):
                self._hold(joint, part, act)

    def _hold(self, joint: HeardJoint, part: HeardPart, act: Act) -> None:
        if joint.of is None:
            joint.of = part
            said = self.said(act.clause.start, act.clause.end)
            joint.guesses.append(Guess(f"that it holds the {part.name}, because that comes off next", said))

    def _undo(self, act: Act, noun: Noun, memory: Memory | None, kind: str) -> bool:
        thing = memory.noun if memory is not None else noun
        if memory is not None and memory.joint is not None and memory.joint.undone is not None:
            return True
        joint = memory.joint if memory is not None and memory.joint is not None else None
        if joint is None:
            joint = self._joint(act, thing, memory, kind, noun)
        if joint is None:
            return False
        if joint.undone is not None:
            return True
        joint.count = joint.count or noun.count
        joint.drive = joint.drive or act.drive or self.pending_drive
        self.pending_drive = None
        self._add(act, "undo", joint=joint)
        joint.undone = len(self.actions) - 1
        joint.face = self.face if self.is_turned else ""
        self._remember(thing, act, part=joint.of if thing.kind != "joint" else None, joint=joint)
        self._link_joint(noun, joint)
        return True

    def _joint(self, act: Act, thing: Noun, memory: Memory | None, kind: str, noun: Noun) -> HeardJoint | None:
        """The joint that is meant: one that was softened, one that was spoken of, or a new one."""
        now = self.at(act.clause.start)
        of = self._owner(act, thing, kind)
        if kind == "glue":
            for joint in reversed(self.joints):
                if (
                    joint.kind == "glue"
                    and joint.softens
                    and joint.undone is None
                    and (of is None or joint.of in (of, None))
                ):
                    joint.of = joint.of or of
                    return joint
        mention = memory.mention if memory is not None else None
        if mention is None and thing.kind == "joint":
            mention = self._mentioned(kind, thing, of, now, act)
        count, drive = thing.count or noun.count, None
        if mention is not None:
            mention.is_used = True
            of, count, drive = of or mention.of, count or mention.noun.count, mention.drive
        for joint in self.joints:
            is_again = joint.kind == kind and joint.undone is not None and now - joint.said.at < _CLOSE / 2
            if is_again and of is not None and joint.of is of and (count is None or joint.count == count):
                return joint
        is_spoken = thing.kind == "joint"
        joint = HeardJoint(
            kind,
            self._joint_word(thing, kind),
            self.said(act.clause.start, act.clause.end),
            of,
            count,
            drive,
            is_spoken=is_spoken,
        )
        self._doubt(joint, [thing, *([mention.noun] if mention is not None else [])])
        self.joints.append(joint)
        return joint

    def _doubt(self, joint: HeardJoint, nouns: Sequence[Noun]) -> None:
        """Mark a count that was said with "I think" or the like."""
        for noun in nouns:
            start = max(noun.start - 4, 0)
            found = self.lexicon.found_in("doubts", self.reader.norms[start : noun.end])
            if found and joint.count is not None and noun.count is not None:
                joint.guesses.append(Guess(f'how many, because it was said with "{found}"', self.said(start, noun.end)))
                return

    def _mentioned(self, kind: str, thing: Noun, of: HeardPart | None, now: float, act: Act) -> Mention | None:
        for mention in reversed(self.mentions):
            if now - mention.at > _REMEMBERED:
                return None
            fits = mention.kind == kind and not mention.is_used
            fits = fits and (thing.count is None or mention.noun.count in (None, thing.count))
            if fits and (of is None or mention.of in (None, of)):
                return mention
        return None

    def _joint_word(self, thing: Noun, kind: str) -> str:
        """What to call it: the word that was said, if it was a word for a joint."""
        if thing.kind == "joint" and thing.joint == kind:
            word = thing.name[-1]
            for noun, its in self.lexicon.joints.items():
                if (
                    self.lexicon.language == "de"
                    and its == kind
                    and thing.core[-1].endswith(noun)
                    and thing.core[-1] != noun
                ):
                    return noun.capitalize() if thing.owner else word
            return word
        return self.lexicon.tables["joint_words"][kind]

    def _owner(self, act: Act, thing: Noun, kind: str) -> HeardPart | None:
        """What a joint is said to hold: its own words, or what stands after "of" or "on"; the thing itself if it is none."""
        if thing.kind in ("part", "unknown", "lead", "device", "place"):
            if thing.owner and thing.kind == "lead":
                return self.part_of(thing.owner, thing, act)
            return self.part_named(thing, act)
        if thing.owner:
            return self.part_of(thing.owner, thing, act)
        for noun in act.nouns:
            follows = noun.start >= thing.end or kind == "plug" or self.lexicon.language == "de"
            if (
                noun.prep in self.lexicon.words["part_of"]
                and noun.kind in ("part", "lead")
                and follows
                and noun is not thing
            ):
                if noun.prep in ("in", "into", "im", "aus", "auf") and kind != "screws":
                    continue
                if noun.core[-1] in self.lexicon.words["bases"]:
                    continue
                return self.part_named(noun, act)
        return None

    def part_of(self, words: Sequence[str], noun: Noun, act: Act) -> HeardPart | None:
        names = tuple(name for word, name in zip(noun.core, noun.name, strict=True) if word in words)
        name = names or tuple(word.capitalize() if self.lexicon.language == "de" else word for word in words)
        return self.part_named(Noun(noun.start, noun.end, "part", tuple(words), name), act)

    def part_named(self, noun: Noun, act: Act, is_taken: bool = False) -> HeardPart | None:
        """The part a noun names: known already under this name or a longer one, else a new one."""
        core = noun.core[-3:]
        name = " ".join(noun.name[-3:])
        id = id_of(" ".join(core), "part")
        known = self.known_part(id, core[-1] if core else "", is_taken, noun)
        if known is not None:
            return known
        for memory in reversed(self.memory):
            # "the coil", after "the charging coil" was spoken of
            longer = memory.noun
            is_longer = longer.kind == noun.kind and len(core) < len(longer.core) <= 3 and longer.core[-len(core) :] == core
            if is_longer and memory.part is None and id_of(" ".join(longer.core), "part") not in self.parts:
                id, name = id_of(" ".join(longer.core), "part"), " ".join(longer.name)
                break
        if len(self.parts) >= MOST_THINGS:
            return None
        id = unlike(id, self.parts)
        part = HeardPart(id, name, self.said(act.clause.start, act.clause.end), noun.many)
        part.face = self.face if self.is_turned else ""
        self.parts[id] = part
        return part

    def known_part(self, id: str, word: str, is_taken: bool, noun: Noun) -> HeardPart | None:
        def is_free(part: HeardPart) -> bool:
            return not (is_taken and part.lifted is not None)

        if id in self.parts:
            return self.parts[id]
        for other in (f"{id}s", id.removesuffix("s"), f"{id.removesuffix('y')}ies", f"{id.removesuffix('ies')}y"):
            if other in self.parts and other != id and noun.kind != "lead":
                return self.parts[other]
        endings = (f"-{id}", id) if self.lexicon.language == "de" and len(id) >= 4 else (f"-{id}",)
        for part in reversed(self.parts.values()):
            if part.id.endswith(endings) and is_free(part):
                return part
        return None

    def _turn(self, act: Act, objects: Sequence[tuple[Noun, Memory | None]]) -> bool:
        """The device turned over; a part that is named and turned is laid aside, not the device."""
        for noun, memory in objects:
            is_device = bool(noun.core) and (
                noun.core[-1] in self.lexicon.words["devices"] or noun.core[-1] in self.lexicon.words["bases"]
            )
            if (
                memory is None
                and noun.kind in ("part", "unknown", "joint", "lead")
                and not self._is_lid(noun)
                and not is_device
            ):
                self._mention(act)
                return False
        self.face = _OTHER_FACE if self.face == _FIRST_FACE else _FIRST_FACE
        self.is_turned = True
        self._add(act, "turn", text=self.face)
        self.did.add(act.clause.start)
        return True

    def _heat(self, act: Act, objects: Sequence[tuple[Noun, Memory | None]]) -> bool:
        part: HeardPart | None = None
        for noun, memory in objects:
            thing = memory.noun if memory is not None else noun
            if thing.kind in ("part", "unknown", "lead") and len(thing.core) <= 4:
                part = memory.part if memory is not None and memory.part is not None else self.part_named(thing, act)
                self._remember(thing, act, part=part)
                break
            if thing.kind == "joint" and thing.joint == "glue":
                part = self._owner(act, thing, "glue") or (
                    memory.mention.of if memory is not None and memory.mention is not None else None
                )
                break
            if thing.kind == "place":
                part = next(
                    (
                        self.part_named(each, act)
                        for each in act.nouns
                        if each.prep in self.lexicon.words["part_of"] and each.kind == "part"
                    ),
                    None,
                )
                break
        else:
            if not act.lasts and not act.tools:
                return False
            if self.glued is not None and act.clause.sentence - self.glued[1] <= 2:
                part = self.glued[0]
        return self._soften(act, part, "heat")

    def _soak(self, act: Act, objects: Sequence[tuple[Noun, Memory | None]]) -> bool:
        part: HeardPart | None = None
        for noun in act.nouns:
            if noun.kind == "supply":
                self.supplies.setdefault(" ".join(noun.name), self.said(act.clause.start, act.clause.end))
        for noun, memory in objects:
            thing = memory.noun if memory is not None else noun
            if thing.kind in ("part", "unknown", "lead"):
                part = memory.part if memory is not None and memory.part is not None else self.part_named(thing, act)
                break
        if part is None:
            for noun in act.nouns:
                if noun.prep in self.lexicon.words["under"] | self.lexicon.words["behind"] | self.lexicon.words["part_of"]:
                    memory = self.meant(noun, act) if noun.kind == "pronoun" else None
                    thing = memory.noun if memory is not None else noun
                    if thing.kind == "part":
                        part = memory.part if memory is not None and memory.part is not None else self.part_named(thing, act)
                        break
        if part is None and not act.lasts and not any(noun.kind == "supply" for noun in act.nouns):
            return False
        return self._soften(act, part, "solvent")

    def _soften(self, act: Act, part: HeardPart | None, softens: str) -> bool:
        """Heat or soak glue: that there is glue follows, where it was not said."""
        said = self.said(act.clause.start, act.clause.end)
        for joint in self.joints:
            if joint.kind == "glue" and joint.of is part and part is not None and joint.undone is None:
                break
        else:
            joint = HeardJoint("glue", self.lexicon.tables["joint_words"]["glue"], said, part)
            joint.guesses.append(Guess("that there is glue, because it is softened", said))
            self.joints.append(joint)
        joint.softens = joint.softens or softens
        verb = "heat" if softens == "heat" else "soak"
        action = self._add(act, verb, joint=joint)
        if part is not None and part.lifted is not None:
            self._before_lifting(part, action, joint)
        action.lasts, action.degrees = act.lasts, act.degrees if softens == "heat" else None
        return True

    def _before_lifting(self, part: HeardPart, action: HeardAction, joint: HeardJoint) -> None:
        """Said as an afterthought ("you can warm it first"): softened, and undone, before the part was lifted."""
        assert part.lifted is not None
        if self.at(action.clause.start) - self.actions[part.lifted].said.at > _CLOSE / 3 or joint.undone is not None:
            return
        self.actions.pop()
        at = part.lifted
        undo = HeardAction("undo", action.said, action.clause, None, joint, is_implied=True)
        self.actions[at:at] = [action, undo]
        for other in self.joints:
            other.undone = other.undone + 2 if other.undone is not None and other.undone >= at else other.undone
        for each in self.parts.values():
            each.lifted = each.lifted + 2 if each.lifted is not None and each.lifted >= at else each.lifted
            each.moved = each.moved + 2 if each.moved is not None and each.moved >= at else each.moved
        joint.undone = at + 1

    def _wait(self, act: Act, earlier: Sequence[Act]) -> bool:
        lasts = act.lasts or next((each.lasts for each in reversed(earlier) if each.lasts and not each.does), "")
        if not lasts:
            return False
        self._add(act, "wait", text=lasts)
        self.did.add(act.clause.start)
        return True

    def _add(
        self,
        act: Act,
        verb: str,
        part: HeardPart | None = None,
        joint: HeardJoint | None = None,
        text: str = "",
        is_implied: bool = False,
    ) -> HeardAction:
        said = self.said(act.clause.start, act.clause.end)
        self.actions.append(HeardAction(verb, said, act.clause, part, joint, text, is_implied=is_implied))
        return self.actions[-1]

    # --- tools ---

    def _equip(self, action: HeardAction, act: Act, earlier: Sequence[Act]) -> None:
        """Give an action the tools said with it, or just before in a clause that only takes them up."""
        if action.verb in ("turn", "wait", "check"):
            return
        nouns = list(act.tools)
        for each in reversed(earlier):
            if each.clause.start in self.did:
                break
            nouns.extend(each.tools)
        nouns.extend(self.pending_tools)
        self.pending_tools = []
        for noun in nouns:
            self._take_up(action, noun, act.drive)
        if action.verb in ("heat", "soak") and not action.lasts:
            action.lasts = next((each.lasts for each in earlier if each.lasts), "")
        if action.joint is not None and action.joint.kind == "screws" and action.joint.drive is None:
            action.joint.drive = next((each.drive for each in reversed(earlier) if each.drive is not None), None)

    def _take_up(self, action: HeardAction, noun: Noun, drive: tuple[str, str] | None) -> None:
        said = self.said(noun.start, noun.end)
        tool_type = self._tool_type(noun)
        drive = self._drive_near(noun) or drive
        name, fits = " ".join(noun.name[-3:]), None
        if tool_type == "screwdriver":
            if action.joint is not None and action.joint.kind == "screws" and drive is not None:
                action.joint.drive = (
                    action.joint.drive if action.joint.drive is not None and action.joint.drive[1] else drive
                )
            if drive is not None:
                name = f"{name} {drive[1]}".strip()
                fits = drive
        id = id_of(name, "tool")
        if id not in self.tools and len(self.tools) < MOST_THINGS:
            self.tools[id] = DraftTool(id, name, written_type(tool_type, fits), said, fits)
        if id in self.tools and id not in action.tools:
            action.tools.append(id)
            self._link(noun, f"tool:{id}")

    def _tool_type(self, noun: Noun) -> str:
        table = self.lexicon.tables["tools"]
        for size in (2, 1):
            found = table.get(" ".join(noun.core[-size:]))
            if found is not None and len(noun.core) >= size:
                return found
        return "other"

    def _drive_near(self, noun: Noun) -> tuple[str, str] | None:
        for start, end, drive in self.reader.measures.drives:
            if noun.start - 1 <= start and end <= noun.end + 1 and drive[1]:
                return drive
        for start, end, drive in self.reader.measures.drives:
            if noun.start - 1 <= start and end <= noun.end + 1:
                return drive
        return None

    # --- what is only spoken of ---

    def _mention(self, act: Act, is_talk: bool = False) -> None:
        """Remember what is named, for the pronouns and the work that follow."""
        norms = self.reader.norms[act.clause.start : act.clause.end]
        holds = bool(self.lexicon.found_in("states", norms))
        subject: HeardPart | None = None
        for noun in act.nouns:
            if noun.kind == "pronoun" and not noun.prep and holds and subject is None:
                memory = self.meant(noun, act)
                subject = memory.part if memory is not None else None
                if subject is None and memory is not None and memory.noun.kind == "part":
                    subject = self.part_named(memory.noun, act)
            elif noun.kind == "part" and not noun.prep and holds and subject is None:
                subject = self.part_named(noun, act)
        if subject is not None and any(self.lexicon.tables["states"].get(norm) == "glue" for norm in norms):
            self.glued = (subject, act.clause.sentence)
        for noun in act.nouns:
            if noun.kind == "joint" and not is_talk:
                of = subject if subject is not None else self._owner(act, noun, noun.joint)
                mention = Mention(noun.joint, noun, self.at(noun.start), act.clause.sentence, of, act.drive)
                self.mentions.append(mention)
                self._remember(noun, act, mention=mention)
            elif noun.kind in ("part", "lead") and not noun.prep:
                self._remember(noun, act, part=self.known_part(id_of(" ".join(noun.core[-3:]), "part"), "", False, noun))
        if act.drive is not None and not act.does:
            recent = [
                mention
                for mention in self.mentions
                if act.clause.sentence - mention.sentence <= 1 and mention.kind == "screws"
            ]
            if recent and recent[-1].drive is None:
                recent[-1].drive = act.drive

    def _remember(
        self,
        noun: Noun,
        act: Act,
        part: HeardPart | None = None,
        joint: HeardJoint | None = None,
        mention: Mention | None = None,
    ) -> None:
        if noun.kind == "pronoun":
            return
        self.memory.append(
            Memory(
                noun,
                self.at(noun.start) if joint is None and part is None else self.at(act.clause.start),
                act.clause.sentence,
                part,
                joint,
                mention,
            )
        )
        del self.memory[:-60]

    def _remember_others(self, act: Act, objects: Sequence[tuple[Noun, Memory | None]]) -> None:
        """Joints named in passing in a clause that asks for something else."""
        named = {noun.start for noun, _ in objects}
        for noun in act.nouns:
            if (
                noun.kind == "joint"
                and noun.start not in named
                and noun.start > (act.clause.call.index if act.clause.call else 0)
                and not noun.prep
            ):
                mention = Mention(
                    noun.joint, noun, self.at(noun.start), act.clause.sentence, self._owner(act, noun, noun.joint), act.drive
                )
                self.mentions.append(mention)

    def _spoken_short(self, group: Sequence[Clause], acts: Sequence[Act]) -> bool:
        """Requests without a verb: "Two screws, T6." and "Batteries out." """
        start, end = group[0].start, group[-1].end
        if (
            any(self.reader.is_verbal(index) and not self.reader.has("particles", index) for index in range(start, end))
            or end - start > 12
        ):
            return False
        nouns = [noun for act in acts for noun in act.nouns]
        gone = [index for index in range(start, end) if self.reader.has("gone", index) and index > start]
        first = next((noun for noun in nouns if not noun.prep), None)
        if first is None:
            return False
        drive = next((act.drive for act in acts if act.drive is not None), None)
        whole = Clause(start, end, group[0].sentence, None, "asked")
        act = Act(whole, "undo", (first,), tuple(nouns), tuple(noun for noun in nouns if noun.kind == "tool"), drive=drive)
        if not self.is_punctuated and not gone:
            return False
        if first.kind == "joint" and first.joint == "screws" and (first.count is not None or gone):
            done = self._undo(act, first, None, "screws")
        elif gone and first.end <= gone[0] and first.kind in ("part", "joint", "lead"):
            if first.kind == "part":
                part = self.part_named(first, act, is_taken=True)
                done = part is not None and self._move(act, part, "lift", first)
                if part is not None:
                    self._remember(first, act, part=part)
            else:
                done = self._undo(act, first, None, first.joint or "plug")
        else:
            return False
        if done:
            self.did.add(group[0].start)
            self._equip(self.actions[-1], act, ())
        return done

    def _attach(self, group: Sequence[Clause], acts: Sequence[Act], begun: int) -> None:
        """A sentence that asks for nothing may still say with what, or how long, the last or the next thing is done."""
        last = self.actions[-1] if self.actions else None
        tools = [noun for act in acts for noun in act.tools]
        lasts = next((act.lasts for act in acts if act.lasts), "")
        drive = next((act.drive for act in acts if act.drive is not None), None)
        is_close = last is not None and group[0].sentence - last.clause.sentence <= 2
        asked = all(act.clause.mood in ("asked", "purpose", "aside") for act in acts)
        if not asked:
            return
        heater = next((noun for noun in tools if self.lexicon.found_in("heaters", noun.core)), None)
        if (
            last is not None
            and is_close
            and last.verb == "heat"
            and ((lasts and not last.lasts) or (heater is not None and not last.tools))
        ):
            last.lasts = last.lasts or lasts
            for noun in tools:
                self._take_up(last, noun, drive)
            self.did.update(clause.start for clause in group)
        elif heater is not None and lasts:
            part = next(
                (
                    self.part_named(noun, acts[0])
                    for act in acts
                    for noun in act.nouns
                    if noun.kind == "part" and noun.prep in self.lexicon.words["part_of"]
                ),
                None,
            )
            whole = Clause(group[0].start, group[-1].end, group[0].sentence, None, "asked")
            act = Act(
                whole,
                "heat",
                (),
                tuple(noun for each in acts for noun in each.nouns),
                tuple(tools),
                lasts,
                next((each.degrees for each in acts if each.degrees), None),
            )
            self._soften(act, part, "heat")
            self._equip(self.actions[-1], act, ())
            self.did.add(group[0].start)
        elif (
            last is not None
            and is_close
            and last.joint is not None
            and last.joint.kind == "screws"
            and drive is not None
            and last.joint.drive is None
        ):
            last.joint.drive = drive
        elif (
            tools
            and is_close
            and last is not None
            and not last.tools
            and last.verb in ("undo", "lift")
            and self._is_bare(group)
        ):
            for noun in tools:
                self._take_up(last, noun, drive)
            self.did.update(clause.start for clause in group)
        elif tools:
            self.pending_tools = tools
            self.pending_drive = drive

    def _is_bare(self, group: Sequence[Clause]) -> bool:
        return not any(self.reader.is_verbal(index) for index in range(group[0].start, group[-1].end))

    # --- links ---

    def _link(self, noun: Noun, to: str) -> None:
        if noun.kind == "pronoun":
            return
        self.links.append(Link(noun.start, noun.end, to))

    def _link_joint(self, noun: Noun, joint: HeardJoint) -> None:
        if noun.kind != "pronoun":
            self.links.append(Link(noun.start, noun.end, f"joint:{self.joints.index(joint)}"))


def written_type(tool_type: str, fits: tuple[str, str] | None) -> str:
    """The published name of a screwdriver's type, by its drive."""
    if tool_type != "screwdriver":
        return tool_type
    shapes = {"cross-recess": "cross recess", "hexalobular": "hexalobular", "slotted": "slotted"}
    return f"screwdriver, {shapes[fits[0]]}" if fits is not None and fits[0] in shapes else "other"
