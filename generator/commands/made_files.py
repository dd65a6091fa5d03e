"""A folder of files that a command made: made anew, and never written over what somebody else wrote or changed."""

from __future__ import annotations

from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

from generator.commands.folders import Unreadable
from generator.commands.site_folder import recover, replace_folder

LIST = ".partway-made"
"""What the files were made from, then one a line: the SHA-256 of its bytes and its path."""


def replace_made(target: Path, files: Mapping[str, str | bytes], what: str) -> None:
    """Make `target` hold `files` and what is somebody's own in it; the old ones stay until the new ones are whole.

    what: what they are made from, on one line. Unreadable if the folder holds other things and none of ours, ours made from
    something else, a file of ours that was changed since, or one of somebody else under a name that is needed.
    """
    raw = {path: data.encode("utf-8") if isinstance(data, str) else data for path, data in files.items()}
    try:
        if target.is_symlink():
            raise Unreadable(f"{target} is a link, so it is left alone. Name a folder with --to.")
        target = target.resolve()
        recover(target)
        kept = _kept(target, frozenset(raw), what)
        listed = "".join(f"{sha256(raw[path]).hexdigest()}  {path}\n" for path in sorted(raw))
        target.parent.mkdir(parents=True, exist_ok=True)
        replace_folder(target, {**raw, LIST: f"{what}\n{listed}"}, kept)
    except OSError as error:
        name = error.filename or target
        raise Unreadable(f"{name} cannot be written: {error.strerror}. What was there is as it was.") from error


def _kept(target: Path, needed: frozenset[str], what: str) -> tuple[str, ...]:
    """The files in `target` that are not ours to replace, by path below it."""
    if not target.exists():
        return ()
    if not target.is_dir():
        raise Unreadable(f"{target} is a file; these files need a folder. Name one with --to.")
    found = (path for path in target.rglob("*") if path.is_file() or path.is_symlink())
    present = sorted(path.relative_to(target).as_posix() for path in found)
    made = _listed(target, present, what)
    own = []
    for path in present:
        if path == LIST:
            continue
        file = target / path
        if not file.is_symlink() and made.get(path) == sha256(file.read_bytes()).hexdigest():
            continue
        if path in needed:
            was = "was changed since it was made" if path in made else "was not made by this command"
            raise Unreadable(f"{file} {was} and would be lost. Move it away first, or name another folder with --to.")
        own.append(path)
    return tuple(own)


def _listed(target: Path, present: list[str], what: str) -> dict[str, str]:
    """Path to digest of what was made before."""
    if LIST not in present:
        if present:
            raise Unreadable(
                f"{target} holds files that this command did not make, such as {present[0]}. Name an empty folder with --to."
            )
        return {}
    first, *lines = (target / LIST).read_text("utf-8", errors="replace").splitlines() or [""]
    if first != what:
        raise Unreadable(f"{target} holds what was made from {first}, not from {what}. Name another folder with --to.")
    return {path: digest for digest, _, path in (line.partition("  ") for line in lines)}
