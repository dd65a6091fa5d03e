"""`partway build --base`: the address the site will stand at, in place of the library's own."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.commands import partway
from tests.figures.code.reading import address_in
from tests.pages.test_codes import CODE

DEMO = Path(__file__).parents[2] / "content"


def test_every_full_address_begins_with_the_base(tmp_path: Path) -> None:
    words = ["build", str(DEMO), "--to", str(tmp_path / "site"), "--no-packs", "--base", "http://bench.example:8080/g"]
    result = CliRunner().invoke(partway, words)
    assert result.exit_code == 0, result.output
    page = (tmp_path / "site/tarn-5/guide.html").read_text("utf-8")
    assert [address_in(found) for found in CODE.findall(page)] == ["http://bench.example:8080/g/tarn-5/guide.html"]
    assert '<link rel="canonical" href="http://bench.example:8080/g/tarn-5/guide.html">' in page
    for file in (tmp_path / "site").rglob("*.html"):
        assert "https://example.org/kiln-lane/tarn-5" not in file.read_text("utf-8"), file


@pytest.mark.parametrize("base", ["bench.example/g", "javascript:alert(1)", "file:///tmp", "https://", "http://["])
def test_what_is_no_address_is_told_before_anything_is_written(tmp_path: Path, base: str) -> None:
    result = CliRunner().invoke(partway, ["build", str(DEMO), "--to", str(tmp_path / "site"), "--base", base])
    assert result.exit_code == 2 and "no address on the web" in result.output
    assert not (tmp_path / "site").exists()
