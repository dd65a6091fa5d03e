"""`partway tidy`: what it writes, what it only shows, and what it leaves alone."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.commands import tidy
from generator.source.writing import tidying
from tests.commands.test_partway import DEVICE, demo, run

__all__ = ["demo"]


def untidy(demo: Path) -> Path:
    """The demo's device with a unit, quotes, a list and the order of keys written in another way, and a comment."""
    path = demo / DEVICE / "device.yaml"
    text = path.read_text("utf-8")
    head, rest = text.split("name: Veldrun Tarn 5\n")
    path.write_text(f"{head}{rest.rstrip()}\n# What it is called.\nname:   'Veldrun Tarn 5'\n", "utf-8")
    return path


def state(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_look_shows_and_changes_nothing(demo: Path) -> None:
    untidy(demo)
    before = state(demo)
    result = run("tidy", demo, "--look")
    assert result.exit_code == 1
    assert "-name:   'Veldrun Tarn 5'\n" in result.stdout and "+name: Veldrun Tarn 5\n" in result.stdout
    assert re.search(r"^1 of \d+ files would be written anew\.$", result.stderr, re.M)
    assert state(demo) == before


def test_tidying_writes_once_and_keeps_the_text_as_it_was(demo: Path) -> None:
    path = untidy(demo)
    before = path.read_bytes()
    assert run("tidy", demo, "--only", DEVICE).exit_code == 0
    assert path.read_text("utf-8").startswith("# What it is called.\nname: Veldrun Tarn 5\nkind: phone\n")
    assert (path.parent / f".{path.name}{tidy.OLD}").read_bytes() == before
    assert run("tidy", demo, "--look").exit_code == 0
    assert run("check", demo).exit_code == 0


def test_each_text_that_was_is_kept(demo: Path) -> None:
    for number in ("", "-2"):
        path = untidy(demo)
        path.write_text(f"# {number}\n{path.read_text('utf-8')}", "utf-8")
        before = path.read_bytes()
        run("tidy", demo)
        assert (path.parent / f".{path.name}{tidy.OLD}{number}").read_bytes() == before


def test_what_is_kept_beside_a_step_is_not_taken_for_one(demo: Path) -> None:
    step = demo / DEVICE / "steps" / "open-back.md"
    step.write_text(step.read_text("utf-8").replace("title: ", "title:   "), "utf-8")
    assert run("tidy", demo).exit_code == 0
    assert run("check", demo).stdout == "Nothing is wrong in 1 guide.\n"


def test_a_file_with_faults_is_left_and_said(demo: Path) -> None:
    path = untidy(demo)
    path.write_text(path.read_text("utf-8").replace("power: cell", "powre:  cell"), "utf-8")
    (demo / "tools.yaml").write_bytes(b"\xff")
    before = state(demo)
    result = run("tidy", demo)
    assert result.exit_code == 1
    assert f"{DEVICE}/device.yaml: left as it is: it has faults" in result.stderr
    assert "tools.yaml: left as it is: it cannot be read" in result.stderr
    assert state(demo) == before


def test_a_file_that_would_mean_something_else_is_refused(demo: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    untidy(demo)
    before = state(demo)
    laid_out = tidying.laid_out
    monkeypatch.setattr(tidying, "laid_out", lambda document, kind: laid_out(document, kind).replace("Tarn 5", "Tarn 6"))
    result = run("tidy", demo)
    assert result.exit_code == 1
    assert f"{DEVICE}/device.yaml: left as it is: written anew it would not read as before" in result.stderr
    assert state(demo) == before


def test_guides_that_would_not_be_the_same_are_refused(demo: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    untidy(demo)
    before = state(demo)
    monkeypatch.setattr(tidying, "tidied", lambda path, text: text.replace("Tarn 5", "Tarn 6"))
    result = run("tidy", demo)
    assert result.exit_code == 2
    assert "would not mean the same" in result.stderr
    assert state(demo) == before


def test_there_is_nothing_to_tidy_without_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    result = run("tidy")
    assert result.exit_code == 2 and "content" in result.stderr
