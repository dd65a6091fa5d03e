"""`partway tidy`: one way of writing the files, and no other meaning."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from generator.source.reading import LibrarySource

OLD = ".before-tidy"
"""At the end of the name of the file that keeps the text as it was."""


@click.command()
@click.argument("content", required=False)
@click.option("--only", metavar="DEVICE", help="Tidy the files of one device only.")
@click.option("--look", is_flag=True, help="Only show what would change; exit status 1 if something would.")
def tidy(content: str | None, only: str | None, look: bool) -> None:
    """Write the files of CONTENT (default: ./content) in one way: order of keys, units, quotes, lists, width of prose.

    Comments stay, and no file means anything else afterwards: that is looked at before it is written. A file with faults is
    left as it is. The text as it was is kept beside the file, under a hidden name that ends with .before-tidy.

    Exit status 1 if a file was left alone.
    """
    from difflib import unified_diff

    from generator.commands.folders import HERE, Unreadable
    from generator.commands.kept_texts import keep
    from generator.commands.whole_files import put
    from generator.source.files import NoContent
    from generator.source.reading import read_library
    from generator.source.writing.tidying import Untouched, tidied

    root = Path(content if content is not None else HERE)
    try:
        library = read_library(root, only)
    except NoContent as error:
        raise Unreadable(str(error)) from error
    old = {path: _text(root, path) for path in sorted(library.texts) if only is None or path.startswith(f"{only}/")}
    new: dict[str, str] = {}
    left = {fault.place.file for fault in library.every_fault} - set(library.texts)
    for path in sorted(left):
        click.echo(f"{path}: left as it is: it cannot be read. `partway check` says why.", err=True)
    for path, text in old.items():
        made = tidied(path, text)
        if isinstance(made, Untouched):
            left.add(path)
            click.echo(f"{path}: left as it is: {made.reason}.", err=True)
        elif made != text:
            new[path] = made
    if new and not means_the_same(root, only, library, new):
        reason = "Together these files would not mean the same afterwards, so none was written."
        raise Unreadable(f"{reason} Tidy one device at a time.")
    for path, text in new.items():
        if look:
            differing = unified_diff(_shown(old[path]), _shown(text), path, f"{path} (tidied)", lineterm="")
            click.echo("\n".join(differing))
            continue
        target = (root / path).resolve()
        kept = keep(target, OLD)
        try:
            put(target, text.encode("utf-8"))
        except OSError as error:
            raise Unreadable(f"{root / path} cannot be written: {error.strerror}. It is as it was.") from error
        click.echo(f"{path}: written anew; as it was: {kept.name}")
    count = f"{len(new)} of {len(old)} files"
    click.echo(f"{count} would be written anew." if look else f"{count} written anew.", err=look)
    raise SystemExit(1 if left or (look and new) else 0)


def means_the_same(root: Path, only: str | None, library: LibrarySource, new: Mapping[str, str]) -> bool:
    """Whether the guides read from the folder with the new texts in it are those read now, places apart.

    The new state is set up in a folder of its own; of media only the names and sizes count.
    """
    from dataclasses import replace
    from tempfile import TemporaryDirectory

    from generator.orders.reading import read_guides
    from generator.source.reading import read_library
    from generator.source.writing.tidying import without_places

    with TemporaryDirectory(prefix="partway-") as folder:
        beside = Path(folder)
        for path in library.texts:
            (beside / path).parent.mkdir(parents=True, exist_ok=True)
            (beside / path).write_bytes(new[path].encode("utf-8") if path in new else (root / path).read_bytes())
        for device in library.devices:
            for file in device.media:
                there = beside / device.id / "media" / file.path
                there.parent.mkdir(parents=True, exist_ok=True)
                with there.open("wb") as handle:
                    handle.truncate(file.size)
        after = read_guides(read_library(beside, only))
    before, after = (replace(each, texts={}) for each in (read_guides(library), after))
    return bool(without_places(before) == without_places(after))


def _text(root: Path, path: str) -> str:
    return (root / path).read_bytes().decode("utf-8")


def _shown(text: str) -> list[str]:
    """Lines for a diff; a line end that is not the plain one is to be seen, and so is a mark before the first."""
    return text.replace("\ufeff", "\\ufeff").replace("\r", "\\r").split("\n")
