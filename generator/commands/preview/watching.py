"""Watching a content folder: what is saved is read again at once."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from watchfiles import Change, DefaultFilter
from watchfiles import watch as changes

from generator.commands.preview.shelf import Shelf

SETTLE = 40
"""Milliseconds in which changes are taken together: an editor that saves often writes, renames and deletes in one go."""


@contextmanager
def watch(root: Path, shelf: Shelf) -> Iterator[None]:
    """Keeps `shelf` as the files below `root` are, for as long as the block lasts."""
    stop = threading.Event()

    def follow() -> None:
        for found in changes(root, watch_filter=_Authored(), debounce=SETTLE, step=10, stop_event=stop, rust_timeout=200):
            shelf.read(Path(path) for _, path in found)

    thread = threading.Thread(target=follow, name="watching", daemon=True)
    thread.start()
    try:
        yield
    finally:
        stop.set()
        thread.join(timeout=5)


class _Authored(DefaultFilter):
    """What authors write: no hidden files, and none of the copies that editors keep beside."""

    def __call__(self, change: Change, path: str) -> bool:
        name = Path(path).name
        return not name.startswith(".") and not name.endswith("~") and super().__call__(change, path)
