"""count/words"""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.anatomy.joints import Joint
from generator.anatomy.parts import JointId
from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.prose import references_of
from generator.rules.wording import NUMBER_WORDS, counted, quoted, verb_for

_NUMBER = re.compile(
    rf"(?<![\w.,×-])(?P<number>\d{{1,3}}|{'|'.join(sorted(NUMBER_WORDS[1:], key=len, reverse=True))})(?![\w-]|[.,×]\d)"
    r"(?P<after>\s*[^\s]*)",
    re.IGNORECASE,
)
_UNIT = re.compile(r"\s*(?:mm|cm|m|s|min|h|V|N|N·m|°C?|%|×|x|times|turns?|half|quarters?|of)\b|\s*[°%×]")
_OF_ONE_LENGTH = re.compile(r"\b(?:short|long|small|large|big|thin|thick)(?:r|er|st|est)?\b|\bsame\b", re.IGNORECASE)
_SOME = re.compile(r"\b(?:one|first|last|other|others|remaining|next|nearest|of|each|every)\b", re.IGNORECASE)


def words(guide: Guide) -> Iterator[Finding]:
    """The words of a link to a joint state a number that is not the joint's.

    Why: the reader stops at the number in the text and leaves a screw in, or looks for one that was never there.
    Bad: `[four screws](joint:shade-screws)`, where the joint has `count: 3`.
    Good: `[three screws](joint:shade-screws)`, or `[shade screws](joint:shade-screws)`.
    Silent when: the number is a measure or speaks of some of them ("the first two", "one"), it is the number of those of
    one length and the text says so ("two short screws"), or the joint has no count.
    """
    for reference in references_of(guide):
        joint = guide.anatomy.joints.get(JointId(reference.target)) if reference.scheme == "joint" else None
        if joint is None or not _is_known(joint):
            continue
        said = _numbers(reference.text)
        if said and not said & _right(joint, reference.text):
            yield Finding(
                place=reference.place,
                message=(
                    f"The words {quoted(reference.text)} say {counted(min(said))}, "
                    f"but the {joint.name} {verb_for(joint.name, 'counts', 'count')} {counted(joint.count)}."
                ),
                why=(f"The count stands in {joint.place.file}:{joint.place.line}.",),
                mend=Mend(f"Write {counted(joint.count)}, or correct the joint."),
            )


def _is_known(joint: Joint) -> bool:
    return joint.count_written is not None or bool(joint.positions) or len(joint.lengths_written) > 1


def _numbers(text: str) -> set[int]:
    """The counts a text states: whole numbers in digits or words that are no measure; none if it speaks of some only."""
    if _SOME.search(text):
        return set()
    found = set()
    for match in _NUMBER.finditer(text):
        if not _UNIT.match(match["after"]):
            written = match["number"].lower()
            found.add(int(written) if written.isdigit() else NUMBER_WORDS.index(written))
    return found


def _right(joint: Joint, text: str) -> set[int]:
    """The counts that may be said of a joint: all of it, or all of one length where the text speaks of a size."""
    sizes = set(joint.lengths) if _OF_ONE_LENGTH.search(text) else set()
    return {joint.count} | {joint.lengths.count(length) for length in sizes}
