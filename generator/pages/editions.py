"""A library in each of its languages, and where the pages of a language stand in the site.

The first language is at the root; each other has a folder of its own with the same paths in it, and shares the style
sheet, the scripts, the fonts and the photos with the first.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace

from generator.orders.guide import Library
from generator.orders.translating import library_in
from generator.pages.addresses import is_web

_SOURCE = re.compile(r'(?P<before>\s(?:src|srcset)=")(?P<sources>[^"]*)')
_MEDIA = re.compile(r"(?:^|(?<=, ))media/")


def edition(library: Library, language: str) -> Library:
    """The library as the pages of one language need it; its address is that of the language's folder."""
    spoken = library_in(library, language)
    if not spoken.folder or spoken.address is None or not is_web(spoken.address):
        return spoken
    return replace(spoken, address=f"{spoken.address.rstrip('/')}/{spoken.folder}")


def editions(library: Library) -> tuple[Library, ...]:
    """One for each language, the first language first."""
    return tuple(edition(library, language) for language in library.folders)


def edition_alone(library: Library, language: str) -> Library:
    """The library as if that were its only language, so that its pages stand at the root."""
    return replace(edition(library, language), languages=(language,))


def placed(library: Library, files: Mapping[str, str | bytes]) -> dict[str, str | bytes]:
    """Files of one language by their paths in the whole site; photos are those of the first language."""
    if not library.folder:
        return dict(files)
    return {f"{library.folder}{path}": _with_shared_photos(path, data) for path, data in files.items()}


def without_folder(library: Library, paths: Iterable[str]) -> tuple[str, ...]:
    """Of the paths of a whole site those of one language, as they are within its folder."""
    others = tuple(folder for folder in library.folders.values() if folder and folder != library.folder)
    own = (path for path in paths if path.startswith(library.folder) and not path.startswith(others))
    return tuple(path.removeprefix(library.folder) for path in own)


def _with_shared_photos(path: str, data: str | bytes) -> str | bytes:
    device, slash, _ = path.partition("/")
    if not isinstance(data, str) or not path.endswith(".html") or not slash:
        return data
    media = f"../../{device}/media/"
    return _SOURCE.sub(lambda found: found["before"] + _MEDIA.sub(media, found["sources"]), data)
