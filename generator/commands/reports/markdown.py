"""Findings as Markdown, to be read beside a proposed change."""

from __future__ import annotations

import re
from collections.abc import Sequence

from generator.commands.reports.escaping import plain_markdown, visible
from generator.commands.reports.tally import closing_lines
from generator.orders.guide import Library
from generator.rules.finding import Reported

SHARED_FILES = "Shared files"

_TICKS = re.compile(r"`+")


def markdown_report(library: Library, findings: Sequence[Reported]) -> str:
    """A heading a device, a list entry a finding; what authors wrote is escaped and cannot make markup of its own."""
    lines = ["## Findings", "", *(plain_markdown(line) for line in closing_lines(library, findings))]
    names = {guide.id: guide.device.name for guide in library.guides}
    for device in dict.fromkeys(found.device for found in findings):
        lines += ["", f"### {plain_markdown(names.get(device, SHARED_FILES))}", ""]
        for found in findings:
            if found.device == device:
                lines += _entry(found)
    return "\n".join(lines) + "\n"


def _entry(found: Reported) -> list[str]:
    """One list entry; a backslash at the end of a line breaks it."""
    finding = found.finding
    rest = [*finding.why, *([finding.mend.text] if finding.mend is not None else [])]
    head = f"- **{found.level}** `{found.rule}` {_code(str(finding.place))}"
    lines = [head, f"  **{plain_markdown(finding.message)}**", *(f"  {plain_markdown(text)}" for text in rest)]
    return [*(f"{line}\\" for line in lines[:-1]), lines[-1]]


def _code(text: str) -> str:
    """A code span that holds the text whatever backquotes are in it."""
    longest = max((len(ticks) for ticks in _TICKS.findall(text)), default=0)
    fence = "`" * (longest + 1)
    pad = " " if longest else ""
    return f"{fence}{pad}{visible(text)}{pad}{fence}"
