"""What a preview shows: the library as it was last read, its findings, and the last pages that could be made."""

from __future__ import annotations

import threading
from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path

from generator.commands.photos import ReadyPhotos, photos_of
from generator.orders.guide import Guide, Library
from generator.orders.reading import read_guides
from generator.pages.site import one_page, render_device, render_shared
from generator.pages.survey import Survey, survey_of
from generator.pages.theme import Theme, shared_files
from generator.rules import findings_of_everything
from generator.rules.finding import Reported
from generator.source.files import NoContent
from generator.source.reading import read_library


@dataclass(frozen=True, slots=True)
class Shown:
    """A page or another file of the site. device: whose it is, empty for a shared one; is_old: not of the last reading."""

    data: str | bytes
    device: str
    is_old: bool


class Shelf:
    """The state of one preview. Reading and rendering happen one at a time; `changed` wakes whoever waits for a change."""

    def __init__(self, root: Path, theme: Theme) -> None:
        self.root = root
        self.theme = theme
        self.changed = threading.Condition()
        self.version = 0
        self._lock = threading.Lock()
        self._library: Library | None = None
        self._findings: tuple[Reported, ...] = ()
        self._surveys: dict[str, Survey] = {}
        self._whole: dict[str, Survey] = {}
        self._pages: dict[str, Shown] = {}
        self._photos: dict[str, ReadyPhotos] = {}
        self.trouble = ""
        self.read()

    # --- reading -----------------------------------------------------------------------------------------------------

    def read(self, paths: Iterable[Path] | None = None) -> None:
        """Read what changed: the devices below whose folders `paths` lie, or everything if any lies elsewhere."""
        with self._lock:
            devices = None if paths is None or self._library is None else self._devices_of(paths)
            try:
                if devices is None:
                    self._library = read_guides(read_library(self.root))
                else:
                    self._library = self._with(self._library, sorted(devices))
                self.trouble = ""
            except (NoContent, OSError) as error:
                self.trouble = str(error)
            self._settle(devices)
        with self.changed:
            self.version += 1
            self.changed.notify_all()

    def _devices_of(self, paths: Iterable[Path]) -> set[str] | None:
        """The devices that are concerned; None where it may be all of them."""
        known = {guide.id for guide in self._library.guides} if self._library is not None else set()
        found = set()
        for path in paths:
            try:
                first, *rest = path.resolve().relative_to(self.root.resolve()).parts
            except ValueError:
                return None
            if not rest or first not in known:
                return None
            found.add(first)
        return found

    def _with(self, library: Library | None, devices: list[str]) -> Library:
        assert library is not None
        for name in devices:
            read = read_guides(read_library(self.root, name))
            guides = tuple(read.guides[0] if guide.id == name else guide for guide in library.guides)
            kept = {file: text for file, text in library.texts.items() if not file.startswith(f"{name}/")}
            library = replace(library, guides=guides, texts={**kept, **read.texts})
        return library

    def _settle(self, devices: set[str] | None) -> None:
        """Judge anew, and forget what was made of what changed; a guide that can be shown replaces the last that could."""
        library = self._library
        if library is None:
            return
        self._findings = findings_of_everything(library)
        self._pages = {
            path: shown for path, shown in self._pages.items() if devices is not None and shown.device not in {*devices, ""}
        }
        for guide in library.guides:
            if devices is None or guide.id in devices:
                self._surveys.pop(guide.id, None)
                self._photos.pop(guide.id, None)
        there = {guide.id for guide in library.guides}
        self._whole = {name: survey for name, survey in self._whole.items() if name in there}

    # --- showing -----------------------------------------------------------------------------------------------------

    def findings(self, device: str) -> tuple[Reported, ...]:
        """What there is to say about a device; of the shared files and of all devices for a shared page."""
        return tuple(found for found in self._findings if not device or found.device in (device, ""))

    def file_of(self, name: str) -> Path | None:
        """A file that was read, by its path from the content folder."""
        if self._library is None or name not in self._library.texts:
            return None
        return self.root / name

    def show(self, path: str) -> Shown | None:
        """What stands at `path` of the site; None where there is nothing."""
        with self._lock:
            if path not in self._pages:
                shown = self._made(path)
                if shown is None:
                    return None
                self._pages[path] = shown
            return self._pages[path]

    def _made(self, path: str) -> Shown | None:
        library = self._library
        if library is None:
            return None
        folder, _, name = path.partition("/")
        guide = next((guide for guide in library.guides if guide.id == folder), None)
        if guide is None:
            files = shared_files(self.theme)
            data = files[path] if path in files else render_shared(library, self.theme).get(path)
            return Shown(data, "", False) if data is not None else None
        survey, is_old = self._survey(library, guide)
        if survey is None:
            return None
        ready = self._photos.get(guide.id)
        picture = ready.files.get(path) if ready is not None else None
        page = picture if picture is not None else one_page(survey, self.theme, name)
        if page is None:
            page = render_device(library, survey.guide, self.theme, survey.photos).get(path)
        return Shown(page, guide.id, is_old) if page is not None else None

    def _survey(self, library: Library, guide: Guide) -> tuple[Survey | None, bool]:
        """The device worked out; where it cannot be read as it is now, the last that could, and True."""
        if not guide.is_complete:
            return self._whole.get(guide.id), True
        if guide.id not in self._surveys:
            ready = photos_of(self.root, replace(library, guides=(guide,)))
            self._photos[guide.id] = ready
            self._surveys[guide.id] = survey_of(library, guide, ready.views.get(guide.id))
            self._whole[guide.id] = self._surveys[guide.id]
        return self._surveys[guide.id], False
