"""`partway video`: what goes with the film of a device, for its player and for those who publish it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from generator.orders.guide import Library
    from generator.pages.survey import Survey


@click.command()
@click.argument("device")
@click.option("--part", metavar="PART", help="Only what the way to this part needs of the film.")
@click.option("--content", metavar="DIR", help="The content folder (default: ./content).")
@click.option("--to", "target", metavar="DIR", help="The folder to write (default: DEVICE-video, or DEVICE-to-PART-video).")
@click.option("--base", metavar="ADDRESS", help="Where the site stands (default: `address` in library.yaml).")
@click.option("--language", metavar="TAG", help="The language of the words (default: the first of library.yaml).")
def video(
    device: str, part: str | None, content: str | None, target: str | None, base: str | None, language: str | None
) -> None:
    """Write what goes with the film of DEVICE: chapters, step numbers over the picture, a description, an end card.

    Chapters and step numbers are WebVTT files that a player reads; nothing has to be burnt into the film. Files that
    somebody else made or changed are left alone. A guide that has errors gives nothing: exit status 1.
    """
    from generator.commands.folders import content_folder, load_library, with_base
    from generator.commands.made_files import replace_made
    from generator.commands.photos import photos_of
    from generator.commands.rasterising import MISSING, can_rasterise
    from generator.commands.reports import report
    from generator.languages import speaking
    from generator.pages.survey import survey_of
    from generator.rules import findings_of_everything

    root = content_folder(content)
    library = with_base(load_library(root, device), base)
    _known(library, part)
    spoken = _spoken(library, language)
    errors = tuple(finding for finding in findings_of_everything(library) if finding.level == "error")
    if errors:
        click.echo(report("text", library, errors, colour=False), nl=False, err=True)
        click.echo(f"Nothing was written for {device}.", err=True)
        raise SystemExit(1)
    folder = Path(target or (f"{device}-video" if part is None else f"{device}-to-{part}-video"))
    with speaking(spoken.language):
        survey = survey_of(spoken, spoken.guides[0], photos_of(root, library).views.get(f"{spoken.folder}{device}"))
        files = _texts(survey, part)
        if not files:
            click.echo(_nothing(survey, part), err=True)
            raise SystemExit(1)
        files.update(_card(survey))
    said = f"{device}, in {spoken.language}" if spoken.folder else device
    replace_made(folder, files, said if part is None else f"{said}, the way to {part}")
    click.echo(f"{folder}: {', '.join(sorted(path for path in files if '/' not in path))}{_more(files)}")
    if not can_rasterise():
        click.echo(MISSING, err=True)


def _known(library: Library, part: str | None) -> None:
    from difflib import get_close_matches

    from generator.commands.folders import Unreadable

    guide = library.guides[0]
    if part is not None and part not in guide.anatomy.parts:
        near = get_close_matches(part, list(guide.anatomy.parts), n=3, cutoff=0.5)
        meant = f"Did you mean {' or '.join(near)}?" if near else f"Its parts: {', '.join(guide.anatomy.parts)}."
        raise Unreadable(f'{guide.id} has no part "{part}". {meant}')


def _spoken(library: Library, language: str | None) -> Library:
    """The library in that of its languages, as its pages stand in the site."""
    from generator.commands.folders import Unreadable
    from generator.pages.editions import edition

    if language is not None and language not in library.folders:
        known = ", ".join(library.folders)
        raise Unreadable(f"library.yaml lists no language {language}. It has: {known}. Name one of these with --language.")
    return edition(library, language or library.original)


def _texts(survey: Survey, part: str | None) -> dict[str, str | bytes]:
    """The files by path: of one way, or of the whole film with a folder a way."""
    from generator.anatomy.parts import PartId
    from generator.pages.video.files import VIDEO, run_texts, video_files

    if part is not None:
        return dict(run_texts(survey, PartId(part)))
    return {path.removeprefix(f"{VIDEO}/"): text for path, text in video_files(survey).items()}


def _card(survey: Survey) -> dict[str, str | bytes]:
    """The verdict as a picture, and as pixels where what makes them is installed."""
    from generator.commands.folders import read_theme
    from generator.commands.rasterising import can_rasterise, frames_as_png
    from generator.indices.scores import scores_of
    from generator.pages.addresses import VERDICT
    from generator.pages.device import device_page
    from generator.pages.end_card import verdict_card

    theme, scores = read_theme(), scores_of(survey.guide)
    drawn = verdict_card(survey.guide, device_page(survey, "", scores).figures, scores, theme)
    pixels = frames_as_png({f"{survey.guide.id}/{VERDICT}": drawn}, theme) if can_rasterise() else {}
    return {VERDICT: drawn, **{path.partition("/")[2]: data for path, data in pixels.items()}}


def _nothing(survey: Survey, part: str | None) -> str:
    from generator.orders.stretches import shots_of

    name = survey.guide.id
    if part is not None and shots_of(survey.guide):
        return f"The film of {name} shows no step of the way to {part}; `partway route {name} {part}` tells the way."
    return f'No step of {name} says when the film shows it. Add a line such as `video: "0:42-1:55"` to its steps.'


def _more(files: dict[str, str | bytes]) -> str:
    folders = {path.partition("/")[0] for path in files if "/" in path}
    if not folders:
        return ""
    return f"; and a folder for the way to each of {len(folders)} parts" if len(folders) > 1 else f"; and {min(folders)}"
