"""Writing files so that what stands under a name is always whole: the old file, or the new one."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path


def put(path: Path, data: bytes) -> None:
    """Write beside and rename. OSError where that cannot be done; then nothing has changed."""
    beside = _beside(path, data)
    try:
        beside.chmod(path.stat().st_mode & 0o777 if path.exists() else 0o644)
        beside.replace(path)
    except OSError:
        beside.unlink(missing_ok=True)
        raise


def put_new(path: Path, data: bytes) -> None:
    """Write a file that is not there yet. FileExistsError where something has that name, whoever made it and when."""
    beside = _beside(path, data)
    try:
        beside.chmod(0o644)
        try:
            os.link(beside, path)
        except FileExistsError:
            raise
        except OSError:  # a disk without hard links: claim the name first, then fill it
            os.close(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o644))
            beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)


def _beside(path: Path, data: bytes) -> Path:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name[:80]}-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
    except OSError:
        Path(name).unlink(missing_ok=True)
        raise
    return Path(name)
