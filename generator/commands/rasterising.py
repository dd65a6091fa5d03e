"""Frames as PNG: the program that draws them is an extra, as are its fonts in the form it reads."""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from generator.pages.addresses import VERDICT
from generator.pages.moving import FRAMES
from generator.pages.theme import Theme

MISSING = (
    "The pictures were written as SVG only: what makes PNG of them is not installed. "
    "To have it: pip install 'partway[frames]'"
)


def can_rasterise() -> bool:
    """Whether the extra `frames` is installed."""
    from importlib.util import find_spec

    return all(find_spec(name) is not None for name in ("resvg_py", "fontTools", "brotli"))


def frames_as_png(pages: Mapping[str, str | bytes], theme: Theme) -> dict[str, bytes]:
    """A PNG beside every SVG frame and verdict among `pages`, by path. ImportError without the extra `frames`."""
    import resvg_py

    with _fonts(theme) as fonts:
        return {
            f"{path.removesuffix('.svg')}.png": bytes(
                resvg_py.svg_to_bytes(svg_string=drawn, skip_system_fonts=True, font_files=fonts)
            )
            for path, drawn in pages.items()
            if _is_still(path) and isinstance(drawn, str)
        }


def _is_still(path: str) -> bool:
    return path.endswith(f"/{VERDICT}") or (path.endswith(".svg") and path.split("/")[-2:-1] == [FRAMES])


@contextmanager
def _fonts(theme: Theme) -> Iterator[list[str]]:
    """The theme's fonts in files the rasteriser reads: it knows no packed ones, and no fonts but those it is given."""
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    with TemporaryDirectory() as folder:
        files = []
        for name, data in theme.files:
            if name.endswith(".woff2") and isinstance(data, bytes):
                font = TTFont(io.BytesIO(data))
                font.flavor = None
                target = Path(folder) / f"{Path(name).stem}.ttf"
                font.save(target)
                files.append(str(target))
        yield files
