"""language/unlisted"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Library
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted
from generator.source.places import Place


def unlisted(library: Library) -> Iterator[Finding]:
    """A file is a translation into a language that library.yaml does not list, or lists as that of the originals.

    Why: nothing in it is shown.
    Bad: `steps/open-back.de.md` with `languages: [en]`.
    Good: `languages: [en, de]` in library.yaml.
    Silent when: each translation is in a listed language other than the first, or something graver is wrong with it.
    """
    shown = set(library.folders) - {library.original}
    every = (*library.translations, *(found for guide in library.guides for found in guide.translations))
    wrong = {fault.place.file for guide in library.guides for fault in guide.faults}
    for found in every:
        if found.file in wrong or found.original not in library.texts:
            continue  # told by the fault, or by `language/orphan`
        if found.language == library.original:
            yield Finding(
                place=Place(found.file),
                message=f"The originals are in {quoted(found.language)}, so this file is not shown.",
                mend=Mend(f"Put its words into {found.original}."),
            )
        elif found.language not in shown:
            yield Finding(
                place=Place(found.file),
                message=f"The language {quoted(found.language)} is not listed, so this file is not shown.",
                mend=Mend(f"Add {found.language} to `languages` in library.yaml, or take the file away."),
            )
