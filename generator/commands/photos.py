"""Photos that a guide shows: read from disk, made fit for pages, and laid beside the pages."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from generator.media.photos import PagePhoto, Unusable, page_photo
from generator.orders.guide import Guide, Library
from generator.pages.photos import photo_views
from generator.pages.site import Photos
from generator.source.prose import Prose

FILE_LIMIT = 40 * 1024 * 1024  # bytes
MEDIA = "media"


@dataclass
class ReadyPhotos:
    """Views by device and step, files by their path in the site, and per device sentences about what cannot be shown."""

    views: dict[str, Photos] = field(default_factory=dict)
    files: dict[str, bytes] = field(default_factory=dict)
    unusable: dict[str, list[str]] = field(default_factory=dict)


def photos_of(root: Path, library: Library) -> ReadyPhotos:
    """Every picture that a step or its prose shows; one that is missing is left to the rule `media/missing`."""
    ready = ReadyPhotos()
    for guide in library.guides:
        sizes: dict[str, tuple[int, int]] = {}
        for name in _named(guide):
            photo = _photo(root, guide, name)
            if isinstance(photo, PagePhoto):
                sizes[name] = (photo.width, photo.height)
                ready.files[f"{guide.id}/{MEDIA}/{name}"] = photo.data
            elif photo is not None:
                sentence = f"{guide.id}/{MEDIA}/{name} {photo.reason}. Put a good copy in its place."
                ready.unusable.setdefault(guide.id, []).append(sentence)
        ready.views[guide.id] = {step.id: photo_views(guide, step, sizes) for step in guide.steps}
    return ready


def _named(guide: Guide) -> list[str]:
    names = [photo.file for step in guide.steps for photo in step.photos]
    proses: list[Prose | None] = [prose for step in guide.steps for prose in (step.body, step.refitting)]
    proses += [note.prose for note in guide.notes]
    for prose in proses:
        names += [picture.path.removeprefix(f"{MEDIA}/") for picture in (prose.pictures if prose else ())]
    return list(dict.fromkeys(names))


def _photo(root: Path, guide: Guide, name: str) -> PagePhoto | Unusable | None:
    media = (root / guide.id / MEDIA).resolve()
    file = (media / name).resolve()
    if not any(known.path == name for known in guide.media):
        return None
    if not file.is_relative_to(media):
        return Unusable("leads out of its folder")
    if file.stat().st_size > FILE_LIMIT:
        return Unusable(f"is larger than {FILE_LIMIT // 1024 // 1024} MB")
    return page_photo(file.read_bytes(), file.suffix)
