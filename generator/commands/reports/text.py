"""Findings as text for a person at a terminal."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.commands.reports.escaping import visible
from generator.commands.reports.tally import closing_lines
from generator.orders.guide import Library
from generator.rules.finding import Reported
from generator.source.places import Place

LONGEST_LINE = 200
"""Characters of a source line that are shown; the rest is cut off with an ellipsis."""


@dataclass(frozen=True, slots=True)
class Paint:
    """What is put before and after pieces of the report; empty for plain text."""

    levels: dict[str, str]
    strong: str
    marked: str
    end: str


PLAIN = Paint({"error": "", "warning": "", "note": ""}, "", "", "")
# Source of the codes: ECMA-48, select graphic rendition.
COLOURED = Paint({"error": "\x1b[31m", "warning": "\x1b[33m", "note": "\x1b[36m"}, "\x1b[1m", "\x1b[4m", "\x1b[0m")


def text_report(library: Library, findings: Sequence[Reported]) -> str:
    """Each finding with its line, why and what to do; a blank line between them; the count at the end."""
    return _report(library, findings, PLAIN)


def coloured_report(library: Library, findings: Sequence[Reported]) -> str:
    """The same with colours by level and the wrong piece underlined, for terminals that can show them."""
    return _report(library, findings, COLOURED)


def finding_lines(library: Library, found: Reported, paint: Paint = PLAIN) -> list[str]:
    """One finding as lines: rule and place, message, the line concerned, why, what to do."""
    finding = found.finding
    level = "" if found.level == "error" else f"  ({found.level})"
    head = f"{paint.levels[found.level]}{found.rule}{paint.end}  {visible(str(finding.place))}{level}"
    lines = [head, f"  {paint.strong}{visible(finding.message)}{paint.end}"]
    lines += _source_line(library, finding.place, paint)
    lines += [f"  {visible(reason)}" for reason in finding.why]
    if finding.mend is not None:
        lines.append(f"  {visible(finding.mend.text)}")
    return lines


def _report(library: Library, findings: Sequence[Reported], paint: Paint) -> str:
    blocks = ["\n".join(finding_lines(library, found, paint)) for found in findings]
    return "\n\n".join([*blocks, "\n".join(visible(line) for line in closing_lines(library, findings))]) + "\n"


def _source_line(library: Library, place: Place, paint: Paint) -> list[str]:
    texts = library.texts.get(place.file, ())
    if not 1 <= place.line <= len(texts) or not texts[place.line - 1].strip():
        return []
    line = texts[place.line - 1].replace("\t", " ")
    start = place.column - 1
    end = place.end_column - 1 if place.end_line == place.line else len(line)
    if len(line) > LONGEST_LINE:
        first = max(0, min(start - LONGEST_LINE // 2, len(line) - LONGEST_LINE))
        line, start, end = line[first : first + LONGEST_LINE] + "…", start - first, min(end - first, LONGEST_LINE)
    marked = f"{paint.marked}{visible(line[start:end])}{paint.end}" if end > start else ""
    shown = f"{visible(line[:start])}{marked}{visible(line[max(start, end) :])}".rstrip()
    return [f"  {place.line:>4} | {shown}"]
