"""`partway schema`: what an editor needs to complete and check the files as they are written."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("kind", required=False)
@click.option("--to", "folder", metavar="DIR", help="Write it, or without KIND all of them, into this folder.")
def schema(kind: str | None, folder: str | None) -> None:
    """The JSON Schema (draft 2020-12) of a KIND of file; without KIND the list of kinds."""
    from generator.commands.folders import Unreadable
    from generator.commands.whole_files import put
    from generator.source.schemas import ABOUT

    files = schema_files()
    if kind is not None and kind not in ABOUT:
        raise Unreadable(f'There is no kind of file "{kind}". There are: {", ".join(ABOUT)}.')
    if folder is not None:
        chosen = [f"{kind}.schema.json"] if kind else sorted(files)
        try:
            Path(folder).mkdir(parents=True, exist_ok=True)
            for name in chosen:
                _refuse_what_is_not_ours(Path(folder) / name, files[name])
            for name in chosen:
                put(Path(folder) / name, files[name].encode("utf-8"))
        except OSError as error:
            raise Unreadable(f"{folder} cannot be written: {error.strerror}. Name another folder with --to.") from error
        click.echo("\n".join(f"{Path(folder) / name}" for name in chosen))
    elif kind is not None:
        click.echo(files[f"{kind}.schema.json"], nl=False)
    else:
        for name, about in ABOUT.items():
            click.echo(f"{name:10} {about}")


def _refuse_what_is_not_ours(path: Path, text: str) -> None:
    """A schema of an earlier version is replaced; anything else of that name is somebody's work."""
    from generator.commands.folders import Unreadable

    head = "".join(text.partition('"title": "')[:2]).encode("utf-8")
    if path.exists() and not (path.is_file() and path.read_bytes().startswith(head)):
        raise Unreadable(f"{path} is there and is no schema of Partway, so it is left alone. Name another folder with --to.")


def schema_files() -> dict[str, str]:
    """Every schema as text, by the name of its file."""
    import json

    from generator.source.schemas import every_schema

    return {name: json.dumps(each, ensure_ascii=False, indent=2) + "\n" for name, each in every_schema().items()}
