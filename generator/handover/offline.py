"""The offline copy that lies beside each guide of a site, and the line on the device's page that leads to it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from generator.handover.folder import folder_pack
from generator.languages import in_digits, speaking
from generator.orders.guide import Guide, Library
from generator.pages.addresses import DEVICE, LIBRARY
from generator.pages.editions import editions
from generator.pages.site import render_shared
from generator.pages.theme import Theme, set_page, shared_files

SLOT = "<!-- offline copy -->"
"""Where the theme wants the line on a device's page."""


@dataclass(frozen=True, slots=True)
class OfflineView:
    """start: the page in the pack to begin with."""

    href: str
    size: str
    start: str


def with_offline_copies(
    files: Mapping[str, str | bytes], library: Library, guides: Sequence[Guide], theme: Theme
) -> dict[str, str | bytes]:
    """The site with a zip beside each guide, `<device>/<device>.zip`, linked from the device's page with its size.

    The copy has the pages of that device as they are without the line, and an index with nothing else in it.
    """
    copied = dict(files)
    shared = shared_files(theme)
    for spoken in editions(replace(library, guides=tuple(guides))):
        for guide in spoken.guides:
            alone = {**shared, **render_shared(replace(spoken, guides=(guide,)), theme)}
            folder = f"{spoken.folder}{guide.id}"
            own = {path: data for path, data in files.items() if path.startswith((f"{folder}/", f"{guide.id}/media/"))}
            pack = folder_pack({**alone, **own}, guide.id, library.address, spoken.folder)
            name, page = f"{guide.id}.zip", f"{folder}/{DEVICE}"
            copied[f"{folder}/{name}"] = pack
            text = files[page]
            if isinstance(text, str):
                with speaking(spoken.language):
                    view = OfflineView(name, size_in_words(len(pack)), f"{spoken.folder}{LIBRARY}")
                    line = set_page(theme, "offline", view)
                copied[page] = text.replace(SLOT, line.strip())
    return copied


def size_in_words(count: int) -> str:
    """So many bytes as a reader says it, in powers of ten (IEC 80000-13).

    >>> size_in_words(799958), size_in_words(4046542), size_in_words(3)
    ('800 kB', '4.0 MB', '1 kB')
    """
    return f"{max(1, round(count / 1000))} kB" if count < 999_500 else f"{in_digits(f'{count / 1_000_000:.1f}')} MB"
