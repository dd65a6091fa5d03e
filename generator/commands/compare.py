"""`partway compare`: what a change of a library means, for whoever reviews it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from generator.orders.guide import Library
    from generator.review.changes import LibraryChange
    from generator.rules.finding import Reported

LAYOUTS = ("text", "json", "markdown", "html")


@click.command()
@click.argument("old")
@click.argument("new")
@click.option("--content", metavar="DIR", default="content", help="The content folder within a revision.")
@click.option("--as", "layout", type=click.Choice(LAYOUTS), default="text", show_default=True, help="How to say it.")
@click.option("--to", metavar="FILE", help="Write to this file instead of the terminal; a file that is there is kept.")
def compare(old: str, new: str, content: str, layout: str, to: str | None) -> None:
    """What the change from OLD to NEW means at the bench.

    Each is a content folder or a revision of the repository; REVISION:FOLDER looks for the content in another folder.

    Exit status 1 if something got worse: a new error or warning, a part that can no longer be reached, a longer way that
    safety does not ask for, a caution or a photo lost, a lower index.
    """
    from generator.commands.folders import Unreadable, read_theme
    from generator.commands.reports.changes import change_as_json, change_as_markdown, change_as_text
    from generator.commands.revisions import state_of
    from generator.commands.whole_files import put_new
    from generator.handover.review_sheet import review_sheet
    from generator.review.sentences import is_worse, told_of, told_of_library

    if to is not None and Path(to).exists():
        raise Unreadable(f"{to} is there already and is kept. Name another file.")
    with state_of(old, content) as before, state_of(new, content) as after:
        change = changed(before, after)
        match layout:
            case "json":
                text = change_as_json(change)
            case "markdown":
                text = change_as_markdown(change)
            case "html":
                text = review_sheet(change, old, new, read_theme())
            case _:
                text = change_as_text(change)
    if to is None:
        click.echo(text, nl=False)
    else:
        try:
            put_new(Path(to), text.encode("utf-8"))
        except OSError as error:
            raise Unreadable(f"{to} cannot be written: {error.strerror}. Name another file with --to.") from error
    worse = is_worse(told_of_library(change)) or any(is_worse(told_of(device)) for device in change.devices)
    raise SystemExit(1 if worse else 0)


def changed(before: Path, after: Path) -> LibraryChange:
    """Read what differs in two folders, and hold it against each other; what is the same in both is not worked out."""
    from generator.commands.folders import load_library
    from generator.commands.revisions import SHARED, digests
    from generator.review.libraries import leans_on, library_change

    left, right = digests(before), digests(after)
    names = {*left, *right} - {SHARED}
    differing = {name for name in names if left.get(name) != right.get(name)}
    is_whole = left[SHARED] != right[SHARED]
    if not is_whole:
        old, new = _some(before, differing), _some(after, differing)
        used = [{each for guide in library.guides for each in leans_on(guide)} for library in (old, new)]
        is_whole = used[0] != used[1]
    if is_whole:
        old, new = load_library(before), load_library(after)
        differing = names
    earlier, later = ({name: _media(files) for name, files in state.items()} for state in (left, right))
    found = (_findings(old, is_whole), _findings(new, is_whole))
    return library_change(old, new, *found, (earlier, later), len(names) - len(differing), is_whole)


def _some(root: Path, names: Collection[str]) -> Library:
    """The library with just those of its guides that are named."""
    from dataclasses import replace

    from generator.commands.folders import load_library
    from generator.orders.guide import Library

    there = [name for name in sorted(names) if (root / name).is_dir()]
    loaded = [library for name in there if (library := _one(root, name)) is not None]
    if not loaded:
        return Library(title="", guides=()) if not names else replace(load_library(root), guides=())
    texts = {file: lines for library in loaded for file, lines in library.texts.items()}
    return replace(loaded[0], guides=tuple(guide for library in loaded for guide in library.guides), texts=texts)


def _one(root: Path, name: str) -> Library | None:
    """The library with one guide; None for a folder that holds none."""
    from generator.orders.reading import read_guides
    from generator.source.files import NoContent
    from generator.source.reading import read_library

    try:
        return read_guides(read_library(root, name))
    except NoContent:
        return None


def _findings(library: Library, is_whole: bool) -> tuple[Reported, ...]:
    from generator.rules import findings_of, findings_of_everything

    if is_whole:
        return findings_of_everything(library)
    return tuple(found for guide in library.guides for found in findings_of(guide, library))


def _media(files: Mapping[str, str]) -> Mapping[str, str]:
    """Of the files of a device, those below `media`, by path from there."""
    return {name.removeprefix("media/"): digest for name, digest in files.items() if name.startswith("media/")}
