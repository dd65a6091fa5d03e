"""Findings in the Static Analysis Results Interchange Format, version 2.1.0.

Source: OASIS Standard "SARIF Version 2.1.0 Plus Errata 01"; sections in brackets below.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any
from urllib.parse import quote

from generator import __version__
from generator.orders.guide import Library
from generator.pages.addresses import RULES_PAGE, canonical_address
from generator.pages.rules import anchor_of
from generator.rules import level_of
from generator.rules.explanations import documentation, summary
from generator.rules.finding import Edit, Finding, Mend, Reported
from generator.source.places import Place

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
ROOT = "CONTENT"
"""Name that stands for the content folder in addresses [3.14.14]: the reader says where that is."""


def sarif_report(library: Library, findings: Sequence[Reported]) -> str:
    """One run with its results in the order given; columns count characters [3.14.27], rules are those that spoke."""
    rules = tuple(dict.fromkeys(found.rule for found in findings))
    run = {
        "tool": {
            "driver": {"name": "Partway", "version": __version__, "rules": [_rule(rule, library.address) for rule in rules]},
        },
        "columnKind": "unicodeCodePoints",
        "originalUriBaseIds": {ROOT: {"description": {"text": "The content folder."}}},
        "results": [_result(found, rules.index(found.rule)) for found in findings],
    }
    return json.dumps({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}, ensure_ascii=False, indent=2) + "\n"


def _rule(rule: str, site: str | None) -> dict[str, Any]:
    """site: the address of the library, whose page of rules tells more [3.49.12]; without one there is no such address."""
    more = canonical_address(site, f"{RULES_PAGE}#{anchor_of(rule)}")
    return {
        "id": rule,
        "shortDescription": {"text": summary(rule)},
        "help": {"text": documentation(rule)},
        **({"helpUri": more} if more else {}),
        "defaultConfiguration": {"level": level_of(rule)},
    }


def _result(found: Reported, index: int) -> dict[str, Any]:
    finding = found.finding
    result: dict[str, Any] = {
        "ruleId": found.rule,
        "ruleIndex": index,
        "level": found.level,
        "message": {"text": _message(finding)},
        "locations": [
            {"physicalLocation": {"artifactLocation": _artifact(finding.place.file), "region": _region(finding.place)}}
        ],
    }
    if finding.mend is not None and finding.mend.edits:
        result["fixes"] = [_fix(finding.mend)]
    return result


def _message(finding: Finding) -> str:
    """The whole finding in one paragraph: viewers show little else."""
    return " ".join([finding.message, *finding.why, *([finding.mend.text] if finding.mend is not None else [])])


def _artifact(file: str) -> dict[str, Any]:
    return {"uri": quote(file), "uriBaseId": ROOT}


def _region(place: Place) -> dict[str, int]:
    return {
        "startLine": place.line,
        "startColumn": place.column,
        "endLine": place.end_line,
        "endColumn": place.end_column,
    }


def _fix(mend: Mend) -> dict[str, Any]:
    files = dict.fromkeys(edit.place.file for edit in mend.edits)
    return {
        "description": {"text": mend.text},
        "artifactChanges": [
            {
                "artifactLocation": _artifact(file),
                "replacements": [_replacement(edit) for edit in mend.edits if edit.place.file == file],
            }
            for file in files
        ],
    }


def _replacement(edit: Edit) -> dict[str, Any]:
    return {"deletedRegion": _region(edit.place), "insertedContent": {"text": edit.text}}
