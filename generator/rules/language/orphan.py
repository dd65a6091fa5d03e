"""language/orphan"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted
from generator.source.places import Place
from generator.source.translations import Translation


def orphan(guide: Guide) -> Iterator[Finding]:
    """A translation has no original: the file it translates is not there, or a name in it is none of the device's.

    Why: its words are shown nowhere.
    Bad: `steps/open-lid.de.md` after the step was renamed to `open-back`.
    Good: the translation renamed with its original.
    Silent when: every translated file and name is in the original too.
    """
    steps = set(guide.step_by_id)
    notes = {note.part for note in guide.notes}
    for found in guide.translations:
        if (found.kind == "step" and found.id not in steps) or (found.kind == "note" and found.id not in notes):
            yield Finding(
                place=Place(found.file),
                message=f"There is no {quoted(found.original)} that this would translate.",
                mend=Mend("Name the file after its original, or take it away."),
            )
        elif found.kind == "anatomy" and found.record is not None:
            yield from _names(guide, found)


def _names(guide: Guide, found: Translation) -> Iterator[Finding]:
    known: tuple[tuple[str, Any], ...] = (("parts", guide.anatomy.parts), ("joints", guide.anatomy.joints))
    for key, entries in known:
        for name in getattr(found.record, key):
            if name not in entries:
                yield Finding(
                    place=found.places.key(key, name),
                    message=f"There is no {quoted(name)} among the {key} that this would translate.",
                    mend=Mend(f"Use the id from {found.original}, or take the entry out."),
                )
