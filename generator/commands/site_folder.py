"""Writing a site: beside the old one first, then swapped in, so that what is on disk is always one whole site."""

from __future__ import annotations

import shutil
from collections.abc import Iterable, Mapping
from pathlib import Path

from generator.commands.folders import Unreadable

MANIFEST = ".partway"
"""Lists what a build wrote, one path a line; all else in the folder is somebody's own and is kept."""

OWN = ("README", "README.md", "README.txt", ".gitignore", ".nojekyll", "CNAME")
"""What may stand in a folder that no build has written yet."""


def replace_site(target: Path, pages: Mapping[str, str | bytes]) -> None:
    """Make `target` hold `pages` and the files in it that no build wrote; the old site stays until the new one is whole.

    Unreadable if the folder holds other things and no build has written to it, or if the disk refuses.
    """
    try:
        target = target.resolve()
        recover(target)
        kept = _kept_files(target)
        clashes = sorted(set(kept) & set(pages))
        if clashes:
            raise Unreadable(f"{target / clashes[0]} was not written by a build and would be lost. Move it away first.")
        replace_folder(target, {**pages, MANIFEST: _manifest(pages)}, kept)
    except OSError as error:
        name = error.filename or target
        raise Unreadable(f"{name} cannot be written: {error.strerror}. The old site is as it was.") from error


def replace_folder(target: Path, files: Mapping[str, str | bytes], kept: Iterable[str]) -> None:
    """Make `target` hold `files` and those of its own that are `kept`, by path; OSError leaves it as it was."""
    staged = _beside(target, "new")
    _refuse_foreign(_beside(target, "old"))
    _remove(staged)
    try:
        for path in sorted(files):
            data = files[path]
            _put(staged / path, data.encode("utf-8") if isinstance(data, str) else data)
        for path in kept:
            _copy(target / path, staged / path)
    except OSError:
        _remove(staged)
        raise
    _swap(target, staged)


def recover(target: Path) -> None:
    """Put the old folder back where the machine died between the two renames."""
    old = _beside(target, "old")
    if old.is_dir() and not target.exists():
        _refuse_foreign(old)
        old.replace(target)


def _refuse_foreign(folder: Path) -> None:
    """What stands under the name of the old files is removed or put back only where we made it, which its list tells."""
    names = [path.name for path in folder.iterdir()] if folder.is_dir() else []
    if names and not any(name.startswith(".partway") for name in names):
        raise Unreadable(f"{folder} stands where the old files go for a moment, and was not made here. Move it away.")


def _kept_files(target: Path) -> tuple[str, ...]:
    if not target.exists():
        return ()
    if not target.is_dir():
        raise Unreadable(f"{target} is a file; a site needs a folder.")
    present = sorted(p.relative_to(target).as_posix() for p in target.rglob("*") if p.is_file() or p.is_symlink())
    manifest = target / MANIFEST
    if not manifest.is_file():
        foreign = [path for path in present if path not in OWN]
        if foreign:
            raise Unreadable(
                f"{target} holds files that no build wrote, such as {foreign[0]}. Name an empty folder with --to."
            )
        return tuple(present)
    written = set(manifest.read_text("utf-8", errors="replace").splitlines()) | {MANIFEST}
    return tuple(path for path in present if path not in written)



def _manifest(paths: Iterable[str]) -> str:
    return "".join(f"{path}\n" for path in sorted(paths))


def _put(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)


def _copy(source: Path, target: Path) -> None:
    target.parent.mkdir(parents=True, exist_ok=True)
    shutil.copy2(source, target, follow_symlinks=False)


def _beside(target: Path, what: str) -> Path:
    return target.parent / f".{target.name}-{what}"


def _swap(target: Path, staged: Path) -> None:
    """Two renames; should the machine die between them, the next build finds the old site and puts it back."""
    old = _beside(target, "old")
    _remove(old)
    if target.exists():
        target.replace(old)
    staged.replace(target)
    _remove(old)



def _remove(folder: Path) -> None:
    if folder.is_dir() and not folder.is_symlink():
        shutil.rmtree(folder)
