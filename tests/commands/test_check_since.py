"""`partway check --since`: what a change has to do with, and the files that have a forge ask for it."""

from __future__ import annotations

import shlex
import subprocess
from pathlib import Path

import pytest
import yaml

from generator.commands import COMMANDS, partway
from generator.commands.explain import WORKFLOWS
from generator.review.touched import lines_written
from tests.commands.test_partway import DEVICE, demo, edit, run, swapped

__all__ = ["demo"]


@pytest.fixture
def repository(demo: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The demo in a repository, with one unused tool from before."""
    monkeypatch.chdir(demo.parent)
    with (demo / "tools.yaml").open("a", encoding="utf-8") as file:
        file.write("\nold-tool:\n  name: old tool\n")
    git("init", "-q")
    git("add", "content")
    git("-c", "user.name=a", "-c", "user.email=a@example.org", "commit", "-q", "-m", "a")
    return demo


def git(*words: str) -> None:
    subprocess.run(["git", *words], check=True, capture_output=True)


def test_nothing_changed_is_nothing_found(repository: Path) -> None:
    assert "old tool" in run("check", "content").stdout
    result = run("check", "content", "--since", "HEAD")
    assert result.exit_code == 0 and "old tool" not in result.stdout
    assert "nothing to do with them: " in result.stderr


def test_what_is_new_is_told_wherever_it_stands(repository: Path) -> None:
    swapped(repository)
    result = run("check", "content", "--since", "HEAD")
    assert result.exit_code == 1
    assert f"order/behind  {DEVICE}/steps/unplug-battery.md" in result.stdout  # a file that the change left alone
    assert "old tool" not in result.stdout


def test_what_stands_on_a_line_that_was_written_is_told(repository: Path) -> None:
    edit(repository / "tools.yaml", "old-tool:\n", "old-tool:  # touched\n")
    assert "old tool" in run("check", "content", "--since", "HEAD").stdout


def test_lines_above_move_nothing_into_the_change(repository: Path) -> None:
    text = (repository / "tools.yaml").read_text("utf-8")
    (repository / "tools.yaml").write_text(f"# One more line.\n{text}", "utf-8")
    assert "old tool" not in run("check", "content", "--since", "HEAD").stdout


def test_a_device_that_is_new_is_all_change(repository: Path) -> None:
    (repository / DEVICE).rename(repository / "tarn-6")
    result = run("check", "content", "--since", "HEAD", "--only", "tarn-6")
    assert result.exit_code in (0, 1) and "Traceback" not in result.output


def test_a_revision_that_is_not_there_is_wrong_use(repository: Path) -> None:
    assert run("check", "content", "--since", "no-such-revision").exit_code == 2
    assert run("check", "content", "--since", "HEAD", "--mend").exit_code == 2


def test_lines_written() -> None:
    assert lines_written([], ["a"]) == {1}
    assert lines_written(["a", "b", "c"], ["a", "c"]) == frozenset()
    assert lines_written(["a", "b"], ["b", "a"]) in ({1}, {2})


@pytest.mark.parametrize("name", WORKFLOWS)
def test_a_workflow_runs_commands_that_there_are(name: str) -> None:
    text = run("explain", "--workflow", name).stdout
    assert text.startswith("# For ") and isinstance(yaml.safe_load(text), dict)
    commands = [line.partition("partway ")[2] for line in text.splitlines() if "partway " in line and "install" not in line]
    assert commands
    for command in commands:
        words = shlex.split(command.partition(" >>")[0].partition(" ||")[0])
        assert words[0] in COMMANDS
        found = partway.get_command(None, words[0])  # type: ignore[arg-type]
        assert found is not None
        known = {each for parameter in found.params for each in parameter.opts}
        assert {word for word in words if word.startswith("--")} <= known
