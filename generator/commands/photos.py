"""Photos that a guide shows: read from disk, made fit for pages side by side, and laid beside the pages."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from html import unescape
from pathlib import Path

import click

from generator.commands.photo_cache import cache_folder, keep, kept, key_of, tidy
from generator.handover.addresses import target_of
from generator.media.framing import Cut, Window
from generator.media.photos import KINDS, SizedPhoto, page_photo, sized_photo
from generator.media.unusable import Unusable
from generator.orders.guide import Guide, Library
from generator.orders.work import Photo
from generator.pages.editions import editions
from generator.pages.photos import MEDIA, photo_files, photo_views, unseen_marks
from generator.pages.site import Photos
from generator.source.pictures import FILE_LIMIT
from generator.source.prose import Prose

_SOURCES = re.compile(r'\s(?:src|srcset|href)="([^"]*media/[^"]*)"')
WORTH_A_POOL = 2
"""Fewer photos than this are made before a second process would have started."""


@dataclass
class ReadyPhotos:
    """What was made of the photos of a library.

    views: by device, after the folder of the language if it has one, and by step. files: by path in the site. unusable:
    per device, sentences about what cannot be shown. notes: sentences about what is shown otherwise than its author may
    think.
    """

    views: dict[str, Photos] = field(default_factory=dict)
    files: dict[str, bytes] = field(default_factory=dict)
    unusable: dict[str, list[str]] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Task:
    """A photo to be made; file: below the content folder `root`.

    whole_as: the ending under which it is wanted whole and in one size; empty for all sizes.
    """

    root: Path
    file: str
    cut: Cut | None
    whole_as: str = ""


Made = SizedPhoto | Unusable


def photos_of(root: Path, library: Library, jobs: int | None = None) -> ReadyPhotos:
    """Every picture that a step or its prose shows; one that is missing is left to the rule `media/missing`.

    jobs: processes to use; the result is the same whatever their number. How far it is, is told on a terminal only.
    """
    ready = ReadyPhotos()
    by_step = {guide.id: _of_steps(root, guide) for guide in library.guides}
    in_prose = {guide.id: _of_prose(root, guide) for guide in library.guides}
    tasks = [task for steps in by_step.values() for task in steps.values()]
    tasks += [task for prose in in_prose.values() for task in prose.values()]
    made = _all_made(list(dict.fromkeys(tasks)), jobs)
    for guide in library.guides:
        found: dict[Photo, SizedPhoto] = {}
        for photo, task in by_step[guide.id].items():
            result = made[task]
            if isinstance(result, Unusable):
                _refuse(ready, guide, photo.file, result)
                continue
            found[photo] = result
            ready.files.update((f"{guide.id}/{MEDIA}/{n}", data) for n, data in photo_files(photo, result).items())
            for mark in unseen_marks(photo, result):
                where = f"[{mark.x:g}, {mark.y:g}]"
                ready.notes.append(f"{photo.place}: the mark at {where} lies beyond what is shown round `focus`: left out.")
        for name, task in in_prose[guide.id].items():
            result = made[task]
            if isinstance(result, Unusable):
                _refuse(ready, guide, name, result)
            else:
                ready.files[f"{guide.id}/{MEDIA}/{name}"] = result.files[0][2]
        ready.views[guide.id] = {step.id: photo_views(guide, step, found) for step in guide.steps}
        for spoken in editions(replace(library, guides=(guide,)))[1:]:
            ready.views[f"{spoken.folder}{guide.id}"] = _views_in(guide, spoken.guides[0], found)
    return ready


def _views_in(guide: Guide, translated: Guide, found: Mapping[Photo, SizedPhoto]) -> Photos:
    """The same photos with the words of a translation."""
    pairs = [
        (other, found[photo])
        for step, said in zip(guide.steps, translated.steps, strict=True)
        for photo, other in zip(step.photos, said.photos, strict=True)
        if photo in found
    ]
    return {step.id: photo_views(translated, step, dict(pairs)) for step in translated.steps}


def shown_files(ready: ReadyPhotos, pages: Mapping[str, str | bytes]) -> dict[str, bytes]:
    """The files that some page shows: a photo of a step that no page has, behind a stop say, stays at home."""
    shown: set[str] = set()
    for path, page in pages.items():
        if isinstance(page, str) and path.endswith(".html"):
            for attribute in _SOURCES.findall(page):
                targets = (target_of(path, unescape(entry).split(" ")[0]) for entry in attribute.split(", "))
                shown.update(target[0] for target in targets if target is not None)
    return {path: data for path, data in ready.files.items() if path in shown}


def _refuse(ready: ReadyPhotos, guide: Guide, name: str, why: Unusable) -> None:
    sentence = f"{guide.id}/{MEDIA}/{name} {why.reason}. {why.mend}"
    told = ready.unusable.setdefault(guide.id, [])
    if sentence not in told:
        told.append(sentence)


def _shown(guide: Guide) -> set[str]:
    """What lies there; what cannot be shown by its head is left to the rule `media/unusable`."""
    return {media.path for media in guide.media if media.refusal is None}


def _of_steps(root: Path, guide: Guide) -> dict[Photo, Task]:
    there = _shown(guide)
    return {
        photo: Task(root, f"{guide.id}/{MEDIA}/{photo.file}", Cut(photo.focus, photo.closer) if photo.focus else None)
        for step in guide.steps
        for photo in step.photos
        if photo.file in there
    }


def _of_prose(root: Path, guide: Guide) -> dict[str, Task]:
    there = _shown(guide)
    proses: list[Prose | None] = [prose for step in guide.steps for prose in (step.body, step.refitting)]
    proses += [note.prose for note in guide.notes]
    names = [picture.path.removeprefix(f"{MEDIA}/") for prose in proses for picture in (prose.pictures if prose else ())]
    return {
        name: Task(root, f"{guide.id}/{MEDIA}/{name}", None, Path(name).suffix or ".") for name in names if name in there
    }


def _all_made(tasks: Sequence[Task], jobs: int | None) -> dict[Task, Made]:
    """What was kept is taken as it is; the rest is made, in other processes where that is worth it."""
    folder = cache_folder()
    made: dict[Task, Made] = {}
    for task in tasks:
        data = _data_of(task)
        found = data if isinstance(data, Unusable) else kept(folder, key_of(data, task.cut, task.whole_as))
        if found is not None:
            made[task] = found
    waiting = [task for task in tasks if task not in made]
    with _progress(len(waiting)) as told:
        for task, result, key in _work(waiting, jobs):
            made[task] = result
            if isinstance(result, SizedPhoto):
                keep(folder, key, result)
            told()
    if waiting:
        tidy(folder)
    return made


def _work(tasks: Sequence[Task], jobs: int | None) -> Iterator[tuple[Task, Made, str]]:
    workers = min(jobs or os.cpu_count() or 1, len(tasks))
    if workers < 2 or len(tasks) < WORTH_A_POOL:
        for task in tasks:
            yield task, *_make(task)
        return
    with ProcessPoolExecutor(workers) as pool:
        futures = {pool.submit(_make, task): task for task in tasks}
        for future in as_completed(futures):
            try:
                yield futures[future], *future.result()
            except BrokenProcessPool:
                # One photo brought its process down, and with it the others' turn: each alone tells which it was.
                yield futures[future], *_made_alone(futures[future])


def _made_alone(task: Task) -> tuple[Made, str]:
    with ProcessPoolExecutor(1) as pool:
        try:
            return pool.submit(_make, task).result()
        except BrokenProcessPool:
            return Unusable("brings down the program that opens it", "Save it anew with another program."), ""


def _make(task: Task) -> tuple[Made, str]:
    """What becomes of a photo, and the name under which it can be kept."""
    data = _data_of(task)
    if isinstance(data, Unusable):
        return data, ""
    key = key_of(data, task.cut, task.whole_as)
    if not task.whole_as:
        return sized_photo(data, Path(task.file).suffix, task.cut), key
    whole = page_photo(data, task.whole_as)
    if isinstance(whole, Unusable):
        return whole, key
    size = (whole.width, whole.height)
    files = ((KINDS[task.whole_as.lower()], whole.width, whole.data),)
    return SizedPhoto(size, Window(0, 0, *size), *size, (whole.width,), files), key


def _data_of(task: Task) -> bytes | Unusable:
    try:
        file = (task.root / task.file).resolve()
        if not file.is_relative_to(task.root.resolve()):
            return Unusable("leads out of the content folder", "Put the file itself there.")
        if not file.is_file():
            return Unusable("is no plain file")
        if file.stat().st_size > FILE_LIMIT:
            return Unusable(f"is larger than {FILE_LIMIT // 1024 // 1024} MB", "Make it smaller.")
        return file.read_bytes()
    except OSError as error:
        return Unusable(f"cannot be read: {error.strerror or 'no reason given'}")


@contextmanager
def _progress(count: int) -> Iterator[Callable[[], None]]:
    """A line on the terminal that says how many photos are made; nothing where errors go to no terminal."""
    if not count or not sys.stderr.isatty():
        yield lambda: None
        return
    with click.progressbar(length=count, label="Photos", file=sys.stderr, show_eta=False, show_pos=True) as bar:
        yield lambda: bar.update(1)
