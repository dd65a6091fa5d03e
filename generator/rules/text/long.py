"""text/long"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.prose import sentences_of
from generator.rules.trade.writing import WORDS_PER_SENTENCE


def long(guide: Guide) -> Iterator[Finding]:
    """A sentence of a step has more than twenty words.

    Why: with tools in both hands a reader looks up, reads one line and looks down again; a long sentence is lost halfway.
    Bad: "Slide the flat end of the lever under the edge of the board and raise it until the clips on the left side let go."
    Good: "Slide the lever under the edge of the board. Raise it until the clips on the left let go."
    Silent when: the sentence has up to twenty words; a number with its unit and a hyphenated word count as one, and what
    stands in parentheses is a sentence of its own (ASD-STE100 rule 5.1 and its rules of counting).
    """
    for sentence in sentences_of(guide):
        if sentence.words > WORDS_PER_SENTENCE:
            yield Finding(
                place=sentence.place,
                message=f"This sentence is hard to follow with both hands full: it has {sentence.words} words.",
                why=(f"ASD-STE100 rule 5.1 allows {WORDS_PER_SENTENCE} in an instruction.",),
                mend=Mend("Make two sentences of it."),
            )
