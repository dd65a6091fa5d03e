"""Findings as one JSON document for programs; its keys are stable."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from generator.commands.reports.tally import tally
from generator.orders.guide import Guide, Library
from generator.rules.finding import Edit, Mend, Reported
from generator.source.places import Place

VERSION = 1


def json_report(library: Library, findings: Sequence[Reported]) -> str:
    """`findings` in the order given, then `devices` with what each guide holds; a finding of shared files has device ""."""
    document = {
        "version": VERSION,
        "findings": [_finding(found) for found in findings],
        "devices": {guide.id: _device(guide, findings) for guide in library.guides},
    }
    return json.dumps(document, ensure_ascii=False, indent=2) + "\n"


def _finding(found: Reported) -> dict[str, Any]:
    finding = found.finding
    return {
        "rule": found.rule,
        "level": found.level,
        "device": found.device,
        **_place(finding.place),
        "message": finding.message,
        "why": list(finding.why),
        "mend": _mend(finding.mend) if finding.mend is not None else None,
    }


def _place(place: Place) -> dict[str, Any]:
    return {
        "file": place.file,
        "line": place.line,
        "column": place.column,
        "end_line": place.end_line,
        "end_column": place.end_column,
    }


def _mend(mend: Mend) -> dict[str, Any]:
    return {"text": mend.text, "edits": [_edit(edit) for edit in mend.edits]}


def _edit(edit: Edit) -> dict[str, Any]:
    return {**_place(edit.place), "text": edit.text}


def _device(guide: Guide, findings: Sequence[Reported]) -> dict[str, int]:
    counts = tally([found for found in findings if found.device == guide.id])
    return {
        "steps": len(guide.order),
        "parts": len(guide.anatomy.parts),
        "joints": len(guide.anatomy.joints),
        **{f"{level}s": number for level, number in counts.items()},
    }
