"""`partway draft`: files that are read back, nothing overwritten, all or nothing."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

import generator.commands.draft as command
from generator.draft.decoding import LARGEST_FILE
from generator.rules import findings_of_everything
from generator.source.reading import read_library
from tests.bench.draft import KEPT_ASIDE, TUNED, files
from tests.commands.test_partway import run
from tests.commands.test_site_folder import contents

SAID = "0:05 Undo the four T5 screws with a screwdriver.\n0:12 Lift the lid off with a spudger.\n"


@pytest.fixture
def said(tmp_path: Path) -> Path:
    path = tmp_path / "tarn.txt"
    path.write_text(SAID, "utf-8")
    return path


@pytest.mark.parametrize(
    "path", [path for folder in (TUNED, KEPT_ASIDE) for path in files(folder)], ids=lambda path: path.stem
)
def test_every_film_becomes_a_guide_that_is_read_back(path: Path, tmp_path: Path) -> None:
    result = run("draft", path, "--to", tmp_path / "content" / "thing")
    assert result.exit_code == 0, result.output
    library = read_library(tmp_path / "content")
    assert library.every_fault == ()
    findings = findings_of_everything(command_library(tmp_path / "content"))
    assert not [each for each in findings if each.rule.startswith(command.NOT_READ) and each.level == "error"]
    told = (tmp_path / "content/thing/draft.txt").read_text("utf-8")
    assert told.startswith("Read\n") and "Understood:" in told and path.name in told


def command_library(root: Path):  # type: ignore[no-untyped-def]
    from generator.commands.folders import load_library

    return load_library(root)


def test_the_steps_carry_time_words_and_tools(said: Path, tmp_path: Path) -> None:
    run("draft", said, "--to", tmp_path / "content" / "tarn")
    (step,) = (tmp_path / "content/tarn/steps").iterdir()
    text = step.read_text("utf-8")
    assert 'video: "0:05-' in text and '# 0:12 "Lift the lid off with a spudger."' in text and "with: spudger" in text
    assert "[four T5 screws](joint:lid-screws)" in text


def test_the_same_captions_give_the_same_bytes(said: Path, tmp_path: Path) -> None:
    for name in ("one", "two"):
        run("draft", said, "--to", tmp_path / name / "tarn")
    assert contents(tmp_path / "one") == contents(tmp_path / "two")


def test_nothing_that_is_there_is_written_over(said: Path, tmp_path: Path) -> None:
    target = tmp_path / "content" / "tarn"
    target.mkdir(parents=True)
    (target / "mine.txt").write_text("mine", "utf-8")
    before = contents(tmp_path)
    result = run("draft", said, "--to", target)
    assert result.exit_code == 2 and "left as it is" in result.stderr
    assert contents(tmp_path) == before


def test_a_collection_keeps_its_files_and_lends_its_tools(said: Path, tmp_path: Path) -> None:
    content = tmp_path / "content"
    content.mkdir()
    (content / "library.yaml").write_text("title: Mine\n", "utf-8")
    (content / "tools.yaml").write_text("my-driver: {name: my driver, fits: {drive: hexalobular, size: T5}}\n", "utf-8")
    before = contents(content)
    result = run("draft", said, "--to", content / "tarn")
    assert result.exit_code == 0, result.output
    assert {path: text for path, text in contents(content).items() if path in before} == before
    (step,) = (content / "tarn/steps").iterdir()
    assert "with: my-driver" in step.read_text("utf-8") and "# with: spudger   named in the film" in step.read_text("utf-8")
    assert "spudger:" in (content / "tarn/tools-to-add.yaml").read_text("utf-8")


def test_all_files_or_none(said: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(path: Path, text: str) -> None:
        if path.name == "draft.txt":
            raise OSError(28, "No space left on device", str(path))
        whole(path, text)

    whole = command._write
    monkeypatch.setattr(command, "_write", full)
    before = contents(tmp_path)
    result = run("draft", said, "--to", tmp_path / "content" / "tarn")
    assert result.exit_code == 2 and "Nothing was written" in result.stderr
    assert contents(tmp_path) == before and not (tmp_path / "content").exists()


@pytest.mark.parametrize("name", ["Not An Id", "..", "."])
def test_a_folder_that_cannot_be_a_device_is_refused(
    said: Path, tmp_path: Path, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = run("draft", said, "--to", name)
    assert result.exit_code == 2 and "Traceback" not in result.output


def test_what_is_no_caption_file_is_refused(tmp_path: Path) -> None:
    huge = tmp_path / "huge.vtt"
    with huge.open("wb") as file:
        file.truncate(100 << 20)
    (tmp_path / "empty.vtt").write_bytes(b"")
    os.mkfifo(tmp_path / "pipe.vtt")
    assert huge.stat().st_size > LARGEST_FILE
    for name in ("huge.vtt", "empty.vtt", "pipe.vtt", "missing.vtt", "."):
        result = run("draft", tmp_path / name, "--to", tmp_path / "content" / "thing")
        assert result.exit_code == 2, name
        assert result.stderr.strip() and "Traceback" not in result.output
        assert not (tmp_path / "content").exists()


def test_the_language_can_be_told(tmp_path: Path) -> None:
    path = tmp_path / "film.txt"
    path.write_text("0:05 Den Deckel abnehmen.\n", "utf-8")
    result = run("draft", path, "--to", tmp_path / "content" / "film", "--language", "de")
    assert "German" in result.stdout and "Deckel abnehmen" in result.stdout
