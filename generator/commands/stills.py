"""`partway stills`: pictures for the steps out of a finished film."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

import click

if TYPE_CHECKING:
    from generator.media.film import Film
    from generator.media.stills import Offered
    from generator.orders.guide import Guide
    from generator.orders.work import Step, StepId

MOST_NAMES = 99


@click.command()
@click.argument("device")
@click.option("--video", metavar="FILE", help="The film, a file: MP4, MOV, MKV or WebM.")
@click.option("--content", metavar="DIR", help="The content folder (default: ./content).")
@click.option("--to", "target", metavar="DIR", help="Write the contact sheet and the stills there and change no step file.")
@click.option("--take", is_flag=True, help="Take the first choice for every step that shows no photo yet.")
@click.option("--choose", "chosen", multiple=True, metavar="STEP=N", help="Take still N for that step; 0 for none.")
@click.option("--list", "is_list", is_flag=True, help="Say of what time in the film the stills in the media folder are.")
def stills(
    device: str, video: str | None, content: str | None, target: str | None, take: bool, chosen: Sequence[str], is_list: bool
) -> None:
    """Find the picture of the film that shows each step of DEVICE best: sharp, steady, with nothing in front.

    First run it with --video alone: it writes a contact sheet, DEVICE-stills.html, with three stills a step, and changes
    nothing. Then run it again with --take, and --choose STEP=2 where another one is better. Stills go into the device's
    folder `media`, never over a file that is there, and into the step files as `photos`; their `alt` is left to be written.
    A still carries its time in the film in its description, for you: --list tells it. The build takes it out again.
    """
    from generator.commands.folders import Unreadable, content_folder, load_library
    from generator.media.film import MISSING, can_read_films

    root = content_folder(content)
    guide = load_library(root, device).guides[0]
    if is_list:
        _list(root, guide)
        return
    if video is None:
        raise Unreadable("Name the film with --video.")
    steps = [step for step in (*guide.steps, *guide.unused) if step.film is not None]
    if not steps:
        raise Unreadable(f'No step of {device} says where in the film it is. Add a line such as video: "0:42-1:55" to each.')
    choices = _choices(chosen, steps)
    if not can_read_films():
        raise Unreadable(MISSING)
    if take or choices:
        wanted = [step for step in steps if choices.get(step.id, 1 if take and not step.photos else 0)]
        with _opened(Path(video)) as film:
            _take(root, guide, wanted, choices, film, Path(target) if target else None)
        return
    with _opened(Path(video)) as film:
        _show(guide, steps, film, Path(video).name, Path(target) if target else Path())


def _choices(chosen: Sequence[str], steps: Sequence[Step]) -> dict[StepId, int]:
    from generator.commands.folders import Unreadable
    from generator.media.stills import COUNT

    known = {step.id: step.id for step in steps}
    choices: dict[StepId, int] = {}
    for each in chosen:
        name, _, number = each.partition("=")
        id = next((known[step] for step in known if step == name), None)
        if id is None:
            raise Unreadable(f'--choose {each}: no step "{name}" with a time in the film. There are: {", ".join(known)}.')
        if number not in [str(n) for n in range(COUNT + 1)]:
            raise Unreadable(f"--choose {each}: write the step, an equals sign and a number from 0 to {COUNT}.")
        choices[id] = int(number)
    return choices


@contextmanager
def _opened(path: Path) -> Iterator[Film]:
    """The film; Unreadable with what is wrong with it. Only plain files: no address, no list that names others."""
    from generator.commands.folders import Unreadable
    from generator.media.film import BrokenFilm, open_film
    from generator.media.unusable import Unusable

    if not path.is_file():
        raise Unreadable(f"There is no file {path}." if not path.exists() else f"{path} is no plain file.")
    try:
        file: BinaryIO
        with path.open("rb") as file, open_film(file) as film:
            if isinstance(film, Unusable):
                raise Unreadable(f"{path} {film.reason}. {film.mend}")
            yield film
    except BrokenFilm as error:
        raise Unreadable(f"{path} cannot be read on: {error}. Export or copy it anew.") from error
    except OSError as error:
        raise Unreadable(f"{path} cannot be read: {error.strerror or error}.") from error


def _show(guide: Guide, steps: Sequence[Step], film: Film, name: str, folder: Path) -> None:
    from generator.commands.folders import Unreadable, read_theme
    from generator.commands.whole_files import put
    from generator.handover.contact_sheet import contact_sheet, mark_of_sheet
    from generator.media.stills import clock

    sheet = folder / f"{guide.id}-stills.html"
    if sheet.exists() or sheet.is_symlink():
        if sheet.is_symlink() or not sheet.is_file() or mark_of_sheet(guide.id) not in _beginning(sheet):
            raise Unreadable(f"{sheet} is there and is no contact sheet, so it is left alone. Name a folder with --to.")
    elif not folder.is_dir():
        raise Unreadable(f"There is no folder {folder}.")
    offers, notes = _found(steps, film)
    page = contact_sheet(guide, steps, offers, {**{s.id: _told_photos(s) for s in steps}, **notes}, name, read_theme())
    try:
        put(sheet, page.encode("utf-8"))
    except OSError as error:
        raise Unreadable(f"{sheet} cannot be written: {error.strerror}.") from error
    for step in steps:
        times = "  ".join(f"{n} at {clock(each.candidate.time)}" for n, each in enumerate(offers.get(step.id, ()), 1))
        click.echo(f"{step.id}: {times or notes[step.id]}")
    click.echo(f"Look at {sheet}. Nothing was put into the guide: run this again with --take, or --choose STEP=N.")
    if notes:
        raise SystemExit(1)


def _beginning(path: Path) -> str:
    with path.open("rb") as file:
        return file.read(400).decode("utf-8", "replace")


def _told_photos(step: Step) -> str:
    return "This step shows photos already; --take leaves it as it is." if step.photos else ""


def _found(steps: Sequence[Step], film: Film) -> tuple[dict[StepId, tuple[Offered, ...]], dict[StepId, str]]:
    """What the film has for each step, and for steps for which it has nothing a sentence that says why."""
    from generator.media.stills import found_in, stretches_of

    offers: dict[StepId, tuple[Offered, ...]] = {}
    notes: dict[StepId, str] = {}
    with _progress(len(steps)) as told:
        for step in steps:
            assert step.film is not None
            start, end = step.film
            if film.length is not None and start >= film.length:
                notes[step.id] = _beyond(start, film.length)
            else:
                offers[step.id] = found_in(film, stretches_of(start, end))
                if not offers[step.id]:
                    notes[step.id] = _broken(start, film)
            told()
    return offers, notes


def _beyond(start: float, length: float) -> str:
    from generator.media.stills import clock

    long = clock(length)
    return f"{clock(start)[:-3]} lies beyond the end of the film, which is {long} long. Correct `video` in the step."


def _broken(start: float, film: Film) -> str:
    from generator.media.stills import clock

    said = f", though it says it is {clock(film.length)} long" if film.length else ""
    return f"The film has no picture at {clock(start)[:-3]}{said}: it is cut off or damaged there. Export or copy it anew."


def _take(
    root: Path, guide: Guide, steps: Sequence[Step], choices: dict[StepId, int], film: Film, target: Path | None
) -> None:
    """Write the stills, then name them in the step files; a step file that cannot take its entry is left as it is."""
    from generator.commands.folders import Unreadable
    from generator.commands.photo_entries import entry_for
    from generator.media.stills import clock, still

    if not steps:
        click.echo("Nothing to take: every step that is filmed shows a photo, or none of its stills was chosen.")
        return
    media = target if target is not None else root / guide.id / "media"
    if target is None:
        if not media.resolve().is_relative_to(root.resolve()):
            raise Unreadable(f"{media} leads out of the content folder.")
        try:
            media.mkdir(exist_ok=True)
        except OSError as error:
            raise Unreadable(f"{media} cannot be made: {error.strerror}.") from error
    elif not media.is_dir():
        raise Unreadable(f"There is no folder {media}.")
    offers, notes = _found(steps, film)
    added = 0
    for step in steps:
        number = choices.get(step.id, 1)
        found = offers.get(step.id, ())
        if len(found) < number:
            missing = f"there is no still {number}, only {len(found)}. Look at the contact sheet."
            click.echo(f"{step.id}: {notes.get(step.id, missing)}", err=True)
            notes.setdefault(step.id, missing)
            continue
        time = found[number - 1].candidate.time
        data = still(film, time, step.id)
        if data is None:
            notes[step.id] = f"The picture at {clock(time)} cannot be read again."
            click.echo(f"{step.id}: {notes[step.id]}", err=True)
            continue
        name = _write_new(media, step.id, data)
        click.echo(f"{media / name}: {clock(time)} of the film")
        if target is not None:
            click.echo(f"Add to the front matter of {step.place.file}:\n{entry_for(name)}", nl=False)
        else:
            added += _add(root, step.place.file, name)
    if added:
        click.echo(f"{added} photos have no `alt` yet: `partway check --only {guide.id}` names them.")
    if notes:
        raise SystemExit(1)


def _write_new(folder: Path, step: str, data: bytes) -> str:
    """Write the still under the first name that is free: the step's, then with a number."""
    from generator.commands.folders import Unreadable
    from generator.commands.whole_files import put_new

    for number in range(1, MOST_NAMES + 1):
        name = f"{step}.jpg" if number == 1 else f"{step}-{number}.jpg"
        try:
            put_new(folder / name, data)
            return name
        except FileExistsError:
            continue
        except OSError as error:
            raise Unreadable(f"{folder / name} cannot be written: {error.strerror}.") from error
    raise Unreadable(f"{folder} holds {MOST_NAMES} stills of {step} already. Take some away.")


def _add(root: Path, file: str, name: str) -> bool:
    """Name the photo in the step file, and show the change; where that cannot be done, say what to add."""
    from difflib import unified_diff

    from generator.commands.photo_entries import entry_for, with_photo
    from generator.commands.whole_files import put

    path = root / file
    try:
        before = path.read_bytes()
        text = before.decode("utf-8")
        after = with_photo(text, name) if path.resolve().is_relative_to(root.resolve()) else None
        if after is None or path.read_bytes() != before:
            click.echo(f"{file} is left as it is. Add to its front matter:\n{entry_for(name)}", nl=False, err=True)
            return False
        put(path.resolve(), after.encode("utf-8"))
    except (OSError, UnicodeDecodeError) as error:
        click.echo(f"{file} cannot be changed: {error}. Add to its front matter:\n{entry_for(name)}", nl=False, err=True)
        return False
    for line in unified_diff(text.splitlines(), after.splitlines(), file, file, lineterm="", n=1):
        click.echo(line)
    return True


def _list(root: Path, guide: Guide) -> None:
    from generator.media.stills import description_of

    told = False
    for media in guide.media:
        path = root / guide.id / "media" / media.path
        if path.suffix.lower() in (".jpg", ".jpeg") and path.is_file() and media.size < 100_000_000:
            description = description_of(path.read_bytes())
            if description:
                click.echo(f"{media.path}  {description}")
                told = True
    if not told:
        click.echo(f"No photo in {root / guide.id / 'media'} was taken by `partway stills`.")


@contextmanager
def _progress(count: int) -> Iterator[Callable[[], None]]:
    """How many steps are looked through, on a terminal only."""
    import sys

    if not sys.stderr.isatty():
        yield lambda: None
        return
    with click.progressbar(length=count, label="Steps", file=sys.stderr, show_eta=False, show_pos=True) as bar:
        yield lambda: bar.update(1)
