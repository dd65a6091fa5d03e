"""Which findings a change has to do with: those on lines that it wrote, and those that were not there before."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from difflib import SequenceMatcher

from generator.rules.finding import Reported

Texts = Mapping[str, Sequence[str]]


def findings_touched(
    now: Sequence[Reported], then: Sequence[Reported], texts: Texts, earlier: Texts
) -> tuple[Reported, ...]:
    """Of the findings `now` those on a line that is not as it was, and those more than there were `then`; in their order.

    texts, earlier: the lines of every file, by path. A finding was there before if the same rule said the same of the same
    file, wherever in it.
    """
    before = Counter(_said(found) for found in then)
    written = {file: lines_written(earlier.get(file, ()), texts.get(file, ())) for file in {_file(found) for found in now}}
    kept: list[Reported] = []
    for found in now:
        place = found.finding.place
        is_old = before[_said(found)] > 0
        before[_said(found)] -= 1
        if not is_old or not written[place.file].isdisjoint(range(place.line, place.end_line + 1)):
            kept.append(found)
    return tuple(kept)


def lines_written(old: Sequence[str], new: Sequence[str]) -> frozenset[int]:
    """The numbers of the lines of `new`, from 1, that are not lines of `old` kept in their order.

    >>> sorted(lines_written(["a", "b"], ["a", "x", "b"]))
    [2]
    """
    blocks = SequenceMatcher(None, old, new, autojunk=False).get_matching_blocks()
    kept = {line for block in blocks for line in range(block.b + 1, block.b + block.size + 1)}
    return frozenset(range(1, len(new) + 1)) - kept


def _file(found: Reported) -> str:
    return found.finding.place.file


def _said(found: Reported) -> tuple[str, str, str, str]:
    return found.rule, found.level, _file(found), found.finding.message
