"""A state of a library: a folder on the disk, or the content of a revision taken out of the repository."""

from __future__ import annotations

import hashlib
import os
import subprocess
import tarfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

from generator.commands.folders import Unreadable
from generator.source.characters import shown

LARGEST_ARCHIVE = 1 << 30
"""Bytes of a revision's content folder, beyond which it is not taken out: 1 GiB."""

SHARED = ""
"""The name under which the files above the devices stand in `digests`."""


@contextmanager
def state_of(named: str, content: str) -> Iterator[Path]:
    """The folder that `named` stands for: itself if there is such a folder, else `content` as it was at that revision.

    `REVISION:FOLDER` names another folder of the repository. Unreadable where there is neither.
    """
    if named and Path(named).is_dir():
        yield Path(named)
        return
    revision, _, folder = named.partition(":")
    with TemporaryDirectory(prefix="partway-") as kept:
        yield _taken_out(revision, folder or content, Path(kept))


def _taken_out(revision: str, folder: str, to: Path) -> Path:
    """Unpack `folder` of `revision` below `to`; where the folder itself then lies."""
    if revision.startswith("-") or not revision:
        raise Unreadable(f'There is no folder "{shown(revision)}", and a revision cannot be called that.')
    said = _git("rev-parse", "--show-toplevel")
    if said is None:
        raise Unreadable(f'There is no folder "{shown(revision)}", and no repository here that could have such a revision.')
    top = os.fsdecode(said).rstrip("\n")
    found = _git("rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}")
    if not found:
        raise Unreadable(
            f'"{shown(revision)}" is neither a folder nor a revision of the repository here. '
            "`git log --oneline` lists the revisions."
        )
    inside = os.path.relpath(os.path.realpath(folder), os.path.realpath(top)).replace(os.sep, "/")
    if inside.startswith("../") or inside == "..":
        raise Unreadable(f"The folder {shown(folder)} lies outside the repository, so no revision of it is known.")
    commit = found.decode("ascii", "replace").strip()
    packed = _git("-C", top, "archive", "--format=tar", commit, *([] if inside == "." else [inside]))
    if packed is None:
        raise Unreadable(f'The revision "{shown(revision)}" has no folder {shown(inside)}.')
    if len(packed) > LARGEST_ARCHIVE:
        raise Unreadable(f"The content of {shown(revision)} is larger than 1 GiB.")
    with tarfile.open(fileobj=BytesIO(packed)) as archive:
        archive.extractall(to, filter=_within)
    return to if inside == "." else to / inside


def _within(member: tarfile.TarInfo, to: str) -> tarfile.TarInfo | None:
    """Plain files and folders; what is refused (a link that leads out, a device) is left out, as when guides are read."""
    try:
        return tarfile.data_filter(member, to)
    except tarfile.FilterError:
        return None


def _git(*arguments: str) -> bytes | None:
    """What git says; None where it refuses."""
    try:
        done = subprocess.run(["git", *arguments], capture_output=True, check=False)
    except FileNotFoundError:
        raise Unreadable("Revisions are read with git, and there is no git here. Give two folders.") from None
    return done.stdout if done.returncode == 0 else None


def digests(root: Path) -> Mapping[str, Mapping[str, str]]:
    """The bytes of every file below `root` as digests: by device, then by path from its folder; SHARED for those above.

    Hidden files are left out, links are not followed, as when guides are read.
    """
    found: dict[str, dict[str, str]] = {SHARED: {}}
    for folder, below, files in os.walk(root):
        below[:] = sorted(name for name in below if not name.startswith("."))
        inside = os.path.relpath(folder, root).replace(os.sep, "/")
        device, _, rest = ("" if inside == "." else inside).partition("/")
        for name in sorted(files):
            path = Path(folder) / name
            if name.startswith("."):
                continue
            key = f"{rest}/{name}" if rest else name
            found.setdefault(device, {})[key] = _digest(path)
    return found


def _digest(path: Path) -> str:
    if path.is_symlink():
        return f"link to {path.readlink()}"
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError as error:
        return f"unreadable: {error.strerror}"
