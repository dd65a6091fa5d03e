"""`partway draft`: captions in, the first draft of a device's files out."""

from __future__ import annotations

import os
import shutil
import stat
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import click

from generator.commands.folders import HERE, Unreadable

if TYPE_CHECKING:
    from generator.rules.finding import Reported
    from generator.source.records import ToolRecord

SUMMARY = "draft.txt"
TO_ADD = "tools-to-add.yaml"
SHARED = ("library.yaml", "tools.yaml", "supplies.yaml")
SHOWN = 8  # lines of a section of the summary on the terminal
NOT_READ = ("file/", "ref/unknown", "ref/twice", "ref/inside-itself", "ref/formerly", "time/bad", "time/backwards")
"""Rules that speak where something could not be read; a draft never has them."""


@click.command()
@click.argument("captions")
@click.option(
    "--to",
    "to",
    metavar="FOLDER",
    help="The folder of the device, which has to be empty or not there yet.  [default: content/NAME]",
)
@click.option("--language", type=click.Choice(("en", "de")), help="What is spoken.  [default: as the words look]")
def draft(captions: str, to: str | None, language: str | None) -> None:
    """Write a first draft of a guide from CAPTIONS: WebVTT, SubRip, or lines with a time before them.

    Steps with their times, parts and joints as they were spoken of; what is guessed is marked with the words it was guessed
    from. Nothing that is there is overwritten. What was understood and what not is told, and kept in draft.txt beside.
    """
    from generator.draft.assembling import draft_of
    from generator.draft.captions import Unusable, read_captions
    from generator.draft.decoding import decode
    from generator.draft.lexicon import lexicon, likeliest
    from generator.draft.naming import id_of
    from generator.draft.summary import as_text, sections
    from generator.draft.tools import tools_in
    from generator.draft.written import device_files, library_file, tools_file

    path = Path(captions)
    target = _target(to if to is not None else f"{HERE}/{id_of(path.stem, 'device')}")
    decoded = decode(_bytes(path))
    try:
        read = read_captions(decoded.text)
    except Unusable as error:
        raise Unreadable(f"{captions} cannot be drafted from. {error}") from error
    spoken = language or likeliest((word.norm for word in read.words), read.language)
    made = draft_of(read, lexicon(spoken))

    shared = _shared(target.parent)
    known = _known_tools(target.parent) if "tools.yaml" in shared else {}
    named = tools_in(made.tools, known) if "tools.yaml" in shared else {tool.id: tool.id for tool in made.tools}
    missing = [tool for tool in made.tools if tool.id not in named]
    source = "".join(sign if sign.isprintable() else "?" for sign in path.name)
    files = device_files(made, read.words, _device_name(path.stem), source, named)
    if missing:
        files[TO_ADD] = tools_file(missing, "Named in the film and not in tools.yaml yet: copy what is right over there.")
    beside: dict[str, str] = {}
    if "library.yaml" not in shared:
        beside["library.yaml"] = library_file("Guides", spoken)
    if "tools.yaml" not in shared:
        beside["tools.yaml"] = tools_file(made.tools)
    parts = sections(made, read, source, decoded.encoding, [tool.id for tool in missing])
    findings = _put(target, files, beside, shared, as_text(parts))
    click.echo(as_text(parts, SHOWN), nl=False)
    click.echo(f"\n{_written(target, len(made.steps))} {_checked(findings, target)}")


def _target(given: str) -> Path:
    """The folder to write, as a full path; Unreadable where it holds anything or cannot be a device's."""
    from generator.source.values import is_id

    try:
        target = Path(given).absolute()
        if not is_id(target.name):
            raise Unreadable(f'"{target.name}" cannot be the folder of a device. Name it with --to, such as content/tarn-5.')
        if target.is_symlink() or (target.exists() and (not target.is_dir() or any(target.iterdir()))):
            raise Unreadable(f"{target} is there already and is left as it is. Name an empty folder with --to.")
    except (OSError, ValueError) as error:
        raise Unreadable(f"{given!r} cannot be looked into: {getattr(error, 'strerror', None) or error}.") from error
    return target


def _bytes(path: Path) -> bytes:
    """The whole file; Unreadable where it is no plain file, cannot be read, or is too large."""
    from generator.draft.decoding import LARGEST_FILE

    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
        with os.fdopen(handle, "rb") as file:
            if not stat.S_ISREG(os.fstat(handle).st_mode):
                raise Unreadable(f"{path} is no plain file. Name a file of captions.")
            data = file.read(LARGEST_FILE + 1)
    except (OSError, ValueError) as error:
        raise Unreadable(f"{path} cannot be read: {getattr(error, 'strerror', None) or error}.") from error
    if len(data) > LARGEST_FILE:
        raise Unreadable(
            f"{path} has more than {LARGEST_FILE >> 20} MiB; the captions of ten hours have less. Is it the film itself?"
        )
    return data


def _device_name(stem: str) -> str:
    words = "".join(sign if sign.isprintable() else " " for sign in stem).replace("-", " ").replace("_", " ").split()
    name = " ".join(words)[:80].strip() or "Device"
    return name[:1].upper() + name[1:]


def _shared(folder: Path) -> tuple[str, ...]:
    """Which of the shared files a collection has; anything of that name counts, so that it is never written over."""
    return tuple(name for name in SHARED if os.path.lexists(folder / name))


def _known_tools(folder: Path) -> Mapping[str, ToolRecord]:
    from generator.source.files import NoContent
    from generator.source.reading import read_library

    try:
        return read_library(folder, None).tools.record or {}
    except NoContent:
        return {}


def _put(
    target: Path, files: Mapping[str, str], beside: Mapping[str, str], shared: tuple[str, ...], summary: str
) -> tuple[Reported, ...]:
    """Write all files or none: beside their place first, read and checked there, then moved. What the check says."""
    made: list[Path] = []
    try:
        for folder in reversed([target.parent, *target.parent.parents]):
            if not folder.exists():
                folder.mkdir()
                made.append(folder)
        staged = Path(tempfile.mkdtemp(prefix=".draft-", dir=target.parent))
    except OSError as error:
        _take_back(made)
        raise Unreadable(f"{target.parent} cannot be written: {error.strerror}. Nothing was written.") from error
    try:
        device = staged / target.name
        for name, text in (*files.items(), (SUMMARY, summary)):
            _write(device / name, text)
        for name, text in beside.items():
            _write(staged / name, text)
        for name in shared:
            if (target.parent / name).is_file():
                shutil.copyfile(target.parent / name, staged / name)
        findings = _findings(staged, target.name)
        for name in beside:
            os.link(staged / name, target.parent / name)  # refuses where something has come to be there
            made.append(target.parent / name)
        if target.is_dir():
            target.rmdir()
        device.rename(target)
    except OSError as error:
        _take_back(made)
        raise Unreadable(f"{error.filename or target} cannot be written: {error.strerror}. Nothing was written.") from error
    except BaseException:
        _take_back(made)
        raise
    finally:
        shutil.rmtree(staged, ignore_errors=True)
        _take_back([folder for folder in made if folder.is_dir() and not any(folder.iterdir())])
    return findings


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, "utf-8", newline="\n")


def _take_back(made: list[Path]) -> None:
    for path in reversed(made):
        try:
            path.rmdir() if path.is_dir() else path.unlink(missing_ok=True)
        except OSError:
            continue  # somebody else has put something there meanwhile: it is theirs


def _findings(root: Path, device: str) -> tuple[Reported, ...]:
    """What the rules say of the draft; Unreadable, and nothing is written, should it not be read back."""
    from generator.commands.folders import load_library
    from generator.rules import findings_of_everything

    findings = tuple(each for each in findings_of_everything(load_library(root, device)) if each.device == device)
    unread = [each for each in findings if each.level == "error" and each.rule.startswith(NOT_READ)]
    if unread:
        raise Unreadable(
            f"The draft could not be read back ({unread[0].rule}: {unread[0].finding.message}) Nothing was written."
        )
    return findings


def _written(target: Path, steps: int) -> str:
    return f"Written to {target}: {steps} {'step file' if steps == 1 else 'step files'}, with this summary in {SUMMARY}."


def _checked(findings: tuple[Reported, ...], target: Path) -> str:
    counts = [(sum(each.level == level for each in findings), level) for level in ("error", "warning", "note")]
    told = ", ".join(f"{number} {level}{'s' if number != 1 else ''}" for number, level in counts if number)
    return f"`partway check {target.parent} --only {target.name}` has {told or 'nothing'} to say about it."
