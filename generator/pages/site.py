"""The whole site: from the library's guides to paths with their text. Nothing is written here."""

from __future__ import annotations

from collections.abc import Mapping

from generator.orders.guide import Guide, Library
from generator.orders.routes import Route
from generator.orders.work import StepId
from generator.pages.addresses import DEVICE, LIBRARY, SAFETY, TOOLS, WHOLE, route_page
from generator.pages.device import device_page
from generator.pages.library import library_page
from generator.pages.photos import PhotoView
from generator.pages.route import RoutePage, part_page
from generator.pages.safety import safety_page
from generator.pages.survey import Survey, survey_of, up_to_stop
from generator.pages.theme import Theme, set_page, shared_files
from generator.pages.tools import tools_page
from generator.pages.tray import tray_pages
from generator.pages.whole import whole_page

Photos = Mapping[StepId, tuple[PhotoView, ...]]


def render_site(library: Library, theme: Theme, photos: Mapping[str, Photos] | None = None) -> Mapping[str, str | bytes]:
    """Every file of the site by its path, in the order of the paths. photos: by device, then by step.

    The same library and theme give the same bytes.
    """
    photos = photos or {}
    files = dict(render_shared(library, theme))
    for guide in library.guides:
        files.update(render_device(library, guide, theme, photos.get(guide.id)))
    return dict(sorted(files.items()))


def render_device(library: Library, guide: Guide, theme: Theme, photos: Photos | None = None) -> Mapping[str, str | bytes]:
    """The pages of one device by their paths. It leans on nothing but its arguments, so devices can be done side by side."""
    return _device_files(survey_of(library, guide, photos), theme)


def render_shared(library: Library, theme: Theme) -> Mapping[str, str | bytes]:
    """The pages above the devices, the style sheet and the fonts."""
    return {
        LIBRARY: set_page(theme, "library", library_page(library)),
        TOOLS: set_page(theme, "tools", tools_page(library)),
        SAFETY: set_page(theme, "safety", safety_page(library)),
        **shared_files(theme),
    }


def _device_files(survey: Survey, theme: Theme) -> dict[str, str | bytes]:
    folder = survey.guide.id
    files: dict[str, str | bytes] = {
        f"{folder}/{DEVICE}": set_page(theme, "device", device_page(survey)),
        f"{folder}/{WHOLE}": set_page(theme, "whole", whole_page(survey)),
    }
    for tray, sheet in tray_pages(survey, survey.shown, None):
        files[f"{folder}/{tray}"] = set_page(theme, "tray", sheet)
    for part in survey.pages:
        way = survey.ways[part]
        if isinstance(way, Route):
            run, _ = up_to_stop(survey.guide, way.steps)
            for tray, sheet in tray_pages(survey, run, part):
                files[f"{folder}/{tray}"] = set_page(theme, "tray", sheet)
        page = part_page(survey, part)
        name = "route" if isinstance(page, RoutePage) else "blocked"
        files[f"{folder}/{route_page(part)}"] = set_page(theme, name, page)
    return files
