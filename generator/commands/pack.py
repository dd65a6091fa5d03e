"""`partway pack`: one thing to hand over."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from generator.orders.guide import Library

KINDS = ("folder", "page", "epub", "pdf")
PAPERS = ("a4", "letter")


@click.command()
@click.argument("device")
@click.option("--content", metavar="DIR", help="The content folder (default: ./content).")
@click.option("--as", "kind", type=click.Choice(KINDS), required=True, help="What to make of it.")
@click.option("--to", "target", metavar="FILE", help="The file to write (default: DEVICE and its ending, in this folder).")
@click.option("--language", metavar="TAG", help="The language of the guide (default: the first of library.yaml).")
@click.option("--paper", type=click.Choice(PAPERS), default="a4", show_default=True, help="The paper of a PDF.")
def pack(device: str, content: str | None, kind: str, target: str | None, language: str | None, paper: str) -> None:
    """The guide of DEVICE as one file: a zipped folder of pages, a single page, an EPUB book or a PDF.

    A guide that has errors is not handed over: exit status 1.
    """
    from generator.commands.folders import content_folder, load_library, read_theme
    from generator.commands.photos import photos_of
    from generator.commands.reports import report
    from generator.handover.marks import ENDINGS
    from generator.handover.offline import size_in_words
    from generator.languages import speaking
    from generator.pages.site import render_site
    from generator.rules import findings_of_everything

    root = content_folder(content)
    library = load_library(root, device)
    spoken = _in_language(library, language)
    file = Path(target) if target else Path(f"{device}{ENDINGS[kind]}")
    _refuse_to_overwrite(file, kind, device, is_named=target is not None)
    errors = tuple(finding for finding in findings_of_everything(library) if finding.level == "error")
    photos = photos_of(root, spoken)
    unusable = [sentence for name in sorted(photos.unusable) for sentence in photos.unusable[name]]
    if errors or unusable:
        if errors:
            click.echo(report("text", library, errors, colour=False), nl=False, err=True)
        for sentence in unusable:
            click.echo(sentence, err=True)
        click.echo(f"{device} was not packed.", err=True)
        raise SystemExit(1)
    theme = read_theme()
    files = {**render_site(spoken, theme, photos.views), **photos.files}
    with speaking(spoken.language):
        data = _made(kind, files, spoken, theme, paper)
    _write(file, data)
    click.echo(f"{file}: {size_in_words(len(data))}")


def _in_language(library: Library, language: str | None) -> Library:
    """The library as if it had that language only."""
    from generator.commands.folders import Unreadable
    from generator.pages.editions import edition_alone

    if language is not None and language not in library.folders:
        known = ", ".join(library.folders)
        raise Unreadable(f"library.yaml lists no language {language}. It has: {known}. Name one of these with --language.")
    return edition_alone(library, language or library.original)


def _made(kind: str, files: dict[str, str | bytes], library: Library, theme: object, paper: str) -> bytes:
    from generator.commands.printing import pdf_of
    from generator.figures.tray.shapes import A4, LETTER
    from generator.handover.book import book
    from generator.handover.folder import folder_pack
    from generator.handover.printed import steady
    from generator.handover.single import page_to_print, single_page
    from generator.pages.theme import Theme

    assert isinstance(theme, Theme)
    guide = library.guides[0]
    match kind:
        case "folder":
            return folder_pack(files, guide.id, library.address)
        case "page":
            return single_page(files, library, guide, theme).encode("utf-8")
        case "epub":
            return book(files, library, guide, theme, _modified())
        case _:
            sheet = A4 if paper == "a4" else LETTER
            return steady(pdf_of(page_to_print(files, library, guide, theme, sheet)), guide.id, _modified())


def _modified() -> str:
    """The date that a pack bears: the one that SOURCE_DATE_EPOCH gives in seconds (reproducible-builds.org), else 1980."""
    import os
    from datetime import UTC, datetime

    from generator.commands.folders import Unreadable

    given = os.environ.get("SOURCE_DATE_EPOCH")
    if not given:
        return "1980-01-01T00:00:00Z"
    try:
        return datetime.fromtimestamp(int(given), UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    except (ValueError, OverflowError, OSError) as error:
        raise Unreadable(f"SOURCE_DATE_EPOCH is {given}, which is no count of seconds.") from error


def _refuse_to_overwrite(file: Path, kind: str, device: str, *, is_named: bool) -> None:
    """Only what is surely a pack is replaced: one of this device, or a file of the same kind that --to names."""
    from generator.commands.folders import Unreadable
    from generator.handover.marks import is_kind, is_pack_of

    try:
        if file.is_symlink() or (file.exists() and not file.is_file()):
            raise Unreadable(f"{file} is no regular file, so it is left alone. Name another with --to.")
        if not file.exists():
            return
        with file.open("rb") as old:
            begin = old.read(4096)
            old.seek(max(0, file.stat().st_size - 4096))
            end = old.read()
    except OSError as error:
        raise Unreadable(f"{file} cannot be read: {error.strerror}. Name another file with --to.") from error
    if not is_kind(kind, begin):
        raise Unreadable(f"{file} is there and is something else, so it is left alone. Name another file with --to.")
    if not is_named and not (is_pack_of(device, begin) or is_pack_of(device, end)):
        raise Unreadable(f"{file} is there and was not packed from {device}, so it is left alone. Name the file with --to.")


def _write(file: Path, data: bytes) -> None:
    from generator.commands.folders import Unreadable
    from generator.commands.whole_files import put

    try:
        put(file, data)
    except OSError as error:
        raise Unreadable(f"{file} cannot be written: {error.strerror}.") from error
