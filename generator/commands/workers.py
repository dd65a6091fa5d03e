"""Rendering devices side by side."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from functools import partial

from generator.orders.guide import Guide, Library
from generator.pages.compare import Compared
from generator.pages.editions import editions
from generator.pages.moving import Asked
from generator.pages.site import NOTHING_ELSE, Photos, render_compared, render_published, render_shared
from generator.pages.spares import Spares, spares_of
from generator.pages.theme import Theme

WORTH_A_POOL = 4
"""Fewer guides than this are rendered before a second process would have started."""


def render_all(
    library: Library,
    guides: Sequence[Guide],
    theme: Theme,
    photos: Mapping[str, Photos],
    jobs: int | None,
    asked: Asked = NOTHING_ELSE,
) -> dict[str, str | bytes]:
    """The whole site of `guides`, path to contents; the same whatever the number of processes. asked: further pictures."""
    published = replace(library, guides=tuple(guides))
    pages: dict[str, str | bytes] = {}
    workers = min(jobs or os.cpu_count() or 1, len(guides))
    for spoken in editions(published):
        tasks = [(guide, photos.get(f"{spoken.folder}{guide.id}")) for guide in spoken.guides]
        render = partial(_render, replace(spoken, guides=(), texts={}, translations=()), theme, asked, spares_of(spoken))
        if workers == 1 or len(guides) < WORTH_A_POOL:
            rendered = [render(task) for task in tasks]
        else:
            with ProcessPoolExecutor(workers) as pool:
                rendered = list(pool.map(render, tasks))
        for own, _ in rendered:
            pages.update(own)
        pages.update(render_shared(spoken, theme, [line for _, line in rendered]))
    return render_published(published, theme, pages)


def _render(
    library: Library, theme: Theme, asked: Asked, spares: Spares, task: tuple[Guide, Photos | None]
) -> tuple[Mapping[str, str | bytes], Compared]:
    return render_compared(library, task[0], theme, task[1], asked, spares)
