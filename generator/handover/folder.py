"""A device's pages as a zip of a folder that opens anywhere: pages, style, fonts, tools and safety, and nothing else."""

from __future__ import annotations

import re
from collections.abc import Mapping

from generator.handover.addresses import leaving, target_of
from generator.handover.archive import archive_of
from generator.handover.marks import mark_of
from generator.handover.markup import Tag, single_picture, with_tags
from generator.pages.addresses import LIBRARY
from generator.pages.theme import STYLE

Files = Mapping[str, str | bytes]

NOT_FOR_A_FOLDER = (".zip", ".xml", ".webmanifest", "worker.js", "404.html")
"""What only a served site can use: other packs, feeds and site maps, and what installs it."""

_SHARED = ("fonts/", "scripts/")
_ADDRESSES = re.compile(r'\s(?:xlink:)?(?:href|src)="([^"]*)"')
_LOADED = {"link", "script", "img", "source", "image"}


def folder_pack(files: Files, device: str, address: str | None, folder: str = "") -> bytes:
    """The zip. files: the site of a library that has this device only, by path; address: of the published library; folder:
    that of the language whose pages are packed, with a slash at its end.

    Links that leave the pack lead to the library, or are plain text where it has no address.
    """
    kept = folder_files(files, device, address, folder)
    return archive_of(((f"{device}-guide/{path}", kept[path]) for path in sorted(kept)), mark_of(device))


def folder_files(files: Files, device: str, address: str | None, folder: str = "") -> dict[str, str | bytes]:
    """The files of the pack by their path below its folder."""
    names = _gathered(files, device, folder)
    kept: dict[str, str | bytes] = {}
    for path in names:
        data = files[path]
        kept[path] = _inward(path, data, names, address) if isinstance(data, str) and path.endswith(".html") else data
    return kept


def _gathered(files: Files, device: str, folder: str) -> frozenset[str]:
    """What the pages need, and the pages that they lead to."""
    fit = frozenset(path for path in files if not path.endswith(NOT_FOR_A_FOLDER))
    above = {path for path in fit if path.startswith(_SHARED) or path == STYLE}
    own = {path for path in fit if path.startswith(f"{folder}{device}/") and path.endswith(".html")}
    names = own | above | ({f"{folder}{LIBRARY}"} & fit)
    waiting = sorted(name for name in names if name.endswith(".html"))
    while waiting:
        path = waiting.pop()
        for target in _targets(path, files[path]) & fit - names:
            names.add(target)
            waiting.append(target)
    return frozenset(names)


def _targets(path: str, data: str | bytes) -> set[str]:
    if not isinstance(data, str):
        return set()
    found = (target_of(path, address) for address in _ADDRESSES.findall(data))
    return {target[0] for target in found if target}


def _inward(path: str, html: str, names: frozenset[str], address: str | None) -> str:
    """The page with links that leave the pack turned outwards or into text."""
    if _targets(path, html) <= names and " srcset=" not in html:
        return html

    def change(each: Tag) -> Tag | None:
        tag = single_picture(each)
        if tag is None:
            return None
        where = tag.get("src") or tag.get("href")
        target = target_of(path, where) if where else None
        if target is None or target[0] in names:
            return tag
        if tag.name == "a":
            return leaving(tag, address, *target)
        return None if tag.name in _LOADED else tag

    return with_tags(html, change)
