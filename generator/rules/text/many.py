"""text/many"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.prose import instructions, sentences_of
from generator.rules.wording import counted, listed, quoted

TOGETHER = 2
"""Instructions that `and` or a comma may join: they may be meant to be done at the same time, which rule 5.2 allows."""


def many(guide: Guide) -> Iterator[Finding]:
    """A sentence gives several instructions one after the other.

    Why: the reader does the first, looks up again, and has lost which of the others is done.
    Bad: "Undo the screws, lift the shade and lay it aside." Also: "Undo the screws, then lift the shade."
    Good: "Undo the screws. Lift the shade. Lay it aside."
    Silent when: there are two, joined by a comma or by `and`: they may be meant at the same time (ASD-STE100 rule 5.2).
    """
    for sentence in sentences_of(guide):
        found = instructions(sentence.text)
        if len(found) > TOGETHER or _is_sequence(found[1:]):
            verbs = [quoted(each.split()[-1]) for each in found]
            yield Finding(
                place=sentence.place,
                message=f"This sentence asks for {counted(len(found))} things one after the other: {listed(verbs)}.",
                mend=Mend("Give each a sentence of its own."),
            )


def _is_sequence(later: Sequence[str]) -> bool:
    return any("then" in each.replace(",", " ").split()[:-1] or each.startswith(";") for each in later)
