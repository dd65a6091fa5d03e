"""`partway compare` on folders and on a real history, in every layout."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.commands import compare as _  # noqa: F401 - loaded before the folder is changed
from generator.commands import partway
from tests.review.corrections import LIBRARY, corrected

WHO = {
    **{f"GIT_{who}_NAME": "Reader" for who in ("AUTHOR", "COMMITTER")},
    **{f"GIT_{who}_EMAIL": "reader@example.org" for who in ("AUTHOR", "COMMITTER")},
    "GIT_CONFIG_NOSYSTEM": "1",
}


def run(*arguments: str) -> Result:
    return CliRunner().invoke(partway, ["compare", *arguments])


@pytest.fixture
def history(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with the library as it was (tag `before`), a correction on top, and another not yet committed."""
    root = tmp_path / "repository"
    shutil.copytree(LIBRARY, root / "content")

    def git(*arguments: str) -> None:
        environment = {**os.environ, **WHO, "HOME": str(tmp_path)}
        subprocess.run(["git", "-C", str(root), *arguments], check=True, capture_output=True, env=environment)

    git("init", "--quiet", "--initial-branch", "trunk")
    git("add", ".")
    git("commit", "--quiet", "--message", "Begin")
    git("tag", "before")
    shutil.rmtree(root / "content")
    corrected(root / "content", "title")
    git("add", ".")
    git("commit", "--quiet", "--message", "Call the step what it does")
    shutil.rmtree(root / "content")
    corrected(root / "content", "unplug-later")
    monkeypatch.chdir(root)
    return root


def test_two_revisions(history: Path) -> None:
    result = run("before", "trunk")
    assert result.exit_code == 0, result.output
    assert 'Step 10 "Unplug the display" was called "Unplug the screen".' in result.output


def test_a_revision_and_the_folder_as_it_is_now(history: Path) -> None:
    result = run("before", "content")
    assert result.exit_code == 1
    assert "New error, power/plug-first" in result.output


def test_another_folder_of_a_revision(history: Path) -> None:
    assert run("before:content", "trunk", "--content", "content").exit_code == 0
    refused = run("before:elsewhere", "trunk")
    assert refused.exit_code == 2 and "has no folder elsewhere" in refused.output
    outside = run("before", "trunk", "--content", "../..")
    assert outside.exit_code == 2 and "lies outside the repository" in outside.output


@pytest.mark.parametrize("name", ["nowhere", "--upload-pack=x", "-p", "HEAD~99", "a\x1b[31mb", ""])
def test_what_is_neither_folder_nor_revision_is_told(history: Path, name: str) -> None:
    result = CliRunner().invoke(partway, ["compare", "--", name, "content"])
    assert result.exit_code == 2
    assert "Traceback" not in result.output and "\x1b" not in result.output
    assert isinstance(result.exception, SystemExit)


def test_no_repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    result = run("before", str(LIBRARY))
    assert result.exit_code == 2 and "no repository here" in result.output


def test_the_same_twice_is_nothing() -> None:
    result = run(str(LIBRARY), str(LIBRARY))
    assert (result.exit_code, result.output) == (0, "Nothing changed.\n")


def test_unchanged_devices_are_not_worked_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    old = corrected(tmp_path / "old", "title")
    shutil.copytree(old / "tarn-5", old / "tarn-6")
    shutil.copytree(old, tmp_path / "new")
    step = tmp_path / "new" / "tarn-6" / "steps" / "unplug-screen.md"
    step.write_text(step.read_text("utf-8").replace("end of the", "side of the"), "utf-8")
    seen: list[str] = []
    from generator.review import libraries

    real = libraries.device_change

    def noted(old, new, *rest):  # type: ignore[no-untyped-def]
        seen.append(new.id)
        return real(old, new, *rest)

    monkeypatch.setattr(libraries, "device_change", noted)
    result = run(str(old), str(tmp_path / "new"))
    assert result.output.endswith("1 device changed, 1 not: 0 worse, 0 better.\n")
    assert seen == ["tarn-6"]


def test_json_is_one_document(tmp_path: Path) -> None:
    result = run(str(LIBRARY), str(corrected(tmp_path / "new", "unplug-later")), "--as", "json")
    document = json.loads(result.output)
    assert (document["version"], document["worse"], list(document["devices"])) == (1, True, ["tarn-5"])
    device = document["devices"]["tarn-5"]
    moved = [step for step in device["steps"] if step["moved"]]
    assert [(step["id"], step["number_before"], step["number_after"]) for step in moved] == [("lift-speaker-box", 6, 5)]
    assert [found["rule"] for found in device["findings"]["new"]] == ["power/plug-first", "time/backwards"]


def test_markdown_cannot_be_marked_up_by_content(tmp_path: Path) -> None:
    new = corrected(tmp_path / "new", "title")
    step = new / "tarn-5" / "steps" / "unplug-screen.md"
    step.write_text(step.read_text("utf-8").replace("Unplug the display", "'<img src=x> **@all** [a](b)'"), "utf-8")
    result = run(str(LIBRARY), str(new), "--as", "markdown")
    assert "\\<img src=x\\> \\*\\*\\@all\\*\\* \\[a\\](b)" in result.output


def test_the_page_fetches_and_runs_nothing_and_is_kept_if_there(tmp_path: Path) -> None:
    new = corrected(tmp_path / "new", "title")
    step = new / "tarn-5" / "steps" / "unplug-screen.md"
    step.write_text(step.read_text("utf-8").replace("Unplug the display", "'<script>alert(1)</script>'"), "utf-8")
    page = tmp_path / "change.html"
    assert run(str(LIBRARY), str(new), "--as", "html", "--to", str(page)).exit_code == 0
    text = page.read_text("utf-8")
    assert "<script" not in text and "&lt;script&gt;" in text and "default-src &#39;none&#39;" in text
    refused = run(str(LIBRARY), str(new), "--as", "html", "--to", str(page))
    assert refused.exit_code == 2 and "is there already and is kept" in refused.output
    assert page.read_text("utf-8") == text
    nowhere = run(str(LIBRARY), str(new), "--to", str(tmp_path / "no" / "folder"))
    assert nowhere.exit_code == 2 and "cannot be written" in nowhere.output


def test_figures_stand_side_by_side_before_and_after(tmp_path: Path) -> None:
    page = tmp_path / "change.html"
    run(str(LIBRARY), str(corrected(tmp_path / "new", "unplug-later")), "--as", "html", "--to", str(page))
    text = page.read_text("utf-8")
    assert "Before: step 6" in text and "After: step 5" in text
    assert len(re.findall(r'<svg[^>]*class="stack', text)) == 2


def test_a_picture_under_the_same_name_is_told(tmp_path: Path) -> None:
    for name, data in (("old", b"one"), ("new", b"two")):
        folder = corrected(tmp_path / name, "title") / "tarn-5"
        (folder / "media").mkdir(exist_ok=True)
        (folder / "media" / "plug.jpg").write_bytes(data)
        step = folder / "steps" / "unplug-screen.md"
        photo = "takes: 1 min\nphotos:\n  - {file: plug.jpg, alt: The plug.}\n"
        step.write_text(step.read_text("utf-8").replace("takes: 1 min\n", photo), "utf-8")
    result = run(str(tmp_path / "old"), str(tmp_path / "new"))
    assert "shows another picture under the same name, plug.jpg" in result.output


def test_devices_come_and_go_and_change_their_name(tmp_path: Path) -> None:
    new = corrected(tmp_path / "new", "title")
    (new / "tarn-5").rename(new / "tarn-five")
    text = run(str(LIBRARY), str(new))
    assert "The device is now called tarn-five in addresses; it was tarn-5." in text.output
    shutil.rmtree(new / "tarn-five" / "steps")
    shutil.copytree(LIBRARY / "tarn-5", new / "tarn-5")
    again = run(str(LIBRARY), str(new))
    assert "The guide to the Veldrun Tarn 5 is new: " in again.output
    (new / "tarn-5" / "device.yaml").unlink()
    shutil.rmtree(new / "tarn-5")
    shutil.rmtree(new / "tarn-five")
    gone = run(str(LIBRARY), str(new))
    assert gone.exit_code == 1 and "The guide to the Veldrun Tarn 5 is gone." in gone.output


def test_a_page_that_does_not_fit_leaves_no_half_of_itself(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from generator.commands import whole_files

    def full(path: Path, data: bytes) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(whole_files, "put_new", full)
    page = tmp_path / "change.html"
    result = run(str(LIBRARY), str(LIBRARY), "--to", str(page))
    assert result.exit_code == 2 and "No space left on device. Name another file with --to." in result.output
    assert not page.exists()
