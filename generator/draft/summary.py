"""What was understood and what not, in words for the author."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.draft.captions import Captions, clock
from generator.draft.records import Draft, Fate, Said
from generator.draft.written import quote

_LANGUAGES = {"en": "English", "de": "German"}


@dataclass(frozen=True, slots=True)
class Section:
    """A heading with its lines; is_open: shown whole on the terminal too."""

    heading: str
    lines: tuple[str, ...]
    is_open: bool = False


def sections(
    draft: Draft, captions: Captions, source: str, encoding: str, missing_tools: Sequence[str]
) -> tuple[Section, ...]:
    """Everything there is to say about a draft."""
    found = [
        Section("Read", tuple(_read(draft, captions, source, encoding)), is_open=True),
        Section(f"Understood: {_made(draft)}", tuple(_steps(draft)), is_open=True),
        Section("Guessed: hold these against the film", tuple(_guessed(draft))),
        Section("Not said, and left out", tuple(_unsaid(draft, missing_tools)), is_open=True),
        Section(
            "Asked for, but not understood as work", tuple(f"{quote(guess.said)}: {guess.about}" for guess in draft.unread)
        ),
        Section("Kept as cautions", tuple(quote(said) for step in draft.steps for said in step.cautions)),
        Section("Kept as notes", tuple(_notes(draft))),
        Section("Left out as chatter", tuple(quote(said) for said in draft.chatter)),
        Section("Left out as fillers, and as words that only lead up to others", tuple(_counted(draft.fillers))),
        Section("Left out as sounds", tuple(_counted(Counter(captions.sounds).most_common()))),
    ]
    return tuple(section for section in found if section.lines)


def as_text(parts: Iterable[Section], most: int = 0) -> str:
    """The sections as text; most: how many lines of a section are shown that is not open, 0 for all."""
    blocks = []
    for part in parts:
        lines = list(part.lines)
        if most and not part.is_open and len(lines) > most:
            lines = [*lines[:most], f"... and {len(lines) - most} more"]
        blocks.append("\n".join([part.heading, *(f"  {line}" for line in lines)]))
    return "\n\n".join(blocks) + "\n"


def _read(draft: Draft, captions: Captions, source: str, encoding: str) -> Iterable[str]:
    fates = Counter(draft.fates)
    language = _LANGUAGES[draft.language]
    amount = f"{_count(captions.cues, 'caption')}, {_count(len(captions.words), 'word')}"
    yield f"{source}: {captions.kind}, {encoding}, {language}, {amount}"
    yield (
        f"{fates[Fate.USED]} in steps, {fates[Fate.NOTE]} kept as notes, {fates[Fate.CHATTER]} left out as chatter, "
        f"{fates[Fate.FILLER]} left out as fillers"
    )
    if captions.shown_again:
        yield f"{_count(len(captions.shown_again), 'word')} shown again by rolling captions, read once"
    if captions.unordered:
        yield f"{_count(captions.unordered, 'caption')} stood out of the order of time, and was put in it"
    if captions.untimed:
        yield f"{_count(captions.untimed, 'caption')} without a time that can be read, taken at the time before"
    if not captions.is_punctuated:
        yield "Sentences do not end with signs here: they were told apart by pauses and by their first words."


def _made(draft: Draft) -> str:
    actions = sum(len(step.actions) for step in draft.steps)
    counts = (
        (len(draft.steps), "step"),
        (actions, "action"),
        (len(draft.parts), "part"),
        (len(draft.joints), "joint"),
        (len(draft.tools), "tool"),
    )
    return ", ".join(_count(number, noun) for number, noun in counts)


def _steps(draft: Draft) -> Iterable[str]:
    if not draft.steps:
        yield "Nothing in these captions asks for anything to be taken apart."
    for number, step in enumerate(draft.steps, start=1):
        yield f"{number:>3}  {clock(step.start):>7}  {step.title}"


def _guessed(draft: Draft) -> Iterable[str]:
    if draft.kind and draft.kind_said is not None:
        yield f"device: that it is a {draft.kind}: {quote(draft.kind_said)}"
    for part in draft.parts:
        for guess in part.guesses:
            yield f"{part.id}: {guess.about}: {quote(guess.said)}"
        for other, said in part.under:
            yield f"{part.id}: under {other}: {quote(said)}"
        for other, said in part.set_aside:
            yield f"{part.id}: under {other}, only as a comment, as the order of the film does not allow it: {quote(said)}"
    for joint in draft.joints:
        for guess in joint.guesses:
            yield f"{joint.id}: {guess.about}: {quote(guess.said)}"
        for other, said in joint.behind:
            yield f"{joint.id}: behind {other}: {quote(said)}"
        for other, said in joint.set_aside:
            yield f"{joint.id}: behind {other}, only as a comment, as the order of the film does not allow it: {quote(said)}"
    for step in draft.steps:
        for action in step.actions:
            if action.is_implied:
                yield f"{step.id}: that {action.target} is undone by the same pull: {quote(action.said)}"


def _unsaid(draft: Draft, missing_tools: Sequence[str]) -> Iterable[str]:
    if draft.base.is_stand_in:
        yield f"what everything is mounted on: {draft.base.id} stands for it"
    screws = [joint for joint in draft.joints if joint.kind == "screws"]
    for what, joints in (
        ("the drive of", [joint.id for joint in screws if joint.drive is None]),
        ("the size of the drive of", [joint.id for joint in screws if joint.drive is not None and not joint.drive[1]]),
        ("how many", [joint.id for joint in screws if joint.count is None]),
    ):
        if joints:
            yield f"{what} {', '.join(joints)}"
    plugs = [joint.id for joint in draft.joints if joint.kind == "plug"]
    if plugs:
        yield f"what is plugged into what: {', '.join(plugs)}"
    if draft.supplies:
        yield f"in supplies.yaml, which is left to you: {'; '.join(quote(said) for said in draft.supplies)}"
    if missing_tools:
        yield f"in tools.yaml: {', '.join(missing_tools)}; tools-to-add.yaml has them ready"
    yield "where the film is, sizes and places of parts, materials, lengths of screws"


def _notes(draft: Draft) -> Iterable[str]:
    told: list[tuple[Said, str]] = [(said, "device.yaml") for said in draft.loose]
    told += [(said, f"notes/{part}.md") for part, notes in draft.notes for said in notes]
    told += [(said, f"steps/{step.id}.md") for step in draft.steps for said in step.remarks]
    for said, file in sorted(told, key=lambda each: (each[0].at, each[1])):
        yield f"{quote(said)}   {file}"


def _counted(counts: Iterable[tuple[str, int]]) -> Iterable[str]:
    listed = [f"{word} {number}" if number > 1 else word for word, number in counts]
    for start in range(0, len(listed), 12):
        yield ", ".join(listed[start : start + 12])


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"
