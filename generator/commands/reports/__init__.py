"""Findings as text for people and as data for programs; one file an output."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from generator.commands.reports.json import json_report
from generator.commands.reports.markdown import markdown_report
from generator.commands.reports.sarif import sarif_report
from generator.commands.reports.text import coloured_report, text_report
from generator.orders.guide import Library
from generator.rules.finding import Reported

REPORTS: dict[str, Callable[[Library, Sequence[Reported]], str]] = {
    "text": text_report,
    "json": json_report,
    "sarif": sarif_report,
    "markdown": markdown_report,
}


def report(layout: str, library: Library, findings: Sequence[Reported], colour: bool = False) -> str:
    """The findings in one of REPORTS, ending with a line end. Colour only in `text`. KeyError for another layout."""
    return coloured_report(library, findings) if colour and layout == "text" else REPORTS[layout](library, findings)
