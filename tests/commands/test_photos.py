"""Photos from the folder to the site: sizes, marks, pairs, what is kept between builds, and what is said when one is bad."""

from __future__ import annotations

import re
import shutil
import sys
import zipfile
from collections.abc import Iterator
from io import BytesIO, StringIO
from pathlib import Path

import exifread
import pytest
from click.testing import CliRunner, Result
from PIL import Image

from generator.commands import partway, photo_cache
from generator.commands.photo_cache import cache_folder, keep, kept, key_of, tidy
from generator.commands.photos import photos_of
from generator.media.framing import Cut, Window
from generator.media.photos import SizedPhoto, sized_photo
from generator.orders.reading import read_guides
from generator.source.reading import read_library

GOOD = Path(__file__).parents[1] / "rules" / "good"
STEP = "corin/steps/open-back.md"


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "cache"
    monkeypatch.setenv("PARTWAY_CACHE", str(folder))
    return folder


@pytest.fixture
def good(tmp_path: Path) -> Path:
    return Path(shutil.copytree(GOOD, tmp_path / "content"))


def photo_bytes(width: int = 1300, height: int = 900, colour: str = "grey") -> bytes:
    exif = Image.Exif()
    exif[0x010F] = "SECRET"
    out = BytesIO()
    Image.new("RGB", (width, height), colour).save(out, "JPEG", exif=exif, comment=b"SECRET home")
    return out.getvalue()


def shown(content: Path, entry: str, **files: bytes) -> Path:
    """The radio with these photos in its first step, and those files in its folder `media`."""
    media = content / "corin" / "media"
    for name, data in files.items():
        (media / name.replace("_", ".")).write_bytes(data)
    step = content / STEP
    head, _, rest = step.read_text("utf-8").partition("photos:\n")
    step.write_text(f"{head}photos:\n{entry}---\n{rest.partition('---')[2]}", "utf-8")
    return content


def build(content: Path, site: Path, *options: str) -> Result:
    return CliRunner().invoke(partway, ["build", str(content), "--to", str(site), *options])


def page_of(site: Path) -> str:
    return (site / "corin" / "guide.html").read_text("utf-8")


ONE = "  - {file: open.jpg, alt: The open radio., marks: [{at: [0.5, 0.5], joint: back-screws}]}\n"


def test_a_photo_comes_in_three_formats_and_sizes_and_every_file_is_there_and_bare(good: Path, tmp_path: Path) -> None:
    result = build(shown(good, ONE, open_jpg=photo_bytes(2400, 1800)), tmp_path / "site")
    assert result.exit_code == 0, result.output
    page = page_of(tmp_path / "site")
    picture = re.search(r"<picture>.*?</picture>", page, re.S)
    assert picture is not None
    assert re.findall(r'type="(image/\w+)"', picture[0]) == ["image/avif", "image/webp"]
    assert 'src="media/open.jpg"' in picture[0] and 'width="1600" height="1200"' in picture[0]
    assert 'loading="lazy"' in picture[0] and picture[0].count(' sizes="') == 3
    named = {entry.split()[0] for srcset in re.findall(r'srcset="([^"]*)"', picture[0]) for entry in srcset.split(", ")}
    assert len(named) == 9
    for name in named:
        data = (tmp_path / "site" / "corin" / name).read_bytes()
        assert b"SECRET" not in data and not [k for k in exifread.process_file(BytesIO(data)) if not k.startswith("JFIF")]
        width = int(re.search(rf"{re.escape(name)} (\d+)w", picture[0])[1])  # type: ignore[index]
        with Image.open(BytesIO(data)) as image:
            assert image.width == width


def test_a_name_with_blanks_and_commas_is_found(good: Path, tmp_path: Path) -> None:
    content = shown(good, "  - {file: 'a b, c#1.jpg', alt: Words.}\n", **{"a b, c#1_jpg": photo_bytes()})
    assert build(content, tmp_path / "site").exit_code == 0
    srcset = re.findall(r'srcset="([^"]*)"', page_of(tmp_path / "site"))[0]
    assert [entry.split(" ")[1] for entry in srcset.split(", ")] == ["480w", "960w", "1300w"]
    assert "media/a%20b%2C%20c%231.jpg.480.avif" in srcset
    assert (tmp_path / "site/corin/media/a b, c#1.jpg.480.avif").is_file()
    command = ["pack", "corin", "--content", str(content), "--as", "epub", "--to", str(tmp_path / "corin.epub")]
    assert CliRunner().invoke(partway, command).exit_code == 0
    with zipfile.ZipFile(tmp_path / "corin.epub") as book:
        assert "book/corin/media/a b, c#1.jpg" in book.namelist()
        assert 'href="corin/media/a%20b%2C%20c%231.jpg"' in book.read("book/package.opf").decode("utf-8")


def test_marks_carry_the_numbers_of_the_plan_and_share_a_line_where_they_mean_the_same(good: Path, tmp_path: Path) -> None:
    entry = """  - file: open.jpg
    alt: The open radio.
    marks:
      - {at: [0.1, 0.1], joint: back-screws}
      - {at: [0.9, 0.2], text: The notch}
      - {at: [0.2, 0.8], text: The notch}
"""
    assert build(shown(good, entry, open_jpg=photo_bytes()), tmp_path / "site").exit_code == 0
    page = page_of(tmp_path / "site")
    numbers = re.findall(r'<text class="photo__number"[^>]*>([^<]*)<', page)
    assert numbers == ["1–3", "A", "B"]
    assert re.findall(r'<span class="photo__key">([^<]*)</span> ([^<]*)<', page)[1] == ("A, B", "The notch")
    spots = re.findall(r'class="photo__mark" x="([^"]*)" y="([^"]*)"', page)
    assert spots == [("10%", "10%"), ("90%", "20%"), ("20%", "80%")]


def test_marks_move_with_the_cut_and_one_beyond_it_is_told(good: Path, tmp_path: Path) -> None:
    entry = """  - file: open.jpg
    alt: The open radio.
    focus: [0.25, 0.25]
    closer: 2
    marks: [{at: [0.25, 0.25], joint: back-screws}, {at: [0.9, 0.9], text: Far away}]
"""
    result = build(shown(good, entry, open_jpg=photo_bytes(1200, 800)), tmp_path / "site")
    assert result.exit_code == 0
    assert f"{STEP}:" in result.stderr and "the mark at [0.9, 0.9] lies beyond what is shown" in result.stderr
    page = page_of(tmp_path / "site")
    assert re.findall(r'class="photo__mark" x="([^"]*)" y="([^"]*)"', page) == [("50%", "50%")]
    assert "Far away" not in page
    assert re.search(r'src="media/open\.cut-[0-9a-f]{8}\.jpg"[^>]* width="600" height="400"', page)


def test_a_pair_says_before_and_after(good: Path, tmp_path: Path) -> None:
    entry = """  - {file: a.jpg, alt: The closed radio., when: before}
  - {file: b.jpg, alt: The open radio., when: after}
"""
    content = shown(good, entry, a_jpg=photo_bytes(), b_jpg=photo_bytes(colour="white"))
    assert build(content, tmp_path / "site").exit_code == 0
    page = page_of(tmp_path / "site")
    assert re.findall(r'photo__when">(\w+)<', page) == ["Before", "After"]
    assert "photo--before" in page and "photo--after" in page


def test_packs_carry_one_file_a_photo_and_name_no_other(good: Path, tmp_path: Path) -> None:
    assert build(shown(good, ONE, open_jpg=photo_bytes(2400, 1800)), tmp_path / "site").exit_code == 0
    with zipfile.ZipFile(tmp_path / "site/corin/corin.zip") as pack:
        assert [name for name in pack.namelist() if "/media/" in name] == ["corin-guide/corin/media/open.jpg"]
        page = pack.read("corin-guide/corin/guide.html").decode("utf-8")
    assert "srcset" not in page and 'src="media/open.jpg"' in page
    for kind, name in (("page", "corin.html"), ("epub", "corin.epub")):
        command = ["pack", "corin", "--content", str(good), "--as", kind, "--to", str(tmp_path / name)]
        assert CliRunner().invoke(partway, command).exit_code == 0
    alone = (tmp_path / "corin.html").read_text("utf-8")
    assert "srcset" not in alone and 'src="data:image/jpeg;base64,' in alone
    with zipfile.ZipFile(tmp_path / "corin.epub") as book:
        assert [name for name in book.namelist() if "/media/" in name] == ["book/corin/media/open.jpg"]
        assert "srcset" not in book.read("book/corin/guide.xhtml").decode("utf-8")


def test_what_is_kept_on_a_phone_is_one_file_a_photo(good: Path, tmp_path: Path) -> None:
    assert build(shown(good, ONE, open_jpg=photo_bytes()), tmp_path / "site").exit_code == 0
    worker = (tmp_path / "site/worker.js").read_text("utf-8")
    assert '"media/open.jpg"' in worker and "open.jpg.480" not in worker


def test_a_photo_named_like_a_size_is_kept_all_the_same(good: Path, tmp_path: Path) -> None:
    content = shown(good, "  - {file: day.2024.jpg, alt: Words.}\n", day_2024_jpg=photo_bytes())
    assert build(content, tmp_path / "site").exit_code == 0
    assert '"media/day.2024.jpg"' in (tmp_path / "site/worker.js").read_text("utf-8")


# --- kept between builds ------------------------------------------------------------------------------------------------


def test_a_photo_is_made_once_and_again_only_when_it_changes(
    good: Path, tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    content = shown(good, ONE, open_jpg=photo_bytes())
    library = read_guides(read_library(content))
    made: list[str] = []
    real = sized_photo

    def counted(data: bytes, suffix: str = ".jpg", cut: Cut | None = None) -> object:
        made.append(suffix)
        return real(data, suffix, cut)

    monkeypatch.setattr("generator.commands.photos.sized_photo", counted)
    first = photos_of(content, library, 1)
    second = photos_of(content, library, 1)
    assert len(made) == 1 and first.files == second.files and first.views == second.views
    (content / "corin/media/open.jpg").write_bytes(photo_bytes(colour="white"))
    assert photos_of(content, library, 1).files != first.files
    assert len(made) == 2 and len(list(cache.glob("*.photo"))) == 2


def example() -> SizedPhoto:
    return SizedPhoto((30, 20), Window(0, 0, 30, 20), 30, 20, (30,), (("JPEG", 30, b"\n\njpeg"), ("WEBP", 30, b"webp")))


def damaged(data: bytes) -> Iterator[bytes]:
    yield b""
    yield data[:40]
    yield data[:-1]
    yield data + b"x"
    for at in (3, 20, 90, len(data) - 2):
        yield data[:at] + bytes([data[at] ^ 0xFF]) + data[at + 1 :]


def test_what_is_kept_comes_back_whole_or_not_at_all(cache: Path) -> None:
    keep(cache, "a", example())
    assert kept(cache, "a") == example()
    whole = (cache / "a.photo").read_bytes()
    for bad in damaged(whole):
        (cache / "a.photo").write_bytes(bad)
        assert kept(cache, "a") is None
    assert kept(cache, "b") is None and kept(None, "a") is None
    assert [path.name for path in cache.iterdir()] == ["a.photo"]


def test_a_damaged_cache_changes_no_byte_of_the_site(good: Path, tmp_path: Path, cache: Path) -> None:
    content = shown(good, ONE, open_jpg=photo_bytes())
    library = read_guides(read_library(content))
    first = photos_of(content, library, 1)
    (entry,) = cache.glob("*.photo")
    entry.write_bytes(entry.read_bytes()[:-100])
    assert photos_of(content, library, 1).files == first.files
    assert kept(cache, entry.stem) is not None


def test_without_a_place_to_keep_them_photos_are_made_all_the_same(
    good: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    in_the_way = tmp_path / "file"
    in_the_way.write_text("no folder", "utf-8")
    monkeypatch.setenv("PARTWAY_CACHE", str(in_the_way))
    content = shown(good, ONE, open_jpg=photo_bytes())
    assert photos_of(content, read_guides(read_library(content)), 1).files
    assert in_the_way.read_text("utf-8") == "no folder"


def test_the_cache_lets_go_of_what_was_used_longest_ago(cache: Path) -> None:
    import os

    for index, name in enumerate(("old", "middle", "new")):
        keep(cache, name, example())
        os.utime(cache / f"{name}.photo", (1000 + index, 1000 + index))
    kept(cache, "old")
    size = (cache / "new.photo").stat().st_size
    tidy(cache, 2 * size)
    assert sorted(path.stem for path in cache.iterdir()) == ["new", "old"]


def test_the_key_holds_all_that_the_bytes_depend_on(monkeypatch: pytest.MonkeyPatch) -> None:
    keys = [key_of(b"a", None, ""), key_of(b"b", None, ""), key_of(b"a", Cut((0.5, 0.5)), ""), key_of(b"a", None, ".png")]
    keys += [key_of(b"a", Cut((0.5, 0.5), 2), "")]
    monkeypatch.setattr(photo_cache, "made_by", lambda: "another version")
    assert len({*keys, key_of(b"a", None, "")}) == len(keys) + 1


def test_the_cache_lies_where_the_system_keeps_such_things(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    assert cache_folder() == tmp_path / "cache"
    monkeypatch.delenv("PARTWAY_CACHE")
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "x"))
    assert cache_folder() == tmp_path / "x" / "partway"


def test_the_number_of_processes_changes_no_byte(good: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    entry = "".join(f"  - {{file: p{n}.jpg, alt: Words {n}.}}\n" for n in range(4))
    content = shown(good, entry, **{f"p{n}_jpg": photo_bytes(1300 + n) for n in range(4)})
    library = read_guides(read_library(content))
    sites = []
    for jobs in (1, 2):
        monkeypatch.setenv("PARTWAY_CACHE", str(tmp_path / str(jobs)))
        ready = photos_of(content, library, jobs)
        sites.append((ready.files, ready.views))
    assert sites[0] == sites[1] and len(sites[0][0]) == 4 * 9


class Terminal(StringIO):
    def isatty(self) -> bool:
        return True


def test_progress_is_told_on_a_terminal_only(good: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    content = shown(good, ONE, open_jpg=photo_bytes())
    library = read_guides(read_library(content))
    told = []
    for stream in (StringIO(), Terminal()):
        monkeypatch.setenv("PARTWAY_CACHE", str(tmp_path / type(stream).__name__))
        monkeypatch.setattr(sys, "stderr", stream)
        photos_of(content, library, 1)
        told.append(stream.getvalue())
    assert told[0] == "" and "Photos" in told[1] and "1/1" in told[1]


# --- damage -----------------------------------------------------------------------------------------------------------


BAD = {
    "cut off": (photo_bytes()[:-300], "cannot be opened, perhaps it is cut off"),
    "empty": (b"", "is empty"),
    "a drawing": (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "is no JPEG, PNG, WebP or AVIF picture"),
    "text": (b"words", "is no JPEG, PNG, WebP or AVIF picture"),
}


@pytest.mark.parametrize("case", BAD)
def test_a_bad_photo_keeps_its_guide_back_and_the_old_site_stays(good: Path, tmp_path: Path, case: str) -> None:
    data, words = BAD[case]
    content = shown(good, ONE, open_jpg=photo_bytes())
    assert build(content, tmp_path / "site", "--only", "corin").exit_code == 0
    before = {path: path.read_bytes() for path in (tmp_path / "site").rglob("*") if path.is_file()}
    (content / "corin/media/open.jpg").write_bytes(data)
    result = build(content, tmp_path / "site", "--only", "corin")
    assert result.exit_code == 1
    assert "open.jpg" in result.stderr and words in result.stderr and "Nothing was published" in result.stderr
    assert {path: path.read_bytes() for path in (tmp_path / "site").rglob("*") if path.is_file()} == before
    assert (content / "corin/media/open.jpg").read_bytes() == data


def test_all_bad_photos_are_told_at_once_and_each_once(good: Path, tmp_path: Path) -> None:
    cut_off = photo_bytes()[:-300]
    entry = "  - {file: a.jpg, alt: A.}\n  - {file: b.jpg, alt: B.}\n  - {file: a.jpg, alt: A.}\n"
    result = build(shown(good, entry, a_jpg=cut_off, b_jpg=cut_off), tmp_path / "site")
    assert result.stderr.count("corin/media/a.jpg cannot be opened") == 1 and "media/b.jpg cannot be" in result.stderr
    assert not (tmp_path / "site").exists()


def test_a_photo_of_a_step_that_no_page_shows_is_not_published(tmp_path: Path) -> None:
    """The guide stops where licensed practice begins; what was photographed behind that stays at home."""
    content = Path(shutil.copytree(GOOD.parents[1] / "pages" / "shelf", tmp_path / "shelf"))
    (content / "supplies.yaml").unlink()  # they are for another device of the shelf
    (content / "heater/media").mkdir()
    for name, file in (("lift-fan", "near.jpg"), ("lift-filter", "far.jpg")):
        step = content / f"heater/steps/{name}.md"
        text = step.read_text("utf-8").replace("work:\n", f"photos: [{{file: {file}, alt: Of {name}.}}]\nwork:\n", 1)
        step.write_text(text, "utf-8")
        (content / "heater/media" / file).write_bytes(photo_bytes())
    result = build(content, tmp_path / "site", "--only", "heater")
    assert result.exit_code == 0, result.output
    pages = "".join(path.read_text("utf-8") for path in (tmp_path / "site").rglob("*.html"))
    assert "near.jpg" in pages and "far.jpg" not in pages
    assert {path.name.split(".")[0] for path in (tmp_path / "site/heater/media").iterdir()} == {"near"}
