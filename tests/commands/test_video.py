"""`partway video`: files that go with a film, made anew and never written over what somebody else wrote."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.commands import made_files, partway
from generator.commands.folders import Unreadable
from generator.commands.made_files import LIST, replace_made
from tests.commands.test_partway import swapped

DEMO = Path(__file__).parents[2] / "content"
OF_FILM = {"chapters.vtt", "chapters.txt", "description.txt", "overlay.vtt", "verdict.svg"}
OF_WAY = {"chapters.vtt", "description.txt", "overlay.vtt", "watch.txt"}


def run(*words: str, content: Path = DEMO) -> Result:
    return CliRunner().invoke(partway, ["video", "tarn-5", "--content", str(content), *words])


def texts(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): path.read_text("utf-8")
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.suffix in (".vtt", ".txt", ".svg")
    }


def test_a_film_gets_its_files_and_each_way_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    result = run()
    assert result.exit_code == 0, result.output
    assert result.stdout.startswith("tarn-5-video: chapters.txt, chapters.vtt, description.txt, overlay.vtt, verdict")
    assert result.stdout.endswith("and a folder for the way to each of 12 parts\n")
    files = texts(tmp_path / "tarn-5-video")
    assert {path for path in files if "/" not in path} == OF_FILM
    assert {path.partition("/")[2] for path in files if path.startswith("to-battery/")} == OF_WAY
    assert run().exit_code == 0
    assert texts(tmp_path / "tarn-5-video") == files


def test_one_way_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("--part", "battery", "--base", "https://bench.example/g").exit_code == 0
    files = texts(tmp_path / "tarn-5-to-battery-video")
    assert set(files) == OF_WAY | {"verdict.svg"}
    assert "https://bench.example/g/tarn-5/to-battery.html" in files["description.txt"]


def test_a_built_site_has_the_same_files(tmp_path: Path) -> None:
    built = CliRunner().invoke(partway, ["build", str(DEMO), "--to", str(tmp_path / "site"), "--no-packs"])
    assert built.exit_code == 0, built.output
    assert run("--to", str(tmp_path / "film")).exit_code == 0
    ours = {path: text for path, text in texts(tmp_path / "film").items() if path != "verdict.svg"}
    assert texts(tmp_path / "site" / "tarn-5" / "video") == ours


def test_tracks_in_another_language_of_the_library(tmp_path: Path) -> None:
    content = Path(shutil.copytree(DEMO, tmp_path / "content"))
    library = content / "library.yaml"
    library.write_text(re.sub(r"languages: .*", "languages: [en, de]", library.read_text("utf-8")), "utf-8")
    assert run("--language", "de", "--to", str(tmp_path / "de"), content=content).exit_code == 0
    files = texts(tmp_path / "de")
    assert "\nSchritt 1\n" in files["overlay.vtt"]
    assert "https://example.org/kiln-lane/de/tarn-5/" in files["description.txt"]
    result = run("--language", "fr", "--to", str(tmp_path / "fr"), content=content)
    assert result.exit_code == 2 and "library.yaml lists no language fr." in result.stderr
    result = run("--to", str(tmp_path / "de"), content=content)
    assert result.exit_code == 2 and "holds what was made from tarn-5, in de, not from tarn-5" in result.stderr


def test_a_text_that_was_changed_by_hand_is_never_lost(tmp_path: Path) -> None:
    folder = tmp_path / "film"
    assert run("--to", str(folder)).exit_code == 0
    (folder / "description.txt").write_text("My own words.\n", "utf-8")
    (folder / "thumbnail.png").write_bytes(b"mine")
    before = texts(folder)
    result = run("--to", str(folder))
    assert result.exit_code == 2
    assert "description.txt was changed since it was made and would be lost." in result.stderr
    assert texts(folder) == before
    (folder / "description.txt").rename(folder / "own-description.txt")
    assert run("--to", str(folder)).exit_code == 0
    assert (folder / "own-description.txt").read_text("utf-8") == "My own words.\n"
    assert (folder / "thumbnail.png").read_bytes() == b"mine"
    assert "Unplug the battery" in (folder / "description.txt").read_text("utf-8")


def test_a_folder_of_somebody_else_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "own").mkdir()
    (tmp_path / "own" / "notes.txt").write_text("mine", "utf-8")
    (tmp_path / "file").write_text("mine", "utf-8")
    (tmp_path / "link").symlink_to(tmp_path / "own")
    for name in ("own", "file", "link"):
        result = run("--to", str(tmp_path / name))
        assert result.exit_code == 2 and "with --to." in result.stderr, result.output
    assert sorted(path.name for path in (tmp_path / "own").iterdir()) == ["notes.txt"]
    assert (tmp_path / "file").read_text("utf-8") == "mine"


def test_what_was_made_from_something_else_is_left_alone(tmp_path: Path) -> None:
    assert run("--to", str(tmp_path / "film")).exit_code == 0
    result = run("--to", str(tmp_path / "film"), "--part", "battery")
    assert result.exit_code == 2 and "holds what was made from tarn-5, not from tarn-5, the way to battery" in result.stderr
    assert CliRunner().invoke(partway, ["build", str(DEMO), "--to", str(tmp_path / "film")]).exit_code == 2


def test_files_that_are_needed_no_more_go_unless_somebody_changed_them(tmp_path: Path) -> None:
    replace_made(tmp_path / "x", {"a.txt": "a", "b/c.txt": "c", "d.txt": "d"}, "it")
    (tmp_path / "x" / "d.txt").write_text("mine", "utf-8")
    replace_made(tmp_path / "x", {"a.txt": "A"}, "it")
    found = {p.relative_to(tmp_path / "x").as_posix() for p in (tmp_path / "x").rglob("*") if p.is_file()}
    assert found == {"a.txt", "d.txt", LIST}
    assert (tmp_path / "x" / "a.txt").read_text("utf-8") == "A"


def test_a_disk_that_refuses_leaves_the_old_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    replace_made(tmp_path / "x", {"a.txt": "a"}, "it")

    def refuse(*_: object) -> None:
        raise OSError(28, "No space left on device", "a.txt")

    monkeypatch.setattr(made_files, "replace_folder", refuse)
    with pytest.raises(Unreadable, match=r"a\.txt cannot be written: No space left on device\. What was there is"):
        replace_made(tmp_path / "x", {"a.txt": "A"}, "it")
    assert (tmp_path / "x" / "a.txt").read_text("utf-8") == "a"


def test_a_part_misspelt_is_met_with_what_it_may_have_been(tmp_path: Path) -> None:
    result = run("--part", "batery", "--to", str(tmp_path / "x"))
    assert result.exit_code == 2 and 'tarn-5 has no part "batery". Did you mean battery?' in result.stderr
    assert not (tmp_path / "x").exists()


def test_a_guide_with_errors_or_without_a_film_gives_nothing(tmp_path: Path) -> None:
    faulty = swapped(Path(shutil.copytree(DEMO, tmp_path / "faulty")))
    result = run("--to", str(tmp_path / "x"), content=faulty)
    assert result.exit_code == 1 and "Nothing was written for tarn-5." in result.stderr
    bare = Path(shutil.copytree(DEMO, tmp_path / "bare"))
    for step in (bare / "tarn-5" / "steps").iterdir():
        lines = step.read_text("utf-8").splitlines(keepends=True)
        step.write_text("".join(line for line in lines if not line.startswith("video:")), "utf-8")
    result = run("--to", str(tmp_path / "x"), content=bare)
    assert result.exit_code == 1 and 'Add a line such as `video: "0:42-1:55"` to its steps.' in result.stderr
    assert not (tmp_path / "x").exists()
    result = run("--part", "frame", "--to", str(tmp_path / "x"))
    assert result.exit_code == 1 and "shows no step of the way to frame" in result.stderr


def test_a_base_that_is_no_address_of_a_site_is_refused(tmp_path: Path) -> None:
    for base in ("javascript:alert(1)", "bench.example", "https://bench.example/?q=1", "https://a.example/#x", "//a/b"):
        for words in (["video", "tarn-5", "--content", str(DEMO)], ["build", str(DEMO)]):
            result = CliRunner().invoke(partway, [*words, "--to", str(tmp_path / "x"), "--base", base])
            assert result.exit_code == 2 and "is no address on the web" in result.stderr, result.output
    assert not (tmp_path / "x").exists()
