"""The way out as machines read it: a HowTo of schema.org, with its steps, tools, supplies, and its film."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from generator.anatomy.parts import Part, PartId
from generator.orders.accounts import Accounts
from generator.orders.guide import Device
from generator.orders.stretches import Stretch, shots_of
from generator.orders.work import Step
from generator.pages.actions import out_lines
from generator.pages.addresses import anchor, canonical_address, film_at, is_web
from generator.pages.cautions import panels_of
from generator.pages.frame import home_address
from generator.pages.licences import licence_address
from generator.pages.structured import iso_duration
from generator.pages.survey import Survey
from generator.pages.typography import sentence
from generator.pages.video.plain import plain

Data = dict[str, Any]


def how_to(
    survey: Survey,
    steps: Sequence[Step],
    accounts: Accounts,
    *,
    path: str,
    steps_page: str,
    name: str,
    description: str,
    part: Part | None = None,
) -> Data:
    """The steps out, in their order. path: of the page from the site's folder; steps_page: the page that has the steps.

    Where that is another page, a step is told by its name alone. part: the one that it is done for, if it is done for one.
    The time is told only where every step says how long it takes, and pictures only where there are photos.
    """
    library, device = survey.library, survey.guide.device
    is_here = path.endswith(f"/{steps_page}")
    address = canonical_address(library.address, path)
    supplies: list[Data] = [_told(type="HowToSupply", name=use.supply.name) for use in accounts.supplies]
    if part is not None and (part.spare_number or part.spare_price):
        supplies.append(
            _told(type="HowToSupply", name=part.name, identifier=part.spare_number, estimatedCost=part.spare_price)
        )
    images = [_photo(survey, photo.src) for step in steps for photo in survey.photos.get(step.id, ())]
    return _told(
        type="HowTo",
        url=address,
        name=name,
        description=description,
        image=images[0] if images else None,
        author=_told(type="Person", name=library.author) if library.author else None,
        license=_licence(library.licence),
        dateModified=device.changed,
        about=_product(device),
        totalTime=iso_duration(accounts.seconds) if accounts.seconds else None,
        tool=[_told(type="HowToTool", name=use.tool.name) for use in accounts.tools],
        supply=supplies,
        step=_steps(survey, steps, steps_page, is_here=is_here),
        video=_film(survey, steps),
    )


def first_photo(survey: Survey, steps: Sequence[Step]) -> tuple[str, str] | None:
    """The first photo of a run of steps: its path from the site's folder, as it stands in an address, and its words."""
    photos = (photo for step in steps for photo in survey.photos.get(step.id, ()))
    return next(((f"{survey.guide.id}/{photo.src}", photo.alt) for photo in photos), None)


def _steps(survey: Survey, steps: Sequence[Step], page: str, *, is_here: bool) -> list[Data]:
    gone: frozenset[PartId] = frozenset()
    told = []
    for number, step in enumerate(steps, 1):
        photos = [_photo(survey, photo.src) for photo in survey.photos.get(step.id, ())]
        told.append(
            _told(
                type="HowToStep",
                position=number,
                name=step.title,
                url=_address(survey, f"{page}#{anchor('step', step.id)}"),
                image=photos[0] if photos and is_here else None,
                timeRequired=iso_duration(step.takes) if step.takes else None,
                itemListElement=_directions(survey, step, gone) if is_here else None,
            )
        )
        for part in step.lifted:
            gone |= survey.guide.anatomy.assembly(part)
    return told


def _directions(survey: Survey, step: Step, gone: frozenset[PartId]) -> list[Data]:
    """What can hurt, then what is done, as on the page: who only hears the directions hears the hazards first."""
    said = [
        " ".join(words for words in (f"{panel.signal}: {panel.hazard}", panel.consequence, panel.avoidance) if words)
        for panel in panels_of(survey.guide, step, frozenset())
    ]
    for line in out_lines(survey.guide, step, gone):
        done = ", ".join(words for words in (line.words, line.extent, line.aid) if words)
        said.append(" ".join(words for words in (sentence(done), line.note) if words))
    return [_told(type="HowToDirection", position=place, text=text) for place, text in enumerate(said, 1)]


def _film(survey: Survey, steps: Sequence[Step]) -> Data | None:
    device = survey.guide.device
    if device.film_address is None or not is_web(device.film_address):
        return None
    shots = shots_of(survey.guide)
    return _told(
        type="VideoObject",
        name=device.name,
        url=device.film_address,
        duration=iso_duration(device.film_length) if device.film_length else None,
        hasPart=[_clip(device, step, shots[step.id]) for step in steps if step.id in shots],
    )


def _clip(device: Device, step: Step, shot: Stretch) -> Data:
    return _told(
        type="Clip", name=step.title, startOffset=shot.start, endOffset=shot.end, url=film_at(device, shot.start)
    )


def _product(device: Device) -> Data:
    maker = _told(type="Organization", name=device.maker) if device.maker else None
    return _told(type="Product", name=device.name, manufacturer=maker)


def _licence(name: str | None) -> str | Data | None:
    if name is None:
        return None
    return licence_address(name) or _told(type="CreativeWork", name=name)


def _address(survey: Survey, name: str) -> str:
    """The address of a file in the device's folder: whole where the site has one, else from the page."""
    return canonical_address(survey.library.address, f"{survey.guide.id}/{name}") or name


def _photo(survey: Survey, src: str) -> str:
    """The address of a photo, which all languages share with the first."""
    folder, path = survey.library.folder, f"{survey.guide.id}/{src}"
    return canonical_address(home_address(survey.library), path) or (f"../../{path}" if folder else src)


def _told(*, type: str, **values: Any) -> Data:
    """A thing with what is known of it; texts as they are said, without the signs that set them on a page."""
    known = {key: value for key, value in values.items() if value not in (None, [], "")}
    return {"@type": type, **{key: plain(value) if isinstance(value, str) else value for key, value in known.items()}}
