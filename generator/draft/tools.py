"""Which tools of a draft a collection has already."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from generator.draft.records import DraftTool
from generator.source.records import ToolRecord


def tools_in(drafted: Iterable[DraftTool], known: Mapping[str, ToolRecord]) -> dict[str, str]:
    """By each drafted tool's id its id in the collection: the same id or name, or a driver for the same drive."""
    found: dict[str, str] = {}
    names = {record.name.casefold(): id for id, record in known.items()}
    drives = {(fit.drive, fit.size): id for id, record in known.items() for fit in record.fits if fit.drive and fit.size}
    for tool in drafted:
        match = tool.id if tool.id in known else names.get(tool.name.casefold())
        if match is None and tool.fits is not None and tool.fits[1]:
            match = drives.get(tool.fits)
        if match is not None:
            found[tool.id] = match
    return found
