"""`partway stills`: a contact sheet that changes nothing, stills that overwrite nothing, step files that lose nothing."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from PIL import Image

from generator.commands import partway
from generator.media import film as film_module
from generator.media.stills import description_of
from tests.media.films import blurred, board, film, sound

GOOD = Path(__file__).parents[1] / "rules" / "good"
SHARP = {"lift-guard": 2.0, "fold-ribbon": 5.2}
TIMES = {"lift-guard": "0:01-0:03", "fold-ribbon": "0:05", "lift-board": "0:55", "open-back": "0:07"}


def paint(time: float) -> Image.Image:
    return board(4) if any(abs(time - sharp) < 0.02 for sharp in SHARP.values()) else blurred(board(4), 2.5)


@pytest.fixture(scope="module")
def film_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("film") / "the film.mp4"
    path.write_bytes(film(paint, 9))
    return path


@pytest.fixture
def content(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The radio with four steps that are filmed, one of them beyond the end of the film; in a folder of its own."""
    folder = Path(shutil.copytree(GOOD, tmp_path / "content"))
    for path in (folder / "corin/steps").glob("*.md"):
        lines = [line for line in path.read_text("utf-8").splitlines(keepends=True) if not line.startswith("video:")]
        if path.stem in TIMES:
            lines.insert(2, f'video: "{TIMES[path.stem]}"   # seen on the film\n')
        path.write_text("".join(lines), "utf-8")
    monkeypatch.chdir(tmp_path)
    return folder


def run(*words: object) -> Result:
    result = CliRunner().invoke(partway, ["stills", "corin", *map(str, words)])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def everything(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_the_first_run_writes_a_contact_sheet_and_changes_nothing(content: Path, film_file: Path, tmp_path: Path) -> None:
    before = everything(content)
    result = run("--video", film_file)
    assert result.exit_code == 1  # one step lies beyond the end
    assert everything(content) == before
    page = (tmp_path / "corin-stills.html").read_text("utf-8")
    assert re.findall(r"--choose (fold-ribbon=\d)", page)[0] == "fold-ribbon=1"
    assert page.count('class="contact__offer contact__offer--first"') == 3
    assert "0:55 lies beyond the end of the film, which is 0:09.00 long." in page and "0:55 lies beyond" in result.stdout
    assert "This step shows photos already" in page
    assert "fold-ribbon: 1 at 0:05.20" in result.stdout and "lift-guard: 1 at 0:02.00" in result.stdout
    assert "partway stills corin --video &#39;the film.mp4&#39; --take" in page
    assert not re.search(r'(?:src|href)="(?!data:|#)', page) and "default-src 'none'" in page.replace("&#39;", "'")


def test_taking_writes_stills_and_one_line_in_each_step_file(content: Path, film_file: Path) -> None:
    before = everything(content)
    result = run("--video", film_file, "--take")
    assert result.exit_code == 1 and "lift-board: 0:55 lies beyond" in result.stderr
    after = everything(content)
    assert set(after) - set(before) == {"corin/media/lift-guard.jpg", "corin/media/fold-ribbon.jpg"}
    changed = {name for name in before if before[name] != after[name]}
    assert changed == {"corin/steps/lift-guard.md", "corin/steps/fold-ribbon.md"}
    for name in changed:
        entry = f"photos:\n  - file: {Path(name).stem}.jpg\n"
        assert entry in after[name].decode() and after[name].decode().replace(entry, "") == before[name].decode()
        assert f"+  - file: {Path(name).stem}.jpg" in result.stdout
    assert description_of(after["corin/media/fold-ribbon.jpg"]) == "0:05.20 of the film, step fold-ribbon"
    found = CliRunner().invoke(partway, ["check", str(content)]).stdout
    assert found.count("media/alt ") == 2 and "2 photos have no `alt` yet" in result.stdout


def test_another_still_is_taken_where_it_is_chosen_and_none_where_none_is_wanted(content: Path, film_file: Path) -> None:
    told = run("--video", film_file).stdout
    second = re.search(r"lift-guard: .*2 at (\S+)", told)
    assert second is not None
    run("--video", film_file, "--take", "--choose", "lift-guard=2", "--choose", "fold-ribbon=0")
    media = content / "corin/media"
    assert (description_of((media / "lift-guard.jpg").read_bytes()) or "").startswith(second[1])
    assert not (media / "fold-ribbon.jpg").exists()


def test_a_step_with_a_photo_gets_one_more_only_when_it_is_named(content: Path, film_file: Path) -> None:
    run("--video", film_file, "--choose", "open-back=1")
    step = (content / "corin/steps/open-back.md").read_text("utf-8")
    assert "  - file: back-off.png\n" in step and step.index("back-off.png") < step.index("  - file: open-back.jpg\n")
    assert not (content / "corin/media/fold-ribbon.jpg").exists()


def test_no_file_is_ever_written_over(content: Path, film_file: Path) -> None:
    mine = content / "corin/media/fold-ribbon.jpg"
    mine.write_bytes(b"mine")
    run("--video", film_file, "--choose", "fold-ribbon=1")
    run("--video", film_file, "--choose", "fold-ribbon=1")
    assert mine.read_bytes() == b"mine"
    names = sorted(path.name for path in mine.parent.glob("fold-ribbon*"))
    assert names == ["fold-ribbon-2.jpg", "fold-ribbon-3.jpg", "fold-ribbon.jpg"]
    assert (content / "corin/steps/fold-ribbon.md").read_text("utf-8").count("- file: fold-ribbon-") == 2


def test_a_sheet_is_written_anew_and_another_file_of_its_name_is_left(
    content: Path, film_file: Path, tmp_path: Path
) -> None:
    sheet = tmp_path / "corin-stills.html"
    run("--video", film_file)
    first = sheet.read_bytes()
    run("--video", film_file)
    assert sheet.read_bytes() == first
    sheet.write_text("my notes", "utf-8")
    result = run("--video", film_file)
    assert result.exit_code == 2 and "is no contact sheet, so it is left alone" in result.stderr
    assert sheet.read_text("utf-8") == "my notes"


def test_with_a_folder_named_no_step_file_is_changed_and_what_to_add_is_told(
    content: Path, film_file: Path, tmp_path: Path
) -> None:
    before = everything(content)
    (tmp_path / "aside").mkdir()
    result = run("--video", film_file, "--take", "--to", tmp_path / "aside")
    assert everything(content) == before
    assert sorted(path.name for path in (tmp_path / "aside").iterdir()) == ["fold-ribbon.jpg", "lift-guard.jpg"]
    told = "Add to the front matter of corin/steps/fold-ribbon.md:\nphotos:\n  - file: fold-ribbon.jpg\n"
    assert told in result.stdout


def test_a_step_file_that_cannot_take_the_line_is_left_and_what_to_add_is_told(content: Path, film_file: Path) -> None:
    step = content / "corin/steps/fold-ribbon.md"
    photos = "photos: [{file: back-off.png, alt: Words},\n  {file: back-off.png, alt: Words}]\n"
    text = step.read_text("utf-8").replace("work:", f"{photos}work:")
    step.write_text(text, "utf-8")
    result = run("--video", film_file, "--choose", "fold-ribbon=1")
    assert step.read_text("utf-8") == text and "is left as it is. Add to its front matter:" in result.stderr
    assert (content / "corin/media/fold-ribbon.jpg").is_file()


def test_the_times_of_stills_are_told(content: Path, film_file: Path) -> None:
    assert "was taken by `partway stills`" in run("--list").stdout
    run("--video", film_file, "--take")
    assert "fold-ribbon.jpg  0:05.20 of the film, step fold-ribbon\n" in run("--list").stdout


def test_a_built_guide_shows_the_still_and_does_not_tell_its_time(
    content: Path, film_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PARTWAY_CACHE", str(tmp_path / "cache"))
    run("--video", film_file, "--choose", "open-back=1")
    result = CliRunner().invoke(partway, ["build", str(content), "--to", str(tmp_path / "site")])
    assert result.exit_code == 0, result.output
    shown = (tmp_path / "site/corin/media/open-back.jpg").read_bytes()
    assert b"of the film" not in shown and description_of(shown) is None
    assert 'src="media/open-back.jpg"' in (tmp_path / "site/corin/guide.html").read_text("utf-8")


# --- wrong use and damage -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], "Name the film with --video."),
        (["--video", "nowhere.mp4"], "There is no file nowhere.mp4."),
        (["--video", "."], "is no plain file"),
        (["--video", "http://127.0.0.1:9/film.mp4"], "There is no file"),
        (["--video", "x", "--choose", "fold-ribon=1"], 'no step "fold-ribon"'),
        (["--video", "x", "--choose", "fold-ribbon"], "a number from 0 to 3"),
        (["--video", "x", "--choose", "fold-ribbon=9"], "a number from 0 to 3"),
    ],
)
def test_wrong_use_is_told(content: Path, words: list[str], told: str) -> None:
    result = run(*words)
    assert result.exit_code == 2 and told in result.stderr


@pytest.mark.parametrize(
    ("data", "told"),
    [(b"", "is empty"), (b"words", "is no film that is known here"), (sound(), "holds no moving picture")],
)
def test_a_file_that_is_no_film_is_told_and_nothing_is_written(
    content: Path, tmp_path: Path, data: bytes, told: str
) -> None:
    (tmp_path / "bad.mp4").write_bytes(data)
    before = everything(tmp_path)
    for words in ([], ["--take"]):
        result = run("--video", "bad.mp4", *words)
        assert result.exit_code == 2 and told in result.stderr
    assert everything(tmp_path) == before


def test_a_film_cut_off_is_told(content: Path, film_file: Path, tmp_path: Path) -> None:
    whole = film_file.read_bytes()
    (tmp_path / "half.mp4").write_bytes(whole[: len(whole) // 2])
    assert "cannot be opened as a film, perhaps it is cut off" in run("--video", "half.mp4").stderr
    stream = film(paint, 9, kind="matroska")
    (tmp_path / "half.mkv").write_bytes(stream[: len(stream) // 2])
    result = run("--video", "half.mkv")
    assert result.exit_code == 1 and "open-back: The film has no picture at 0:07, though" in result.stdout
    assert "lift-guard: 1 at 0:02.00" in result.stdout


def test_without_the_library_the_extra_is_named(
    content: Path, film_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(film_module, "can_read_films", lambda: False)
    result = run("--video", film_file)
    assert result.exit_code == 2 and "pip install 'partway[video]'" in result.stderr


def test_a_guide_without_times_is_told_what_to_add(content: Path, film_file: Path) -> None:
    for path in (content / "corin/steps").glob("*.md"):
        path.write_text(re.sub(r"^video:.*\n", "", path.read_text("utf-8"), flags=re.M), "utf-8")
    result = run("--video", film_file)
    assert result.exit_code == 2 and 'Add a line such as video: "0:42-1:55" to each.' in result.stderr
