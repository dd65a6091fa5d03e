"""The text as it was, kept beside a file that a command is about to change."""

from __future__ import annotations

from itertools import count
from pathlib import Path

from generator.commands.folders import Unreadable
from generator.commands.whole_files import put_new


def keep(path: Path, ending: str) -> Path:
    """Keep what stands at `path` beside it, under a hidden name that ends with `ending`; where it is kept.

    A text that is kept already, whole, is not kept twice; another one that is kept stays, and this one gets a number.
    Hidden, because a file of another name among the steps would be taken for one. Unreadable where it cannot be written:
    then nothing may be changed.
    """
    try:
        data = path.read_bytes()
        for number in count(1):
            kept = path.with_name(f".{path.name}{ending}{f'-{number}' if number > 1 else ''}")
            try:
                put_new(kept, data)
            except FileExistsError:
                if not kept.is_symlink() and kept.is_file() and kept.read_bytes() == data:
                    return kept
            else:
                return kept
    except OSError as error:
        reason = f"The text of {path} cannot be kept beside it: {error.strerror}."
        raise Unreadable(f"{reason} Nothing was changed in it.") from error
    raise AssertionError("numbers do not end")
