"""Reading below one folder and nowhere else, and never more than fits: files as text, folders as sorted names."""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from generator.source.characters import BAD_IN_TEXT, shown, unseen_character, with_plain_line_ends
from generator.source.faults import BadPath, BrokenYaml, Fault, MissingFile, TooBig, UnreadableFile
from generator.source.places import Place

LARGEST_FILE = 1 << 20  # bytes: 1 MiB
MOST_ENTRIES = 20_000  # in one folder

_BAD_IN_NAME = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff\\\\]")


_UNSAVED: ContextVar[Mapping[str, str]] = ContextVar("unsaved", default=MappingProxyType({}))


@contextmanager
def instead_of(texts: Mapping[Path, str]) -> Iterator[None]:
    """For as long as the block lasts these texts are read where the files of these paths would be: what an editor holds."""
    token = _UNSAVED.set({os.path.realpath(path): text for path, text in texts.items()})
    try:
        yield
    finally:
        _UNSAVED.reset(token)


class NoContent(Exception):
    """There is nothing to read; the message says what was looked for and where."""


@dataclass(frozen=True, slots=True)
class TextFile:
    """path from the content folder, with forward slashes; text with `\\n` as its only line end."""

    path: str
    text: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Listing:
    """What lies in one folder, each in the order of its names; files with their size in bytes. Hidden names are left out."""

    folders: tuple[str, ...]
    files: tuple[tuple[str, int], ...]
    faults: tuple[Fault, ...] = ()


def read_text(root: Path, relative: str) -> TextFile | Fault:
    """One text file below `root`; a fault where it is not there, not a plain file, too big or no UTF-8 text.

    A link is followed as long as it ends below `root`. Never raises for what lies on the disk.
    """
    place = Place(relative)
    path = root / relative
    if not _is_confined(root, path):
        return BadPath(place, shown(relative), "it is a link that leaves the content folder")
    try:
        held = _UNSAVED.get()
        unsaved = held.get(os.path.realpath(path)) if held else None
        data = _read_plain(path) if unsaved is None else unsaved.encode("utf-8", "surrogatepass")
    except FileNotFoundError:
        is_link = path.is_symlink()
        return UnreadableFile(place, relative, "it is a link to nothing") if is_link else MissingFile(place, relative)
    except OSError as error:
        return UnreadableFile(place, relative, _reason(error))
    if data is None:
        return UnreadableFile(place, relative, "it is no plain file")
    if len(data) > LARGEST_FILE:
        return TooBig(place, "file", "1 MiB")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return _undecodable(data, error, relative)
    text = with_plain_line_ends(text)
    unseen = unseen_character(text, relative, 1, BAD_IN_TEXT)
    return unseen if unseen is not None else TextFile(relative, text, tuple(text.split("\n")))


def list_folder(root: Path, relative: str) -> Listing:
    """The names in a folder below `root`; an empty listing where there is none. relative: "" for `root` itself."""
    folder = root / relative if relative else root
    if not os.path.lexists(folder):
        return Listing((), ())
    if not _is_confined(root, folder):
        reason = "it is a link that leaves the content folder"
        return Listing((), (), (BadPath(Place(relative), shown(relative), reason),))
    folders: list[str] = []
    files: list[tuple[str, int]] = []
    faults: list[Fault] = []
    try:
        with os.scandir(folder) as entries:
            found = sorted(entries, key=lambda entry: entry.name)
    except OSError as error:
        return Listing((), (), (UnreadableFile(Place(relative), relative, _reason(error)),))
    visible = [entry for entry in found if not entry.name.startswith(".")]
    if len(visible) > MOST_ENTRIES:
        faults.append(TooBig(Place(relative), "number of files in a folder", f"{MOST_ENTRIES}"))
    for entry in visible[:MOST_ENTRIES]:
        name = f"{relative}/{shown(entry.name)}" if relative else shown(entry.name)
        try:
            refusal = _refusal(root, entry)
            if refusal is not None:
                faults.append(BadPath(Place(name), name, refusal))
            elif entry.is_dir():
                folders.append(entry.name)
            elif entry.is_file():
                files.append((entry.name, entry.stat().st_size))
            else:
                kind = "a link to nothing" if entry.is_symlink() else "no plain file"
                faults.append(UnreadableFile(Place(name), name, f"it is {kind}"))
        except OSError as error:
            faults.append(UnreadableFile(Place(name), name, _reason(error)))
    return Listing(tuple(folders), tuple(files), tuple(faults))


def _refusal(root: Path, entry: os.DirEntry[str]) -> str | None:
    if _BAD_IN_NAME.search(entry.name):
        return "its name holds a backslash or a sign that cannot be seen"
    if not entry.is_symlink():
        return None
    if not _is_confined(root, Path(entry.path)):
        return "it is a link that leaves the content folder"
    return "it is a link to a folder, and those are not followed" if entry.is_dir() else None


def _is_confined(root: Path, path: Path) -> bool:
    """Whether `path`, with every link followed, lies in `root`."""
    real_root = os.path.realpath(root)
    real = os.path.realpath(path)
    return real == real_root or real.startswith(real_root.rstrip(os.sep) + os.sep)


def _read_plain(path: Path) -> bytes | None:
    """At most one byte more than a file may have; None for what is no plain file (and may never end)."""
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    try:
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            return None
        with os.fdopen(handle, "rb", closefd=False) as file:
            return file.read(LARGEST_FILE + 1)
    finally:
        os.close(handle)


def _undecodable(data: bytes, error: UnicodeDecodeError, relative: str) -> BrokenYaml:
    head = data[: error.start].decode("utf-8-sig", errors="replace").replace("\r\n", "\n").replace("\r", "\n")
    line, column = head.count("\n") + 1, len(head) - head.rfind("\n")
    return BrokenYaml(
        Place(relative, line, column, line, column + 1),
        f"The byte {data[error.start]:#04x} here is no text in UTF-8.",
        "Save the file as UTF-8.",
    )


def _reason(error: OSError) -> str:
    if isinstance(error, PermissionError):
        return "it may not be read with the rights at hand"
    if isinstance(error, IsADirectoryError | NotADirectoryError):
        return "a folder stands where a file belongs, or the other way round"
    return f"the system says: {(error.strerror or 'no reason').lower()}"
