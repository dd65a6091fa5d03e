"""`partway build --film` and `--frames`: what is written on request, and what is said where it cannot be."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from PIL import Image

from generator.commands import partway, rasterising

DEMO = Path(__file__).parents[2] / "content"


def built(folder: Path, *options: str) -> Result:
    result = CliRunner().invoke(partway, ["build", str(DEMO), "--to", str(folder), *options])
    assert result.exit_code == 0, result.output
    return result


def test_nothing_of_it_is_made_unless_asked_for(tmp_path: Path) -> None:
    built(tmp_path / "site")
    assert not [path for path in (tmp_path / "site").rglob("*") if "film" in path.name or "frames" in path.parts]
    assert "moving picture" not in (tmp_path / "site/tarn-5/index.html").read_text("utf-8")


def test_the_device_page_leads_to_its_moving_picture(tmp_path: Path) -> None:
    built(tmp_path / "site", "--film")
    folder = tmp_path / "site/tarn-5"
    assert '<a href="film.svg">' in (folder / "index.html").read_text("utf-8")
    ways = {path.stem.removeprefix("to-") for path in folder.glob("to-*.html")}
    films = {path.stem.removeprefix("film-to-") for path in folder.glob("film-to-*.svg")}
    assert films == ways and (folder / "film.svg").stat().st_size < 60_000


def test_frames_are_numbered_and_the_same_as_pictures(tmp_path: Path) -> None:
    pytest.importorskip("resvg_py")
    built(tmp_path / "site", "--frames")
    folder = tmp_path / "site/tarn-5/frames"
    drawn = sorted(path.stem for path in folder.glob("*.svg"))
    assert len(drawn) == 18 and drawn[0].startswith("01-") and drawn[-1].startswith("18-")
    assert sorted(path.stem for path in folder.glob("*.png")) == drawn
    for name in (drawn[0], drawn[6]):
        image = Image.open(io.BytesIO((folder / f"{name}.png").read_bytes())).convert("RGB")
        assert image.size == (1920, 1080)
        colours = {colour for _, colour in image.getcolors(1 << 20) or ()}
        # Paper, ink and the accent, and nothing black as a rasteriser leaves what it has no rule for.
        assert {(0xF7, 0xF3, 0xEA), (0xBD, 0x3A, 0x24), (0x1E, 0x2A, 0x33)} <= colours
        assert (0, 0, 0) not in colours
        # Words were set: there is ink in the column of the title.
        title = image.crop((72, 300, 892, 520)).convert("L")
        assert sum(title.histogram()[:80]) > 2000


def test_without_the_extra_frames_are_drawings_only_and_that_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(rasterising, "can_rasterise", lambda: False)
    said = built(tmp_path / "site", "--frames").output
    assert "pip install 'partway[frames]'" in said
    folder = tmp_path / "site/tarn-5/frames"
    assert len(list(folder.glob("*.svg"))) == 18 and not list(folder.glob("*.png"))
