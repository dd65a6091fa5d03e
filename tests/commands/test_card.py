"""`build --card`: the verdict as a picture for the end of a film, as SVG and, with the extra, as PNG."""

from __future__ import annotations

import io
import os
from pathlib import Path
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner
from PIL import Image

from generator.commands import partway
from generator.commands.rasterising import MISSING, can_rasterise

HERE = Path(__file__).parent
SIZE = (1920, 1080)


def built(to: Path, *words: str) -> str:
    asked = ["build", str(HERE.parent / "pages" / "dryers"), "--to", str(to), "--no-packs", *words]
    result = CliRunner().invoke(partway, asked)
    assert result.exit_code == 0, result.output
    return result.output


def texts(drawn: bytes) -> str:
    """What a reader sees, a line for each piece of text, after the title and the description that others hear."""
    lines = []
    for element in ElementTree.fromstring(drawn).iter():
        if element.tag.rpartition("}")[2] in ("title", "desc", "text"):
            lines.append(" ".join("".join(element.itertext()).split()))
    return "\n".join(lines) + "\n"


def test_the_text_of_a_small_verdict(tmp_path: Path) -> None:
    """Stored text: all that the card says, in order."""
    built(tmp_path / "site", "--card")
    drawn = (tmp_path / "site" / "velm-8" / "verdict.svg").read_bytes()
    root = ElementTree.fromstring(drawn)
    assert (root.get("width"), root.get("height")) == ("1920", "1080")
    stored = HERE / "verdict-velm-8.txt"
    if os.environ.get("PARTWAY_ACCEPT"):
        stored.write_text(texts(drawn), "utf-8")
    assert texts(drawn) == stored.read_text("utf-8")


def test_the_card_is_made_only_when_asked_for_and_is_the_same_each_time(tmp_path: Path) -> None:
    built(tmp_path / "plain")
    assert not list((tmp_path / "plain").rglob("verdict.*"))
    for name in ("one", "two"):
        built(tmp_path / name, "--card")
    found = sorted(path.relative_to(tmp_path / "one") for path in (tmp_path / "one").rglob("verdict.*"))
    assert found
    assert all((tmp_path / "one" / path).read_bytes() == (tmp_path / "two" / path).read_bytes() for path in found)


@pytest.mark.skipif(not can_rasterise(), reason="what makes PNG of it is an extra")
def test_the_picture_has_the_size_of_a_film_and_something_on_it(tmp_path: Path) -> None:
    built(tmp_path / "site", "--card")
    picture = Image.open(io.BytesIO((tmp_path / "site" / "velm-8" / "verdict.png").read_bytes()))
    picture.load()
    assert (picture.format, picture.size) == ("PNG", SIZE)
    colours = picture.convert("RGB").getcolors(maxcolors=SIZE[0] * SIZE[1])
    assert colours is not None
    ground = max(colours)
    assert 0.5 < ground[0] / (SIZE[0] * SIZE[1]) < 0.99, "a ground, and words on it"


def test_without_what_makes_pictures_there_is_the_drawing_and_a_word_about_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("generator.commands.rasterising.can_rasterise", lambda: False)
    said = built(tmp_path / "site", "--card")
    assert MISSING in said
    assert [path.name for path in (tmp_path / "site").rglob("verdict.*")] == ["verdict.svg"]
