"""Where content, the demo and the themes lie, and what is said when they do not."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from generator.orders.guide import Library
    from generator.pages.theme import Theme

HERE = "content"
TEXTS = (".html", ".css", ".txt")


class Unreadable(click.ClickException):
    """Wrong use or unreadable input: exit status 2."""

    exit_code = 2


def content_folder(given: str | None) -> Path:
    """The folder to work on: the one given, else ./content, else the demo that came with the program."""
    if given is not None:
        return Path(given)
    here = Path(HERE)
    if here.is_dir():
        return here
    click.echo("There is no folder `content` here: this is the demo that came with Partway.", err=True)
    return shipped("content")


def shipped(name: str) -> Path:
    """A folder that ships with the program: inside the installed package, beside it in a checkout."""
    package = Path(str(files("generator")))
    installed = package / f"_{name}"
    return installed if installed.is_dir() else package.parent / name


def load_library(root: Path, only: str | None = None) -> Library:
    """Read all guides below `root`; Unreadable with a clear sentence where that cannot be done at all."""
    from generator.orders.reading import read_guides
    from generator.source.files import NoContent
    from generator.source.reading import read_library

    try:
        library = read_guides(read_library(root, only))
    except NoContent as error:
        raise Unreadable(str(error)) from error
    if only is not None and not library.guides:
        raise Unreadable(f'There is no device "{only}" in {root}.{_devices_in(root)}')
    return library


def with_base(library: Library, base: str | None) -> Library:
    """The library as it stands at another address, if one is given; Unreadable where that is no address of a site."""
    from dataclasses import replace

    from generator.source.characters import shown
    from generator.source.values import address_refusal

    if base is None:
        return library
    reason = address_refusal(base) or ("it has a ? or # in it" if "?" in base or "#" in base else None)
    if reason is not None:
        said = f"--base is {shown(base)}, which is no address on the web: {reason}."
        raise Unreadable(f"{said} Write it in full: https://example.org/guides/")
    return replace(library, address=base)


def _devices_in(root: Path) -> str:
    names = sorted(path.name for path in root.iterdir() if (path / "device.yaml").is_file())
    return f" There are: {', '.join(names)}." if names else ""


def read_theme(name: str = "bench") -> Theme:
    """A theme that ships with the program: its texts as text, all else as bytes."""
    from generator.pages.theme import Theme

    root = shipped("themes") / name
    return Theme.of(
        {
            path.relative_to(root).as_posix(): path.read_text("utf-8") if path.suffix in TEXTS else path.read_bytes()
            for path in root.rglob("*")
            if path.is_file() and not path.name.startswith(".")
        }
    )
