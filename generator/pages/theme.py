"""A theme: its files as given, its templates made ready, its style sheets laid into one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from jinja2 import DictLoader, Environment, StrictUndefined

from generator.figures.sharing import with_shared_paths
from generator.languages import say, say_as, say_many

STYLE = "style.css"
LAYERS = "@layer tokens, base, components;"
SHIPPED = ("fonts/", "scripts/")
"""Folders of a theme that go into the site as they are."""


@dataclass(frozen=True)
class Theme:
    """The files of a theme by path below its folder, with forward slashes, in the order of their paths."""

    files: tuple[tuple[str, str | bytes], ...]

    @classmethod
    def of(cls, files: Mapping[str, str | bytes]) -> Theme:
        return cls(tuple(sorted(files.items())))


def set_page(theme: Theme, name: str, page: Any) -> str:
    """The page `name` of the theme, filled in with the view model `page`. A field the view lacks raises."""
    return with_shared_paths(_environment(theme).get_template(f"pages/{name}.html").render(page=page))


def shared_files(theme: Theme) -> dict[str, str | bytes]:
    """What every page of a site leans on: the style sheet, the scripts, and the fonts with their licences."""
    files: dict[str, str | bytes] = {STYLE: style_sheet(theme)}
    files.update({name: content for name, content in theme.files if name.startswith(SHIPPED)})
    return files


def style_sheet(theme: Theme) -> str:
    """One sheet: tokens, base, then the components in the order of their names, each in its layer."""
    sheets = {name: content for name, content in theme.files if isinstance(content, str) and name.endswith(".css")}
    pieces = [LAYERS]
    for layer, names in (
        ("tokens", [name for name in sheets if name == "tokens.css"]),
        ("base", [name for name in sheets if name == "base.css"]),
        ("components", [name for name in sheets if name.startswith("components/")]),
    ):
        pieces += [f"@layer {layer} {{\n{sheets[name].strip()}\n}}" for name in names]
    return "\n".join(pieces) + "\n"


@lru_cache(maxsize=4)
def _environment(theme: Theme) -> Environment:
    templates = {name: content for name, content in theme.files if isinstance(content, str) and name.endswith(".html")}
    environment = Environment(
        loader=DictLoader(templates),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        newline_sequence="\n",
        auto_reload=False,
    )
    environment.globals.update(say=say, say_as=say_as, say_many=say_many)
    return environment
