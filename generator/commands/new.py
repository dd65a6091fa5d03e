"""`partway new`: a small guide that loads, passes and builds, to be written further."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from generator.orders.work import Tool

STARTS = Path(__file__).parent / "starts"
SHARED = ("library.yaml", "tools.yaml", "supplies.yaml")
SCHEMAS = ".schemas"
"""Folder of the schemas in a content folder; hidden, so that it is not read as content."""

LIKES = ("recorder", "phone", "kettle")
KINDS = ("phone", "foldable phone", "tablet", "other")
POWERS = ("cell", "mains", "both", "none")


@dataclass(frozen=True, slots=True)
class Answers:
    """What a new guide is made from. faces: the first is worked on at the start; screws: those that hold the cover."""

    name: str
    kind: str
    faces: tuple[str, ...]
    power: str
    screws: int


@click.command()
@click.argument("device")
@click.option("--to", "folder", default="content", show_default=True, metavar="DIR", help="The content folder.")
@click.option("--like", type=click.Choice(LIKES), default="recorder", show_default=True, help="What the device is like.")
@click.option("--name", help="What it is called.")
@click.option("--kind", type=click.Choice(KINDS), help="Which published index applies.")
@click.option("--faces", metavar="FACE,FACE", help="The sides it is laid on; the first is the one worked on at the start.")
@click.option("--power", type=click.Choice(POWERS), help="Where its power comes from.")
@click.option("--screws", type=click.IntRange(1, 100), help="How many screws hold the cover.")
@click.option("--yes", is_flag=True, help="Ask nothing: what is not given stays as the like has it.")
def new(
    device: str,
    folder: str,
    like: str,
    name: str | None,
    kind: str | None,
    faces: str | None,
    power: str | None,
    screws: int | None,
    yes: bool,
) -> None:
    """Start a guide for DEVICE, an id such as tarn-5: five questions, then a guide that builds.

    In a new content folder library.yaml, tools.yaml and supplies.yaml are written too. What is there is never overwritten,
    and either all files are written or none.
    """
    from generator.commands.folders import Unreadable
    from generator.source.characters import shown
    from generator.source.values import WANTED_ID, is_id

    if not is_id(device):
        raise Unreadable(f'"{shown(device)}" cannot be the name of a folder of a device. Write {WANTED_ID}.')
    root = Path(folder)
    if (root / device).exists() or (root / device).is_symlink():
        raise Unreadable(f"{root / device} is there already and is kept. Give the device another id.")
    known = _likes()[like]
    name_of = device.replace("-", " ").title()
    default = Answers(name_of, known["kind"], tuple(known["faces"]), known["power"], known["screws"])

    def asked(question: str, given: Any, standing: Any, kind_of: Any = None) -> Any:
        if given is not None or yes:
            return standing if given is None else given
        try:
            return click.prompt(question, default=standing, type=kind_of, err=True)
        except click.Abort:
            raise Unreadable("Nobody answered. Give the answers as options, or --yes. Nothing was written.") from None

    answers = Answers(
        name=_name(asked("What is the device called?", name, default.name)),
        kind=asked("Which kind is it, for the published indices?", kind, default.kind, click.Choice(KINDS)),
        faces=_faces(asked("Which sides is it laid on, the first first?", faces, ", ".join(default.faces))),
        power=asked("Where does its power come from?", power, default.power, click.Choice(POWERS)),
        screws=asked("How many screws hold the cover?", screws, default.screws, click.IntRange(1, 100)),
    )
    files = start_files(answers, known, _drive(root))
    for path in write_start(root, device, files):
        click.echo(str(path))
    click.echo(f"Next: measure, correct, and look with `partway check {root}` and `partway build {root}`.", err=True)


def start_files(answers: Answers, like: Mapping[str, Any], drive: str) -> dict[str, str]:
    """The files of the device's folder by their path in it. drive: of the cover's screws; empty where no driver is known."""
    from jinja2 import Environment, StrictUndefined

    from generator.source.writing.layout import written

    width, height = like["size"]
    cell, mains = answers.power in ("cell", "both"), answers.power in ("mains", "both")
    values = {
        "name": answers.name,
        "kind": answers.kind,
        "faces": answers.faces,
        "power": answers.power,
        "screws": answers.screws,
        "size": (width, height),
        "cover": like["cover"],
        "drive": drive,
        "cell": cell,
        "mains": mains,
        "at": lambda x, y: f"{x * width:g}, {y * height:g}",
        "quoted": lambda text: written(text, is_in_flow=False),
    }
    setting = Environment(
        undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True, keep_trailing_newline=True
    )
    chosen = {"pull-the-plug": mains, "open-cover": True, "unplug-battery": cell, "lift-battery": cell, "lift-board": True}
    names = ["device.yaml", "anatomy.yaml", *(f"steps/{step}.md" for step, is_wanted in chosen.items() if is_wanted)]
    return {name: setting.from_string((STARTS / name).read_text("utf-8")).render(values) for name in names}


def write_start(root: Path, device: str, files: Mapping[str, str]) -> list[Path]:
    """Write the device's folder whole, and what a content folder needs and lacks; the paths written.

    Unreadable, with nothing left behind, where that cannot be done.
    """
    import shutil
    from tempfile import mkdtemp

    from generator.commands.folders import Unreadable
    from generator.commands.schema import schema_files
    from generator.commands.whole_files import put_new

    shared = {name: (STARTS / name).read_text("utf-8") for name in SHARED if not (root / "library.yaml").exists()}
    shared |= {f"{SCHEMAS}/{name}": text for name, text in schema_files().items()}
    made: list[Path] = []
    beside: Path | None = None
    try:
        for parent in reversed([root / SCHEMAS, root, *root.parents]):
            if not parent.exists():
                parent.mkdir()
                made.append(parent)
        for name, text in shared.items():
            if not (root / name).exists():
                put_new(root / name, text.encode("utf-8"))
                made.append(root / name)
        beside = Path(mkdtemp(dir=root, prefix=f".{device}-"))
        beside.chmod(0o755)
        for name, text in files.items():
            (beside / name).parent.mkdir(exist_ok=True)
            (beside / name).write_bytes(text.encode("utf-8"))
        if (root / device).exists():
            raise FileExistsError(17, "it is there already")
        beside.rename(root / device)
    except OSError as error:
        if beside is not None:
            shutil.rmtree(beside, ignore_errors=True)
        for path in reversed(made):
            path.rmdir() if path.is_dir() else path.unlink(missing_ok=True)
        raise Unreadable(f"{root / device} cannot be written: {error.strerror}. Nothing was left behind.") from error
    return [*(root / name for name in SHARED if root / name in made), *(root / device / name for name in files)]


def _likes() -> Mapping[str, Mapping[str, Any]]:
    from generator.source.yaml_tree import read_yaml

    likes: Mapping[str, Mapping[str, Any]] = read_yaml((STARTS / "likes.yaml").read_text("utf-8"), "likes.yaml").value
    return likes


def _name(given: str) -> str:
    """The name as the reader takes it: one line of text that can be seen."""
    from generator.commands.folders import Unreadable
    from generator.source.characters import UNSEEN, shown
    from generator.source.values import read_line

    try:
        name = read_line(given)
    except ValueError:
        name = ""
    if not name or UNSEEN.search(name):
        raise Unreadable(f'"{shown(given)}" cannot be the name of a device. Write one line of text with --name.')
    return name


def _faces(given: str) -> tuple[str, ...]:
    from generator.commands.folders import Unreadable
    from generator.source.values import WANTED_ID, is_id

    faces = tuple(re.split(r"[\s,]+", given.strip(" ,")))
    if not all(is_id(face) for face in faces) or len(set(faces)) < len(faces):
        raise Unreadable(f'"{given}" names no faces. Each is {WANTED_ID}; write them with commas between, each once.')
    return faces


def _drive(root: Path) -> str:
    """The drive of the first driver that the library has, as screws name it; where it is written anew, the one it gets."""
    from generator.orders.reading import read_guides
    from generator.source.files import NoContent
    from generator.source.reading import read_library

    if not (root / "library.yaml").exists():
        return "cross-recess PH1"
    try:
        tools = read_guides(read_library(root)).tools
    except NoContent:
        return ""
    return next((drive for tool in tools.values() if (drive := _drive_of(tool))), "")


def _drive_of(tool: Tool) -> str:
    return next((f"{drive} {size}" for drive, size in tool.fits if drive and size), "")
