"""Findings as Markdown, to be read beside a proposed change."""

from __future__ import annotations

import re
from collections.abc import Sequence

from generator.commands.reports.tally import closing_lines
from generator.orders.guide import Library
from generator.rules.finding import Reported
from generator.source.characters import UNSEEN

SHARED_FILES = "Shared files"

_MARKUP = re.compile(r"([\\*_\[\]<>&|#~$!@])")
_TICKS = re.compile(r"`+")


def markdown_report(library: Library, findings: Sequence[Reported]) -> str:
    """A heading a device, a list entry a finding; what authors wrote is escaped and cannot make markup of its own."""
    lines = ["## Findings", "", *(_plain(line) for line in closing_lines(library, findings))]
    names = {guide.id: guide.device.name for guide in library.guides}
    for device in dict.fromkeys(found.device for found in findings):
        lines += ["", f"### {_plain(names.get(device, SHARED_FILES))}", ""]
        for found in findings:
            if found.device == device:
                lines += _entry(found)
    return "\n".join(lines) + "\n"


def _entry(found: Reported) -> list[str]:
    """One list entry; a backslash at the end of a line breaks it."""
    finding = found.finding
    rest = [*finding.why, *([finding.mend.text] if finding.mend is not None else [])]
    head = f"- **{found.level}** `{found.rule}` {_code(str(finding.place))}"
    lines = [head, f"  **{_plain(finding.message)}**", *(f"  {_plain(text)}" for text in rest)]
    return [*(f"{line}\\" for line in lines[:-1]), lines[-1]]


def _plain(text: str) -> str:
    """Text that stands for itself in Markdown; what the message itself sets in backquotes stays code."""
    pieces = UNSEEN.sub("\ufffd", text).split("`")
    if len(pieces) % 2 == 0:
        return "\\`".join(_MARKUP.sub(r"\\\1", piece) for piece in pieces)
    return "".join(f"`{piece}`" if index % 2 else _MARKUP.sub(r"\\\1", piece) for index, piece in enumerate(pieces))


def _code(text: str) -> str:
    """A code span that holds the text whatever backquotes are in it."""
    longest = max((len(ticks) for ticks in _TICKS.findall(text)), default=0)
    fence = "`" * (longest + 1)
    pad = " " if longest else ""
    return f"{fence}{pad}{UNSEEN.sub(chr(0xFFFD), text)}{pad}{fence}"
