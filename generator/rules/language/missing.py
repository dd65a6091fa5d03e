"""language/missing"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from generator.orders.guide import Guide, Library
from generator.rules.finding import Finding, Mend
from generator.rules.wording import listed, quoted
from generator.source.places import Place
from generator.source.prose import Prose
from generator.source.translations import Translation

NAMES_LIMIT = 6
"""Names that one message holds; more are counted."""


def missing(library: Library) -> Iterator[Finding]:
    """Something is not translated into a language that library.yaml lists; its original is shown in its place.

    Why: a reader of that language meets words of another in the middle of the work.
    Bad: `languages: [en, de]` and `steps/open-back.md` without `steps/open-back.de.md`.
    Good: `steps/open-back.de.md` beside it, with a title and the words.
    Silent when: every listed language has all words, or one language only is listed.
    """
    for language in library.folders:
        if language == library.original:
            continue
        yield from _shared(library, language)
        for guide in library.guides:
            yield from _of_guide(guide, language)


def _shared(library: Library, language: str) -> Iterator[Finding]:
    own = [found for found in library.translations if found.language == language]
    for kind, entries in (("tools", library.tools), ("supplies", library.supplies)):
        said = _record(own, kind) or {}
        bare = [str(name) for name in entries if name not in said or said[name].name is None]
        if bare:
            yield _finding(Place(f"{kind}.yaml"), f"{kind}.{language}.yaml", bare, language)
    said = next((found.body for found in own if found.kind == "contribute"), None)
    if library.contribute is not None and _lacks(library.contribute, said):
        file = library.contribute.place.file
        yield _finding(Place(file), f"{file.removesuffix('.md')}.{language}.md", ["words"], language)


def _of_guide(guide: Guide, language: str) -> Iterator[Finding]:
    own = [found for found in guide.translations if found.language == language]
    device = _record(own, "device")
    bare = [
        key
        for key, text in (("about", guide.device.about), ("verdict", guide.device.verdict))
        if text and (device is None or getattr(device, key) is None)
    ]
    if bare:
        yield _finding(Place(guide.device.place.file), f"device.{language}.yaml", bare, language)
    anatomy = _record(own, "anatomy")
    unnamed = [str(name) for name in guide.anatomy.parts if anatomy is None or not _named(anatomy.parts, name)]
    unnamed += [str(name) for name in guide.anatomy.joints if anatomy is None or not _named(anatomy.joints, name)]
    if unnamed:
        place = Place(f"{guide.id}/anatomy.yaml")
        yield _finding(place, f"anatomy.{language}.yaml", unnamed, language)
    files = {(found.kind, found.id): found for found in own}
    for step in guide.steps:
        found = files.get(("step", step.id))
        lacking = []
        if found is None or found.record is None or not found.record.title:
            lacking.append("title")
        if _lacks(step.body, found.body if found else None):
            lacking.append("words")
        if _lacks(step.refitting, found.refitting if found else None):
            lacking.append("words for refitting")
        if lacking:
            yield _finding(Place(step.place.file), f"{step.id}.{language}.md", lacking, language)
    for note in guide.notes:
        if ("note", note.part) not in files:
            yield _finding(Place(note.file), f"{note.part}.{language}.md", ["words"], language)


def _finding(place: Place, file: str, lacking: list[str], language: str) -> Finding:
    named = [quoted(name) for name in lacking[:NAMES_LIMIT]]
    more = len(lacking) - len(named)
    what = f"{', '.join(named)} and {more} more" if more > 0 else listed(named)
    return Finding(
        place=place,
        message=f"Not in {quoted(language)} yet: {what}.",
        why=("The original is shown in its place.",),
        mend=Mend(f"Write the words in {file} beside this file."),
    )


def _record(translations: Iterable[Translation], kind: str) -> Any:
    return next((found.record for found in translations if found.kind == kind), None)


def _named(entries: Mapping[str, object], name: str) -> bool:
    return getattr(entries.get(name), "name", None) is not None


def _lacks(original: Prose | None, translated: Prose | None) -> bool:
    return bool(original and original.markdown.strip()) and not (translated and translated.markdown.strip())
