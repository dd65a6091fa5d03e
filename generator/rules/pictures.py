"""The pictures a guide shows: photos of its steps and those set into its prose."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.orders.guide import Guide
from generator.rules.prose import prose_of
from generator.source.places import Place

FOLDER = "media/"


@dataclass(frozen=True, slots=True)
class Shown:
    """A picture named somewhere; path from the device's `media` folder; alt None where nothing is written."""

    path: str
    alt: str | None
    place: Place
    alt_place: Place


def pictures_of(guide: Guide) -> Iterator[Shown]:
    """Every picture in the order in which it is named, steps first."""
    for step in (*guide.steps, *guide.unused):
        for index, photo in enumerate(step.photos):
            yield Shown(photo.file, photo.alt, photo.place, step.places.value("photos", index, "alt"))
        for prose in prose_of(step):
            for picture in prose.pictures:
                yield Shown(picture.path.removeprefix(FOLDER), picture.alt or None, picture.place, picture.place)
    for note in guide.notes:
        for picture in note.prose.pictures:
            yield Shown(picture.path.removeprefix(FOLDER), picture.alt or None, picture.place, picture.place)
