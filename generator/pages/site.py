"""The whole site: from the library's guides to paths with their text. Nothing is written here."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.anatomy.parts import PartId
from generator.indices.scores import scores_of
from generator.languages import ENGLISH, speaking
from generator.orders.guide import Guide, Library
from generator.orders.routes import Route
from generator.orders.work import StepId
from generator.pages.addresses import (
    CHANGES,
    COMPARE,
    CONTRIBUTE,
    CORRECTION,
    DEVICE,
    FEED,
    FIND,
    FIND_DATA,
    INDEX,
    LIBRARY,
    RULES_PAGE,
    SAFETY,
    SEVERAL,
    SEVERAL_DATA,
    TOOLS,
    VERDICT,
    WHOLE,
    WORKINGS,
    route_page,
)
from generator.pages.alphabet import alphabet_page
from generator.pages.changes import changes_page
from generator.pages.compare import Compared, compare_page, compared
from generator.pages.contribute import contribute_page
from generator.pages.correction import correction_page
from generator.pages.device import device_page
from generator.pages.editions import editions, placed, without_folder
from generator.pages.end_card import verdict_card
from generator.pages.feed import feed_of
from generator.pages.find import find_data, find_page
from generator.pages.library import MANY, in_the_order_of, library_page
from generator.pages.moved import moved_pages
from generator.pages.moving import Asked, film_files, film_name, frame_files
from generator.pages.photos import PhotoView
from generator.pages.published import published_files
from generator.pages.route import RoutePage, part_page
from generator.pages.rules import rules_page
from generator.pages.safety import safety_page
from generator.pages.scripts import WORDS, words_script
from generator.pages.several import reached_parts, several_data, several_page, ways_of
from generator.pages.spares import NO_SPARES, Spares, spares_of
from generator.pages.survey import Survey, survey_of, up_to_stop
from generator.pages.theme import Theme, set_page, shared_files
from generator.pages.tools import tools_page
from generator.pages.tray import tray_pages
from generator.pages.video.files import video_files
from generator.pages.whole import whole_page
from generator.pages.workings import workings_page

Photos = Mapping[StepId, tuple[PhotoView, ...]]

NOTHING_ELSE = Asked()
"""No picture beyond those of the pages."""


def render_site(
    library: Library, theme: Theme, photos: Mapping[str, Photos] | None = None, asked: Asked = NOTHING_ELSE
) -> Mapping[str, str | bytes]:
    """Every file of the site by its path, in the order of the paths. photos: by device, then by step.

    The same library and theme give the same bytes.
    """
    photos = photos or {}
    files: dict[str, str | bytes] = {}
    for spoken in editions(library):
        spares = spares_of(spoken)
        lines = []
        for guide in spoken.guides:
            shown = photos.get(f"{spoken.folder}{guide.id}")
            pages, line = render_compared(spoken, guide, theme, shown, asked, spares)
            files.update(pages)
            lines.append(line)
        files.update(render_shared(spoken, theme, lines))
    return dict(sorted(render_published(library, theme, files).items()))


def render_device(
    library: Library, guide: Guide, theme: Theme, photos: Photos | None = None, asked: Asked = NOTHING_ELSE
) -> Mapping[str, str | bytes]:
    """The pages of one device by their paths. It leans on nothing but its arguments, so devices can be done side by side."""
    return render_compared(library, guide, theme, photos, asked, NO_SPARES)[0]


def render_compared(
    library: Library, guide: Guide, theme: Theme, photos: Photos | None, asked: Asked, spares: Spares
) -> tuple[Mapping[str, str | bytes], Compared]:
    """The pages of one device in the language of the library, and its line in the comparison of all.

    spares: those that fit several devices.
    """
    with speaking(library.language):
        survey = survey_of(library, guide, photos, spares)
        return placed(library, _device_files(survey, theme, asked)), compared(survey)


def render_shared(library: Library, theme: Theme, lines: Sequence[Compared] = ()) -> Mapping[str, str | bytes]:
    """The pages above the devices in one language; with the first the style sheet, the scripts and the fonts."""
    with speaking(library.language):
        files = placed(library, _shared_pages(library, theme, lines))
    return files if library.folder else {**files, **shared_files(theme)}


def _shared_pages(library: Library, theme: Theme, lines: Sequence[Compared]) -> Mapping[str, str | bytes]:
    lines = in_the_order_of(library, lines)
    comparison = compare_page(library, lines) if len(library.guides) > MANY else None
    return {
        LIBRARY: set_page(theme, "library", library_page(library, lines)),
        **({COMPARE: set_page(theme, "compare", comparison)} if comparison else {}),
        TOOLS: set_page(theme, "tools", tools_page(library)),
        SAFETY: set_page(theme, "safety", safety_page(library)),
        CONTRIBUTE: set_page(theme, "contribute", contribute_page(library)),
        **({} if library.folder else {RULES_PAGE: set_page(theme, "rules", rules_page(library))}),
        FIND: set_page(theme, "find", find_page(library)),
        FIND_DATA: find_data(library),
        INDEX: set_page(theme, "alphabet", alphabet_page(library)),
        **({} if library.language == ENGLISH else {WORDS: words_script(theme)}),
    }


def render_published(library: Library, theme: Theme, files: Mapping[str, str | bytes]) -> dict[str, str | bytes]:
    """The whole site: `files`, pages at old addresses, and what a site with an address has beside its pages."""
    found: dict[str, str | bytes] = {}
    for spoken in editions(library):
        own = without_folder(spoken, files)
        with speaking(spoken.language):
            found.update(placed(spoken, _moved(spoken, theme, own)))
            feed = feed_of(spoken)
            if feed:
                found[f"{spoken.folder}{FEED}"] = feed
            if not spoken.folder:
                found.update(published_files(library, theme, files))
    return {**found, **files}


def _moved(library: Library, theme: Theme, paths: Sequence[str]) -> dict[str, str | bytes]:
    by_device: dict[str, list[str]] = {}
    for path in paths:
        if path.count("/") == 1:
            by_device.setdefault(path.partition("/")[0], []).append(path)
    return {
        path: set_page(theme, "moved", page)
        for guide in library.guides
        for path, page in moved_pages(guide, by_device.get(guide.id, ()), library).items()
    }


def one_page(survey: Survey, theme: Theme, name: str) -> str | None:
    """One page in the device's folder, the same as in `render_device`; None for what is made with others or not at all."""
    guide = survey.guide
    if name == DEVICE:
        return set_page(theme, "device", device_page(survey, "", scores_of(guide)))
    if name == WORKINGS:
        return set_page(theme, "workings", workings_page(survey, scores_of(guide)))
    if name == WHOLE:
        return set_page(theme, "whole", whole_page(survey))
    if name == CORRECTION:
        return set_page(theme, "correction", correction_page(survey))
    part = next((part for part in survey.pages if name == route_page(part)), None)
    return _part_file(survey, theme, part) if part is not None else None


def _part_file(survey: Survey, theme: Theme, part: PartId) -> str:
    page = part_page(survey, part)
    return set_page(theme, "route" if isinstance(page, RoutePage) else "blocked", page)


def _device_files(survey: Survey, theme: Theme, asked: Asked) -> dict[str, str | bytes]:
    folder = survey.guide.id
    films = dict(film_files(survey, theme)) if asked.film else {}
    has_film = f"{folder}/{film_name(None)}" in films
    scores = scores_of(survey.guide)
    page_of_device = device_page(survey, film_name(None) if has_film else "", scores)
    cards = {f"{folder}/{VERDICT}": verdict_card(survey.guide, page_of_device.figures, scores, theme)} if asked.card else {}
    files: dict[str, str | bytes] = {
        **films,
        **{f"{folder}/{name}": text for name, text in video_files(survey).items()},
        **dict(frame_files(survey, theme) if asked.frames else ()),
        **cards,
        f"{folder}/{DEVICE}": set_page(theme, "device", page_of_device),
        f"{folder}/{WORKINGS}": set_page(theme, "workings", workings_page(survey, scores)),
        f"{folder}/{WHOLE}": set_page(theme, "whole", whole_page(survey)),
        f"{folder}/{CORRECTION}": set_page(theme, "correction", correction_page(survey)),
    }
    changes = changes_page(survey)
    if changes is not None:
        files[f"{folder}/{CHANGES}"] = set_page(theme, "changes", changes)
    if len(reached_parts(survey)) > 1:
        ways = ways_of(survey)
        files[f"{folder}/{SEVERAL}"] = set_page(theme, "several", several_page(survey, ways))
        files[f"{folder}/{SEVERAL_DATA}"] = several_data(survey, ways)
    for tray, sheet in tray_pages(survey, survey.shown, None):
        files[f"{folder}/{tray}"] = set_page(theme, "tray", sheet)
    for part in survey.pages:
        way = survey.ways[part]
        if isinstance(way, Route):
            run, _ = up_to_stop(survey.guide, way.steps)
            for tray, sheet in tray_pages(survey, run, part):
                files[f"{folder}/{tray}"] = set_page(theme, "tray", sheet)
        files[f"{folder}/{route_page(part)}"] = _part_file(survey, theme, part)
    return files
