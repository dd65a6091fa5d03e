"""Photos named by steps: read from disk, made fit for pages."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from generator.media.photos import PagePhoto, Unusable, page_photo
from generator.orders.guide import Guide, Library

FILE_LIMIT = 40 * 1024 * 1024  # bytes

Photos = Mapping[str, Mapping[str, PagePhoto]]
"""Per device the photos by the path its steps name them with."""


def photos_of(root: Path, library: Library) -> tuple[dict[str, dict[str, PagePhoto]], dict[str, list[str]]]:
    """Every photo that a step shows, and per device the sentences about files that cannot be shown."""
    ready: dict[str, dict[str, PagePhoto]] = {}
    unusable: dict[str, list[str]] = {}
    for guide in library.guides:
        ready[guide.id] = {}
        for name in _named(guide):
            photo = _photo(root, guide, name)
            if isinstance(photo, PagePhoto):
                ready[guide.id][name] = photo
            elif photo is not None:
                file = f"{guide.id}/media/{name}"
                unusable.setdefault(guide.id, []).append(f"{file} {photo.reason}. Put a good copy in its place.")
    return ready, unusable


def _named(guide: Guide) -> list[str]:
    return list(dict.fromkeys(photo.file for step in guide.steps for photo in step.photos))


def _photo(root: Path, guide: Guide, name: str) -> PagePhoto | Unusable | None:
    """None for a file that is not there: the rule `media/missing` speaks of that."""
    media = (root / guide.id / "media").resolve()
    file = (media / name).resolve()
    if not any(known.path == name for known in guide.media):
        return None
    if not file.is_relative_to(media):
        return Unusable("leads out of its folder")
    if file.stat().st_size > FILE_LIMIT:
        return Unusable(f"is larger than {FILE_LIMIT // 1024 // 1024} MB")
    return page_photo(file.read_bytes())
