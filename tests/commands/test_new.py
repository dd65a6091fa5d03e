"""`partway new`: whatever is answered, the guide loads, has no error and is tidy; nothing is overwritten, all or none."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.commands import new, partway
from generator.orders.reading import read_guides
from generator.rules import findings_of_everything
from generator.source.reading import read_library
from tests.commands.test_partway import run


def state(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.parametrize("like", new.LIKES)
@pytest.mark.parametrize("power", new.POWERS)
def test_every_start_is_a_guide_without_a_finding(like: str, power: str, tmp_path: Path) -> None:
    content = tmp_path / "new" / "content"
    result = run("new", "corvel-2", "--to", content, "--like", like, "--power", power, "--yes")
    assert result.exit_code == 0, result.output
    library = read_guides(read_library(content))
    assert [found for found in findings_of_everything(library) if found.level != "note"] == []
    assert library.guides[0].is_complete and library.guides[0].device.name == "Corvel 2"
    assert run("tidy", content, "--look").exit_code == 0


def test_the_start_builds(tmp_path: Path) -> None:
    content = tmp_path / "content"
    assert run("new", "corvel-2", "--to", content, "--yes").exit_code == 0
    assert run("build", content, "--to", tmp_path / "site", "--no-packs").exit_code == 0
    assert (tmp_path / "site/corvel-2/to-battery.html").is_file()
    assert (tmp_path / "site/schemas/device.schema.json").is_file()


def test_five_questions_are_asked_and_each_has_a_default(tmp_path: Path) -> None:
    answers = 'Corvel "2": the second\nphone\nback, front\n\n7\n'
    result = CliRunner().invoke(partway, ["new", "corvel-2", "--to", str(tmp_path / "content")], input=answers)
    assert result.exit_code == 0, result.output
    assert result.stderr.count("?") == 5
    (guide,) = read_guides(read_library(tmp_path / "content")).guides
    assert (guide.device.name, guide.device.kind, guide.device.power) == ('Corvel "2": the second', "phone", "cell")
    assert sum(joint.count or 0 for joint in guide.anatomy.joints.values() if joint.kind.value == "screws") == 7


def test_what_is_there_is_kept(tmp_path: Path) -> None:
    content = tmp_path / "content"
    run("new", "corvel-2", "--to", content, "--yes")
    before = state(tmp_path)
    assert run("new", "corvel-2", "--to", content, "--yes").exit_code == 2
    assert state(tmp_path) == before
    assert run("new", "corvel-3", "--to", content, "--yes").exit_code == 0
    assert {name: data for name, data in state(tmp_path).items() if "corvel-3" not in name} == before


def test_screws_of_a_second_device_take_a_drive_that_there_is(tmp_path: Path) -> None:
    content = tmp_path / "content"
    content.mkdir()
    (content / "library.yaml").write_text("title: Bench\n", "utf-8")
    (content / "tools.yaml").write_text("t6: {name: driver T6, fits: {drive: hexalobular, size: T6}}\n", "utf-8")
    assert run("new", "corvel-2", "--to", content, "--yes").exit_code == 0
    assert "drive: hexalobular T6" in (content / "corvel-2/anatomy.yaml").read_text("utf-8")
    assert run("check", content).exit_code == 0
    (content / "tools.yaml").unlink()
    assert run("new", "corvel-3", "--to", content, "--yes").exit_code == 0
    assert "drive:" not in (content / "corvel-3/anatomy.yaml").read_text("utf-8")


@pytest.mark.parametrize(
    "words",
    [
        ["Corvel 2"],
        ["../corvel"],
        ["corvel-2", "--faces", "Back, front"],
        ["corvel-2", "--faces", "a,a"],
        ["a", "--screws", "0"],
    ],
)
def test_what_makes_no_guide_is_wrong_use_and_writes_nothing(words: list[str], tmp_path: Path) -> None:
    assert run("new", *words, "--to", tmp_path / "content", "--yes").exit_code == 2
    assert state(tmp_path) == {}


def test_all_files_or_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "no room on the disk")

    monkeypatch.setattr(Path, "rename", full)
    result = run("new", "corvel-2", "--to", tmp_path / "content", "--yes")
    assert result.exit_code == 2 and "no room on the disk" in result.stderr
    assert list(tmp_path.iterdir()) == []
