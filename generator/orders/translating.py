"""A library in another of its languages: the same work and the same figures, with the words that translations have.

What a translation lacks stays in the original and is named in `foreign`, so that a page can say which language it is.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from generator.anatomy.device import Anatomy
from generator.anatomy.joints import Joint
from generator.anatomy.parts import JointId, Part, PartId
from generator.orders.guide import Change, Guide, Library, PartNote
from generator.orders.work import Action, Caution, Photo, PhotoMark, Step, Supply, SupplyId, Tool, ToolId, Verb
from generator.source.prose import Prose
from generator.source.translations import Translation


def library_in(library: Library, language: str) -> Library:
    """The library as it speaks in `language`: itself in that of the original; words from the translations elsewhere."""
    if language == library.original:
        return replace(library, spoken=language)
    own = _of(library.translations, language)
    record = _record(own, "library")
    words = dict(record.words) if record else {}
    tools = {
        name: replace(tool, name=said.name or tool.name, note=said.note or tool.note)
        if (said := _entry(own, "tools", name)) is not None
        else tool
        for name, tool in library.tools.items()
    }
    supplies = {
        name: replace(supply, name=said.name or supply.name, note=said.note or supply.note)
        if (said := _entry(own, "supplies", name)) is not None
        else supply
        for name, supply in library.supplies.items()
    }
    about = record.about if record else None
    contribute = next((found.body for found in own if found.kind == "contribute" and _has_words(found.body)), None)
    foreign = {"about"} if library.about and not about else set()
    foreign |= {"contribute"} if _has_words(library.contribute) and contribute is None else set()
    return replace(
        library,
        title=record.title if record and record.title else library.title,
        about=about or library.about,
        contribute=contribute or library.contribute,
        tools=tools,
        supplies=supplies,
        guides=tuple(_guide_in(guide, language, library.original, words, tools, supplies) for guide in library.guides),
        words=words,
        spoken=language,
        foreign=frozenset(foreign),
    )


def _guide_in(
    guide: Guide,
    language: str,
    original: str,
    words: Mapping[str, str],
    tools: Mapping[ToolId, Tool],
    supplies: Mapping[SupplyId, Supply],
) -> Guide:
    own = _of(guide.translations, language)
    record = _record(own, "device")
    anatomy = _record(own, "anatomy")
    of_step = {found.id: found for found in own if found.kind == "step"}
    of_note = {found.id: found for found in own if found.kind == "note"}
    device = guide.device
    about = record.about if record else None
    verdict = record.verdict if record else None
    foreign = {f"step:{step.id}" for step in _steps(guide) if not _has_title(of_step.get(step.id))}
    foreign |= {f"note:{note.part}" for note in guide.notes if note.part not in of_note}
    foreign |= {f"change:{index}" for index in range(len(record.changed if record else ()), len(device.changes))}
    foreign |= {"about"} if device.about and not about else set()
    foreign |= {"verdict"} if device.verdict and not verdict else set()

    def steps(found: Sequence[Step]) -> tuple[Step, ...]:
        return tuple(_step_in(step, of_step.get(step.id)) for step in found)

    return replace(
        guide,
        device=replace(
            device,
            name=record.name if record and record.name else device.name,
            about=about or device.about,
            verdict=verdict or device.verdict,
            changes=tuple(_changes_in(device.changes, record.changed if record else ())),
        ),
        anatomy=_anatomy_in(guide.anatomy, anatomy),
        order=steps(guide.order),
        alternatives=steps(guide.alternatives),
        unused=steps(guide.unused),
        tools=tools,
        supplies=supplies,
        notes=tuple(_note_in(note, of_note.get(note.part)) for note in guide.notes),
        words={**words, **(record.words if record else {})},
        language=original,
        foreign=frozenset(foreign),
    )


def _changes_in(changes: Sequence[Change], said: Sequence[str]) -> Iterator[Change]:
    for index, change in enumerate(changes):
        yield replace(change, words=said[index]) if index < len(said) else change


def _anatomy_in(anatomy: Anatomy, record: Any) -> Anatomy:
    if record is None:
        return anatomy

    def part(found: Part) -> Part:
        said = record.parts.get(found.id)
        return replace(found, name=said.name or found.name, licensed=_said(found.licensed, said.licensed)) if said else found

    def joint(found: Joint) -> Joint:
        said = record.joints.get(found.id)
        return replace(found, name=said.name or found.name, note=_said(found.note, said.note)) if said else found

    parts: dict[PartId, Part] = {name: part(found) for name, found in anatomy.parts.items()}
    joints: dict[JointId, Joint] = {name: joint(found) for name, found in anatomy.joints.items()}
    return replace(anatomy, parts=parts, joints=joints)


def _step_in(step: Step, translation: Translation | None) -> Step:
    if translation is None or translation.record is None:
        return step
    record = translation.record
    return replace(
        step,
        title=record.title or step.title,
        actions=_actions_in(step.actions, record.checks),
        cautions=tuple(_cautions_in(step.cautions, record.cautions)),
        photos=tuple(_photos_in(step.photos, record.photos)),
        body=_prose_in(step.body, translation.body),
        refitting=_prose_in(step.refitting, translation.refitting),
    )


def _actions_in(actions: Sequence[Action], checks: Iterable[str]) -> tuple[Action, ...]:
    said = iter(checks)
    return tuple(
        replace(action, words=next(said, action.words)) if action.verb is Verb.CHECK and action.words else action
        for action in actions
    )


def _cautions_in(cautions: Sequence[Caution], said: Sequence[str]) -> Iterator[Caution]:
    for index, caution in enumerate(cautions):
        yield replace(caution, text=said[index]) if index < len(said) else caution


def _photos_in(photos: Sequence[Photo], said: Sequence[Any]) -> Iterator[Photo]:
    for index, photo in enumerate(photos):
        if index >= len(said):
            yield photo
            continue
        words = iter(said[index].marks)
        marks = tuple(_mark_in(mark, words) for mark in photo.marks)
        yield replace(photo, alt=said[index].alt or photo.alt, marks=marks)


def _mark_in(mark: PhotoMark, words: Iterator[str]) -> PhotoMark:
    return replace(mark, text=next(words, mark.text)) if mark.text else mark


def _note_in(note: PartNote, translation: Translation | None) -> PartNote:
    prose = _prose_in(note.prose, translation.body if translation else None)
    return replace(note, prose=prose) if prose is not None else note


def _prose_in(original: Prose | None, translated: Prose | None) -> Prose | None:
    """The translated words. What they refer to is what the original refers to: hazards follow from that."""
    if original is None or translated is None or not translated.markdown.strip():
        return original
    return replace(translated, references=original.references)


def _has_words(prose: Prose | None) -> bool:
    return prose is not None and bool(prose.markdown.strip())


def _has_title(translation: Translation | None) -> bool:
    return translation is not None and translation.record is not None and bool(translation.record.title)


def _steps(guide: Guide) -> tuple[Step, ...]:
    return (*guide.order, *guide.alternatives, *guide.unused)


def _of(translations: Iterable[Translation], language: str) -> tuple[Translation, ...]:
    return tuple(found for found in translations if found.language == language)


def _record(translations: Iterable[Translation], kind: str) -> Any:
    return next((found.record for found in translations if found.kind == kind), None)


def _entry(translations: Iterable[Translation], kind: str, name: str) -> Any:
    return (_record(translations, kind) or {}).get(name)


def _said(original: str | None, translated: str | None) -> str | None:
    return translated or original
