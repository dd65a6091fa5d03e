"""Rendering devices side by side."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from functools import partial

from generator.orders.guide import Guide, Library
from generator.pages.site import Photos, render_device, render_shared
from generator.pages.theme import Theme

WORTH_A_POOL = 4
"""Fewer guides than this are rendered before a second process would have started."""


def render_all(
    library: Library, guides: Sequence[Guide], theme: Theme, photos: Mapping[str, Photos], jobs: int | None
) -> dict[str, str | bytes]:
    """The whole site of `guides`, path to contents; the same whatever the number of processes."""
    published = replace(library, guides=tuple(guides))
    pages: dict[str, str | bytes] = dict(render_shared(published, theme))
    tasks = [(guide, photos.get(guide.id)) for guide in guides]
    render = partial(_render, replace(published, guides=(), texts={}), theme)
    workers = min(jobs or os.cpu_count() or 1, len(guides))
    if workers == 1 or len(guides) < WORTH_A_POOL:
        for task in tasks:
            pages.update(render(task))
        return pages
    with ProcessPoolExecutor(workers) as pool:
        for rendered in pool.map(render, tasks):
            pages.update(rendered)
    return pages


def _render(library: Library, theme: Theme, task: tuple[Guide, Photos | None]) -> Mapping[str, str | bytes]:
    return render_device(library, task[0], theme, task[1])
