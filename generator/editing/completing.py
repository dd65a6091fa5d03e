"""What may stand at a position of a file that is being written: told from the line alone, since the rest may be broken."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from generator.editing.mentions import Kind
from generator.orders.guide import Guide, Library

KEYS = {
    "undo": Kind.JOINT,
    "heat": Kind.JOINT,
    "soak": Kind.JOINT,
    "joint": Kind.JOINT,
    "lift": Kind.PART,
    "fold": Kind.PART,
    "of": Kind.PART,
    "part": Kind.PART,
    "base": Kind.PART,
    "inside": Kind.PART,
    "under": Kind.PART,
    "behind": Kind.PART,
    "joins": Kind.PART,
    "pages": Kind.PART,
    "paired": Kind.PART,
    "with": Kind.TOOL,
    "tool": Kind.TOOL,
    "supply": Kind.SUPPLY,
    "order": Kind.STEP,
    "alternatives": Kind.STEP,
}
"""What the value of a key names; `for` names joints in supplies.yaml and a time elsewhere."""

_LINK = re.compile(r"\]\((part|joint|tool|supply|step):([a-z0-9-]*)$")
_KEY = re.compile(r"(?:^|[\s{,-])([a-z-]+):\s*(?:\[(?:[^\]]*,)?\s*)?[\"']?([a-z0-9-]*)$")
_ENTRY = re.compile(r"^(\s*)-\s+[\"']?([a-z0-9-]*)$")
_HEAD = re.compile(r"^(\s*)([a-z-]+):\s*$")


@dataclass(frozen=True, slots=True)
class Candidate:
    """id: what is put in; says: what it stands for."""

    kind: Kind
    id: str
    says: str


def candidates(
    library: Library, guide: Guide | None, file: str, lines: Sequence[str], line: int, column: int
) -> tuple[Candidate, ...]:
    """The names that may stand at a position (from 1), those that begin as written first; nothing where none belongs."""
    if not 1 <= line <= len(lines):
        return ()
    asked = _asked(file, lines, line, lines[line - 1][: column - 1])
    if asked is None:
        return ()
    kind, begun = asked
    known = _known(library, guide, kind)
    return tuple(sorted(known, key=lambda each: (not each.id.startswith(begun), each.id)))


def _asked(file: str, lines: Sequence[str], line: int, before: str) -> tuple[Kind, str] | None:
    link = _LINK.search(before)
    if link:
        return Kind(link[1]), link[2]
    entry = _ENTRY.match(before)
    if entry:
        kind = _list_kind(file, lines[: line - 1], len(entry[1]))
        return (kind, entry[2]) if kind else None
    found = _KEY.search(before)
    if found is None:
        return None
    if found[1] == "for" and file.rpartition("/")[2] == "supplies.yaml":
        return Kind.JOINT, found[2]
    kind = KEYS.get(found[1])
    return (kind, found[2]) if kind else None


def _list_kind(file: str, above: Sequence[str], indent: int) -> Kind | None:
    """What the entries of a list name, by the key that heads it."""
    for text in reversed(above):
        head = _HEAD.match(text)
        if head and len(head[1]) <= indent:
            if head[2] == "for" and file.rpartition("/")[2] == "supplies.yaml":
                return Kind.JOINT
            return KEYS.get(head[2])
        if text.strip() and not text.lstrip().startswith(("-", "#")):
            return None
    return None


def _known(library: Library, guide: Guide | None, kind: Kind) -> list[Candidate]:
    if kind is Kind.TOOL:
        return [Candidate(kind, tool.id, tool.name) for tool in library.tools.values()]
    if kind is Kind.SUPPLY:
        return [Candidate(kind, supply.id, supply.name) for supply in library.supplies.values()]
    guides = (guide,) if guide is not None else library.guides
    found: dict[str, Candidate] = {}
    for each in guides:
        match kind:
            case Kind.PART:
                for part in each.anatomy.parts.values():
                    found.setdefault(part.id, Candidate(kind, part.id, part.name))
            case Kind.JOINT:
                for joint in each.anatomy.joints.values():
                    found.setdefault(joint.id, Candidate(kind, joint.id, f"{joint.name} ({joint.kind.value})"))
            case Kind.STEP:
                for step in each.step_by_id.values():
                    found.setdefault(step.id, Candidate(kind, step.id, step.title))
    return list(found.values())
