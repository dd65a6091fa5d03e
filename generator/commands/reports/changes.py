"""What a change means: as text for people, as Markdown for a review comment, as one JSON document for programs."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import Any

from generator.commands.reports.escaping import plain_markdown, visible
from generator.orders.accounts import Depth
from generator.orders.routes import NoRoute
from generator.orders.work import Action
from generator.review.changes import DeviceChange, FieldChange, LibraryChange, StepChange, ThingChange, WayChange
from generator.review.sentences import (
    Told,
    Weight,
    action_words,
    index_words,
    is_worse,
    summary_of,
    texts_of,
    texts_of_step,
    told_of,
    told_of_library,
)
from generator.review.wording import Fate, Piece, nearby
from generator.rules.finding import Reported
from generator.source.places import Place

VERSION = 1
WIDTH = 110

MARKS = {Weight.WORSE: "worse", Weight.BETTER: "better", Weight.OTHER: ""}


def change_as_text(change: LibraryChange) -> str:
    """A heading a device, then its sections; every line that is worse or better says so. Nothing at all: one line."""
    lines: list[str] = []
    for title, told, device in _told(change):
        lines += [visible(title), ""]
        for section, entries in _sections(told):
            lines.append(f"  {section}")
            lines += [*_lines(entries), ""]
        lines += _texts(device) if device else []
    lines.append(visible(summary_of(change)))
    return "\n".join(lines) + "\n"


def change_as_markdown(change: LibraryChange) -> str:
    """The same for a review comment: what got worse first, the rest of each device folded away where there is much."""
    lines = ["## What this change means", "", plain_markdown(summary_of(change))]
    for title, told, _ in _told(change):
        lines += ["", f"### {plain_markdown(title)}"]
        for section, entries in _sections(told):
            lines += ["", f"**{section}**", ""]
            lines += [_entry(entry) for entry in entries]
    return "\n".join(lines) + "\n"


def change_as_json(change: LibraryChange) -> str:
    """The document described in DEVELOPERS.md under "JSON"."""
    document = {
        "version": VERSION,
        "worse": _is_worse(change),
        "unchanged": change.unchanged,
        "library": {
            "told": [_told_document(each) for each in told_of_library(change)],
            "fields": [_field(field) for field in change.told],
        },
        "devices": {device.id: _device(device) for device in change.devices},
    }
    return json.dumps(document, ensure_ascii=False, indent=2) + "\n"


def _is_worse(change: LibraryChange) -> bool:
    return is_worse(told_of_library(change)) or any(is_worse(told_of(device)) for device in change.devices)


def _told(change: LibraryChange) -> Iterator[tuple[str, Sequence[Told], DeviceChange | None]]:
    shared = told_of_library(change)
    if shared:
        yield "Shared files", shared, None
    for device in change.devices:
        yield device.guide.device.name, told_of(device), device


def _sections(told: Sequence[Told]) -> Iterator[tuple[str, list[Told]]]:
    for section in dict.fromkeys(each.section for each in told):
        yield section.value, [each for each in told if each.section is section]


def _lines(entries: Sequence[Told]) -> Iterator[str]:
    """The lines of a section; where several stand on one place, it is told once."""
    told: Place | None = None
    for entry in entries:
        mark = f"{MARKS[entry.weight]:>8}  "
        place = f"  {entry.place}" if entry.place is not None and entry.place != told else ""
        told = entry.place
        yield from _wrapped(mark, visible(entry.words + place))


def _wrapped(head: str, words: str) -> list[str]:
    return wrap(words, WIDTH, initial_indent=head, subsequent_indent=" " * 10, break_on_hyphens=False)


def _texts(device: DeviceChange) -> Iterator[str]:
    """Reworded texts, word by word: [-gone-] and {+come+}, and what stands next to them."""
    texts = list(texts_of(device))
    for step in device.steps:
        texts += [(f"{step.step.title}: {title.lower()}", pieces) for title, pieces in texts_of_step(device, step)]
    for title, pieces in texts:
        yield visible(f"  {title}")
        yield from _wrapped(" " * 10, visible(" ".join(marked(nearby(pieces)).split())))
        yield ""


def marked(pieces: Sequence[Piece]) -> str:
    """A reworded text in one: `Lift the [-old-]{+new+} cover`."""
    signs = {Fate.KEPT: ("", ""), Fate.GONE: ("[-", "-]"), Fate.CAME: ("{+", "+}")}
    return "".join(f"{signs[piece.fate][0]}{piece.text}{signs[piece.fate][1]}" for piece in pieces)


def _entry(entry: Told) -> str:
    mark = {Weight.WORSE: "**Worse:** ", Weight.BETTER: "**Better:** ", Weight.OTHER: ""}[entry.weight]
    return f"- {mark}{plain_markdown(entry.words)}"


# --- JSON ----------------------------------------------------------------------------------------------------------


def _told_document(told: Told) -> dict[str, Any]:
    return {
        "section": told.section.value,
        "weight": told.weight.value,
        "subject": told.subject,
        "words": told.words,
        "place": str(told.place) if told.place is not None else None,
    }


def _device(change: DeviceChange) -> dict[str, Any]:
    told = told_of(change)
    state = "new" if change.old is None else "gone" if change.new is None else "changed"
    return {
        "state": state,
        "was": change.was,
        "worse": is_worse(told),
        "told": [_told_document(each) for each in told],
        "fields": [_field(field) for field in change.told],
        "things": [_thing(thing) for thing in change.things],
        "steps": [_step(change, step) for step in change.steps],
        "ways": [_way(way) for way in change.ways],
        "screws": [
            {
                "thread": each.size.thread,
                "length": each.size.length,
                "drive": each.size.drive,
                "head": each.size.head,
                "before": each.before,
                "after": each.after,
            }
            for each in change.screws
        ],
        "index": _index(change),
        "findings": {
            "new": [_finding(found) for found in change.findings_new],
            "gone": [_finding(found) for found in change.findings_gone],
        },
    }


def _field(field: FieldChange) -> dict[str, Any]:
    return {"field": field.field, "before": field.before, "after": field.after}


def _thing(thing: ThingChange) -> dict[str, Any]:
    fields = [_field(field) for field in thing.fields]
    return {"kind": thing.kind, "id": thing.id, "was": thing.was, "fields": fields}


def _step(change: DeviceChange, step: StepChange) -> dict[str, Any]:
    def work(actions: Sequence[Action], is_new: bool) -> list[str]:
        guide = change.new if is_new else change.old
        return [action_words(guide, action) for action in actions] if guide is not None else []

    return {
        "id": step.new.id if step.new is not None else None,
        "was": step.old.id if step.old is not None else None,
        "number_before": step.number_before,
        "number_after": step.number_after,
        "moved": step.is_moved,
        "title": _pieces(step.title),
        "body": _pieces(step.body),
        "refitting": _pieces(step.refitting),
        "work_gone": work(step.work_gone, False),
        "work_new": work(step.work_came, True),
        "reordered": step.is_reordered,
        "cautions_gone": [caution.text for caution in step.cautions_gone],
        "cautions_new": [caution.text for caution in step.cautions_came],
        "photos_gone": [photo.file for photo in step.photos_gone],
        "photos_new": [photo.file for photo in step.photos_came],
        "photos_redone": list(step.media),
    }


def _pieces(pieces: Sequence[Piece]) -> list[dict[str, str]]:
    return [{"fate": piece.fate.value, "text": piece.text} for piece in pieces]


def _way(way: WayChange) -> dict[str, Any]:
    return {"part": way.part, "before": _depth(way.before), "after": _depth(way.after)}


def _depth(depth: Depth | NoRoute | None) -> dict[str, Any] | None:
    """None where the part is not asked for; `possible` false where there is no way."""
    if depth is None:
        return None
    if isinstance(depth, NoRoute):
        return {"possible": False}
    return {
        "possible": True,
        "steps": [step.id for step in depth.route.steps],
        "actions": depth.actions,
        "tool_changes": depth.route.tool_changes,
        "turns": depth.route.turns,
        "seconds": depth.route.seconds,
        "safety": [step.id for step in depth.route.safety],
    }


def _index(change: DeviceChange) -> dict[str, Any] | None:
    if change.index is None:
        return None
    before, after = change.index.before, change.index.after
    return {
        "act": (after or before).act if after or before else None,  # type: ignore[union-attr]
        "before": index_words(before) if before else None,
        "after": index_words(after) if after else None,
    }


def _finding(found: Reported) -> dict[str, Any]:
    return {
        "rule": found.rule,
        "level": found.level,
        "message": found.finding.message,
        "place": str(found.finding.place),
    }
