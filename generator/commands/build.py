"""`partway build`: check, compute, render, and swap the new site in."""

from __future__ import annotations

import click


@click.command()
@click.argument("content", required=False)
@click.option("--to", "target", default="site", show_default=True, metavar="DIR", help="Where the site is written.")
@click.option("--only", metavar="DEVICE", help="Build one device only.")
@click.option("--base", metavar="ADDRESS", help="Where the site will stand on the web (default: `address` in library.yaml).")
@click.option("--no-packs", is_flag=True, help="Leave out the offline copy beside each guide.")
@click.option("--jobs", type=click.IntRange(1, 256), metavar="N", help="Processes to use (default: one a core).")
@click.option("--film", is_flag=True, help="Write a moving picture too, film.svg, of the take-apart and of every way.")
@click.option("--frames", is_flag=True, help="Write a still of every step too, 1920 x 1080, for a video editor.")
@click.option("--card", is_flag=True, help="Write the verdict too, verdict.svg, 1920 x 1080, for the end of a film.")
def build(
    content: str | None,
    target: str,
    only: str | None,
    jobs: int | None,
    base: str | None,
    no_packs: bool,
    film: bool,
    frames: bool,
    card: bool,
) -> None:
    """Check CONTENT (default: ./content) and write its site.

    A guide that has errors is not published; the others are. The site that was there before stays until the new one is
    whole. Exit status 1 if a guide was refused.
    """
    from dataclasses import replace
    from pathlib import Path

    from generator.commands.folders import content_folder, load_library, read_theme, with_base
    from generator.commands.photos import photos_of, shown_files
    from generator.commands.rasterising import MISSING, can_rasterise, frames_as_png
    from generator.commands.reports import report
    from generator.commands.schema import schema_files
    from generator.commands.site_folder import replace_site
    from generator.commands.workers import render_all
    from generator.handover.installing import installing_files
    from generator.handover.offline import with_offline_copies
    from generator.pages.moving import Asked
    from generator.rules import findings_of_everything

    root = content_folder(content)
    library = with_base(load_library(root, only), base)
    findings = findings_of_everything(library)
    photos = photos_of(root, library, jobs)
    errors = tuple(finding for finding in findings if finding.level == "error")
    if errors:
        click.echo(report("text", library, errors, colour=False), nl=False, err=True)
    for sentence in (sentence for name in sorted(photos.unusable) for sentence in photos.unusable[name]):
        click.echo(sentence, err=True)
    for note in photos.notes:
        click.echo(note, err=True)
    faulty = {finding.device for finding in errors} | set(photos.unusable)
    good = tuple(guide for guide in library.guides if guide.id not in faulty)
    if any(not finding.device for finding in errors) or not good:
        click.echo(f"Nothing was published; {target} is as it was.", err=True)
        raise SystemExit(1)
    theme = read_theme()
    pages = render_all(library, good, theme, photos.views, jobs, Asked(film=film, frames=frames, card=card))
    if (frames or card) and can_rasterise():
        pages.update(frames_as_png(pages, theme))
    pages.update(shown_files(photos, pages))
    published = replace(library, guides=good)
    if not no_packs:
        pages = with_offline_copies(pages, published, good, theme)
    pages.update(installing_files(pages, published, theme))
    pages.update((f"schemas/{name}", text) for name, text in schema_files().items())
    replace_site(Path(target), pages)
    for name in sorted(faulty):
        click.echo(f"Not published: {name}.", err=True)
    count = f"{len(good)} guide" if len(good) == 1 else f"{len(good)} guides"
    click.echo(f"{count}, {len(pages)} files: open {Path(target) / 'index.html'}")
    if (frames or card) and not can_rasterise():
        click.echo(MISSING, err=True)
    raise SystemExit(1 if faulty else 0)
