"""The files for the film of one device, by their path below its folder."""

from __future__ import annotations

from collections.abc import Mapping

from generator.anatomy.parts import PartId
from generator.orders.routes import Route
from generator.orders.stretches import shots_of
from generator.pages.addresses import route_page
from generator.pages.survey import Survey, up_to_stop, with_turns
from generator.pages.video.chapters import chapter_list, chapter_track, chapters_of_film, chapters_of_run
from generator.pages.video.description import description_of_film, description_of_run, watch_list
from generator.pages.video.overlay import overlay_track

VIDEO = "video"
"""The folder beside the pages of a device."""

CHAPTERS = "chapters.vtt"
OVERLAY = "overlay.vtt"
DESCRIPTION = "description.txt"
CHAPTER_LIST = "chapters.txt"
WATCH_LIST = "watch.txt"


def film_texts(survey: Survey) -> Mapping[str, str]:
    """The files for the whole film by name; nothing where it shows no step of the guide."""
    chapters = chapters_of_film(survey)
    if not chapters:
        return {}
    listed = chapter_list(chapters, survey.guide.device.film_length)
    return {
        CHAPTERS: chapter_track(chapters),
        CHAPTER_LIST: "".join(f"{line}\n" for line in listed),
        DESCRIPTION: description_of_film(survey),
        OVERLAY: overlay_track(chapters),
    }


def run_texts(survey: Survey, part: PartId) -> Mapping[str, str]:
    """The files for the way to one part by name; nothing where there is no way, or the film shows nothing of it."""
    way = survey.ways.get(part)
    if not isinstance(way, Route):
        return {}
    steps, stop = up_to_stop(survey.guide, with_turns(way.steps, way.added_turns))
    chapters = chapters_of_run(survey, steps)
    if not chapters:
        return {}
    named = survey.guide.part(part)
    return {
        CHAPTERS: chapter_track(chapters),
        DESCRIPTION: description_of_run(survey, named, steps, stop),
        OVERLAY: overlay_track(chapters),
        WATCH_LIST: watch_list(survey, named, steps, stop),
    }


def run_folder(part: PartId) -> str:
    """The folder of one way below that of the film; it is named as the page of the way."""
    return f"{VIDEO}/{route_page(part).removesuffix('.html')}"


def video_files(survey: Survey) -> Mapping[str, str]:
    """All of them, by path below the folder of the device."""
    if not shots_of(survey.guide):
        return {}
    files = {f"{VIDEO}/{name}": text for name, text in film_texts(survey).items()}
    for part in survey.pages:
        files.update({f"{run_folder(part)}/{name}": text for name, text in run_texts(survey, part).items()})
    return files
