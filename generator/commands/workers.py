"""Rendering devices side by side."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial

from generator.commands.photos import Photos
from generator.orders.guide import Guide, Library
from generator.pages.site import render_shared

WORTH_A_POOL = 4
"""Fewer guides than this are rendered before a second process would have started."""


def render_all(
    library: Library, guides: Sequence[Guide], theme: Mapping[str, bytes], photos: Photos, jobs: int | None
) -> dict[str, str | bytes]:
    """The whole site, path to contents; the same whatever the number of processes."""
    published = _with_guides(library, guides)
    pages: dict[str, str | bytes] = dict(render_shared(published, theme))
    workers = min(jobs or os.cpu_count() or 1, len(guides))
    render = partial(_render, published, theme)
    tasks = [(guide, photos.get(guide.id, {})) for guide in guides]
    if workers == 1 or len(guides) < WORTH_A_POOL:
        results = map(render, tasks)
        for result in results:
            pages.update(result)
        return pages
    with ProcessPoolExecutor(workers) as pool:
        for result in pool.map(render, tasks):
            pages.update(result)
    return pages
