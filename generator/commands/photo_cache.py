"""Photos that were made before, kept by what they were made of. Losing the folder costs time and nothing else.

The folder is named by PARTWAY_CACHE; else it is `partway` in the place where the system keeps such things. A file in it
bears the digest of its own contents, and one that does not match is made anew.
"""

from __future__ import annotations

import json
import os
import sys
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from generator.commands.whole_files import put
from generator.media.framing import Cut, Window
from generator.media.photos import SizedPhoto, made_by

NAMED = "PARTWAY_CACHE"
MOST = 1_000_000_000
"""Bytes that are kept; beyond that, what was used longest ago goes."""

_MAGIC = b"partway photo 1\n"
_ENDING = ".photo"
_LARGEST = 64 * 1024 * 1024  # bytes of one entry


def cache_folder() -> Path | None:
    """Where photos are kept; None where there is no such place."""
    named = os.environ.get(NAMED)
    if named:
        return Path(named)
    try:
        home = Path.home()
    except RuntimeError:
        return None
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or home / "AppData" / "Local") / "partway" / "cache"
    if sys.platform == "darwin":
        return home / "Library" / "Caches" / "partway"
    return Path(os.environ.get("XDG_CACHE_HOME") or home / ".cache") / "partway"


def key_of(data: bytes, cut: Cut | None, whole_as: str) -> str:
    """The name of an entry; whole_as: the ending of a photo that is wanted in one size, else empty."""
    about = repr((made_by(), whole_as.lower(), None if cut is None else (cut.focus, cut.closer)))
    return sha256(sha256(data).digest() + about.encode("utf-8")).hexdigest()


def kept(folder: Path | None, key: str) -> SizedPhoto | None:
    """The entry of that name; None where there is none, or none that is whole."""
    if folder is None:
        return None
    path = folder / f"{key}{_ENDING}"
    try:
        if path.stat().st_size > _LARGEST:
            return None
        raw = path.read_bytes()
        found = _read(raw)
        if found is not None:
            os.utime(path)
        return found
    except OSError:
        return None


def keep(folder: Path | None, key: str, photo: SizedPhoto) -> None:
    """Keep an entry; where the disk refuses, it is made again next time."""
    if folder is not None:
        with suppress(OSError):
            folder.mkdir(parents=True, exist_ok=True)
            put(folder / f"{key}{_ENDING}", _written(photo))


def tidy(folder: Path | None, most: int = MOST) -> None:
    """Let go of what was used longest ago until no more than `most` bytes are kept."""
    if folder is None or not folder.is_dir():
        return
    with suppress(OSError):
        known = [(path.stat().st_mtime, path.stat().st_size, path) for path in folder.glob(f"*{_ENDING}")]
        total = sum(size for _, size, _ in known)
        for _, size, path in sorted(known):
            if total <= most:
                return
            path.unlink(missing_ok=True)
            total -= size


def _written(photo: SizedPhoto) -> bytes:
    window = photo.window
    head = {
        "original": photo.original,
        "window": (window.left, window.top, window.width, window.height),
        "size": (photo.width, photo.height),
        "sizes": photo.sizes,
        "files": [(kind, width, len(data)) for kind, width, data in photo.files],
    }
    body = json.dumps(head).encode("utf-8") + b"\n" + b"".join(data for _, _, data in photo.files)
    return _MAGIC + sha256(body).hexdigest().encode("ascii") + b"\n" + body


def _read(raw: bytes) -> SizedPhoto | None:
    magic, digest, body = raw[: len(_MAGIC)], raw[len(_MAGIC) : len(_MAGIC) + 64], raw[len(_MAGIC) + 65 :]
    if magic != _MAGIC or sha256(body).hexdigest().encode("ascii") != digest:
        return None
    line, _, rest = body.partition(b"\n")
    head = json.loads(line)
    files, at = [], 0
    for kind, width, length in head["files"]:
        files.append((str(kind), int(width), rest[at : at + length]))
        at += length
    width, height = head["size"]
    original = (head["original"][0], head["original"][1])
    return SizedPhoto(original, Window(*head["window"]), width, height, tuple(head["sizes"]), tuple(files))
