"""What somebody else made is left alone by every command that writes, and output that nobody takes is told."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.commands import partway
from tests.review.corrections import LIBRARY

ROOT = Path(__file__).parents[2]


def run(*arguments: str) -> Result:
    return CliRunner().invoke(partway, list(arguments))


def test_a_folder_where_the_old_site_goes_for_a_moment(tmp_path: Path) -> None:
    mine = tmp_path / ".site-old" / "letter"
    mine.parent.mkdir()
    mine.write_text("mine", "utf-8")
    result = run("build", str(LIBRARY), "--no-packs", "--to", str(tmp_path / "site"))
    assert result.exit_code == 2 and "was not made here. Move it away." in result.output
    assert mine.read_text("utf-8") == "mine" and not (tmp_path / "site").exists()


def test_a_list_of_made_files_that_is_damaged(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / ".partway").write_bytes(b"\xff\xfe")
    (tmp_path / "site" / "index.html").write_text("mine", "utf-8")
    result = run("build", str(LIBRARY), "--no-packs", "--to", str(tmp_path / "site"))
    assert result.exit_code == 2 and "was not written by a build and would be lost" in result.output
    assert (tmp_path / "site" / "index.html").read_text("utf-8") == "mine"


def test_a_file_that_is_no_schema(tmp_path: Path) -> None:
    mine = tmp_path / "device.schema.json"
    mine.write_text("mine", "utf-8")
    result = run("schema", "--to", str(tmp_path))
    assert result.exit_code == 2 and "is no schema of Partway" in result.output
    assert mine.read_text("utf-8") == "mine" and len(list(tmp_path.iterdir())) == 1
    mine.unlink()
    assert run("schema", "--to", str(tmp_path)).exit_code == 0
    assert run("schema", "--to", str(tmp_path)).exit_code == 0


@pytest.mark.parametrize("name", ["", "x\x1b[31m", "x" * 100_000, "a\udcff"])
def test_a_name_that_the_reader_would_refuse(name: str, tmp_path: Path) -> None:
    result = run("new", "lamp-1", "--to", str(tmp_path / "content"), "--yes", "--name", name)
    assert result.exit_code == 2 and "cannot be the name of a device" in result.output
    assert not (tmp_path / "content").exists()


def test_questions_that_nobody_answers(tmp_path: Path) -> None:
    result = CliRunner().invoke(partway, ["new", "lamp-1", "--to", str(tmp_path / "content")], input="")
    assert result.exit_code == 2 and "Nobody answered." in result.output
    assert not (tmp_path / "content").exists()


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no disk that is always full")
def test_output_that_nobody_takes(tmp_path: Path) -> None:
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "generator", "explain"], stdout=full, stderr=subprocess.PIPE, env=environment, check=False
        )
    assert done.returncode == 2 and b"The output cannot be written" in done.stderr and b"Traceback" not in done.stderr
